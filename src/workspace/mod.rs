//! Finds and reads the files of a workspace: door 1 to the disk, and the only one that reads.
#![expect(clippy::disallowed_methods, reason = "this is the door through which files are read")]

mod clients;
pub mod layout;
mod lies;
mod links;
pub mod sample;
pub mod theme;
pub(crate) mod video;

use std::collections::BTreeSet;
use std::fmt;
use std::io::{self, Read};
use std::path::{Path, PathBuf};

use rayon::prelude::*;
use walkdir::WalkDir;

use crate::model::limits;
use crate::model::source::{FileId, Source, Sources};
pub use clients::{client, clients_at};
use layout::FileKind;
pub use lies::lies;

/// Every text of a workspace, sorted by name.
#[derive(Debug, Default)]
pub struct Texts {
    pub sources: Sources,
    pub files: Vec<File>,
    /// Names of media and caption files, relative to `content/`.
    pub attachments: BTreeSet<String>,
    /// Those of them whose hidden data say where they were filmed or recorded.
    pub positions: BTreeSet<String>,
}

/// One file of the workspace.
#[derive(Debug)]
pub struct File {
    pub id: FileId,
    pub kind: FileKind,
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
    let positions = positions(root, &found.attachments);
    Ok(Texts { positions, ..Texts::sorted(read, found.attachments) })
}

/// Reads one text again that [`read`] has read before. `None` where only looking through the whole workspace tells
/// what has become of it: it is gone, or a link leads to it. That `content/` itself is a link makes no difference.
pub fn read_again(root: &Path, name: &str) -> Option<(String, Content)> {
    let path = root.join(name);
    let straight = match name.strip_prefix("content/") {
        Some(below) => root.join("content").canonicalize().ok()?.join(below),
        None => root.canonicalize().ok()?.join(name),
    };
    (links::settle(root, &path).ok()? == straight && path.is_file()).then(|| decode(read_text(&path)))
}

/// The bytes of one text as they are, with a byte-order mark where it has one, if they still say `text`.
///
/// # Errors
/// When they cannot be read.
pub fn bytes_of(root: &Path, name: &str, text: &str) -> io::Result<Option<Vec<u8>>> {
    let mut bytes = Vec::new();
    open_file(&root.join(name))?.read_to_end(&mut bytes)?;
    let same = bytes.strip_prefix(BYTE_ORDER_MARK).unwrap_or(&bytes) == text.as_bytes();
    Ok(same.then_some(bytes))
}

/// What some editors put before a text in UTF-8. It is no part of the text.
pub const BYTE_ORDER_MARK: &[u8] = b"\xef\xbb\xbf";

/// The way to a workspace without links, as the system tells of changes in it.
///
/// # Errors
/// When it is not there.
pub fn without_links(root: &Path) -> io::Result<PathBuf> {
    root.canonicalize()
}

/// True when the name, relative to the workspace, is that of a folder.
pub fn is_folder(root: &Path, name: &str) -> bool {
    root.join(name).is_dir()
}

/// What stands in a workspace, by name.
struct FoundFiles {
    texts: Vec<String>,
    unreadable: Vec<(String, Bytes)>,
    attachments: BTreeSet<String>,
}

/// Looks through `content/`. A link that leads nowhere or out of the workspace, a loop of links, a folder that may not
/// be opened, a pipe or a device is a finding of its own and keeps nothing else from being read.
fn walk(root: &Path) -> Result<FoundFiles, WorkspaceError> {
    let content = root.join("content");
    if !content.is_dir() {
        return Err(WorkspaceError::NoContent { folder: root.to_path_buf() });
    }
    let mut found = FoundFiles {
        texts: vec!["site.toml".to_string()],
        unreadable: Vec::new(),
        attachments: BTreeSet::new(),
    };
    let mut linked = false;
    let hidden = |path: &Path| relative(&content, path).is_some_and(|(name, _)| layout::is_hidden(&name));
    let walk = WalkDir::new(&content).sort_by_file_name().follow_links(true);
    let mut walk = walk.into_iter().filter_entry(|item| !hidden(item.path()));
    while let Some(item) = walk.next() {
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
        let Some((name, utf8)) = relative(root, item.path()) else { continue };
        let is_folder = item.file_type().is_dir();
        linked |= item.path_is_symlink();
        // Below a link to a folder that holds them all, the profiles are a folder and no link.
        if (item.path_is_symlink() || (linked && is_folder))
            && let Err(why) = links::settle(root, item.path())
        {
            found.unreadable.push((name, Bytes::Unreachable(why.to_string())));
            if is_folder {
                walk.skip_current_dir();
            }
            continue;
        }
        if is_folder {
            continue;
        }
        if !item.file_type().is_file() {
            found.unreadable.push((name, Bytes::Unreachable(NO_FILE.to_string())));
            continue;
        }
        match (layout::kind(&name).is_some(), utf8) {
            (true, true) => found.texts.push(name),
            (true, false) => found.unreadable.push((name, Bytes::NameNotText)),
            (false, true) => {
                found.attachments.extend(name.strip_prefix("content/").map(str::to_string));
            }
            // Nothing can name a file whose name is no text.
            (false, false) => {}
        }
    }
    Ok(found)
}

/// Why a file or folder could not be had, without its path, which stands beside it already.
fn reason(error: &walkdir::Error) -> String {
    match (error.loop_ancestor(), error.io_error()) {
        (Some(_), _) => "it is a link to a folder that it is in".to_string(),
        (None, Some(why)) => why.to_string(),
        (None, None) => "it cannot be read".to_string(),
    }
}

/// Those videos and recordings whose hidden data say where they were made. One that cannot be read says nothing.
fn positions(root: &Path, attachments: &BTreeSet<String>) -> BTreeSet<String> {
    let videos = attachments.par_iter().filter(|name| video::is_looked_at(name));
    let says = |name: &&String| attachment_file(root, name).is_ok_and(|(file, _)| video::says_where(file));
    videos.filter(says).cloned().collect()
}

/// The bytes of a photo below `content/`.
///
/// # Errors
/// As [`attachment_file`]; when it is larger than a camera's photos are.
pub fn photo(root: &Path, name: &str) -> io::Result<Vec<u8>> {
    match read_whole(&links::settle(root, &attachment_path(root, name))?, limits::PHOTO)? {
        Ok(bytes) => Ok(bytes),
        Err(bytes) => {
            let (has, most) = (bytes as f64 / 1e6, limits::PHOTO as f64 / 1e6);
            Err(io::Error::other(format!("it has {has:.1} MB, expected at most {most:.0} MB")))
        }
    }
}

/// Where a file below `content/` is.
pub fn attachment_path(root: &Path, name: &str) -> PathBuf {
    root.join("content").join(name)
}

/// A file below `content/`, open, and how many bytes it has.
///
/// # Errors
/// When it is not there or cannot be read; when a link leads from there out of the workspace or to people's profiles;
/// when it is no file.
pub fn attachment_file(root: &Path, name: &str) -> io::Result<(std::fs::File, u64)> {
    let file = open_file(&links::settle(root, &attachment_path(root, name))?)?;
    let whole = file.metadata()?.len();
    Ok((file, whole))
}

/// The hash of a file below `content/`, however large, without holding it in memory.
///
/// # Errors
/// As [`attachment_file`].
pub fn attachment_hash(root: &Path, name: &str) -> io::Result<blake3::Hash> {
    let mut hasher = blake3::Hasher::new();
    hasher.update_reader(attachment_file(root, name)?.0)?;
    Ok(hasher.finalize())
}

/// The hash of the running program, which every output depends on.
pub fn program() -> io::Result<blake3::Hash> {
    let mut hasher = blake3::Hasher::new();
    hasher.update_reader(std::fs::File::open(std::env::current_exe()?)?)?;
    Ok(hasher.finalize())
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
            length if length > limits::TEXT => Bytes::TooLarge(length),
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
                (None, Bytes::Unreachable(_)) => FileKind::Stray { expected: layout::PLACES },
                (None, _) => continue,
            };
            if let FileKind::Captions { name } = &kind {
                texts.attachments.insert(name.clone());
            }
            let (mut text, content) = decode(bytes);
            if matches!(kind, FileKind::Aside { .. }) && content != Content::Text {
                // What a word processor writes is no text to point at.
                text.clear();
            }
            let id = texts.sources.add(Source::new(name, text));
            texts.files.push(File { id, kind, content });
        }
        texts
    }

    /// The file that holds the site's settings.
    pub fn site(&self) -> Option<&File> {
        self.files.iter().find(|f| f.kind == FileKind::Site)
    }
}

/// The text in these bytes, and whether they are one.
pub(crate) fn decode(bytes: Bytes) -> (String, Content) {
    let bytes = match bytes {
        Bytes::All(bytes) => bytes,
        Bytes::TooLarge(bytes) => return (String::new(), Content::TooLarge { bytes, most: limits::TEXT }),
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
    match read_whole(path, limits::TEXT) {
        Ok(Ok(bytes)) => Bytes::All(bytes),
        Ok(Err(bytes)) => Bytes::TooLarge(bytes),
        Err(error) => Bytes::Unreachable(error.to_string()),
    }
}

/// All bytes of a file, or how many it has at least where these are more than `most`.
fn read_whole(path: &Path, most: u64) -> io::Result<Result<Vec<u8>, u64>> {
    let file = open_file(path)?;
    let length = file.metadata()?.len();
    if length > most {
        return Ok(Err(length));
    }
    let mut bytes = Vec::with_capacity(length as usize);
    // A file may grow while it is read, and some report no length at all.
    let taken = file.take(most + 1).read_to_end(&mut bytes)? as u64;
    Ok(if taken > most { Err(taken) } else { Ok(bytes) })
}

/// Why something is not opened: a pipe or a device gives what it gives, or keeps whoever opens it waiting.
const NO_FILE: &str = "it is a pipe or a device, and no file";

fn open_file(path: &Path) -> io::Result<std::fs::File> {
    let found = std::fs::metadata(path)?;
    match (found.is_file(), found.is_dir()) {
        (true, _) => std::fs::File::open(path),
        (_, true) => Err(io::ErrorKind::IsADirectory.into()),
        _ => Err(io::Error::other(NO_FILE)),
    }
}

/// A path below `root` with `/` between folders, and whether all of it is UTF-8.
fn relative(root: &Path, path: &Path) -> Option<(String, bool)> {
    let path = path.strip_prefix(root).ok()?;
    let parts = path.components().map(|c| c.as_os_str().to_string_lossy());
    Some((parts.collect::<Vec<_>>().join("/"), path.to_str().is_some()))
}

#[cfg(test)]
mod tests;
