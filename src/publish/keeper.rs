//! Changes of entries, none of which loses what an entry was: that is kept first (`earlier.rs`), and what cannot be kept
//! is not changed.

use std::fs;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

use jiff::Timestamp;

use super::earlier::{Earlier, States};
use super::error::{Problem, PublishError};
use super::fresh::{write_new, write_new_in};
use super::names;
use super::private::{Readers, make_folder};
use super::replace::{Replacement, check_unchanged, path_of, refuse_links, writable};
use crate::workspace::layout;

/// Changes the entries of a workspace, and people's profiles, and keeps their earlier states. Entries go by their names
/// in the workspace with `/`; any other name is refused, and so is a link on the way to an entry, but for `content/`
/// itself.
///
/// A run that is killed leaves an entry as it was or wholly new, and what it was is kept before it is changed; it may be
/// kept although nothing has changed. Two programs that change entries through this one wait for each other.
#[derive(Debug)]
pub struct Keeper {
    root: PathBuf,
    states: States,
}

impl Keeper {
    /// For the workspace in this folder. Changes nothing.
    ///
    /// # Errors
    /// When something else stands where the folder of the earlier states should be.
    pub fn open(root: &Path) -> Result<Keeper, PublishError> {
        Ok(Keeper { root: root.to_owned(), states: States::open(root)? })
    }

    /// Replaces an entry if it still has the bytes `before`, which are kept. With equal bytes nothing happens at all. It
    /// keeps its permissions.
    ///
    /// # Errors
    /// When the entry has other bytes, or may not be written, or when what it was cannot be kept; it is as it was.
    pub fn replace(
        &self,
        name: &str,
        before: &[u8],
        after: &[u8],
        now: Timestamp,
    ) -> Result<(), PublishError> {
        check(name)?;
        if before == after {
            return Ok(());
        }
        let replacement = Replacement::stage(&self.root, name, before, after)?;
        self.change(name, before, now, false, || replacement.put())
    }

    /// Writes a new entry, with the folders above it. Only the owner can read a new profile.
    ///
    /// # Errors
    /// When something is there already, which stays as it is, or when it cannot be written.
    pub fn create(&self, name: &str, bytes: &[u8]) -> Result<(), PublishError> {
        let path = check(name).map(|()| path_of(&self.root, name))?;
        refuse_links(&self.root, &path)?;
        match path.parent() {
            Some(folder) if layout::is_profile(name) => {
                make_folder(folder, Readers::Owner)?;
                write_new_in(folder, &path, bytes, Readers::Owner)
            }
            _ => write_new(&path, bytes),
        }
    }

    /// Takes an entry away if it still has the bytes `before`, which are kept.
    ///
    /// # Errors
    /// When the entry has other bytes, or may not be written, or when what it was cannot be kept; it is as it was.
    pub fn remove(&self, name: &str, before: &[u8], now: Timestamp) -> Result<(), PublishError> {
        let path = check(name).map(|()| path_of(&self.root, name))?;
        writable(&self.root, &path)?;
        check_unchanged(&path, before)?;
        self.change(name, before, now, true, || {
            check_unchanged(&path, before)?;
            fs::remove_file(&path).map_err(PublishError::disk(&path))
        })
    }

    /// Keeps what an entry was, then changes it. What is not changed is not kept either.
    pub(super) fn change(
        &self,
        name: &str,
        before: &[u8],
        now: Timestamp,
        gone: bool,
        change: impl FnOnce() -> Result<(), PublishError>,
    ) -> Result<(), PublishError> {
        let _lock = self.states.hold()?;
        let kept = self.states.keep(name, before, now, gone)?;
        change().inspect_err(|_| {
            // The first error is the one to report.
            let _ = fs::remove_file(&kept);
        })?;
        self.states.forget_oldest(name);
        Ok(())
    }

    /// The states that an entry had, the latest first: at most 100, and 10 MB in all.
    ///
    /// # Errors
    /// When they cannot be listed.
    pub fn earlier(&self, name: &str) -> Result<Vec<Earlier>, PublishError> {
        check(name)?;
        self.states.of(name)
    }

    /// The bytes that an entry had in a state of that number.
    ///
    /// # Errors
    /// When there is no such state (any more), or it cannot be read.
    pub fn bytes(&self, name: &str, number: u64) -> Result<Vec<u8>, PublishError> {
        check(name)?;
        self.states.bytes(name, number)
    }

    /// The names of entries that were deleted and are not there again, sorted. Their last state is kept.
    ///
    /// # Errors
    /// When the states cannot be listed.
    pub fn gone(&self) -> Result<Vec<String>, PublishError> {
        let mut gone = Vec::new();
        for name in self.states.entries()? {
            let was_deleted = self.states.of(&name)?.first().is_some_and(|last| last.gone);
            if was_deleted && is_missing(&path_of(&self.root, &name)) {
                gone.push(name);
            }
        }
        Ok(gone)
    }
}

/// Refuses the name of anything but an entry or a profile, and one that some system reads in another way.
fn check(name: &str) -> Result<(), PublishError> {
    match layout::is_written(name) && name.split('/').all(names::is_plain) {
        true => Ok(()),
        false => Err(PublishError::new(name, Problem::NotAnEntry)),
    }
}

fn is_missing(path: &Path) -> bool {
    fs::symlink_metadata(path).is_err_and(|error| error.kind() == ErrorKind::NotFound)
}
