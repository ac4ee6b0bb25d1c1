//! The earlier states of entries: whole files in a hidden folder of the workspace, so that whoever has no program at hand
//! can still read one and copy it back. All of it may be deleted at any time.
//!
//! ```text
//! .steadyleaf/
//!   .gitignore      everything in here: among it is what people's profiles were
//!   lock            held while an entry is changed
//!   earlier/content/exercises/heel-drop.md/
//!     0001-2026-12-01T083000Z.md            what it was until then
//!     0002-2026-12-03T171512Z-deleted.md    what it was until it was deleted
//! ```
//!
//! A run that is killed leaves no state half written, and perhaps a file `.begun-…` (`begun.rs`).

use std::cmp::Reverse;
use std::fs::{self, DirBuilder, File};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

use jiff::Timestamp;
use jiff::civil::DateTime;
use jiff::tz::TimeZone;
use walkdir::WalkDir;

use super::error::{Problem, PublishError};
use super::fresh::write_new_in;
use super::owner::is_there;
use super::private::{Readers, begin};
use super::shelf::Lock;
use super::swap::settle_names;
use super::thing::is_own_file;
use crate::model::limits;
use crate::workspace::layout;

/// The program's own folder in a workspace.
pub(super) const HOME: &str = ".steadyleaf";

const EARLIER: &str = "earlier";

/// In UTC, and without colons: Windows allows none in a name.
const TIME: &str = "%Y-%m-%dT%H%M%SZ";
const DELETED: &str = "-deleted";

/// One state that an entry had.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Earlier {
    /// Counts up from 1 for each entry.
    pub number: u64,
    /// When it was replaced or deleted, to the second.
    pub until: Timestamp,
    /// The entry was deleted then. A killed run may have come no further than to keep what it was about to delete.
    pub gone: bool,
    /// How long it is.
    pub bytes: u64,
}

impl Earlier {
    /// The name of its file, which ends as the entry's does.
    fn file(&self, entry: &str) -> String {
        let until = self.until.strftime(TIME);
        let deleted = if self.gone { DELETED } else { "" };
        let ending = entry.rsplit_once('.').map_or("", |(_, ending)| ending);
        format!("{:04}-{until}{deleted}.{ending}", self.number)
    }

    /// What the name of a file says; `None` where it is not the name of a state of this entry.
    fn named(file: &str, entry: &str) -> Option<Earlier> {
        let (number, rest) = file.split_once('-')?;
        let (stem, _) = rest.rsplit_once('.')?;
        let until = stem.strip_suffix(DELETED);
        let time = DateTime::strptime(TIME, until.unwrap_or(stem)).ok()?;
        let earlier = Earlier {
            number: number.parse().ok()?,
            until: TimeZone::UTC.to_timestamp(time).ok()?,
            gone: until.is_some(),
            bytes: 0,
        };
        (earlier.file(entry) == file).then_some(earlier)
    }
}

/// The states of all entries of a workspace. Nothing is on the disk before the first is kept.
#[derive(Debug)]
pub(super) struct States {
    /// `.steadyleaf` in the workspace.
    home: PathBuf,
}

impl States {
    /// Refuses what is no plain folder where the states should be.
    pub(super) fn open(root: &Path) -> Result<States, PublishError> {
        let states = States { home: root.join(HOME) };
        states.folder([])?;
        Ok(states)
    }

    /// Waits until no other change of an entry is under way.
    pub(super) fn hold(&self) -> Result<Lock, PublishError> {
        make_folder(&self.home)?;
        self.ignore()?;
        let path = self.home.join("lock");
        is_own_file(&path)?;
        let file = private_file().open(&path).map_err(PublishError::disk(&path))?;
        match file.lock() {
            Ok(()) => Ok(Lock(file)),
            // Some network disks know no locks; one educator on one computer can do without.
            Err(error) if error.kind() == ErrorKind::Unsupported => Ok(Lock(file)),
            Err(error) => Err(PublishError::disk(&path)(error)),
        }
    }

    /// Keeps all states out of a repository, whatever the workspace's own list says.
    fn ignore(&self) -> Result<(), PublishError> {
        let path = self.home.join(".gitignore");
        if is_own_file(&path)? {
            return Ok(());
        }
        match write_new_in(&self.home, &path, b"*\n", Readers::Owner) {
            // Another run was faster.
            Err(PublishError { problem: Problem::Exists, .. }) => Ok(()),
            written => written,
        }
    }

    /// Keeps a state of an entry. Returns where it is.
    pub(super) fn keep(
        &self,
        entry: &str,
        bytes: &[u8],
        now: Timestamp,
        gone: bool,
    ) -> Result<PathBuf, PublishError> {
        let mut folder = self.home.clone();
        for part in [EARLIER].into_iter().chain(entry.split('/')) {
            folder.push(part);
            make_folder(&folder)?;
        }
        let number = self.of(entry)?.first().map_or(1, |last| last.number.saturating_add(1));
        let state = Earlier { number, until: now, gone, bytes: 0 };
        let path = folder.join(state.file(entry));
        let write = || -> io::Result<()> {
            let mut file = begin(&folder, Readers::Owner)?;
            file.write_all(bytes)?;
            file.as_file().sync_all()?;
            file.persist_noclobber(&path)?;
            Ok(())
        };
        write().map_err(PublishError::disk(&path))?;
        // Only a power cut would show that it could not.
        let _ = settle_names(&folder);
        Ok(path)
    }

    /// The states of an entry, the latest first.
    pub(super) fn of(&self, entry: &str) -> Result<Vec<Earlier>, PublishError> {
        let Some(folder) = self.folder(entry.split('/'))? else { return Ok(Vec::new()) };
        let read = || -> io::Result<Vec<Earlier>> {
            let mut states = Vec::new();
            for found in fs::read_dir(&folder)? {
                let found = found?;
                let name = found.file_name();
                let Some(state) = name.to_str().and_then(|name| Earlier::named(name, entry)) else {
                    continue;
                };
                match found.metadata() {
                    Ok(lies) if lies.is_file() => states.push(Earlier { bytes: lies.len(), ..state }),
                    Ok(_) => {}
                    // Another run has just removed it, as one of the oldest.
                    Err(error) if error.kind() == ErrorKind::NotFound => {}
                    Err(error) => return Err(error),
                }
            }
            states.sort_by_key(|state| Reverse(state.number));
            Ok(states)
        };
        read().map_err(unreadable(&folder))
    }

    /// The bytes of a state of an entry.
    pub(super) fn bytes(&self, entry: &str, number: u64) -> Result<Vec<u8>, PublishError> {
        let states = self.of(entry)?;
        let folder = entry.split('/').fold(self.home.join(EARLIER), |path, part| path.join(part));
        let Some(state) = states.iter().find(|state| state.number == number) else {
            return Err(unreadable(&folder.join(format!("{number:04}")))(ErrorKind::NotFound.into()));
        };
        let path = folder.join(state.file(entry));
        fs::read(&path).map_err(unreadable(&path))
    }

    /// Removes the oldest states of an entry beyond the limits, never the latest. What cannot be removed waits for the
    /// next time.
    pub(super) fn forget_oldest(&self, entry: &str) {
        let Ok(states) = self.of(entry) else { return };
        let Ok(Some(folder)) = self.folder(entry.split('/')) else { return };
        let mut bytes = 0;
        for (at, state) in states.iter().enumerate() {
            bytes += state.bytes;
            if at > 0 && (at >= limits::STATES || bytes > limits::STATES_BYTES) {
                let _ = fs::remove_file(folder.join(state.file(entry)));
            }
        }
    }

    /// The names of the entries that have a folder for their states, sorted.
    pub(super) fn entries(&self) -> Result<Vec<String>, PublishError> {
        let Some(folder) = self.folder([])? else { return Ok(Vec::new()) };
        let mut entries = Vec::new();
        for found in WalkDir::new(&folder).min_depth(1) {
            let found = found.map_err(|error| unreadable(&folder)(error.into()))?;
            let below = found.path().strip_prefix(&folder).unwrap_or(found.path());
            let parts: Option<Vec<&str>> = below.iter().map(|part| part.to_str()).collect();
            let name = parts.map(|parts| parts.join("/")).filter(|_| found.file_type().is_dir());
            entries.extend(name.filter(|name| layout::is_written(name)));
        }
        entries.sort();
        Ok(entries)
    }

    /// The folder for the states of an entry, by the parts of its name; `None` when it is not there. An error when
    /// something on the way is no plain folder.
    fn folder<'n>(&self, entry: impl IntoIterator<Item = &'n str>) -> Result<Option<PathBuf>, PublishError> {
        let mut folder = self.home.clone();
        for part in [EARLIER].into_iter().chain(entry) {
            if !is_there(&folder)? {
                return Ok(None);
            }
            folder.push(part);
        }
        Ok(is_there(&folder)?.then_some(folder))
    }
}

/// Makes a folder that only its owner can look into, where it is missing.
fn make_folder(folder: &Path) -> Result<(), PublishError> {
    if is_there(folder)? {
        return Ok(());
    }
    let mut builder = DirBuilder::new();
    #[cfg(unix)]
    std::os::unix::fs::DirBuilderExt::mode(&mut builder, 0o700);
    match builder.create(folder) {
        // Another run was faster.
        Err(error) if error.kind() == ErrorKind::AlreadyExists => {}
        made => made.map_err(PublishError::disk(folder))?,
    }
    let _ = settle_names(folder.parent().unwrap_or(folder));
    Ok(())
}

/// A file that is made where it is missing, for its owner alone.
fn private_file() -> fs::OpenOptions {
    let mut options = File::options();
    options.create(true).truncate(false).write(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    options
}

/// For `map_err` on a call that reads `path`.
fn unreadable(path: &Path) -> impl FnOnce(io::Error) -> PublishError {
    move |error| PublishError::new(path, Problem::Unreadable(error))
}
