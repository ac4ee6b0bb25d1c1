//! One round of a preview: the time between two changes, in which everything shown is made from the same texts.

use std::cell::OnceCell;
use std::collections::{BTreeMap, BTreeSet};
use std::time::Instant;

use super::super::outcome::Failure;
use super::super::terminal::Terminal;
use super::preview::Preview;
use crate::edition::{Body, Edition, MadePhoto, OutputFile, Site, SiteFacts, Unmade as Unset};
use crate::model::finding::Finding;
use crate::model::source::FileId;
use crate::outputs::address::folder;
use crate::outputs::{self, Address, Output, Shot};
use crate::pages::inspect::{Inspection, inspect};
use crate::pages::{self, Sheets, TemplateError};
use crate::print;
use crate::proof::panel::{self, About};
use crate::proof::{self, Door, Event, Reply, Wanted, excerpt};
use crate::review::report::text::{Look, render, summary};
use crate::review::{self, Review, ReviewCache};
use crate::workspace;

/// A change that the round begins with.
pub(super) struct Save {
    /// What was saved.
    pub(super) files: Vec<String>,
    pub(super) start: Instant,
}

/// How a round ends.
pub(super) enum End {
    Saved(BTreeSet<String>),
    Stopped,
}

pub(super) struct Round<'p> {
    edition: &'p Edition,
    photos: &'p BTreeMap<Shot, Result<MadePhoto, Finding>>,
    trouble: Option<&'p str>,
    site: Result<Site<'p>, TemplateError>,
    facts: SiteFacts,
    broken: Vec<&'p Finding>,
    /// Every file of the site by its path, when somebody asks for more than a page.
    files: OnceCell<BTreeMap<String, Output>>,
    good: &'p mut BTreeMap<String, String>,
    /// Pages that keep their last good version, and why.
    held: BTreeMap<String, String>,
    review: &'p mut Review,
    kept: &'p mut ReviewCache,
    number: &'p mut u64,
    changes: Vec<proof::Refresh>,
    today: jiff::civil::Date,
    door: &'p Door,
}

impl<'p> Round<'p> {
    pub(super) fn new(preview: &'p mut Preview, door: &'p Door) -> Round<'p> {
        let edition = &preview.edition;
        let shown = preview
            .photos
            .iter()
            .filter_map(|(name, p)| Some((name.clone(), p.as_ref().ok()?.shown.clone())));
        let made = pages::Prepared { photos: shown.collect(), sheets: Sheets::WhenAsked };
        // Its number is for the store of sheets, which a preview leaves to `make`.
        let facts = SiteFacts { today: preview.today, draft: false, program: blake3::hash(&[]) };
        let site = edition.site(&facts, made);
        Round {
            edition,
            photos: &preview.photos,
            trouble: preview.trouble.as_deref(),
            site,
            facts,
            broken: edition.broken(),
            files: OnceCell::new(),
            good: &mut preview.good,
            held: BTreeMap::new(),
            review: &mut preview.review,
            kept: &mut preview.kept,
            number: &mut preview.number,
            changes: std::mem::take(&mut preview.changes),
            today: preview.today,
            door,
        }
    }

    /// Shows what came of the change in the open pages, reviews, and answers until the next change.
    pub(super) fn run(mut self, change: Option<Save>, terminal: &Terminal) -> Result<End, Failure> {
        let shown = &self.door.shown;
        shown.forget_pages();
        let open = shown.open_pages();
        let made: Vec<_> = open.into_iter().filter_map(|path| self.page(&path).ok()).collect();
        let count = shown.show(&made);
        shown.tell(&self.changes);
        let time = change.as_ref().map(|change| change.start.elapsed());
        self.renew_review();
        shown.tell(&[proof::Refresh::Review]);
        if let (Some(change), Some(time)) = (change, time) {
            terminal.say(&self.line(&change.files, count, time.as_millis()))?;
        }
        loop {
            match self.door.events.recv() {
                Ok(Event::Wanted(wanted, reply)) => {
                    // Whoever asked may be gone again.
                    let _ = reply.send(self.answer(wanted));
                }
                Ok(Event::Saved(names)) => return Ok(End::Saved(names)),
                Ok(Event::Stop) | Err(_) => return Ok(End::Stopped),
            }
        }
    }

    /// `heel-drop.md  1 page  41 ms  1 error`.
    fn line(&self, files: &[String], pages: usize, milliseconds: u128) -> String {
        let first = files.first().map_or("", |name| name.rsplit('/').next().unwrap_or(name));
        let files = match files.len() {
            _ if first.is_empty() => "everything".to_string(),
            0 | 1 => first.to_string(),
            n => format!("{first} and {} more", n - 1),
        };
        let pages = if pages == 1 { "1 page".to_string() } else { format!("{pages} pages") };
        let found = match self.why() {
            // What is wrong and where; its lines are drawn in the panel.
            Some(why) => why.lines().take(3).map(str::trim).collect::<Vec<_>>().join(" "),
            None => summary(self.review),
        };
        format!("{files}  {pages}  {milliseconds} ms  {found}")
    }

    /// What keeps every page as it was.
    fn why(&self) -> Option<String> {
        let template = self.site.as_ref().err().map(ToString::to_string);
        self.trouble.map(str::to_string).or(template)
    }

    /// A page by its path: as `make` would write it, or its last good version.
    ///
    /// # Errors
    /// Why there is none.
    fn page(&mut self, path: &str) -> Result<(String, String), Unmade> {
        let address = Address::at(path, self.edition.model());
        let reason = match self.edition.why_held(path, &self.broken) {
            Some(reason) => Some(reason),
            None => self.trouble.map(str::to_string),
        };
        if let Some(reason) = &reason
            && let Some(html) = self.good.get(path)
        {
            self.held.insert(path.to_string(), reason.clone());
            return Ok((path.to_string(), html.clone()));
        }
        let Some(address) = address else { return Err(Unmade::NotThere(reason)) };
        let made = match &self.site {
            Ok(site) => site.pages().render(&address).map_err(|e| e.to_string()),
            Err(error) => Err(error.to_string()),
        };
        match (made, self.good.get(path)) {
            (Ok(html), _) => {
                if reason.is_none() {
                    self.good.insert(path.to_string(), html.clone());
                }
                Ok((path.to_string(), html))
            }
            (Err(why), Some(html)) => {
                self.held.insert(path.to_string(), why);
                Ok((path.to_string(), html.clone()))
            }
            (Err(why), None) => Err(Unmade::Template(why)),
        }
    }

    fn files(&self) -> &BTreeMap<String, Output> {
        self.files.get_or_init(|| {
            let widths = |photo: &MadePhoto| photo.files.iter().map(|(path, _)| path.clone()).collect();
            let photos =
                self.photos.iter().filter_map(|(n, p)| Some((n.clone(), widths(p.as_ref().ok()?)))).collect();
            let all = outputs::all(self.edition.model(), self.edition.theme());
            all.into_iter()
                .flat_map(|output| output.paths(&photos).into_iter().map(move |p| (p, output.clone())))
                .collect()
        })
    }

    fn answer(&mut self, wanted: Wanted) -> Reply {
        match wanted {
            Wanted::File { path } => self.file(path),
            Wanted::Panel { page } => Reply::Piece(self.panel(&page)),
            Wanted::Excerpt { review, finding } => {
                match self.review.findings.get(finding).filter(|_| review == *self.number) {
                    Some(f) => Reply::Piece(excerpt::html(self.edition.sources().get(f.span.file), f.span)),
                    None => Reply::Missing(String::new()),
                }
            }
        }
    }

    fn panel(&self, page: &str) -> String {
        let entries: BTreeSet<FileId> = self.edition.shown_on(page);
        let held = self.held.get(page).cloned().or_else(|| self.why());
        let about = About {
            review: self.review,
            number: *self.number,
            sources: self.edition.sources(),
            entries: &entries,
            held: held.as_deref(),
        };
        panel::html(&about)
    }

    /// A file of the site. The not-found page names the site's folder on its server, so that may stand in front.
    fn file(&mut self, path: String) -> Reply {
        let folder = folder(&self.edition.model().site.address.value);
        let below = path.strip_prefix(folder.trim_start_matches('/')).filter(|p| !p.is_empty());
        let paths = std::iter::once(path.as_str()).chain(below);
        let mut why = None;
        for path in paths {
            match self.page(path) {
                Ok((path, html)) => {
                    self.door.shown.show(&[(path.clone(), html)]);
                    return Reply::Shown { path };
                }
                Err(Unmade::Template(why)) => return Reply::Unmade(why),
                Err(Unmade::NotThere(reason)) => why = why.or(reason),
            }
            if let Some(output) = self.files().get(path).cloned() {
                return self.other(path.to_string(), &output);
            }
        }
        match (why, &self.site) {
            (Some(why), _) => Reply::Unmade(why),
            (None, Ok(site)) => Reply::Missing(site.pages().render(&Address::NotFound).unwrap_or_default()),
            (None, Err(error)) => Reply::Unmade(error.to_string()),
        }
    }

    /// A file that is no page.
    fn other(&self, path: String, output: &Output) -> Reply {
        match output {
            Output::Sheet(_) | Output::Preview { .. } => self.set(path, output),
            Output::Photo(shot) => {
                let photo = self.photos.get(shot).and_then(|p| p.as_ref().ok());
                match photo.and_then(|p| p.files.iter().find(|(known, _)| *known == path)) {
                    Some((_, bytes)) => Reply::File { path, bytes: bytes.clone() },
                    None => Reply::Missing(String::new()),
                }
            }
            Output::Media(name) => match workspace::attachment_file(self.edition.root(), name) {
                Ok((file, whole)) => Reply::Media { path, file, whole },
                Err(_) => Reply::Missing(String::new()),
            },
            output => {
                let Ok(site) = &self.site else { return Reply::Unmade(self.why().unwrap_or_default()) };
                match site.make(output) {
                    Ok(Some(OutputFile { path, body: Body::Bytes(bytes) })) => {
                        Reply::File { path, bytes: bytes.into_owned() }
                    }
                    Ok(_) => Reply::Missing(String::new()),
                    Err(error) => Reply::Unmade(error.to_string()),
                }
            }
        }
    }

    /// Prints a sheet or draws the image of a week, now that somebody asks for it.
    fn set(&self, path: String, output: &Output) -> Reply {
        let edition = self.edition;
        let photos: print::Photos<'_> = self
            .photos
            .iter()
            .filter_map(|(name, p)| Some((name.clone(), p.as_ref().ok()?.printed.clone()?)))
            .collect();
        let set = || -> Result<Option<Vec<u8>>, Unset> {
            let press = edition.press(&self.facts, &photos)?;
            let Some(manuscript) = edition.manuscript(&press, output)? else { return Ok(None) };
            Ok(Some(Edition::set(&press, output, &manuscript)?.1))
        };
        let why = match set() {
            Ok(Some(bytes)) => return Reply::File { path, bytes },
            Ok(None) => return Reply::Missing(String::new()),
            Err(Unset::Sheet(error)) => error.to_string(),
            Err(Unset::Template(error)) => error.to_string(),
            Err(Unset::Findings(found)) => {
                let found = review::settle(&edition.case(self.today), found);
                render(&found, edition.sources(), Look { color: false, width: 100 })
            }
        };
        Reply::Unmade(why)
    }

    /// Reviews the workspace, and looks at the open pages once more.
    fn renew_review(&mut self) {
        let case = self.edition.case(self.today);
        let mut review = self.edition.review_again(self.today, self.kept);
        let mut found: Vec<Finding> =
            self.photos.values().filter_map(|p| p.as_ref().err().cloned()).collect();
        found.extend(self.findings_of_open_pages(&case));
        if !found.is_empty() {
            review = review::join(&case, review, found);
        }
        *self.review = review;
        *self.number += 1;
    }

    /// What stands on the open pages themselves. Places on pages that are not open are not looked for.
    fn findings_of_open_pages(&self, case: &review::Case<'_>) -> Vec<Finding> {
        let open = self.door.shown.open_pages();
        let good: Vec<_> = open.iter().filter(|p| !self.held.contains_key(*p)).collect();
        if good.is_empty() {
            return Vec::new();
        }
        let files = self.files().keys().cloned().collect();
        let site = folder(&self.edition.model().site.address.value);
        let inspections: Vec<Inspection> = good
            .into_iter()
            .filter_map(|path| Some(inspect(path, self.good.get(path)?, &site, &files)))
            .map(|mut inspection| {
                inspection.links.retain(|link| link.path == inspection.path || !files.contains(&link.path));
                inspection
            })
            .collect();
        pages::findings(case, &inspections, &files)
    }
}

/// Why there is no page.
enum Unmade {
    /// No entry is shown there; or one that cannot be read, and why.
    NotThere(Option<String>),
    Template(String),
}
