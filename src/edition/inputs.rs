//! What outputs are made from, each thing with a number that changes when it does. Which things an output is made from
//! is not written down anywhere: the model notes them while it is made ([`reads`](crate::model::reads)).

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::io;
use std::path::Path;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};
use std::time::SystemTime;

use serde::{Deserialize, Serialize};

use super::{Edition, SiteFacts, styles};
use crate::model::reads::Read;
use crate::model::source::{FileId, Source};
use crate::outputs::{Address, Derived, media};
use crate::pages::{Prepared, Sheets};
use crate::workspace;
use crate::workspace::theme::LOGO_FOLDER;

/// A number for what something says: the first half of a hash. Two that differ are never the same by chance.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) struct Version(u128);

impl Serialize for Version {
    fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(&format!("{:x}", self.0))
    }
}

impl<'de> Deserialize<'de> for Version {
    fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let text = <std::borrow::Cow<'de, str>>::deserialize(from)?;
        u128::from_str_radix(&text, 16).map(Version).map_err(serde::de::Error::custom)
    }
}

/// Adds up what a version stands for. No piece can run into the next.
#[derive(Default)]
pub(super) struct Stamp(pub(super) blake3::Hasher);

impl Stamp {
    pub(super) fn add(&mut self, piece: impl AsRef<[u8]>) {
        let piece = piece.as_ref();
        self.0.update(&(piece.len() as u64).to_le_bytes());
        self.0.update(piece);
    }

    pub(super) fn hash(&self) -> blake3::Hash {
        self.0.finalize()
    }

    fn version(&self) -> Version {
        let mut half = [0; 16];
        half.copy_from_slice(&self.hash().as_bytes()[..16]);
        Version(u128::from_le_bytes(half))
    }
}

fn of<T: AsRef<[u8]>>(pieces: impl IntoIterator<Item = T>) -> Version {
    let mut stamp = Stamp::default();
    pieces.into_iter().for_each(|piece| stamp.add(piece));
    stamp.version()
}

impl Edition {
    /// The media files that the site shows or publishes, by their names below `content/`.
    pub fn attachments(&self) -> BTreeSet<String> {
        let photos = media::photos(&self.model).into_iter().map(|shot| shot.file);
        photos.chain(media::files(&self.model)).collect()
    }

    /// What each of them holds now.
    ///
    /// # Errors
    /// The first that cannot be read.
    pub fn attachments_now(&self) -> Result<BTreeMap<String, blake3::Hash>, UnreadAttachment> {
        let hash = |name: String| match workspace::attachment_hash(&self.root, &name) {
            Ok(hash) => Ok((name, hash)),
            Err(why) => Err(UnreadAttachment { name, why }),
        };
        self.attachments().into_iter().map(hash).collect()
    }

    /// Every text but those of the theme, which counts as a whole.
    fn texts(&self) -> impl Iterator<Item = &Source> {
        self.sources.iter().map(|(_, source)| source).filter(|source| !styles::is_style(source))
    }

    /// One number for everything that the site is made from. `attachments` is what its media files hold.
    pub fn fingerprint(
        &self,
        facts: &SiteFacts,
        attachments: &BTreeMap<String, blake3::Hash>,
    ) -> blake3::Hash {
        let mut stamp = Stamp::default();
        stamp.add(facts.program.as_bytes());
        stamp.add(facts.today.to_string());
        stamp.add([u8::from(facts.draft)]);
        for source in self.texts() {
            stamp.add(&source.name);
            stamp.add(&source.text);
        }
        stamp.add("theme");
        for (name, bytes) in &self.theme.files {
            stamp.add(name);
            stamp.add(bytes);
        }
        stamp.add("media");
        for (name, hash) in attachments {
            stamp.add(name);
            stamp.add(hash.as_bytes());
        }
        stamp.hash()
    }
}

impl SiteFacts {
    /// A number for everything that the site would be made from, by how it lies on the disk; `None` where that cannot be
    /// told. `now` is the time, to tell which files were written just now.
    pub fn lies(&self, root: &Path, now: SystemTime) -> Option<blake3::Hash> {
        let lies = workspace::lies(root, now)?;
        let mut hasher = blake3::Hasher::new();
        hasher.update(self.program.as_bytes()).update(lies.as_bytes());
        hasher.update(self.today.to_string().as_bytes()).update(&[u8::from(self.draft)]);
        Some(hasher.finalize())
    }
}

/// A media file that cannot be read.
#[derive(Debug)]
pub struct UnreadAttachment {
    /// Below `content/`.
    name: String,
    why: io::Error,
}

impl fmt::Display for UnreadAttachment {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "content/{} cannot be read: {}", self.name, self.why)
    }
}

impl std::error::Error for UnreadAttachment {}

/// The versions of everything in an edition, each worked out when it is first asked for.
pub(super) struct Versions<'e> {
    edition: &'e Edition,
    facts: SiteFacts,
    /// What media files hold, by their names below `content/`.
    attachments: &'e BTreeMap<String, blake3::Hash>,
    files: OnceLock<BTreeMap<&'e str, FileId>>,
    derived: Arc<Derived<'e>>,
    base: OnceLock<Version>,
    known: Mutex<BTreeMap<Read, Version>>,
}

impl<'e> Versions<'e> {
    pub(super) fn of(
        edition: &'e Edition,
        facts: SiteFacts,
        attachments: &'e BTreeMap<String, blake3::Hash>,
    ) -> Versions<'e> {
        Versions::with(edition, facts, attachments, Arc::new(edition.derived()))
    }

    /// The same, with what is worked out of the model from where it is shared.
    pub(super) fn with(
        edition: &'e Edition,
        facts: SiteFacts,
        attachments: &'e BTreeMap<String, blake3::Hash>,
        derived: Arc<Derived<'e>>,
    ) -> Versions<'e> {
        let (files, base) = (OnceLock::new(), OnceLock::new());
        Versions { edition, facts, attachments, files, derived, base, known: Mutex::default() }
    }

    /// The version of what was asked for.
    pub(super) fn get(&self, read: &Read) -> Version {
        let known = || self.known.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(version) = known().get(read) {
            return *version;
        }
        let version = self.work_out(read);
        known().insert(read.clone(), version);
        version
    }

    /// Takes in what is made before pages, which show it or lead to it.
    pub(super) fn learn(&self, made: &Prepared) {
        let mut known = self.known.lock().unwrap_or_else(PoisonError::into_inner);
        for (shot, photo) in &made.photos {
            let read = Read::Photo { file: shot.file.clone(), crop: shot.crop };
            known.insert(read, of([format!("{photo:?}")]));
        }
        if let Sheets::Printed(sheets) = &made.sheets {
            let sheets =
                sheets.iter().map(|(page, list)| (Read::Sheets(page.path()), of([format!("{list:?}")])));
            known.extend(sheets);
        }
    }

    fn file(&self, name: &str) -> Option<FileId> {
        let sources = &self.edition.sources;
        let files = || sources.iter().map(|(id, source)| (source.name.as_str(), id)).collect();
        self.files.get_or_init(files).get(name).copied()
    }

    fn text(&self, file: Option<FileId>) -> Version {
        match file {
            // Its name too: links lead on from there.
            Some(file) => {
                let source = self.edition.sources.get(file);
                of(["there", &source.name, &source.text])
            }
            None => of([b"absent"]),
        }
    }

    fn work_out(&self, read: &Read) -> Version {
        let model = &self.edition.model;
        match read {
            Read::Exercise(id) => match model.unreadable.contains(id) {
                true => of([b"unreadable"]),
                false => self.text(model.exercises.get(id).map(|e| e.file)),
            },
            Read::Series(id) => self.text(model.series.get(id).map(|s| s.file)),
            Read::Week { series, id } => self.text(self.edition.week(series, id).map(|(_, w)| w.file)),
            Read::Page(id) => self.text(model.pages.get(id).map(|p| p.file)),
            Read::Captions(name) => self.text(model.captions.get(name).map(|c| c.file)),
            Read::Text(name) => self.text(self.file(name)),
            Read::Exercises => of(model.exercises.keys()),
            Read::EverySeries => of(model.series.keys()),
            Read::Weeks(series) => match model.series.get(series) {
                Some(series) => of(series.weeks.ids()),
                None => of(["absent"]),
            },
            Read::Dates(series) => match model.series.get(series) {
                Some(series) => of(series.weeks.dates().map(|(id, day)| format!("{id} {day}"))),
                None => of(["absent".to_string()]),
            },
            Read::Pages => of(model.pages.keys()),
            Read::Menu => of(model.menu().into_iter().flat_map(|(id, title)| [id, title])),
            Read::EveryCaptions => of(model.captions.keys()),
            Read::Theme(name) => match self.edition.theme.files.get(name.as_str()) {
                Some(bytes) => of([b"there", &**bytes]),
                None => of(["absent"]),
            },
            Read::Attachment(name) => of([[u8::from(model.attachments.contains(name))]]),
            Read::Attachments => of(model.attachments.iter()),
            Read::Reference(key) => self.reference(key),
            Read::References => of(self.derived.references().keys()),
            Read::Citing(key) => of(self.derived.citing().pages(key).iter().map(Address::path)),
            Read::Ladder(id) => self.ladder(id),
            Read::Ladders => of([format!("{:?} {:?}", self.derived.ladders().all(), self.links())]),
            Read::Uses(id) => of(self
                .derived
                .uses()
                .weeks_of(id)
                .flat_map(|(series, week)| [series.id.as_str(), week.id.as_str()])),
            Read::Bytes(file) => match self.attachments.get(file) {
                Some(hash) => of([hash.as_bytes()]),
                None => of(["absent"]),
            },
            // Those that are there are known since `learn`.
            Read::Photo { .. } | Read::Sheets(_) => of(["absent"]),
            Read::Today => of([self.facts.today.to_string()]),
            Read::Everything => {
                let texts = self.edition.texts().flat_map(|s| [s.name.as_str(), s.text.as_str()]);
                let files = model.attachments.iter().chain(&model.positions).map(String::as_str);
                let today = self.facts.today.to_string();
                of(texts.chain(files).chain([today.as_str()]))
            }
        }
    }

    fn reference(&self, key: &str) -> Version {
        match self.derived.references().get(key) {
            Some(reference) => of([format!("{:?}", reference)]),
            None => of(["absent"]),
        }
    }

    /// The links of all exercises without the places where they are written.
    fn links(&self) -> Vec<(&'e str, &'e str)> {
        self.derived.ladders().links().into_iter().map(|(from, to, _)| (from, to)).collect()
    }

    fn ladder(&self, id: &str) -> Version {
        let ladders = self.derived.ladders();
        let Some(ladder) = ladders.ladder_of(id) else { return of(["none"]) };
        let members = ladder.rungs.iter().flatten();
        of([format!("{:?} {:?}", ladder.rungs, members.map(|one| ladders.harder(one)).collect::<Vec<_>>())])
    }

    /// What pages and feeds are made from beside the model: the program, the settings, the words, the templates.
    pub(super) fn of_pages(&self) -> Version {
        *self.base.get_or_init(|| self.base_of(&["pages/", "script/", "shapes/", "words/", LOGO_FOLDER]))
    }

    /// The same for sheets and the images of weeks.
    pub(super) fn of_sheets(&self) -> Version {
        self.base_of(&["sheet/", "shapes/", "fonts/", "words/", LOGO_FOLDER])
    }

    fn base_of(&self, folders: &[&str]) -> Version {
        let mut stamp = Stamp::default();
        stamp.add(self.facts.program.as_bytes());
        stamp.add([u8::from(self.facts.draft)]);
        stamp.add(&self.edition.words.language);
        stamp.add(&self.edition.sources.get(self.edition.model.site.file).text);
        for (name, bytes) in folders.iter().flat_map(|folder| self.edition.theme.below(folder)) {
            stamp.add(name);
            stamp.add(bytes);
        }
        stamp.version()
    }
}
