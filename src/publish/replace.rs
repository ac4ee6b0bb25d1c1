//! An entry with other bytes: the file is replaced whole or not at all, and only if it still is what was read.

use std::fs::{self, Metadata};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

use tempfile::NamedTempFile;

use super::begun::file_in;
use super::error::{Problem, PublishError};
use super::thing::no_file;

/// The new bytes of an entry, written beside it and not yet in its place. Removed when dropped. A run that is killed
/// leaves the entry as it was, and perhaps a file `.begun-…` beside it, which goes when something is written into that
/// folder again (`begun.rs`).
#[derive(Debug)]
pub struct Replacement {
    path: PathBuf,
    before: Vec<u8>,
    staged: NamedTempFile,
}

impl Replacement {
    /// Writes the new bytes of an entry, by its name in the workspace with `/`. Refuses an entry that does not have the
    /// bytes `before`, that may not be written, or that a link leads to. It keeps its permissions.
    ///
    /// # Errors
    /// When it is refused or cannot be written; the entry is as it was.
    pub fn stage(root: &Path, name: &str, before: &[u8], after: &[u8]) -> Result<Replacement, PublishError> {
        let path = path_of(root, name);
        let found = writable(root, &path)?;
        check_unchanged(&path, before)?;
        let staged = stage(&path, &found, after).map_err(PublishError::disk(&path))?;
        Ok(Replacement { path, before: before.to_vec(), staged })
    }

    /// Puts the new bytes in the place of the entry.
    ///
    /// # Errors
    /// When the entry was changed meanwhile, or cannot be replaced; it is as it was.
    pub fn put(self) -> Result<(), PublishError> {
        check_unchanged(&self.path, &self.before)?;
        self.staged.persist(&self.path).map_err(|error| PublishError::disk(&self.path)(error.error))?;
        Ok(())
    }
}

/// The path of an entry, by its name in the workspace.
pub(super) fn path_of(root: &Path, name: &str) -> PathBuf {
    name.split('/').fold(root.to_path_buf(), |path, part| path.join(part))
}

/// What the system knows of an entry, if it is a plain file in plain folders of the workspace that may be written.
pub(super) fn writable(root: &Path, path: &Path) -> Result<Metadata, PublishError> {
    refuse_links(root, path)?;
    let found = entry(path)?;
    match found.permissions().readonly() {
        true => Err(PublishError::disk(path)(ErrorKind::PermissionDenied.into())),
        false => Ok(found),
    }
}

/// Refuses a path with a link in it, as far as it exists. `content/` itself may be a link, as it is for whoever reads it.
pub(super) fn refuse_links(root: &Path, path: &Path) -> Result<(), PublishError> {
    let content = root.join("content");
    let mut at = root.to_path_buf();
    for part in path.strip_prefix(root).unwrap_or(path).components() {
        at.push(part);
        match fs::symlink_metadata(&at) {
            Ok(found) if found.is_symlink() && at != content => {
                return Err(PublishError::new(path, Problem::NoEntry("a link")));
            }
            Ok(_) => {}
            Err(error) if error.kind() == ErrorKind::NotFound => break,
            Err(error) => return Err(PublishError::disk(&at)(error)),
        }
    }
    Ok(())
}

fn entry(path: &Path) -> Result<Metadata, PublishError> {
    let found = fs::symlink_metadata(path).map_err(PublishError::disk(path))?;
    match no_file(&found) {
        Some(thing) => Err(PublishError::new(path, Problem::NoEntry(thing))),
        None => Ok(found),
    }
}

/// Refuses an entry that does not have the bytes `before`.
pub(super) fn check_unchanged(path: &Path, before: &[u8]) -> Result<(), PublishError> {
    entry(path)?;
    match fs::read(path).map_err(PublishError::disk(path))? == before {
        true => Ok(()),
        false => Err(PublishError::new(path, Problem::Changed)),
    }
}

fn stage(path: &Path, found: &Metadata, after: &[u8]) -> io::Result<NamedTempFile> {
    let folder = path.parent().unwrap_or(Path::new("."));
    let mut staged = file_in(folder, 0o600)?;
    staged.write_all(after)?;
    staged.as_file().set_permissions(found.permissions())?;
    staged.as_file().sync_all()?;
    Ok(staged)
}
