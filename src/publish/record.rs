//! What is remembered of the published site beside it: what its maker wrote down, and how each file lay on the disk, so
//! that a file which lies as it was left need not be read again. Lies in the store of made sheets; like those it may be
//! deleted at any time and is never trusted: one that is not whole, or is of another site, counts as not there.

use std::collections::BTreeMap;
use std::fs::{self, Metadata};
use std::path::Path;
use std::time::UNIX_EPOCH;

use blake3::Hash;
use serde::{Deserialize, Serialize};

/// How a file lies on the disk: its length, and when it was last written, in nanoseconds since 1970.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Lies(u64, u128);

impl Lies {
    pub(super) fn of(path: &Path) -> Option<Lies> {
        let found: Metadata = fs::symlink_metadata(path).ok().filter(Metadata::is_file)?;
        let written = found.modified().ok()?.duration_since(UNIX_EPOCH).ok()?;
        Some(Lies(found.len(), written.as_nanos()))
    }
}

/// The record of a published site.
#[derive(Debug, Default)]
pub(super) struct SiteRecord {
    /// By their paths relative to the output folder.
    pub(super) files: BTreeMap<String, Lies>,
    /// What the maker of the site wrote down.
    pub(super) made_from: Vec<u8>,
}

/// Changed whenever what follows it changes its meaning.
const MARK: &[u8] = b"site 1\n";

const HASH: usize = blake3::OUT_LEN;

impl SiteRecord {
    /// As it is kept: the mark, a hash of all that follows, the number of the site, and the two parts, the first with
    /// its length before it.
    pub(super) fn to_bytes(&self, site: &Hash) -> Vec<u8> {
        let files = serde_json::to_vec(&self.files).unwrap_or_default();
        let length = (files.len() as u64).to_le_bytes();
        let rest = [site.as_bytes().as_slice(), &length, &files, &self.made_from].concat();
        [MARK, blake3::hash(&rest).as_bytes(), &rest].concat()
    }

    /// Reads what was kept, if it is whole and of that site.
    pub(super) fn from_bytes(bytes: &[u8], site: &Hash) -> Option<SiteRecord> {
        let (seal, rest) = bytes.strip_prefix(MARK)?.split_at_checked(HASH)?;
        let whole = blake3::hash(rest).as_bytes() == seal;
        let rest = rest.strip_prefix(site.as_bytes()).filter(|_| whole)?;
        let (length, rest) = rest.split_first_chunk::<8>()?;
        let (files, made_from) = rest.split_at_checked(u64::from_le_bytes(*length) as usize)?;
        Some(SiteRecord { files: serde_json::from_slice(files).ok()?, made_from: made_from.to_vec() })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_record_that_is_not_whole_or_of_another_site_is_none() {
        let site = blake3::hash(b"site");
        let files = BTreeMap::from([("index.html".to_string(), Lies(7, 9))]);
        let bytes = SiteRecord { files: files.clone(), made_from: b"what".to_vec() }.to_bytes(&site);
        let read = SiteRecord::from_bytes(&bytes, &site).unwrap();
        assert_eq!((read.files, read.made_from), (files, b"what".to_vec()));
        assert!(SiteRecord::from_bytes(&bytes, &blake3::hash(b"other")).is_none());
        for end in 0..bytes.len() {
            assert!(SiteRecord::from_bytes(&bytes[..end], &site).is_none(), "{end}");
        }
        for at in 0..bytes.len() {
            let mut harmed = bytes.clone();
            harmed[at] ^= 1;
            assert!(SiteRecord::from_bytes(&harmed, &site).is_none(), "{at}");
        }
    }
}
