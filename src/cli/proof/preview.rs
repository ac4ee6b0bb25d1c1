//! What a preview keeps from one change to the next: the workspace in memory, its photos, and every page that was
//! good when it was last shown.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::Sender;

use jiff::civil::Date;
use rayon::prelude::*;
use rayon::{ThreadPool, ThreadPoolBuilder};

use super::super::outcome::Failure;
use super::super::terminal::Terminal;
use super::line::Save;
use super::round::{Carried, End, Round};
use super::snapshot::{Photos, Snapshot};
use crate::edition::{Edition, make_photo};
use crate::outputs::{self, Shot};
use crate::proof::{self, Door, Event};
use crate::publish::Keeper;
use crate::review::{Review, ReviewCache};
use crate::workspace::{self, layout};

/// A preview between two rounds.
pub(in crate::cli) struct Preview {
    edition: Edition,
    today: Date,
    photos: Photos,
    carried: Carried,
    /// Why the workspace or its theme is not as its files are now.
    trouble: Option<String>,
    /// What the last review need not look for again.
    kept: ReviewCache,
    /// What open pages load beside themselves has changed.
    changes: Vec<proof::Refresh>,
    /// What the desk writes with, where there is one.
    keeper: Option<Keeper>,
    /// The threads that review. Those of the program have to make what browsers ask for meanwhile.
    reviewers: ThreadPool,
}

impl Preview {
    /// Reads the workspace.
    pub(in crate::cli) fn load(root: PathBuf, today: Date) -> Result<Preview, Failure> {
        let reviewers = ThreadPoolBuilder::new()
            .build()
            .map_err(|e| Failure::Unreadable(format!("the review cannot run beside the preview: {e}")))?;
        Ok(Preview {
            edition: Edition::open(root)?,
            today,
            photos: BTreeMap::new(),
            carried: Carried::default(),
            trouble: None,
            kept: ReviewCache::default(),
            changes: Vec::new(),
            keeper: None,
            reviewers,
        })
    }

    /// The desk may write with it.
    pub(in crate::cli) fn keeps(&mut self, keeper: Keeper) {
        self.keeper = Some(keeper);
    }

    pub(super) fn root(&self) -> &Path {
        self.edition.root()
    }

    /// Shows what came of a change, then answers browsers until the next while the review runs beside that. The review
    /// is given up when the next change comes first: it borrows what the change is about to replace.
    pub(super) fn round(
        &mut self,
        door: &Door,
        change: Option<Save>,
        terminal: &Terminal,
    ) -> Result<End, Failure> {
        self.make_photos();
        let now = &Snapshot::of(&self.edition, &self.photos, self.today);
        let mut round =
            Round::new(now, self.trouble.as_deref(), &mut self.carried, door, self.keeper.as_ref());
        let open = round.show(change, &std::mem::take(&mut self.changes));
        let mut outcome = Outcome { sender: door.sender(), number: round.number(), review: None };
        let (awaited, kept) = (&AtomicBool::new(true), &mut self.kept);
        self.reviewers.in_place_scope(|beside| {
            beside.spawn(move |_| {
                outcome.review = now.review(&open, kept, &|| awaited.load(Ordering::Relaxed));
                drop(outcome);
            });
            let end = round.answer_all(terminal);
            awaited.store(false, Ordering::Relaxed);
            end
        })
    }

    /// Reads what was saved: as little as tells what has become of the workspace. The names of the files that
    /// say something else now; `None` when none of them does.
    pub(super) fn follow(&mut self, names: &BTreeSet<String>) -> Option<Vec<String>> {
        let theme = format!("themes/{}/", self.edition.model().site.theme.value);
        let mut changed = Vec::new();
        let mut again = self.trouble.is_some();
        let mut theme_again = false;
        for name in names {
            if !matters(&self.edition, name) {
                continue;
            }
            match self.edition.read_again(name) {
                Some(false) => continue,
                Some(true) => {
                    if let Some(file) = self.edition.sources().find(name) {
                        self.kept.forget(file);
                    }
                }
                None => match name.strip_prefix(&theme) {
                    Some(file) if !file.starts_with("words") => theme_again = true,
                    _ => again = true,
                },
            }
            let ending = name.rsplit_once('.').map_or("", |(_, ending)| ending);
            self.changes.extend(match ending {
                "css" | "svg" | "woff2" => Some(proof::Refresh::Looks),
                "js" => Some(proof::Refresh::Scripts),
                _ => None,
            });
            if let Some(media) = name.strip_prefix("content/").filter(|_| layout::kind(name).is_none()) {
                self.photos.retain(|shot, _| shot.file != media);
                self.changes.push(proof::Refresh::Looks);
            }
            changed.push(name.clone());
        }
        if again {
            self.read_all();
        } else if theme_again {
            self.trouble = self.edition.read_theme_again().err().map(|e| e.to_string());
        }
        (!changed.is_empty()).then_some(changed)
    }

    /// Reads the whole workspace; what cannot be read at all leaves it as it was.
    fn read_all(&mut self) {
        match Edition::open(self.edition.root().to_path_buf()) {
            Ok(edition) => {
                self.edition = edition;
                self.kept = ReviewCache::default();
                self.trouble = None;
            }
            Err(failure) => self.trouble = Some(failure.to_string()),
        }
    }

    /// Makes the photos that are not made yet: pages need their dimensions.
    fn make_photos(&mut self) {
        let shots = outputs::media::photos(self.edition.model());
        self.photos.retain(|shot, _| shots.contains(shot));
        let missing: Vec<Shot> = shots.into_iter().filter(|s| !self.photos.contains_key(s)).collect();
        let edition = &self.edition;
        let made = missing.into_par_iter().map(|shot| {
            let bytes = workspace::photo(edition.root(), &shot.file);
            let photo = match bytes {
                Ok(bytes) => make_photo(edition.model(), &shot, &bytes),
                Err(why) => Err(crate::pages::photo_finding(edition.model(), &shot.file, &why.to_string())),
            };
            (shot, photo)
        });
        self.photos.par_extend(made);
    }
}

/// False for files that nothing reads, such as those that editors make and remove while they save.
pub(super) fn matters(edition: &Edition, name: &str) -> bool {
    let within = format!("{name}/");
    name.is_empty()
        || name.starts_with("themes")
        || name.starts_with("content/media")
        || layout::kind(name).is_some()
        || edition.model().attachments.contains(name.trim_start_matches("content/"))
        || workspace::is_folder(edition.root(), name)
        || edition.sources().iter().any(|(_, source)| source.name.starts_with(&within))
}

/// What came of a review. It is told when this is dropped: whoever waits hears of a review that failed too.
struct Outcome {
    sender: Sender<Event>,
    number: u64,
    review: Option<Review>,
}

impl Drop for Outcome {
    fn drop(&mut self) {
        // Nobody listens any more only when the program ends.
        let _ = self.sender.send(Event::Reviewed { number: self.number, review: self.review.take() });
    }
}
