//! Finds and reads the files of a workspace: door 1 to the disk, and the only one that reads.
#![expect(clippy::disallowed_methods, reason = "this is the door through which files are read")]

pub mod layout;
pub mod sample;
pub mod theme;

use std::collections::BTreeSet;
use std::fmt;
use std::io::{self, Read};
use std::path::{Path, PathBuf};

use rayon::prelude::*;
use walkdir::WalkDir;

use crate::model::source::{FileId, Source, Sources};
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
/// that says so; only an unreadable folder is an error.
pub fn read(root: &Path) -> Result<Texts, WorkspaceError> {
    if !root.join("site.toml").exists() {
        return Err(WorkspaceError::NoSite { folder: root.to_path_buf() });
    }
    let mut names = vec!["site.toml".to_string()];
    let content = root.join("content");
    if content.exists() {
        for item in WalkDir::new(&content).sort_by_file_name().follow_links(true) {
            let item = item.map_err(|e| {
                let path = e.path().unwrap_or(&content).to_path_buf();
                WorkspaceError::Unreadable { path, why: e.into() }
            })?;
            if item.file_type().is_file()
                && let Some(name) = relative(root, item.path())
            {
                names.push(name);
            }
        }
    }
    let (texts, attachments): (Vec<_>, Vec<_>) =
        names.into_iter().filter(|n| !layout::is_hidden(n)).partition(|n| layout::kind(n).is_some());
    let read: Vec<(String, Bytes)> = texts
        .into_par_iter()
        .map(|name| {
            let bytes = read_text(&root.join(&name));
            (name, bytes)
        })
        .collect();
    let attachments = attachments.into_iter().filter_map(|n| n.strip_prefix("content/").map(str::to_string));
    Ok(Texts::sorted(read, attachments.collect()))
}

/// The bytes of one file below `content/`, such as a photo.
pub fn attachment(root: &Path, name: &str) -> io::Result<Vec<u8>> {
    std::fs::read(attachment_path(root, name))
}

/// Where a file below `content/` is.
pub fn attachment_path(root: &Path, name: &str) -> PathBuf {
    root.join("content").join(name)
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
            let Some(kind) = layout::kind(&name) else { continue };
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
        Bytes::Unreachable(why) => return (String::new(), Content::Unreachable { why }),
    };
    let bytes = match bytes.strip_prefix(b"\xef\xbb\xbf") {
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

fn relative(root: &Path, path: &Path) -> Option<String> {
    let parts = path.strip_prefix(root).ok()?.components();
    Some(parts.map(|c| c.as_os_str().to_string_lossy()).collect::<Vec<_>>().join("/"))
}
