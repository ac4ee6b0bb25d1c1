//! The swap of the old site for the new one: one exchange of names, or two renames that can be put right.
//!
//! | killed after | `ready` | `.ready-new` | `.ready-old` | the next start |
//! | --- | --- | --- | --- | --- |
//! | staging, in part or whole | old | new | | removes `.ready-new` |
//! | the exchange | new | old | | removes `.ready-new` |
//! | `set_aside` | | new | old | puts `.ready-old` back, removes `.ready-new` |
//! | `move_in` | new | | old | retires `.ready-old`, removes `.ready-new` |
//! | `retire` | new | old, in part or whole | | removes `.ready-new` |
//!
//! Going back is always right, and needs no proof that the new site was whole: the next run makes it again. What is
//! removed bears that name, so `.ready-old` is always whole; the list that marks it as ours goes last.

use std::fs;
use std::io::{self, ErrorKind};
use std::path::Path;

use super::manifest::{MANIFEST, STAGED};
use super::places::Places;

/// How the names change places.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Way {
    /// In one step where the system can, else in two.
    Best,
    /// In two steps.
    #[cfg_attr(not(test), expect(dead_code, reason = "tests force the fallback"))]
    TwoRenames,
}

/// Puts the staged site in the place of the old one. On an error the old site is where it was.
pub(super) fn swap(places: &Places, way: Way) -> io::Result<()> {
    if !places.ready.exists() {
        return fs::rename(&places.new, &places.ready);
    }
    if way == Way::Best && exchange(places)? {
        return Ok(());
    }
    set_aside(places)?;
    move_in(places).inspect_err(|_| {
        // The first error is the one to report; the next start tries this again.
        let _ = put_back(places);
    })
}

/// False where the system or this file system cannot exchange two names.
#[cfg(any(target_os = "linux", target_os = "android", target_vendor = "apple"))]
fn exchange(places: &Places) -> io::Result<bool> {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    use rustix::io::Errno;
    match renameat_with(CWD, &places.new, CWD, &places.ready, RenameFlags::EXCHANGE) {
        Ok(()) => Ok(true),
        // A sandbox that does not know the call answers `PERM`; then the renames say what is really wrong.
        Err(Errno::NOSYS | Errno::INVAL | Errno::NOTSUP | Errno::PERM) => Ok(false),
        Err(error) => Err(error.into()),
    }
}

#[cfg(not(any(target_os = "linux", target_os = "android", target_vendor = "apple")))]
fn exchange(_: &Places) -> io::Result<bool> {
    Ok(false)
}

/// The first of the two renames.
pub(super) fn set_aside(places: &Places) -> io::Result<()> {
    fs::rename(&places.ready, &places.old)
}

/// The second of the two renames.
pub(super) fn move_in(places: &Places) -> io::Result<()> {
    fs::rename(&places.new, &places.ready)
}

fn put_back(places: &Places) -> io::Result<()> {
    fs::rename(&places.old, &places.ready)
}

/// Puts the old site back when a run was killed between the two renames; true when there was one. Only for an output
/// folder that is missing, or that somebody has made anew and left empty.
pub(super) fn recover(places: &Places) -> io::Result<bool> {
    let is_there = places.old.join(MANIFEST).exists();
    if is_there {
        discard(&places.ready)?;
        put_back(places)?;
    }
    Ok(is_there)
}

/// The old site is not wanted any more: from here on it is never put back. There must be none staged.
pub(super) fn retire(places: &Places) -> io::Result<()> {
    fs::rename(&places.old, &places.new)
}

/// Removes a folder of ours that is out of use; it need not be there.
pub(super) fn discard(folder: &Path) -> io::Result<()> {
    let entries = match fs::read_dir(folder) {
        Err(error) if error.kind() == ErrorKind::NotFound => return Ok(()),
        read => read?.collect::<io::Result<Vec<_>>>()?,
    };
    let is_list = |entry: &fs::DirEntry| [MANIFEST, STAGED].iter().any(|list| entry.file_name() == *list);
    // Without a list nothing tells that the folder is ours, so that one goes last.
    let (lists, others): (Vec<_>, Vec<_>) = entries.into_iter().partition(is_list);
    for entry in others.iter().chain(&lists) {
        match entry.file_type()?.is_dir() {
            true => fs::remove_dir_all(entry.path())?,
            false => fs::remove_file(entry.path())?,
        }
    }
    fs::remove_dir(folder)
}

/// Waits until what was written is on the disk, so that a power cut cannot leave a site with empty files. One call for
/// the whole file system takes 0.2 s for 6,250 files where a call for each file takes 3 s.
#[cfg(any(target_os = "linux", target_os = "android"))]
pub(super) fn settle(folder: &Path) -> io::Result<()> {
    Ok(rustix::fs::syncfs(fs::File::open(folder)?)?)
}

/// As above, where there is no call for one file system.
#[cfg(not(any(target_os = "linux", target_os = "android")))]
pub(super) fn settle(folder: &Path) -> io::Result<()> {
    #[cfg(unix)]
    rustix::fs::sync();
    fs::OpenOptions::new().write(true).open(folder.join(MANIFEST))?.sync_all()
}

/// Waits until the changed names are on the disk, before the old site is removed.
pub(super) fn settle_names(root: &Path) -> io::Result<()> {
    #[cfg(unix)]
    fs::File::open(root)?.sync_all()?;
    #[cfg(not(unix))]
    let _ = root;
    Ok(())
}
