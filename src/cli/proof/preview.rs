//! What a preview keeps from one change to the next: the workspace in memory, its photos, and every page that was
//! good when it was last shown.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use jiff::civil::Date;
use rayon::prelude::*;

use super::super::outcome::Failure;
use super::super::terminal::Terminal;
use super::round::{End, Round, Save};
use crate::edition::{Edition, MadePhoto, make_photo};
use crate::model::finding::Finding;
use crate::outputs::{self, Shot};
use crate::proof::{self, Door};
use crate::review::{Review, ReviewCache};
use crate::workspace::{self, layout};

/// A preview between two rounds.
pub(super) struct Preview {
    pub(super) edition: Edition,
    pub(super) today: Date,
    pub(super) photos: BTreeMap<Shot, Result<MadePhoto, Finding>>,
    /// The last good version of every page that was shown, by its path.
    pub(super) good: BTreeMap<String, String>,
    /// Why the workspace or its theme is not as its files are now.
    pub(super) trouble: Option<String>,
    pub(super) review: Review,
    /// What the last review need not look for again.
    pub(super) kept: ReviewCache,
    /// Counts the reviews.
    pub(super) number: u64,
    /// What open pages load beside themselves has changed.
    pub(super) changes: Vec<proof::Refresh>,
}

impl Preview {
    /// Reads the workspace.
    pub(super) fn load(root: PathBuf, today: Date) -> Result<Preview, Failure> {
        Ok(Preview {
            edition: Edition::open(root)?,
            today,
            photos: BTreeMap::new(),
            good: BTreeMap::new(),
            trouble: None,
            review: Review::default(),
            kept: ReviewCache::default(),
            number: 0,
            changes: Vec::new(),
        })
    }

    pub(super) fn root(&self) -> &Path {
        self.edition.root()
    }

    /// Shows what came of a change, then answers browsers until the next.
    pub(super) fn round(
        &mut self,
        door: &Door,
        change: Option<Save>,
        terminal: &Terminal,
    ) -> Result<End, Failure> {
        self.make_photos();
        Round::new(self, door).run(change, terminal)
    }

    /// Reads what was saved: as little as tells what has become of the workspace. The names of the files that
    /// say something else now; `None` when none of them does.
    pub(super) fn follow(&mut self, names: &BTreeSet<String>) -> Option<Vec<String>> {
        let theme = format!("themes/{}/", self.edition.model().site.theme.value);
        let mut changed = Vec::new();
        let mut again = self.trouble.is_some();
        let mut theme_again = false;
        for name in names {
            if !self.matters(name) {
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

    /// False for files that nothing reads, such as those that editors make and remove while they save.
    fn matters(&self, name: &str) -> bool {
        let within = format!("{name}/");
        name.is_empty()
            || name.starts_with("themes")
            || name.starts_with("content/media")
            || layout::kind(name).is_some()
            || self.edition.model().attachments.contains(name.trim_start_matches("content/"))
            || workspace::is_folder(self.edition.root(), name)
            || self.edition.sources().iter().any(|(_, source)| source.name.starts_with(&within))
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
