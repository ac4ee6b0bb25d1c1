//! Sheets outside the site: those of a person, which nobody else may read, and those that are nobody's.
//!
//! A run that is killed while it writes leaves the earlier sheet whole, and perhaps a file `.begun-…` beside it, which
//! goes when the next sheet is written there (`begun.rs`); that of a person is as private as the sheet.

use std::fs::{self, DirBuilder};
use std::io::{ErrorKind, Write};
use std::path::{Path, PathBuf};

use tempfile::NamedTempFile;

use super::begun::file_in;
use super::error::{Problem, PublishError};
use super::names;
use super::thing::no_file;

/// Writes a sheet of a person: on Unix only its owner can read it, from the first byte on and whatever the permissions
/// of an earlier one were, and only the owner can look into the folders that are made for it. Folders that are there
/// keep their permissions. On Windows it is as private as its folder.
///
/// The sheet appears whole, in the place of an earlier one. Refuses a name that leads out of the folder, and one where
/// a folder, a link or a device stands. Returns where the sheet is.
pub fn write_private(folder: &Path, name: &str, bytes: &[u8]) -> Result<PathBuf, PublishError> {
    write(folder, name, bytes, Readers::Owner)
}

/// Writes a sheet that is nobody's, as [`write_private`] does, with the permissions of any new file.
pub fn write_open(folder: &Path, name: &str, bytes: &[u8]) -> Result<PathBuf, PublishError> {
    write(folder, name, bytes, Readers::Everybody)
}

/// Who may read a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Readers {
    Owner,
    /// Whom the system gives new files to.
    Everybody,
}

fn write(folder: &Path, name: &str, bytes: &[u8], readers: Readers) -> Result<PathBuf, PublishError> {
    let path = folder.join(name);
    if !names::is_plain(name) {
        return Err(PublishError::new(path, Problem::NotAFileName));
    }
    make_folder(folder, readers)?;
    refuse_what_is_no_file(&path)?;
    begin(folder, readers)
        .and_then(|mut file| {
            file.write_all(bytes)?;
            file.as_file().sync_all()?;
            file.persist(&path)?;
            Ok(())
        })
        .map_err(PublishError::disk(&path))?;
    Ok(path)
}

/// The file that becomes the sheet. Removed when dropped.
pub(super) fn begin(folder: &Path, readers: Readers) -> std::io::Result<NamedTempFile> {
    let mode = match readers {
        Readers::Owner => 0o600,
        Readers::Everybody => 0o666,
    };
    file_in(folder, mode)
}

/// Makes a folder where it is missing, and those above it.
pub(super) fn make_folder(folder: &Path, readers: Readers) -> Result<(), PublishError> {
    let mut builder = DirBuilder::new();
    builder.recursive(true);
    #[cfg(unix)]
    if readers == Readers::Owner {
        std::os::unix::fs::DirBuilderExt::mode(&mut builder, 0o700);
    }
    #[cfg(not(unix))]
    let _ = readers;
    builder.create(folder).map_err(|error| match fs::symlink_metadata(folder) {
        // A link to a folder is one.
        Ok(found) if found.is_symlink() => PublishError::new(folder, Problem::Link),
        Ok(found) if !found.is_dir() => PublishError::new(folder, Problem::NotAFolder),
        _ => PublishError::disk(folder)(error),
    })
}

fn refuse_what_is_no_file(path: &Path) -> Result<(), PublishError> {
    match fs::symlink_metadata(path) {
        Ok(found) => match no_file(&found) {
            Some(thing) => Err(PublishError::new(path, Problem::InTheWay(thing))),
            None => Ok(()),
        },
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(()),
        Err(error) => Err(PublishError::disk(path)(error)),
    }
}
