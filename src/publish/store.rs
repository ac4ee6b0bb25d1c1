//! The store of made sheets beside `ready/`: typesetting is slow, so a finished sheet is kept under what it was made
//! from. May be deleted at any time, also while a run uses it, and is never trusted: what is not exactly the file that
//! was kept counts as not kept, and is made and kept again.
//!
//! A file holds the format's mark, a seal, its key, the count of pages and the sheet. The seal is the hash of all that
//! follows it, so nothing has to be synced: a file that a power cut left in part breaks it.

use std::collections::BTreeSet;
use std::fs;
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

use blake3::{Hash, Hasher};
use tempfile::NamedTempFile;

use super::begun::temporary;
use super::error::{Problem, PublishError};
use super::record::SiteRecord;
use super::shelf::{Lock, Shelf};

/// The made sheets of a workspace. Holds the lock of the [`Shelf`] that it is from, so that one run at a time uses it.
/// Only for sheets that anybody may see: never for those of a person.
#[derive(Debug)]
pub struct Store {
    folder: PathBuf,
    /// The names of the files that this run asked for or kept.
    named: Mutex<BTreeSet<String>>,
    _lock: Arc<Lock>,
}

/// A sheet out of the store.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StoredSheet {
    /// How many pages it has.
    pub pages: u32,
    /// The sheet as it was made.
    pub pdf: Vec<u8>,
}

impl Shelf {
    /// The store of made sheets of this workspace. Nothing is on the disk before the first sheet is kept. Let it live
    /// beside the staged site, and [`Store::sweep`] it when the site is published.
    #[must_use]
    pub fn store(&self) -> Store {
        Store { folder: self.places.sheets.clone(), named: Mutex::default(), _lock: Arc::clone(&self.lock) }
    }
}

impl Store {
    /// The sheet made from exactly these inputs, if a whole and unharmed one is kept. From any thread.
    pub fn get(&self, key: &Hash) -> Option<StoredSheet> {
        let path = self.name(key);
        if !(is_own_folder(&self.folder) && is_own_file(&path)) {
            return None;
        }
        unseal(fs::read(path).ok()?, key)
    }

    /// Keeps the sheet made from these inputs, in the place of what stands there. From any thread. An error says only
    /// that the next run makes this sheet again, so a caller that has the sheet may go on; it should write the site's
    /// copy first, as a full disk is better filled with that.
    pub fn keep(&self, key: &Hash, pages: u32, pdf: &[u8]) -> Result<(), PublishError> {
        let path = self.name(key);
        self.make_folder()?;
        let write = || -> io::Result<()> {
            let mut file = self.part(key)?;
            file.write_all(&head(key, pages, pdf))?;
            file.write_all(pdf)?;
            // A file or a link gives way to the rename; an empty folder has to go first, one with things in it stays.
            if fs::symlink_metadata(&path).is_ok_and(|found| found.is_dir()) {
                fs::remove_dir(&path)?;
            }
            file.persist(&path)?;
            Ok(())
        };
        write().map_err(PublishError::disk(&path))
    }

    /// Says that the sheet of this key, in hexadecimal, is still wanted: it is not swept, and not looked at either.
    pub fn still(&self, key: &str) {
        self.named.lock().unwrap_or_else(PoisonError::into_inner).insert(format!("{key}{SHEET}"));
    }

    /// Removes what no key of this run named, and what killed runs left half written. Returns how many sheets were
    /// removed; what cannot be removed waits for the next run. Touches nothing but files named as this store names them.
    pub fn sweep(self) -> usize {
        if !is_own_folder(&self.folder) {
            return 0;
        }
        let named = self.named.into_inner().unwrap_or_else(PoisonError::into_inner);
        let Ok(entries) = fs::read_dir(&self.folder) else { return 0 };
        let found: Vec<_> = entries.filter_map(Result::ok).map(|entry| entry.file_name()).collect();
        let stale = found.iter().filter_map(|name| name.to_str()).filter(|&name| !named.contains(name));
        let remove = |name: &str| {
            let path = self.folder.join(name);
            is_own_file(&path) && fs::remove_file(path).is_ok()
        };
        let mut sheets = 0;
        for name in stale {
            if is_sheet(name) {
                sheets += usize::from(remove(name));
            } else if is_part(name) {
                remove(name);
            }
        }
        sheets
    }

    /// The file of a key, which is remembered as used.
    fn name(&self, key: &Hash) -> PathBuf {
        let name = format!("{}{SHEET}", key.to_hex());
        let path = self.folder.join(&name);
        self.named.lock().unwrap_or_else(PoisonError::into_inner).insert(name);
        path
    }

    /// A new file for a sheet while it is written. Removed when dropped.
    pub(super) fn part(&self, key: &Hash) -> io::Result<NamedTempFile> {
        let prefix = format!("{}-", key.to_hex());
        let mut builder = temporary(0o666);
        builder.prefix(&prefix).suffix(PART).rand_bytes(RANDOM).tempfile_in(&self.folder)
    }

    /// Each time, as somebody may have deleted the store since.
    fn make_folder(&self) -> Result<(), PublishError> {
        match fs::create_dir(&self.folder) {
            Ok(()) => Ok(()),
            Err(error) if error.kind() == ErrorKind::AlreadyExists => {
                let problem = match fs::symlink_metadata(&self.folder) {
                    Ok(found) if found.is_symlink() => Problem::Link,
                    Ok(found) if !found.is_dir() => Problem::NotAFolder,
                    _ => return Ok(()),
                };
                Err(PublishError::new(&self.folder, problem))
            }
            Err(error) => Err(PublishError::disk(&self.folder)(error)),
        }
    }
}

/// The record of the published site, which lies among the sheets.
const RECORD: &str = "site.record";

/// What is remembered of that site.
pub(super) fn record(folder: &Path, site: &Hash) -> Option<SiteRecord> {
    let path = folder.join(RECORD);
    if !(is_own_folder(folder) && is_own_file(&path)) {
        return None;
    }
    SiteRecord::from_bytes(&fs::read(path).ok()?, site)
}

/// Remembers that site, in the place of the one before.
pub(super) fn keep_record(folder: &Path, site: &Hash, record: &SiteRecord) -> io::Result<()> {
    if let Err(error) = fs::create_dir(folder)
        && (error.kind() != ErrorKind::AlreadyExists || !is_own_folder(folder))
    {
        return Err(error);
    }
    let prefix = format!("{}-", site.to_hex());
    let mut builder = temporary(0o666);
    let mut file = builder.prefix(&prefix).suffix(PART).rand_bytes(RANDOM).tempfile_in(folder)?;
    file.write_all(&record.to_bytes(site))?;
    file.persist(folder.join(RECORD))?;
    Ok(())
}

/// How the name of a sheet ends, after the 64 digits of its key.
const SHEET: &str = ".sheet";

/// How the name of a sheet being written ends, after the 64 digits, `-` and as many random letters as below.
const PART: &str = ".part";
const RANDOM: usize = 8;

fn is_sheet(name: &str) -> bool {
    name.strip_suffix(SHEET).is_some_and(is_key)
}

fn is_part(name: &str) -> bool {
    let parts = name.strip_suffix(PART).and_then(|rest| rest.split_once('-'));
    parts.is_some_and(|(key, random)| {
        is_key(key) && random.len() == RANDOM && random.bytes().all(|b| b.is_ascii_alphanumeric())
    })
}

fn is_key(text: &str) -> bool {
    text.len() == 2 * blake3::OUT_LEN && text.bytes().all(|b| matches!(b, b'0'..=b'9' | b'a'..=b'f'))
}

/// A folder, and not a link to one.
fn is_own_folder(path: &Path) -> bool {
    fs::symlink_metadata(path).is_ok_and(|found| found.is_dir())
}

/// A file, and not a link to one or anything that blocks who reads it.
fn is_own_file(path: &Path) -> bool {
    fs::symlink_metadata(path).is_ok_and(|found| found.is_file())
}

/// Changed whenever what follows it changes its meaning.
const MARK: &[u8] = b"sheet 1\n";

/// The length of a file without the sheet: mark, seal, key, count of pages.
const HEAD: usize = MARK.len() + blake3::OUT_LEN + blake3::OUT_LEN + size_of::<u32>();

/// What stands before the sheet in its file.
fn head(key: &Hash, pages: u32, pdf: &[u8]) -> Vec<u8> {
    let pages = pages.to_le_bytes();
    let seal = Hasher::new().update(key.as_bytes()).update(&pages).update(pdf).finalize();
    [MARK, seal.as_bytes(), key.as_bytes(), &pages].concat()
}

/// The sheet in a file, if each byte of the file is as it was written for this key.
fn unseal(mut file: Vec<u8>, key: &Hash) -> Option<StoredSheet> {
    if file.len() < HEAD {
        return None;
    }
    let pdf = file.split_off(HEAD);
    let pages = u32::from_le_bytes(*file.last_chunk()?);
    (file == head(key, pages, &pdf)).then_some(StoredSheet { pages, pdf })
}
