//! Whose folder it is: the manifest marks the output folder as ours, and everything in it must be on that list. What a
//! run has left beside it has that list too, or the one of what was staged so far.

use std::collections::BTreeSet;
use std::ffi::OsStr;
use std::fs::{self, DirEntry};
use std::io::{self, ErrorKind};
use std::path::Path;

use walkdir::WalkDir;

use super::error::{Problem, PublishError};
use super::manifest::{MANIFEST, Manifest, STAGED};
use super::thing::is_own_file;

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

/// Files that desktop systems dropped into a folder of ours, by their paths in the workspace. They are no obstacle, but
/// are not kept when the folder goes.
pub(super) type Droppings = Vec<String>;

/// Looks at the output folder; an error when something in it is not ours. Changes nothing.
pub(super) fn inspect(ready: &Path) -> Result<(Ready, Droppings), PublishError> {
    if !is_there(ready)? {
        return Ok((Ready::Missing, Droppings::new()));
    }
    match read_manifest(ready)? {
        Some(manifest) => {
            let is_ours =
                |path: &str, entry: &walkdir::DirEntry| entry.file_type().is_file() && manifest.lists(path);
            let droppings = refuse_strays(ready, is_ours)?;
            Ok((Ready::Ours(manifest), droppings))
        }
        None => Ok((Ready::Empty, refuse_all(ready)?)),
    }
}

/// Looks at a folder beside the output folder, in which a run may have left a staged site or an old one; `None` when it
/// is not there. An error when something in it is not ours. Changes nothing.
pub(super) fn inspect_left(folder: &Path) -> Result<Option<Droppings>, PublishError> {
    if !is_there(folder)? {
        return Ok(None);
    }
    let staged = read_staged(folder)?;
    let manifest = match read_manifest(folder) {
        // The run may have been killed while it wrote the manifest.
        Err(_) if staged.is_some() => None,
        read => read?,
    };
    if staged.is_none() && manifest.is_none() {
        return refuse_all(folder).map(Some);
    }
    let is_ours = |path: &str, entry: &walkdir::DirEntry| {
        path == STAGED
            || path == MANIFEST
            || manifest.as_ref().is_some_and(|manifest| manifest.lists(path))
            // A power cut may leave files empty, and the list without their names: nothing is lost with them.
            || staged.as_ref().is_some_and(|staged| staged.contains(path) || is_empty(entry))
    };
    refuse_strays(folder, is_ours).map(Some)
}

/// False when there is nothing; an error when it is no folder.
pub(super) fn is_there(folder: &Path) -> Result<bool, PublishError> {
    match fs::symlink_metadata(folder) {
        Ok(found) if found.is_symlink() => Err(PublishError::new(folder, Problem::Link)),
        Ok(found) if !found.is_dir() => Err(PublishError::new(folder, Problem::NotAFolder)),
        Ok(_) => Ok(true),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(false),
        Err(error) => Err(PublishError::disk(folder)(error)),
    }
}

fn read_manifest(ready: &Path) -> Result<Option<Manifest>, PublishError> {
    let path = ready.join(MANIFEST);
    if !is_own_file(&path)? {
        return Ok(None);
    }
    let bytes = fs::read(&path).map_err(PublishError::disk(&path))?;
    match serde_json::from_slice(&bytes) {
        Ok(manifest) => Ok(Some(manifest)),
        Err(_) => Err(PublishError::new(path, Problem::BrokenManifest)),
    }
}

/// The paths of the files that a run has staged, if it had not come to the manifest.
fn read_staged(folder: &Path) -> Result<Option<BTreeSet<String>>, PublishError> {
    let path = folder.join(STAGED);
    if !is_own_file(&path)? {
        return Ok(None);
    }
    let bytes = fs::read(&path).map_err(PublishError::disk(&path))?;
    Ok(Some(bytes.split(|&b| b == 0).map(|path| String::from_utf8_lossy(path).into_owned()).collect()))
}

fn is_empty(entry: &walkdir::DirEntry) -> bool {
    entry.file_type().is_file() && entry.metadata().is_ok_and(|found| found.len() == 0)
}

/// Refuses the first file that is not ours, by its path in the folder. Folders without files are passed over: nothing is
/// lost with them.
fn refuse_strays(
    folder: &Path,
    is_ours: impl Fn(&str, &walkdir::DirEntry) -> bool,
) -> Result<Droppings, PublishError> {
    let mut droppings = Droppings::new();
    for entry in WalkDir::new(folder).min_depth(1).sort_by_file_name() {
        let entry = entry.map_err(|error| PublishError::disk(folder)(io::Error::from(error)))?;
        if entry.file_type().is_dir() {
            continue;
        }
        let path = relative(folder, entry.path());
        if is_ours(&path, &entry) {
            continue;
        }
        if !(entry.file_type().is_file() && is_dropping(entry.file_name())) {
            return Err(PublishError::new(folder, Problem::StrayFile(path)));
        }
        droppings.push(relative(folder.parent().unwrap_or(folder), entry.path()));
    }
    Ok(droppings)
}

/// For a folder that nothing marks as ours.
fn refuse_all(folder: &Path) -> Result<Droppings, PublishError> {
    match first_entry(folder, |_| false)? {
        Some(first) => Err(PublishError::new(folder, Problem::NotOurs(first))),
        None => refuse_strays(folder, |_, _| false),
    }
}

/// The first name in a folder, in the order of the alphabet; a desktop system's own files do not count, nor does what is
/// passed over.
pub(super) fn first_entry(
    folder: &Path,
    passed_over: impl Fn(&DirEntry) -> bool,
) -> Result<Option<String>, PublishError> {
    let read = || -> io::Result<Option<String>> {
        let mut names = Vec::new();
        for entry in fs::read_dir(folder)? {
            let entry = entry?;
            let name = entry.file_name();
            let is_dropped = entry.file_type()?.is_file() && is_dropping(&name);
            if !(is_dropped || passed_over(&entry)) {
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
