//! `steadyleaf approve`: writes who reviewed an exercise clinically, when, and a fingerprint of what was reviewed.

use std::collections::BTreeSet;

use clap::Args;

use super::Common;
use super::load::{exercise, load};
use super::outcome::{Failure, Outcome};
use super::terminal::Terminal;
use crate::edition::Edition;
use crate::entry::edit::{Approved, with_reviewed};
use crate::model::exercise::Exercise;
use crate::model::finding::Level;
use crate::model::nearest::shown;
use crate::model::source::FileId;
use crate::publish::Replacement;
use crate::reckon::approval::fingerprint;
use crate::review::{Review, report};
use crate::workspace::{self, BYTE_ORDER_MARK};

/// Write down who approved exercises clinically, today, and what was approved
///
/// Each entry gets a line `reviewed` with the name, the day and a fingerprint of its fields and prose; nothing else in
/// it changes. When something does later, the review says so, and pages and handouts name nobody until it is
/// approved again. An exercise with errors cannot be approved, and nothing is written if one of several cannot.
#[derive(Args)]
pub(super) struct Approve {
    /// The exercises: the names of their files without .md
    #[arg(value_name = "ID", required = true)]
    ids: Vec<String>,
    /// Who approved them, with the profession, such as "A. Reviewer, PT"
    #[arg(long, value_name = "NAME", value_parser = name)]
    by: String,
}

/// An entry with the approval in it.
struct ApprovedEntry {
    id: String,
    file: FileId,
    /// Relative to the workspace.
    name: String,
    fingerprint: String,
    before: Vec<u8>,
    after: Vec<u8>,
}

pub(super) fn run(command: &Approve, common: &Common, terminal: &Terminal) -> Result<Outcome, Failure> {
    let mut edition = load(common)?;
    let ids: BTreeSet<&str> = command.ids.iter().map(String::as_str).collect();
    let exercises: Vec<&Exercise> =
        ids.into_iter().map(|id| known(&edition, id)).collect::<Result<_, Failure>>()?;
    let files: BTreeSet<FileId> = exercises.iter().map(|exercise| exercise.file).collect();
    // Fields that cannot be parsed cannot be changed either; what is wrong with them is told first.
    if exercises.iter().any(|exercise| exercise.standing.is_broken()) {
        return stopped(&errors(&files, edition.review(terminal.today)), &edition, terminal);
    }
    let entries: Vec<ApprovedEntry> = exercises
        .into_iter()
        .map(|exercise| entry(exercise, &command.by, &edition, terminal))
        .collect::<Result<_, Failure>>()?;
    for entry in &entries {
        try_out(entry, &mut edition)?;
    }
    let errors = errors(&files, edition.review(terminal.today));
    if errors.has_errors() {
        return stopped(&errors, &edition, terminal);
    }
    let staged: Vec<Replacement> = entries
        .iter()
        .map(|e| Replacement::stage(edition.root(), &e.name, &e.before, &e.after))
        .collect::<Result<_, _>>()?;
    for (entry, staged) in entries.iter().zip(staged) {
        staged.put()?;
        terminal.say(&format!(
            "{}: approved by {} on {}, fingerprint {}",
            entry.name, command.by, terminal.today, entry.fingerprint
        ))?;
    }
    Ok(Outcome::Done)
}

fn known<'m>(edition: &'m Edition, id: &str) -> Result<&'m Exercise, Failure> {
    if edition.model().unreadable.contains(id) {
        return Err(Failure::Unreadable(format!(
            "`{id}` could not be read; run `steadyleaf review` and fix it first"
        )));
    }
    exercise(edition.model(), id).map_err(Failure::Unreadable)
}

fn entry(
    exercise: &Exercise,
    by: &str,
    edition: &Edition,
    terminal: &Terminal,
) -> Result<ApprovedEntry, Failure> {
    let source = edition.sources().get(exercise.file);
    let unread = |why: String| Failure::Unreadable(format!("{} {why}", source.name));
    let before = workspace::bytes_of(edition.root(), &source.name, &source.text)
        .map_err(|error| unread(format!("cannot be read: {error}")))?
        .ok_or_else(|| unread("has just been changed by another program; run again".to_string()))?;
    let fingerprint = fingerprint(exercise);
    let approved = Approved { by, on: terminal.today, of: &fingerprint };
    let text = with_reviewed(&source.text, approved).ok_or_else(|| by_hand(&source.name, approved))?;
    let mark = if before.starts_with(BYTE_ORDER_MARK) { BYTE_ORDER_MARK } else { b"" };
    Ok(ApprovedEntry {
        id: exercise.id.clone(),
        file: exercise.file,
        name: source.name.clone(),
        before,
        after: [mark, text.as_bytes()].concat(),
        fingerprint,
    })
}

/// Reads the new text of an entry, in memory: it must say what it said before, and that it was approved.
fn try_out(entry: &ApprovedEntry, edition: &mut Edition) -> Result<(), Failure> {
    let text = entry.after.strip_prefix(BYTE_ORDER_MARK).unwrap_or(&entry.after);
    let text = String::from_utf8_lossy(text).into_owned();
    let read = edition.put(entry.file, text);
    let exercise = edition.model().exercises.get(&entry.id).filter(|_| read.is_some());
    match exercise.is_some_and(|exercise| fingerprint(exercise) == entry.fingerprint) {
        true => Ok(()),
        false => Err(Failure::Unwritable(format!(
            "{} was not approved: its `reviewed` cannot be changed; take it out, then run again",
            entry.name
        ))),
    }
}

/// The errors in these files.
fn errors(files: &BTreeSet<FileId>, mut review: Review) -> Review {
    review.findings.retain(|f| f.level == Level::Error && files.contains(&f.span.file));
    review.exceptions.clear();
    review
}

/// The errors, and that nothing was written.
fn stopped(errors: &Review, edition: &Edition, terminal: &Terminal) -> Result<Outcome, Failure> {
    terminal.print(&report::text::render(errors, edition.sources(), terminal.look()))?;
    terminal.print("Nothing was approved: an exercise with errors cannot be. Fix them, then run again.\n")?;
    Ok(Outcome::ErrorsFound)
}

fn by_hand(name: &str, approved: Approved<'_>) -> Failure {
    Failure::Unwritable(format!(
        "{name} was not approved: its fields cannot be changed safely; run `steadyleaf review` and fix them, or write `by`, `on` and `of = \"{}\"` into its `reviewed` by hand",
        approved.of
    ))
}

/// A name is a line of words.
fn name(text: &str) -> Result<String, String> {
    match text.trim() {
        "" => Err("expected who approved them, such as \"A. Reviewer, PT\"".to_string()),
        text if text.chars().any(char::is_control) => {
            Err(format!("expected a name on one line, found {}", shown(text)))
        }
        text => Ok(text.to_string()),
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn a_name_is_words_on_one_line() {
        assert_eq!(super::name(" A. Reviewer, PT ").as_deref(), Ok("A. Reviewer, PT"));
        for text in ["", "  ", "A.\nReviewer", "\u{7}a"] {
            assert!(super::name(text).unwrap_err().starts_with("expected"), "{text:?}");
        }
    }
}
