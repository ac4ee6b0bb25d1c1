//! The output folder of a workspace, opened by one run at a time.

use std::fs::{self, File, TryLockError};
use std::io::ErrorKind;
use std::path::Path;
use std::sync::Arc;

use blake3::Hash;
use rayon::prelude::*;

use super::error::{Problem, PublishError};
use super::manifest::{FileDigest, Manifest};
use super::owner::{Droppings, Ready, inspect, inspect_left};
use super::places::Places;
use super::record::{Lies, SiteRecord};
use super::staging::Staging;
use super::store;
use super::swap;
use super::thing::is_own_file;

/// The output folder, locked for this run.
#[derive(Debug)]
pub struct Shelf {
    pub(super) places: Places,
    /// What is published now, if anything is.
    pub(super) published: Option<Manifest>,
    pub(super) lock: Arc<Lock>,
    dropped: Droppings,
    /// What is remembered of the published site; nothing where nothing is.
    pub(super) record: SiteRecord,
}

/// Held, not read, by the shelf and by the store that is from it. The system gives it back when the run ends, however
/// it ends.
#[derive(Debug)]
pub(super) struct Lock(pub(super) File);

impl Drop for Lock {
    /// Closing is not enough: a program started meanwhile has the same open file until it is under way.
    fn drop(&mut self) {
        let _ = self.0.unlock();
    }
}

/// Opens `ready/` in the workspace: takes the lock, refuses a folder that this program did not make or that holds other
/// files, puts right what a killed run left behind. Refuses too when something in what is left behind is not ours.
pub fn open(workspace_root: &Path) -> Result<Shelf, PublishError> {
    let places = Places::of(workspace_root);
    let lock = lock(&places)?;
    let mut dropped = Droppings::new();
    let (mut found, droppings) = inspect(&places.ready)?;
    if !matches!(found, Ready::Ours(_))
        && swap::recover(&places).map_err(PublishError::disk(&places.ready))?
    {
        dropped.extend(droppings);
        (found, _) = inspect(&places.ready)?;
    }
    dropped.extend(clear(&places)?);
    let published = match found {
        Ready::Ours(manifest) => Some(manifest),
        Ready::Missing | Ready::Empty => None,
    };
    let record = published.as_ref().and_then(|site| store::record(&places.sheets, site.fingerprint()));
    Ok(Shelf { places, published, record: record.unwrap_or_default(), lock: Arc::new(lock), dropped })
}

/// Removes what an earlier run has left beside `ready/`, and with it these files of desktop systems.
fn clear(places: &Places) -> Result<Droppings, PublishError> {
    let discard = || swap::discard(&places.new).map_err(PublishError::disk(&places.new));
    let mut dropped = inspect_left(&places.new)?.unwrap_or_default();
    let old = inspect_left(&places.old)?;
    discard()?;
    if let Some(droppings) = old {
        dropped.extend(droppings);
        swap::retire(places).map_err(PublishError::disk(&places.old))?;
        discard()?;
    }
    Ok(dropped)
}

fn lock(places: &Places) -> Result<Lock, PublishError> {
    is_own_file(&places.lock)?;
    let file = File::options()
        .create(true)
        .truncate(false)
        .write(true)
        .open(&places.lock)
        .map_err(PublishError::disk(&places.lock))?;
    match file.try_lock() {
        Ok(()) => Ok(Lock(file)),
        Err(TryLockError::WouldBlock) => Err(PublishError::new(&places.ready, Problem::InUse)),
        // Some network disks know no locks; one educator on one computer can do without.
        Err(TryLockError::Error(error)) if error.kind() == ErrorKind::Unsupported => Ok(Lock(file)),
        Err(TryLockError::Error(error)) => Err(PublishError::disk(&places.lock)(error)),
    }
}

impl Shelf {
    /// True when the site was made from these inputs and every file of it still has the bytes it was made with. A file
    /// that lies as it was left is not read; any other is, on all cores.
    #[must_use]
    pub fn is_current(&self, fingerprint: &Hash) -> bool {
        let Some(published) = &self.published else {
            return false;
        };
        published.is_from(fingerprint)
            && published.files.par_iter().all(|(path, made)| self.lies(path) || self.places.has(path, made))
    }

    /// True when the site was made from what lay so, there was nothing to tell of it, and every file of it lies as it was
    /// left. Nothing is read.
    #[must_use]
    pub fn is_as_left(&self, from: &Hash) -> bool {
        let same = self.record.from.as_ref() == Some(from);
        let published = self.published.as_ref().filter(|_| same);
        published.is_some_and(|site| site.files.par_iter().all(|(path, _)| self.lies(path)))
    }

    /// Remembers how what the site is made from lies now, where it was not known when the site was made: a file that was
    /// written just before may have been written once more. That it cannot be remembered costs only time.
    pub fn remember(&mut self, from: &Hash) {
        let Some(site) = &self.published else { return };
        if self.record.from.as_ref() != Some(from) && !self.record.files.is_empty() {
            self.record.from = Some(*from);
            let _ = store::keep_record(&self.places.sheets, site.fingerprint(), &self.record);
        }
    }

    /// True when the published file lies as it was left.
    pub(super) fn lies(&self, path: &str) -> bool {
        let left = self.record.files.get(path);
        left.is_some_and(|left| Lies::of(&self.places.ready.join(path)).as_ref() == Some(left))
    }

    /// Files that desktop systems had dropped into what a killed run left, by their paths in the workspace. They went
    /// with it.
    #[must_use]
    pub fn dropped(&self) -> &[String] {
        &self.dropped
    }

    /// Starts a new site beside the published one.
    pub fn stage(self) -> Result<Staging, PublishError> {
        Staging::new(self)
    }
}

impl Places {
    /// True when the published file has the bytes it was made with. A file that cannot be read is made again.
    pub(super) fn has(&self, path: &str, made: &FileDigest) -> bool {
        let path = self.ready.join(path);
        let same_length =
            fs::symlink_metadata(&path).is_ok_and(|found| found.is_file() && found.len() == made.bytes);
        same_length && FileDigest::of_file(&path).is_ok_and(|found| found == *made)
    }
}
