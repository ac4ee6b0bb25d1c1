//! New files and folders for authors: nothing is overwritten, and nothing is left half written.

use std::fs;
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

use super::begun::{Tree, folder_in, is_orphan};
use super::error::{Problem, PublishError};
use super::names;
use super::owner::first_entry;
use super::private::{Readers, begin};

/// Creates a file, and the folders above it. Never overwrites: refuses with [`Problem::Exists`].
pub fn write_new(path: &Path, bytes: &[u8]) -> Result<(), PublishError> {
    let parent = folder_of(path);
    fs::create_dir_all(parent).map_err(PublishError::disk(parent))?;
    write_new_in(parent, path, bytes, Readers::Everybody)
}

/// As above, in a folder that is there, for these readers.
pub(super) fn write_new_in(
    folder: &Path,
    path: &Path,
    bytes: &[u8],
    readers: Readers,
) -> Result<(), PublishError> {
    let write = || -> io::Result<()> {
        let mut file = begin(folder, readers)?;
        file.write_all(bytes)?;
        file.as_file().sync_all()?;
        file.persist_noclobber(path)?;
        Ok(())
    };
    write().map_err(|error| match error.kind() {
        ErrorKind::AlreadyExists => PublishError::new(path, Problem::Exists),
        _ => PublishError::disk(path)(error),
    })
}

/// Creates a folder with these files in it, by their paths with `/`. The folder must be missing or empty; all of it
/// appears, or nothing. The first file is the last to appear in a folder that was there before. What a killed run has
/// left of them counts as nothing, and goes.
pub fn create_new_folder_tree(folder: &Path, files: &[(String, Vec<u8>)]) -> Result<(), PublishError> {
    for (path, _) in files {
        names::check(path).map_err(|problem| PublishError::new(folder.join(path), problem))?;
    }
    match fs::metadata(folder) {
        Ok(found) if found.is_dir() => fill(folder, files),
        Ok(_) => Err(PublishError::new(folder, Problem::NotAFolder)),
        Err(error) if error.kind() == ErrorKind::NotFound => create(folder, files),
        Err(error) => Err(PublishError::disk(folder)(error)),
    }
}

/// The folder is missing: it is made under another name and renamed.
fn create(folder: &Path, files: &Tree) -> Result<(), PublishError> {
    let parent = folder_of(folder);
    fs::create_dir_all(parent)
        .and_then(|()| {
            let staged = folder_in(parent, files)?;
            write_all(staged.path(), files)?;
            fs::rename(staged.path(), folder)
        })
        .map_err(PublishError::disk(folder))
}

/// The folder is there and empty. It may be the one that a terminal stands in, so it is filled and not replaced.
fn fill(folder: &Path, files: &Tree) -> Result<(), PublishError> {
    if first_entry(folder, |entry| is_orphan(entry, files))?.is_some() {
        return Err(PublishError::new(folder, Problem::NotEmpty));
    }
    folder_in(folder, files)
        .and_then(|staged| {
            write_all(staged.path(), files)?;
            move_up(staged.path(), folder, files)
        })
        .map_err(PublishError::disk(folder))
}

/// Moves each file or folder at the top of `staged` into `folder`, the first in the list last. On an error what was
/// moved is removed again.
fn move_up(staged: &Path, folder: &Path, files: &Tree) -> io::Result<()> {
    let mut moved: Vec<PathBuf> = Vec::new();
    for (path, _) in files.iter().rev() {
        let top = path.split('/').next().unwrap_or(path);
        let to = folder.join(top);
        if moved.contains(&to) {
            continue;
        }
        if let Err(error) = fs::rename(staged.join(top), &to) {
            for made in moved {
                // The first error is the one to report.
                let _ = fs::remove_file(&made).or_else(|_| fs::remove_dir_all(&made));
            }
            return Err(error);
        }
        moved.push(to);
    }
    Ok(())
}

fn write_all(folder: &Path, files: &Tree) -> io::Result<()> {
    for (path, bytes) in files {
        let path = folder.join(path);
        fs::create_dir_all(folder_of(&path))?;
        fs::File::create_new(path)?.write_all(bytes)?;
    }
    Ok(())
}

fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(parent) if parent != Path::new("") => parent,
        _ => Path::new("."),
    }
}
