//! What can go wrong when something is written, in one line that tells the educator what to do.

use std::fmt;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// Something could not be written. Its text is one line: what, where, and what to do.
#[derive(Debug)]
pub struct PublishError {
    /// The file or folder it is about.
    pub path: PathBuf,
    /// What is wrong with it.
    pub problem: Problem,
}

/// What is wrong with a file or folder that was to be written.
#[derive(Debug)]
pub enum Problem {
    /// The output folder holds things and no manifest of ours; the first of them.
    NotOurs(String),
    /// The output folder is ours, but its manifest cannot be read.
    BrokenManifest,
    /// The output folder is ours and this file in it, relative with `/`, is not.
    StrayFile(String),
    /// The output folder is a symbolic link.
    Link,
    /// A file stands where a folder should be.
    NotAFolder,
    /// Another run holds the lock.
    InUse,
    /// The path of an output leaves the output folder or cannot be a path everywhere.
    BadName,
    /// The output folder needs this name for itself.
    Reserved,
    /// Another output has the same name, or one that differs by the case of its letters only.
    SameName(String),
    /// An output failed before, so the staged site is not whole.
    Incomplete,
    /// The file is there and must not be overwritten.
    Exists,
    /// The folder for a new workspace holds something.
    NotEmpty,
    /// The name of a sheet leads out of its folder or cannot be a file's name everywhere.
    NotAFileName,
    /// Something that is no file stands where a sheet should be: `a folder`, `a link`.
    InTheWay(&'static str),
    /// Something that is no file stands where an entry should be, or on the way to it.
    NoEntry(&'static str),
    /// Something that is no file stands where publishing has a file of its own.
    NoFile(&'static str),
    /// The name is not that of anything that an author writes.
    NotAnEntry,
    /// The entry is not what was read any more.
    Changed,
    /// Handouts may not go there, as it is in this folder of the site.
    PartOfSite(&'static str),
    /// A file to be published cannot be read.
    Unreadable(io::Error),
    /// The disk said no.
    Disk(io::Error),
}

impl PublishError {
    pub(super) fn new(path: impl Into<PathBuf>, problem: Problem) -> Self {
        Self { path: path.into(), problem }
    }

    /// For `map_err` on a call about `path`.
    pub(super) fn disk(path: &Path) -> impl FnOnce(io::Error) -> Self {
        move |error| Self::new(path, Problem::Disk(error))
    }
}

impl fmt::Display for PublishError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // A name may hold line ends and worse.
        let path = self.path.display().to_string().replace(char::is_control, "\u{fffd}");
        match &self.problem {
            Problem::NotOurs(first) => write!(
                f,
                "`{path}` holds files that this program did not make (the first is `{first}`); move them elsewhere or delete the folder, then run again"
            ),
            Problem::BrokenManifest => write!(
                f,
                "`{path}` cannot be read, so this folder may not be ours; move or delete the folder that holds it, then run again"
            ),
            Problem::StrayFile(stray) => write!(
                f,
                "`{stray}` in `{path}` was not made by this program and would be lost; move it out of that folder, then run again"
            ),
            Problem::Link => {
                write!(f, "`{path}` is a link, where a folder is expected; remove the link, then run again")
            }
            Problem::NotAFolder => {
                write!(f, "`{path}` is a file, where a folder is expected; move or rename it, then run again")
            }
            Problem::InUse => {
                write!(f, "another run is writing into `{path}` now; wait until it has ended, then run again")
            }
            Problem::BadName => write!(
                f,
                "cannot make `{path}`: an output needs a plain path inside the output folder; rename the entry it is made from"
            ),
            Problem::Reserved => write!(
                f,
                "cannot make `{path}`: this name is kept for the lists of the files made; rename the entry it is made from"
            ),
            Problem::SameName(other) => write!(
                f,
                "cannot make `{path}` beside `{other}`: some computers take these names for the same; rename one of the entries"
            ),
            Problem::Incomplete => {
                write!(f, "`{path}` was left as it was, as one of the new files could not be made; run again")
            }
            Problem::Exists => write!(f, "`{path}` is there already and stays as it is; choose another name"),
            Problem::NotEmpty => {
                write!(f, "`{path}` is not empty and stays as it is; choose a new or an empty folder")
            }
            Problem::NotAFileName => write!(
                f,
                "cannot write `{path}`: the name of a handout holds no `/`, `\\` or `:` and does not end in a dot or a space; choose a plain one, such as `week-7.pdf`"
            ),
            Problem::InTheWay(thing) => write!(
                f,
                "`{path}` is {thing}, where a handout should be; move it elsewhere or choose another name, then run again"
            ),
            Problem::NoEntry(thing) => write!(
                f,
                "cannot change `{path}`: {thing} is there or on the way to it, and only plain files are changed; change the entry by hand"
            ),
            Problem::NoFile(thing) => write!(
                f,
                "`{path}` is {thing}, where this program keeps a file of its own; move it elsewhere or delete it, then run again"
            ),
            Problem::NotAnEntry => write!(
                f,
                "cannot change `{path}`: entries have names such as `content/exercises/heel-drop.md`; choose one of these"
            ),
            Problem::Changed => {
                write!(f, "`{path}` has just been changed by another program and stays as it is; run again")
            }
            Problem::PartOfSite(site) => write!(
                f,
                "no handouts can go into `{path}`: what is in `{site}` belongs to the site; choose a folder outside of it, such as `clients`"
            ),
            Problem::Unreadable(error) => write!(f, "cannot read `{path}`: {}", plain(error)),
            Problem::Disk(error) => write!(f, "cannot write `{path}`: {}", plain(error)),
        }
    }
}

impl std::error::Error for PublishError {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        match &self.problem {
            Problem::Unreadable(error) | Problem::Disk(error) => Some(error),
            _ => None,
        }
    }
}

/// The words of the system for the usual failures are not those of an educator.
fn plain(error: &io::Error) -> String {
    match error.kind() {
        ErrorKind::StorageFull => "the disk is full; free some space, then run again",
        ErrorKind::QuotaExceeded => "your share of the disk is used up; free some space, then run again",
        ErrorKind::ReadOnlyFilesystem => {
            "the disk is read-only; copy the workspace to a disk that can be written"
        }
        ErrorKind::PermissionDenied => {
            "this folder is read-only for you; change its permissions or work on a copy"
        }
        ErrorKind::NotADirectory => {
            "there is a file where a folder should be; move or rename that file, then run again"
        }
        ErrorKind::IsADirectory => {
            "there is a folder where a file should be; move or rename that folder, then run again"
        }
        ErrorKind::ResourceBusy => "another program holds it; close what has it open, then run again",
        ErrorKind::InvalidFilename => {
            "the name is too long or not allowed here; choose a shorter, simpler name"
        }
        ErrorKind::NotFound => "it is missing; put it back, then run again",
        _ => return one_line(&error.to_string()),
    }
    .to_owned()
}

fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
