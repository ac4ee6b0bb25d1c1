//! One round of a preview: the time between two changes, in which everything shown is made from the same texts.

use std::collections::{BTreeMap, BTreeSet};

use super::super::outcome::Failure;
use super::super::terminal::Terminal;
use super::at_desk::Waiting;
use super::line::{Save, Untold};
use super::preview::matters;
use super::snapshot::{Reviewed, Snapshot};
use crate::edition::{Rendered, Site, SiteFacts};
use crate::model::finding::Finding;
use crate::outputs::Address;
use crate::pages::{self, Sheets, TemplateError};
use crate::proof::{self, Asker, Door, Event, Reply, Wanted};
use crate::publish::Keeper;
use crate::review::Review;
use crate::review::report::text::summary;

/// How a round ends.
pub(super) enum End {
    Saved(BTreeSet<String>),
    Stopped,
}

pub(super) struct Round<'p> {
    pub(super) now: &'p Snapshot<'p>,
    pub(super) trouble: Option<&'p str>,
    pub(super) site: Result<Site<'p>, TemplateError>,
    pub(super) facts: SiteFacts,
    broken: Vec<&'p Finding>,
    good: &'p mut BTreeMap<String, Rendered>,
    /// Pages that keep their last good version, and why.
    pub(super) held: BTreeMap<String, String>,
    pub(super) reviewed: &'p mut Option<Reviewed>,
    /// Who asked for the panel of a page before the first review was done.
    pub(super) asking: &'p mut Vec<(String, Asker)>,
    untold: &'p mut Option<Untold>,
    /// Of the review of this round.
    number: u64,
    pub(super) door: &'p Door,
    /// What the desk writes with, where there is one.
    pub(super) keeper: Option<&'p Keeper>,
    /// Requests of the desk that wait for an entry to be read again.
    pub(super) waiting: &'p mut Vec<Waiting>,
}

/// What a round takes over from the one before, and leaves to the next.
#[derive(Default)]
pub(super) struct Carried {
    /// The last good version of every page that was shown, by its path.
    good: BTreeMap<String, Rendered>,
    reviewed: Option<Reviewed>,
    asking: Vec<(String, Asker)>,
    untold: Option<Untold>,
    waiting: Vec<Waiting>,
    /// Counts the reviews.
    number: u64,
}

impl<'p> Round<'p> {
    pub(super) fn new(
        now: &'p Snapshot<'p>,
        trouble: Option<&'p str>,
        carried: &'p mut Carried,
        door: &'p Door,
        keeper: Option<&'p Keeper>,
    ) -> Round<'p> {
        let shown =
            now.photos.iter().filter_map(|(name, p)| Some((name.clone(), p.as_ref().ok()?.shown.clone())));
        let made = pages::Prepared { photos: shown.collect(), sheets: Sheets::WhenAsked };
        // Its number is for the store of sheets, which a preview leaves to `make`.
        let facts = SiteFacts { today: now.today, draft: false, program: blake3::hash(&[]) };
        carried.number += 1;
        Round {
            now,
            trouble,
            site: now.edition.site(&facts, made),
            facts,
            broken: now.edition.broken(),
            good: &mut carried.good,
            held: BTreeMap::new(),
            reviewed: &mut carried.reviewed,
            asking: &mut carried.asking,
            untold: &mut carried.untold,
            number: carried.number,
            door,
            keeper,
            waiting: &mut carried.waiting,
        }
    }

    /// The number of the review of this round.
    pub(super) fn number(&self) -> u64 {
        self.number
    }

    /// Shows what came of a change in the open pages. The good ones among them, each by its path, for the review to look at.
    pub(super) fn show(&mut self, change: Option<Save>, beside: &[proof::Refresh]) -> Vec<(String, String)> {
        let shown = &self.door.shown;
        shown.forget_pages();
        let open = shown.open_pages();
        let mut made: Vec<_> = open.into_iter().filter_map(|path| self.page(&path).ok()).collect();
        let pages = shown.show(&made);
        shown.tell(beside);
        if let Some(change) = change {
            self.untold.get_or_insert_default().add(change, pages);
        }
        made.retain(|(path, _)| self.good.contains_key(path) && !self.held.contains_key(path));
        made
    }

    /// Answers until the next change, also while the review goes on.
    pub(super) fn answer_all(&mut self, terminal: &Terminal) -> Result<End, Failure> {
        for Waiting { request, asker } in std::mem::take(self.waiting) {
            if let Some(names) = self.at_desk(request, asker, true) {
                return Ok(End::Saved(names));
            }
        }
        loop {
            match self.door.events.recv() {
                Ok(Event::Wanted(Wanted::Desk(request), asker)) => {
                    if let Some(names) = self.at_desk(request, asker, false) {
                        return Ok(End::Saved(names));
                    }
                }
                Ok(Event::Wanted(wanted, asker)) => self.answer(wanted, asker),
                Ok(Event::Reviewed { number, review }) if number == self.number => match review {
                    Some(review) => self.take(review, terminal)?,
                    // It failed, and whoever waits for it fails as it did.
                    None => return Ok(End::Stopped),
                },
                // Of a round that is over.
                Ok(Event::Reviewed { .. }) => {}
                Ok(Event::Saved(names)) if self.is_nothing(&names) => {}
                Ok(Event::Saved(names)) => return Ok(End::Saved(names)),
                Ok(Event::Stop) | Err(_) => return Ok(End::Stopped),
            }
        }
    }

    /// True when nothing of the workspace is in these files. Anything may end trouble.
    fn is_nothing(&self, names: &BTreeSet<String>) -> bool {
        self.trouble.is_none() && !names.iter().any(|name| matters(self.now.edition, name))
    }

    /// Tells the open pages and the terminal what the review found.
    fn take(&mut self, review: Review, terminal: &Terminal) -> Result<(), Failure> {
        let sources = self.now.edition.sources().clone();
        let before = self.reviewed.replace(Reviewed { number: self.number, review, sources });
        match before {
            Some(_) => self.door.shown.tell(&[proof::Refresh::Review]),
            None => {
                for (page, asker) in std::mem::take(self.asking) {
                    // Whoever asked may be gone again.
                    let _ = asker.send(Reply::Piece(self.panel(&page)));
                }
            }
        }
        let Some(untold) = self.untold.take() else { return Ok(()) };
        let found = match (self.why(), &*self.reviewed) {
            // What is wrong and where; its lines are drawn in the panel.
            (Some(why), _) => why.lines().take(3).map(str::trim).collect::<Vec<_>>().join(" "),
            (None, Some(reviewed)) => summary(&reviewed.review),
            (None, None) => String::new(),
        };
        terminal.say(&untold.line(&found))
    }

    /// What keeps every page as it was.
    pub(super) fn why(&self) -> Option<String> {
        let template = self.site.as_ref().err().map(ToString::to_string);
        self.trouble.map(str::to_string).or(template)
    }

    /// A page by its path: as `make` would write it, or its last good version. The last good version is rendered again only
    /// when something has changed that it was made from.
    ///
    /// # Errors
    /// Why there is none.
    pub(super) fn page(&mut self, path: &str) -> Result<(String, String), Unmade> {
        let address = Address::at(path, self.now.edition.model());
        let reason = match self.now.edition.why_held(path, &self.broken) {
            Some(reason) => Some(reason),
            None => self.trouble.map(str::to_string),
        };
        let good = self.good.get(path);
        if let (Some(reason), Some(good)) = (&reason, good) {
            self.held.insert(path.to_string(), reason.clone());
            return Ok((path.to_string(), good.html.clone()));
        }
        let Some(address) = address else { return Err(Unmade::NotThere(reason)) };
        let made = match &self.site {
            Ok(site) => site.render_since(&address, good).map_err(|e| e.to_string()),
            Err(error) => Err(error.to_string()),
        };
        let html = match (made, good) {
            (Ok(Some(page)), _) => {
                let html = page.html.clone();
                if reason.is_none() {
                    self.good.insert(path.to_string(), page);
                }
                html
            }
            (Ok(None), good) => good.map(|good| good.html.clone()).unwrap_or_default(),
            (Err(why), Some(good)) => {
                self.held.insert(path.to_string(), why);
                good.html.clone()
            }
            (Err(why), None) => return Err(Unmade::Template(why)),
        };
        Ok((path.to_string(), html))
    }
}

/// Why there is no page.
pub(super) enum Unmade {
    /// No entry is shown there; or one that cannot be read, and why.
    NotThere(Option<String>),
    Template(String),
}

#[cfg(test)]
mod tests;
