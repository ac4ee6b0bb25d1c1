//! Whose output folder it is: the manifest marks it as ours, and everything in it must be on that list.

use std::ffi::OsStr;
use std::fs;
use std::io::{self, ErrorKind};
use std::path::Path;

use walkdir::WalkDir;

use super::error::{Problem, PublishError};
use super::manifest::{MANIFEST, Manifest};

/// What stands where the site is to be published.
#[derive(Debug)]
pub(super) enum Ready {
    /// Nothing.
    Missing,
    /// A folder that nobody put anything into.
    Empty,
    /// A site that this program made, with nothing else in it.
    Ours(Manifest),
}

/// Looks at the output folder; an error when something in it is not ours. Changes nothing.
pub(super) fn inspect(ready: &Path) -> Result<Ready, PublishError> {
    let kind = match fs::symlink_metadata(ready) {
        Ok(found) => found.file_type(),
        Err(error) if error.kind() == ErrorKind::NotFound => return Ok(Ready::Missing),
        Err(error) => return Err(PublishError::disk(ready)(error)),
    };
    if kind.is_symlink() {
        return Err(PublishError::new(ready, Problem::Link));
    }
    if !kind.is_dir() {
        return Err(PublishError::new(ready, Problem::NotAFolder));
    }
    match read_manifest(ready)? {
        Some(manifest) => {
            refuse_strays(ready, &manifest)?;
            Ok(Ready::Ours(manifest))
        }
        None => match first_entry(ready)? {
            Some(first) => Err(PublishError::new(ready, Problem::NotOurs(first))),
            None => Ok(Ready::Empty),
        },
    }
}

fn read_manifest(ready: &Path) -> Result<Option<Manifest>, PublishError> {
    let path = ready.join(MANIFEST);
    let bytes = match fs::read(&path) {
        Ok(bytes) => bytes,
        Err(error) if error.kind() == ErrorKind::NotFound => return Ok(None),
        Err(error) => return Err(PublishError::disk(&path)(error)),
    };
    match serde_json::from_slice(&bytes) {
        Ok(manifest) => Ok(Some(manifest)),
        Err(_) => Err(PublishError::new(path, Problem::BrokenManifest)),
    }
}

/// Folders without files are passed over: nothing is lost with them.
fn refuse_strays(ready: &Path, manifest: &Manifest) -> Result<(), PublishError> {
    for entry in WalkDir::new(ready).min_depth(1).sort_by_file_name() {
        let entry = entry.map_err(|error| PublishError::disk(ready)(io::Error::from(error)))?;
        if entry.file_type().is_dir() || is_dropping(entry.file_name()) {
            continue;
        }
        let path = relative(ready, entry.path());
        let listed = path == MANIFEST || manifest.files.contains_key(&path);
        if !(listed && entry.file_type().is_file()) {
            return Err(PublishError::new(ready, Problem::StrayFile(path)));
        }
    }
    Ok(())
}

/// The first name in a folder, in the order of the alphabet; a desktop system's own files do not count.
pub(super) fn first_entry(folder: &Path) -> Result<Option<String>, PublishError> {
    let read = || -> io::Result<Option<String>> {
        let mut names = Vec::new();
        for entry in fs::read_dir(folder)? {
            let name = entry?.file_name();
            if !is_dropping(&name) {
                names.push(name.to_string_lossy().into_owned());
            }
        }
        Ok(names.into_iter().min())
    };
    read().map_err(PublishError::disk(folder))
}

fn relative(base: &Path, path: &Path) -> String {
    let parts = path.strip_prefix(base).unwrap_or(path).iter();
    let parts: Vec<_> = parts.map(OsStr::to_string_lossy).collect();
    parts.join("/")
}

/// Files that desktop systems leave in every folder that is looked at.
fn is_dropping(name: &OsStr) -> bool {
    let name = name.to_string_lossy().to_lowercase();
    matches!(name.as_str(), ".ds_store" | "thumbs.db" | "desktop.ini" | ".directory")
        || name.starts_with("._")
}
