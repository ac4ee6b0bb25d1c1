//! The new site, staged beside the published one and swapped in when it is whole.

use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::{self, Write};
use std::mem;
use std::path::Path;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::{Mutex, PoisonError};

use blake3::Hash;

use super::error::{Problem, PublishError};
use super::manifest::{FileDigest, MANIFEST, Manifest, STAGED};
use super::names::Names;
use super::owner::{Droppings, inspect, inspect_left};
use super::record::{Lies, SiteRecord};
use super::shelf::Shelf;
use super::store;
use super::swap::{self, Way};

/// A site that is being made. Dropped without [`Staging::publish`] it is removed, and `ready/` is as it was.
#[derive(Debug)]
pub struct Staging {
    shelf: Shelf,
    names: Mutex<Names>,
    /// The list of what is staged so far, until the manifest takes its place.
    list: Option<File>,
    unchanged: AtomicUsize,
    written: AtomicUsize,
    failed: AtomicBool,
}

/// What the maker of a site leaves for the next.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Left {
    /// How what it is made from lay before it was read; `None` where there is something to tell of it each time.
    pub from: Option<Hash>,
    /// What the site is made from, in the maker's own writing.
    pub made_from: Vec<u8>,
}

/// What a publication changed, in files.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Published {
    /// New, or with new bytes.
    pub written: usize,
    /// As they were.
    pub unchanged: usize,
    /// No longer part of the site.
    pub removed: usize,
    /// Files that a desktop system had dropped into `ready/`, by their paths in the workspace. They went with the old
    /// site.
    pub dropped: Vec<String>,
}

impl Staging {
    pub(super) fn new(shelf: Shelf) -> Result<Self, PublishError> {
        let new = &shelf.places.new;
        let list = fs::create_dir(new)
            .and_then(|()| File::create_new(new.join(STAGED)))
            .map_err(PublishError::disk(new))?;
        Ok(Self {
            shelf,
            names: Mutex::default(),
            list: Some(list),
            unchanged: AtomicUsize::new(0),
            written: AtomicUsize::new(0),
            failed: AtomicBool::new(false),
        })
    }

    /// Adds one file, from any thread. `path` is relative to the output folder, with `/`. A file that is published with
    /// the same bytes is linked, or written again where links are not possible.
    pub fn put(&self, path: &str, bytes: &[u8]) -> Result<(), PublishError> {
        self.add(path, FileDigest::of(bytes), |mut staged| staged.write_all(bytes))
    }

    /// Adds a copy of a file, as [`Staging::put`] does, without reading all of it into memory.
    pub fn put_file(&self, path: &str, source: &Path) -> Result<(), PublishError> {
        let read = || -> io::Result<(FileDigest, File)> {
            // Whoever opens a pipe may wait for ever.
            if !fs::metadata(source)?.is_file() {
                return Err(io::Error::other("it is a pipe, a device or a folder, and no file"));
            }
            Ok((FileDigest::of_file(source)?, File::open(source)?))
        };
        let (made, mut from) = read().map_err(|error| {
            self.failed.store(true, Ordering::Relaxed);
            PublishError::new(source, Problem::Unreadable(error))
        })?;
        self.add(path, made, |mut staged| io::copy(&mut from, &mut staged).map(|_| ()))
    }

    fn add(
        &self,
        path: &str,
        made: FileDigest,
        write: impl FnOnce(File) -> io::Result<()>,
    ) -> Result<(), PublishError> {
        let added = self.try_add(path, made, write);
        if added.is_err() {
            self.failed.store(true, Ordering::Relaxed);
        }
        added
    }

    fn try_add(
        &self,
        path: &str,
        made: FileDigest,
        write: impl FnOnce(File) -> io::Result<()>,
    ) -> Result<(), PublishError> {
        let places = &self.shelf.places;
        // People know the published file, not the staged one.
        let named = places.ready.join(path);
        self.take_name(path, made).map_err(|problem| PublishError::new(&named, problem))?;
        let staged = places.new.join(path);
        let unchanged = self.was_published(path, &made) && places.has(path, &made);
        if !(unchanged && fs::hard_link(&named, &staged).is_ok()) {
            File::create_new(&staged).and_then(write).map_err(PublishError::disk(&named))?;
        }
        let count = if unchanged { &self.unchanged } else { &self.written };
        count.fetch_add(1, Ordering::Relaxed);
        Ok(())
    }

    fn was_published(&self, path: &str, made: &FileDigest) -> bool {
        let published = self.shelf.published.as_ref();
        published.is_some_and(|manifest| manifest.files.get(path) == Some(made))
    }

    /// Makes each folder once, under the lock, so that it is there for whoever comes next. Nothing is on the disk before
    /// it is on the list.
    fn take_name(&self, path: &str, made: FileDigest) -> Result<(), Problem> {
        let mut names = self.names.lock().unwrap_or_else(PoisonError::into_inner);
        let folders = names.take(path, made)?;
        if let Some(mut list) = self.list.as_ref() {
            list.write_all(format!("{path}\0").as_bytes()).map_err(Problem::Disk)?;
        }
        for folder in folders {
            fs::create_dir(self.shelf.places.new.join(folder)).map_err(Problem::Disk)?;
        }
        Ok(())
    }

    /// What the maker of the published site wrote down, if it is remembered.
    pub fn last(&self) -> Option<&[u8]> {
        let made_from = &self.shelf.record.made_from;
        (!made_from.is_empty()).then_some(made_from)
    }

    /// Takes over published files as they lie, unread. False, with nothing taken over, when one of them is not there or
    /// does not lie as it was left: make it again.
    pub fn keep(&self, paths: &[String]) -> Result<bool, PublishError> {
        let Some(published) = &self.shelf.published else { return Ok(false) };
        let made: Option<Vec<FileDigest>> = paths
            .iter()
            .map(|path| published.files.get(path).copied().filter(|_| self.shelf.lies(path)))
            .collect();
        let Some(made) = made else { return Ok(false) };
        for (path, made) in paths.iter().zip(made) {
            let from = self.shelf.places.ready.join(path);
            self.add_from(path, made, &from)?;
        }
        Ok(true)
    }

    fn add_from(&self, path: &str, made: FileDigest, from: &Path) -> Result<(), PublishError> {
        let added = self.take_name(path, made).and_then(|()| {
            let staged = self.shelf.places.new.join(path);
            fs::hard_link(from, &staged)
                .or_else(|_| fs::copy(from, &staged).map(|_| ()))
                .map_err(Problem::Disk)
        });
        if added.is_err() {
            self.failed.store(true, Ordering::Relaxed);
        }
        self.unchanged.fetch_add(1, Ordering::Relaxed);
        added.map_err(|problem| PublishError::new(from, problem))
    }

    /// The text of a file that was added.
    pub fn text(&self, path: &str) -> Result<String, PublishError> {
        let staged = self.shelf.places.new.join(path);
        fs::read_to_string(&staged).map_err(PublishError::disk(&self.shelf.places.ready.join(path)))
    }

    /// The files added so far, by their paths, each with the hash of its bytes.
    pub fn added(&self) -> BTreeMap<String, Hash> {
        self.names.lock().unwrap_or_else(PoisonError::into_inner).files()
    }

    /// Swaps the new site in. Until then, and after an error, `ready/` is as it was.
    /// `left` is for the next maker.
    pub fn publish(self, fingerprint: &Hash, left: Option<Left>) -> Result<Published, PublishError> {
        self.publish_by(Way::Best, fingerprint, left)
    }

    pub(super) fn publish_by(
        mut self,
        way: Way,
        fingerprint: &Hash,
        left: Option<Left>,
    ) -> Result<Published, PublishError> {
        let paths: Vec<String> = self.added().into_keys().collect();
        let (removed, dropped) = self.complete(fingerprint)?;
        let places = &self.shelf.places;
        swap::swap(places, way).map_err(PublishError::disk(&places.ready))?;
        // From here on the new site stands; what is left of the old one is removed when `self` is dropped or at the next
        // start. After an exchange it bears the name already.
        let _ = swap::settle_names(&places.root).and_then(|()| swap::retire(places));
        // Without a record the next run makes everything anew: that costs only time.
        if let Some(Left { from, made_from }) = left {
            let lies = |path: String| Some((path.clone(), Lies::of(&places.ready.join(&path))?));
            let record = SiteRecord { files: paths.into_iter().filter_map(lies).collect(), from, made_from };
            let _ = store::keep_record(&places.sheets, fingerprint, &record);
        }
        Ok(Published {
            written: self.written.load(Ordering::Relaxed),
            unchanged: self.unchanged.load(Ordering::Relaxed),
            removed,
            dropped,
        })
    }

    /// Makes the staged site whole and waits until it is on the disk. Returns how many published files it has no more,
    /// and what the old one has that nobody made.
    pub(super) fn complete(&mut self, fingerprint: &Hash) -> Result<(usize, Droppings), PublishError> {
        let Shelf { places, published, .. } = &self.shelf;
        if self.failed.load(Ordering::Relaxed) {
            return Err(PublishError::new(&places.ready, Problem::Incomplete));
        }
        // Somebody may have put a file there while the site was made.
        let (_, dropped) = inspect(&places.ready)?;
        let names = self.names.get_mut().unwrap_or_else(PoisonError::into_inner);
        let manifest = Manifest::new(fingerprint, mem::take(names).into_files());
        serde_json::to_vec(&manifest)
            .map_err(io::Error::from)
            .and_then(|bytes| fs::write(places.new.join(MANIFEST), bytes))
            .and_then(|()| swap::settle(&places.new))
            .map_err(PublishError::disk(&places.ready.join(MANIFEST)))?;
        // Some systems rename no folder in which a file is open.
        self.list = None;
        fs::remove_file(places.new.join(STAGED)).map_err(PublishError::disk(&places.new))?;
        let old_files = published.iter().flat_map(|old| old.files.keys());
        Ok((old_files.filter(|&file| !manifest.files.contains_key(file)).count(), dropped))
    }
}

impl Drop for Staging {
    /// Removes what stands at the staging place: an unfinished site, or the old one. Runs before the lock is given back.
    fn drop(&mut self) {
        self.list = None;
        let new = &self.shelf.places.new;
        // The next start tries again, and names what somebody has put there meanwhile.
        if inspect_left(new).is_ok() {
            let _ = swap::discard(new);
        }
    }
}
