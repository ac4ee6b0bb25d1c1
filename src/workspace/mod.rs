//! Finds and reads the files of a workspace: door 1 to the disk, and the only one that reads.
#![expect(clippy::disallowed_methods, reason = "this is the door through which files are read")]

mod clients;
pub mod layout;
pub mod sample;
pub mod theme;

use std::collections::BTreeSet;
use std::fmt;
use std::io::{self, Read, Seek};
use std::path::{Path, PathBuf};

use rayon::prelude::*;
use walkdir::WalkDir;

use crate::model::source::{FileId, Source, Sources};
pub use clients::{client, clients_in};
use layout::Kind;

/// The most text one entry may hold, in bytes. An entry is a few pages; more than this is a mistake.
const MOST_TEXT: u64 = 1_000_000;

/// Every text of a workspace, sorted by name.
#[derive(Debug, Default)]
pub struct Texts {
    pub sources: Sources,
    pub files: Vec<File>,
    /// Names of media and caption files, relative to `content/`.
    pub attachments: BTreeSet<String>,
}

/// One file of the workspace.
#[derive(Debug)]
pub struct File {
    pub id: FileId,
    pub kind: Kind,
    pub content: Content,
}

/// Whether a file's bytes could be read as text.
#[derive(Debug, PartialEq, Eq)]
pub enum Content {
    Text,
    Empty,
    /// Not UTF-8 from this byte on.
    NotText {
        offset: usize,
    },
    TooLarge {
        bytes: u64,
        most: u64,
    },
    Unreachable {
        why: String,
    },
    /// The file's name is not UTF-8.
    NameNotText,
}

/// The workspace could not be read at all.
#[derive(Debug)]
pub enum WorkspaceError {
    /// No `site.toml` here or in any folder above.
    NotFound {
        from: PathBuf,
    },
    /// The folder given with `--workspace` holds no `site.toml`.
    NoSite {
        folder: PathBuf,
    },
    /// The workspace has no folder `content/`.
    NoContent {
        folder: PathBuf,
    },
    Unreadable {
        path: PathBuf,
        why: io::Error,
    },
}

impl fmt::Display for WorkspaceError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            WorkspaceError::NotFound { from } => write!(
                f,
                "no site.toml in {} or in any folder above it; go to your workspace, name it with --workspace, or start one with `steadyleaf begin`",
                from.display()
            ),
            WorkspaceError::NoSite { folder } => write!(
                f,
                "{} holds no site.toml; name the folder of your workspace, or start one with `steadyleaf begin`",
                folder.display()
            ),
            WorkspaceError::NoContent { folder } => write!(
                f,
                "there is no folder content/ in {}; make it for the exercises, series and pages of the site",
                folder.display()
            ),
            WorkspaceError::Unreadable { path, why } => {
                write!(f, "{} cannot be read: {why}", path.display())
            }
        }
    }
}

impl std::error::Error for WorkspaceError {}

/// The nearest folder upward from `from` that holds a `site.toml`.
pub fn find(from: &Path) -> Result<PathBuf, WorkspaceError> {
    from.ancestors()
        .find(|folder| folder.join("site.toml").exists())
        .map(Path::to_path_buf)
        .ok_or_else(|| WorkspaceError::NotFound { from: from.to_path_buf() })
}

/// Reads `site.toml` and everything under `content/`. A file that cannot be read becomes a [`File`]
/// that says so; only a workspace without `site.toml` or a folder `content/` is an error.
pub fn read(root: &Path) -> Result<Texts, WorkspaceError> {
    if !root.join("site.toml").exists() {
        return Err(WorkspaceError::NoSite { folder: root.to_path_buf() });
    }
    let found = walk(root)?;
    let mut read: Vec<(String, Bytes)> = found
        .texts
        .into_par_iter()
        .map(|name| {
            let bytes = read_text(&root.join(&name));
            (name, bytes)
        })
        .collect();
    read.extend(found.unreadable);
    Ok(Texts::sorted(read, found.attachments))
}

/// Reads one text again that [`read`] has read before. `None` where only looking through the whole workspace tells
/// what has become of it: it is gone, or a link leads to it.
pub fn read_again(root: &Path, name: &str) -> Option<(String, Content)> {
    let path = root.join(name);
    let straight = path.canonicalize().ok()? == root.canonicalize().ok()?.join(name);
    (straight && path.is_file()).then(|| decode(read_text(&path)))
}

/// The bytes of one text as they are, with a byte-order mark where it has one, if they still say `text`.
///
/// # Errors
/// When they cannot be read.
pub fn bytes_of(root: &Path, name: &str, text: &str) -> io::Result<Option<Vec<u8>>> {
    let bytes = std::fs::read(root.join(name))?;
    let same = bytes.strip_prefix(BYTE_ORDER_MARK).unwrap_or(&bytes) == text.as_bytes();
    Ok(same.then_some(bytes))
}

/// What some editors put before a text in UTF-8. It is no part of the text.
pub const BYTE_ORDER_MARK: &[u8] = b"\xef\xbb\xbf";

/// True when the name, relative to the workspace, is that of a folder.
pub fn is_folder(root: &Path, name: &str) -> bool {
    root.join(name).is_dir()
}

/// What stands in a workspace, by name.
struct Found {
    texts: Vec<String>,
    unreadable: Vec<(String, Bytes)>,
    attachments: BTreeSet<String>,
}

/// Looks through `content/`. A link that leads nowhere, a loop of links or a folder that may not be
/// opened is a finding of its own and keeps nothing else from being read.
fn walk(root: &Path) -> Result<Found, WorkspaceError> {
    let content = root.join("content");
    if !content.is_dir() {
        return Err(WorkspaceError::NoContent { folder: root.to_path_buf() });
    }
    let mut found =
        Found { texts: vec!["site.toml".to_string()], unreadable: Vec::new(), attachments: BTreeSet::new() };
    let mut linked = false;
    let hidden = |path: &Path| relative(&content, path).is_some_and(|(name, _)| layout::is_hidden(&name));
    let walk = WalkDir::new(&content).sort_by_file_name().follow_links(true);
    for item in walk.into_iter().filter_entry(|item| !hidden(item.path())) {
        let item = match item {
            Ok(item) => item,
            Err(error) => {
                let path = error.path().unwrap_or(&content).to_path_buf();
                if path == content {
                    return Err(WorkspaceError::Unreadable { path, why: error.into() });
                }
                if !hidden(&path)
                    && let Some((name, _)) = relative(root, &path)
                {
                    found.unreadable.push((name, Bytes::Unreachable(reason(&error))));
                }
                continue;
            }
        };
        linked |= item.path_is_symlink();
        if !item.file_type().is_file() {
            continue;
        }
        let Some((name, utf8)) = relative(root, item.path()) else { continue };
        if linked && clients::holds(root, item.path()) {
            let why = "it is a link to clients/, and people's profiles never enter the site";
            found.unreadable.push((name, Bytes::Unreachable(why.to_string())));
            continue;
        }
        match (layout::kind(&name).is_some(), utf8) {
            (true, true) => found.texts.push(name),
            (true, false) => found.unreadable.push((name, Bytes::NameNotText)),
            // A link may lead out of the workspace, to what its owner never meant to publish.
            (false, true) if !linked || is_inside(root, item.path()) => {
                found.attachments.extend(name.strip_prefix("content/").map(str::to_string));
            }
            // Nothing can name a file whose name is no text.
            (false, _) => {}
        }
    }
    Ok(found)
}

/// Why a file or folder could not be had, without its path, which stands beside it already.
fn reason(error: &walkdir::Error) -> String {
    match (error.loop_ancestor(), error.io_error()) {
        (Some(_), _) => "it is a link to a folder that it stands in".to_string(),
        (None, Some(why)) => why.to_string(),
        (None, None) => "it cannot be read".to_string(),
    }
}

/// True when a path, its links followed, stays inside the workspace.
fn is_inside(root: &Path, path: &Path) -> bool {
    match (root.canonicalize(), path.canonicalize()) {
        (Ok(root), Ok(path)) => path.starts_with(root),
        _ => false,
    }
}

/// The bytes of one file below `content/`, such as a photo.
pub fn attachment(root: &Path, name: &str) -> io::Result<Vec<u8>> {
    std::fs::read(attachment_path(root, name))
}

/// Where a file below `content/` is.
pub fn attachment_path(root: &Path, name: &str) -> PathBuf {
    root.join("content").join(name)
}

/// A part of a file below `content/`, at most `most` bytes of it from byte `from` on, and how long the whole is. A
/// file that a link leads out of the workspace or to people's profiles is as good as not there.
///
/// # Errors
/// When it is not there or cannot be read.
pub fn attachment_part(root: &Path, name: &str, from: u64, most: u64) -> io::Result<(Vec<u8>, u64)> {
    let path = attachment_path(root, name);
    if !is_inside(root, &path) || clients::holds(root, &path) {
        return Err(io::ErrorKind::NotFound.into());
    }
    let mut file = std::fs::File::open(path)?;
    let whole = file.metadata()?.len();
    file.seek(io::SeekFrom::Start(from))?;
    let mut bytes = Vec::new();
    file.take(most).read_to_end(&mut bytes)?;
    Ok((bytes, whole))
}

/// The hash of a file below `content/`, however large, without holding it in memory.
pub fn attachment_hash(root: &Path, name: &str) -> io::Result<blake3::Hash> {
    let mut hasher = blake3::Hasher::new();
    hasher.update_reader(std::fs::File::open(attachment_path(root, name))?)?;
    Ok(hasher.finalize())
}

/// The bytes of the running program, which every output depends on.
pub fn program() -> io::Result<Vec<u8>> {
    std::fs::read(std::env::current_exe()?)
}

/// What could be had of a file.
pub enum Bytes {
    All(Vec<u8>),
    TooLarge(u64),
    Unreachable(String),
    NameNotText,
}

impl Bytes {
    /// All bytes of a file, if they are not too many for an entry.
    pub fn of(bytes: Vec<u8>) -> Bytes {
        match bytes.len() as u64 {
            length if length > MOST_TEXT => Bytes::TooLarge(length),
            _ => Bytes::All(bytes),
        }
    }
}

impl Texts {
    /// Sorts files into kinds. `files` are names relative to the workspace with `/`, in any order.
    pub fn sorted(mut files: Vec<(String, Bytes)>, attachments: BTreeSet<String>) -> Texts {
        files.sort_by(|a, b| a.0.cmp(&b.0));
        let mut texts = Texts { attachments, ..Texts::default() };
        for (name, bytes) in files {
            let kind = match (layout::kind(&name), &bytes) {
                (Some(kind), _) => kind,
                (None, Bytes::Unreachable(_)) => Kind::Stray { expected: layout::PLACES },
                (None, _) => continue,
            };
            if let Kind::Captions { name } = &kind {
                texts.attachments.insert(name.clone());
            }
            let (text, content) = decode(bytes);
            let id = texts.sources.add(Source::new(name, text));
            texts.files.push(File { id, kind, content });
        }
        texts
    }

    /// The file that holds the site's settings.
    pub fn site(&self) -> Option<&File> {
        self.files.iter().find(|f| f.kind == Kind::Site)
    }
}

fn decode(bytes: Bytes) -> (String, Content) {
    let bytes = match bytes {
        Bytes::All(bytes) => bytes,
        Bytes::TooLarge(bytes) => return (String::new(), Content::TooLarge { bytes, most: MOST_TEXT }),
        Bytes::NameNotText => return (String::new(), Content::NameNotText),
        Bytes::Unreachable(why) => return (String::new(), Content::Unreachable { why }),
    };
    let bytes = match bytes.strip_prefix(BYTE_ORDER_MARK) {
        Some(rest) => rest.to_vec(),
        None => bytes,
    };
    match String::from_utf8(bytes) {
        Ok(text) if text.trim().is_empty() => (text, Content::Empty),
        Ok(text) => (text, Content::Text),
        Err(error) => {
            let offset = error.utf8_error().valid_up_to();
            (String::from_utf8_lossy(error.as_bytes()).into_owned(), Content::NotText { offset })
        }
    }
}

fn read_text(path: &Path) -> Bytes {
    let read = || -> io::Result<Bytes> {
        // A pipe or a device gives what it gives, or keeps whoever opens it waiting.
        if !std::fs::metadata(path)?.is_file() {
            return Err(io::Error::other("it is a pipe or a device, and no file"));
        }
        let file = std::fs::File::open(path)?;
        let length = file.metadata()?.len();
        if length > MOST_TEXT {
            return Ok(Bytes::TooLarge(length));
        }
        let mut bytes = Vec::with_capacity(length as usize);
        // A file may grow while it is read, and some report no length at all.
        let taken = file.take(MOST_TEXT + 1).read_to_end(&mut bytes)? as u64;
        Ok(if taken > MOST_TEXT { Bytes::TooLarge(taken) } else { Bytes::All(bytes) })
    };
    read().unwrap_or_else(|e| Bytes::Unreachable(e.to_string()))
}

/// A path below `root` with `/` between folders, and whether all of it is UTF-8.
fn relative(root: &Path, path: &Path) -> Option<(String, bool)> {
    let path = path.strip_prefix(root).ok()?;
    let parts = path.components().map(|c| c.as_os_str().to_string_lossy());
    Some((parts.collect::<Vec<_>>().join("/"), path.to_str().is_some()))
}

#[cfg(test)]
mod tests;
