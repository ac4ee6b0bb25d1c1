//! What was printed and what was not, told at the end.

use std::path::Path;

use super::{Format, Handout, profiles};
use crate::cli::outcome::{Failure, Outcome};
use crate::cli::terminal::Terminal;
use crate::edition::{AskedSheet, Edition, Placed, PlacedPage, Unplaced};
use crate::model::finding::Finding;
use crate::pages::own::MOST_BYTES;
use crate::print;
use crate::review::{self, report};

/// To whom it is told, and of what.
pub(super) struct Told<'c> {
    pub(super) command: &'c Handout,
    pub(super) edition: &'c Edition,
    pub(super) terminal: &'c Terminal,
    pub(super) folder: &'c Path,
}

impl Told<'_> {
    /// Tells of each sheet, and of the profiles that could not be used. What went wrong with one sheet stopped no other.
    pub(super) fn end(
        &self,
        sheets: &[AskedSheet<'_>],
        placed: Vec<Result<Placed, Unplaced>>,
        unusable: Vec<Finding>,
    ) -> Result<Outcome, Failure> {
        let text = self.command.format == Format::Text;
        let bad_profiles = profiles::count(&unusable);
        let mut findings = unusable;
        let mut failures: Vec<Failure> = Vec::new();
        let (mut count, mut failed) = (0, 0);
        for (sheet, placed) in sheets.iter().zip(placed) {
            match placed {
                Ok(placed) => {
                    count += 1;
                    if text {
                        self.placed(sheet, &placed)?;
                    }
                    print::add_findings(&mut findings, placed.accepted);
                    continue;
                }
                Err(Unplaced::Findings(found)) => print::add_findings(&mut findings, found),
                Err(Unplaced::Theme(error)) => failures.push(Failure::Unreadable(error.to_string())),
                Err(Unplaced::Template(error)) => failures.push(Failure::Unreadable(error.to_string())),
                Err(Unplaced::Unwritten(error)) => failures.push(error.into()),
            }
            failed += 1;
        }
        self.findings(findings)?;
        if text && (!self.command.people.is_empty() || failed > 0) {
            self.terminal.say(&self.sum(count, failed, bad_profiles))?;
        }
        // The first of several is told; the others are most likely the same.
        match failures.into_iter().next() {
            Some(failure) => Err(failure),
            None if failed > 0 || bad_profiles > 0 => Ok(Outcome::ErrorsFound),
            None => Ok(Outcome::Done),
        }
    }

    fn placed(&self, sheet: &AskedSheet<'_>, placed: &Placed) -> Result<(), Failure> {
        let Placed { path, pages, untranslated, page, .. } = placed;
        // Else nobody could tell whose it is.
        let whose = sheet.order.person.as_ref().filter(|_| self.command.anonymous);
        let whose = whose.map(|person| format!("{}: ", person.client.name.value)).unwrap_or_default();
        let pages = format!("{pages} {}", if *pages == 1 { "page" } else { "pages" });
        self.terminal.say(&format!("{whose}{}  {pages}", path.display()))?;
        if let Some(page) = page {
            self.page(&whose, page)?;
        }
        if *untranslated > 0 {
            let of_entries = &self.edition.model().site.language.value;
            let texts = if *untranslated == 1 {
                "1 text of it is".to_string()
            } else {
                format!("{untranslated} texts of it are")
            };
            let language = sheet.language;
            self.terminal.say(&format!(
                "  Not translated: {texts} in `{of_entries}` as written; only the program's own words are in `{language}`."
            ))?;
        }
        Ok(())
    }

    fn page(&self, whose: &str, page: &PlacedPage) -> Result<(), Failure> {
        let PlacedPage { path, bytes } = page;
        self.terminal.say(&format!("{whose}{}  {} KB", path.display(), bytes.div_ceil(1000)))?;
        if *bytes >= MOST_BYTES {
            self.terminal.say(&format!(
                "  Heavy: over {} KB, so it comes without the site's own letters; a mail or an old telephone may be slow with it. \
                 Fewer exercises on one page (`--exercise`) or drawings in place of photos make it lighter.",
                MOST_BYTES / 1000
            ))?;
        }
        Ok(())
    }

    fn findings(&self, findings: Vec<Finding>) -> Result<(), Failure> {
        if findings.is_empty() {
            return Ok(());
        }
        let review = review::settle(&self.edition.case(self.terminal.today), findings);
        let text = report::text::render(&review, self.edition.sources(), self.terminal.look());
        match self.command.format {
            Format::Text => self.terminal.print(&text)?,
            // What a program reads is the JSON alone.
            Format::Json => self.terminal.complain(&Failure::Unreadable(text)),
        }
        Ok(())
    }

    /// How many handouts there are, and how many there are not.
    fn sum(&self, count: usize, failed: usize, bad_profiles: usize) -> String {
        let handouts = |n: usize| format!("{n} {}", if n == 1 { "handout" } else { "handouts" });
        let mut line = format!("Printed {} into {}", handouts(count), self.folder.display());
        if failed > 0 {
            line.push_str(&format!("; {} could not be printed", handouts(failed)));
        }
        if bad_profiles > 0 {
            let profiles = if bad_profiles == 1 { "profile" } else { "profiles" };
            line.push_str(&format!("; {bad_profiles} {profiles} could not be used"));
        }
        line + "."
    }
}
