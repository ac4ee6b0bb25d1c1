//! What stands where a plain file is expected: whoever opens a pipe may wait for ever, and what a link leads to is
//! somebody else's.

use std::fs::{self, Metadata};
use std::io;
use std::path::Path;

use super::error::{Problem, PublishError};

/// A word for what is no plain file; links are not followed.
pub(super) fn no_file(found: &Metadata) -> Option<&'static str> {
    match found.file_type() {
        kind if kind.is_file() => None,
        kind if kind.is_symlink() => Some("a link"),
        kind if kind.is_dir() => Some("a folder"),
        _ => Some("a device"),
    }
}

/// Refuses to open what is no plain file, where the program keeps one of its own. True when there is one.
pub(super) fn is_own_file(path: &Path) -> Result<bool, PublishError> {
    match fs::symlink_metadata(path) {
        Ok(found) => match no_file(&found) {
            None => Ok(true),
            Some(thing) => Err(PublishError::new(path, Problem::NoFile(thing))),
        },
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(false),
        Err(error) => Err(PublishError::disk(path)(error)),
    }
}
