//! Files and folders with a temporary name, `.begun-…`, until they are whole; and what killed runs have left of them.
//!
//! Whoever writes one holds a lock on it, which the system takes back when the run ends, however it ends. One whose
//! lock can be had is nobody's any more: it goes when something is written into its folder again. Other names are never
//! touched.

use std::ffi::OsStr;
use std::fs::{self, DirEntry, File, TryLockError};
use std::io;
use std::path::Path;

use tempfile::{Builder, NamedTempFile, TempDir};
use walkdir::WalkDir;

/// How such a name begins, and how many letters and digits follow.
const PREFIX: &str = ".begun-";
const RANDOM: usize = 6;

/// How often a name is made anew that another run took for an orphan in the moment before it was locked.
const TRIES: usize = 20;

/// Files with their bytes, by their paths with `/`.
pub(super) type Tree = [(String, Vec<u8>)];

/// A folder with a temporary name, locked. Removed when dropped, unless it was renamed.
#[derive(Debug)]
pub(super) struct BegunFolder {
    folder: TempDir,
    /// `None` where a folder cannot be locked. Given back after the folder is gone.
    lock: Option<File>,
}

impl BegunFolder {
    pub(super) fn path(&self) -> &Path {
        self.folder.path()
    }
}

/// A new file in a folder, locked, from which orphans are removed first. Removed when dropped, unless it was renamed.
pub(super) fn file_in(folder: &Path, mode: u32) -> io::Result<NamedTempFile> {
    sweep(folder, &[]);
    let mut file = temporary(mode).tempfile_in(folder)?;
    for _ in 0..TRIES {
        if is_held(file.as_file(), file.path()) {
            break;
        }
        file = temporary(mode).tempfile_in(folder)?;
    }
    Ok(file)
}

/// A new folder in a folder for these files, locked. Orphans are removed first.
pub(super) fn folder_in(parent: &Path, files: &Tree) -> io::Result<BegunFolder> {
    sweep(parent, files);
    let begin = || -> io::Result<BegunFolder> {
        let folder = temporary(0o777).tempdir_in(parent)?;
        let lock = open_folder(folder.path());
        Ok(BegunFolder { folder, lock })
    };
    let mut begun = begin()?;
    for _ in 0..TRIES {
        if begun.lock.as_ref().is_none_or(|lock| is_held(lock, begun.path())) {
            break;
        }
        begun = begin()?;
    }
    Ok(begun)
}

/// A temporary name, whose file is not private as temporary files are, but as readable as any new file.
pub(super) fn temporary(mode: u32) -> Builder<'static, 'static> {
    let mut builder = Builder::new();
    builder.prefix(PREFIX).rand_bytes(RANDOM);
    #[cfg(unix)]
    builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(mode));
    #[cfg(not(unix))]
    let _ = mode;
    builder
}

/// True for a file that a killed run has left, and for a folder that one has left which holds none but these files,
/// in part or whole.
pub(super) fn is_orphan(entry: &DirEntry, files: &Tree) -> bool {
    orphan(entry, files).is_some()
}

/// Removes orphans; what cannot be removed waits for the next time.
fn sweep(folder: &Path, files: &Tree) {
    let Ok(entries) = fs::read_dir(folder) else { return };
    for entry in entries.filter_map(Result::ok) {
        // Its lock is held until it is gone.
        if let Some(lock) = orphan(&entry, files) {
            let path = entry.path();
            let _ = if entry.file_type().is_ok_and(|kind| kind.is_dir()) {
                fs::remove_dir_all(path)
            } else {
                fs::remove_file(path)
            };
            drop(lock);
        }
    }
}

/// The orphan, locked.
fn orphan(entry: &DirEntry, files: &Tree) -> Option<File> {
    if !is_temporary(&entry.file_name()) {
        return None;
    }
    let path = entry.path();
    let kind = entry.file_type().ok()?;
    let lock = if kind.is_file() {
        File::options().write(true).open(&path).ok()?
    } else if kind.is_dir() {
        open_folder(&path)?
    } else {
        return None;
    };
    lock.try_lock().ok()?;
    (kind.is_file() || holds_only(&path, files)).then_some(lock)
}

/// Takes the lock of what was just made. False when somebody who sweeps was faster.
fn is_held(lock: &File, path: &Path) -> bool {
    match lock.try_lock() {
        Ok(()) => fs::symlink_metadata(path).is_ok(),
        Err(TryLockError::WouldBlock) => false,
        // Where there are no locks, nobody takes it for an orphan.
        Err(TryLockError::Error(_)) => true,
    }
}

/// The folder, to lock it; `None` where the system locks files only.
#[cfg(unix)]
fn open_folder(folder: &Path) -> Option<File> {
    File::open(folder).ok()
}

#[cfg(not(unix))]
fn open_folder(_: &Path) -> Option<File> {
    None
}

fn is_temporary(name: &OsStr) -> bool {
    let random = name.to_str().and_then(|name| name.strip_prefix(PREFIX));
    random.is_some_and(|random| random.len() == RANDOM && random.bytes().all(|b| b.is_ascii_alphanumeric()))
}

fn holds_only(folder: &Path, files: &Tree) -> bool {
    let is_ours = |path: &Path| files.iter().any(|(name, _)| folder.join(name) == path);
    WalkDir::new(folder).into_iter().all(|entry| {
        entry.is_ok_and(|e| e.file_type().is_dir() || (e.file_type().is_file() && is_ours(e.path())))
    })
}
