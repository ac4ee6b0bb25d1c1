//! The output folder of a workspace, opened by one run at a time.

use std::fs::{self, File, TryLockError};
use std::io::ErrorKind;
use std::path::Path;
use std::sync::Arc;

use blake3::Hash;
use rayon::prelude::*;

use super::error::{Problem, PublishError};
use super::manifest::{Made, Manifest};
use super::owner::{Ready, inspect};
use super::places::Places;
use super::staging::Staging;
use super::swap;

/// The output folder, locked for this run.
#[derive(Debug)]
pub struct Shelf {
    pub(super) places: Places,
    /// What is published now, if anything is.
    pub(super) published: Option<Manifest>,
    pub(super) lock: Arc<Lock>,
}

/// Held, not read, by the shelf and by the store that is from it. The system gives it back when the run ends, however
/// it ends.
#[derive(Debug)]
pub(super) struct Lock(File);

impl Drop for Lock {
    /// Closing is not enough: a program started meanwhile has the same open file until it is under way.
    fn drop(&mut self) {
        let _ = self.0.unlock();
    }
}

/// Opens `ready/` in the workspace: takes the lock, refuses a folder that this program did not make or that holds other
/// files, puts right what a killed run left behind.
pub fn open(workspace_root: &Path) -> Result<Shelf, PublishError> {
    let places = Places::of(workspace_root);
    let lock = lock(&places)?;
    let mut found = inspect(&places.ready)?;
    if !matches!(found, Ready::Ours(_)) {
        swap::recover(&places).map_err(PublishError::disk(&places.ready))?;
        found = inspect(&places.ready)?;
    }
    for stale in [&places.new, &places.old] {
        if fs::symlink_metadata(stale).is_ok_and(|found| !found.is_dir()) {
            return Err(PublishError::new(stale, Problem::NotAFolder));
        }
        swap::discard(stale).map_err(PublishError::disk(stale))?;
    }
    Ok(Shelf {
        places,
        published: match found {
            Ready::Ours(manifest) => Some(manifest),
            Ready::Missing | Ready::Empty => None,
        },
        lock: Arc::new(lock),
    })
}

fn lock(places: &Places) -> Result<Lock, PublishError> {
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
    /// True when the site was made from these inputs and every file of it still has the bytes it was made with. Reads
    /// every file, on all cores.
    #[must_use]
    pub fn is_current(&self, fingerprint: &Hash) -> bool {
        let Some(published) = &self.published else {
            return false;
        };
        published.is_from(fingerprint)
            && published.files.par_iter().all(|(path, made)| self.places.has(path, made))
    }

    /// Starts a new site beside the published one.
    pub fn stage(self) -> Result<Staging, PublishError> {
        Staging::new(self)
    }
}

impl Places {
    /// True when the published file has the bytes it was made with. A file that cannot be read is made again.
    pub(super) fn has(&self, path: &str, made: &Made) -> bool {
        let path = self.ready.join(path);
        let same_length =
            fs::symlink_metadata(&path).is_ok_and(|found| found.is_file() && found.len() == made.bytes);
        same_length && Made::of_file(&path).is_ok_and(|found| found == *made)
    }
}
