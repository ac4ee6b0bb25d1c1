//! The manifest: the list of the files made, which also marks the output folder as ours.

use std::collections::BTreeMap;
use std::fs::File;
use std::io;
use std::path::Path;

use blake3::{Hash, Hasher};
use serde::{Deserialize, Serialize};

/// Name of the manifest in the output folder.
pub const MANIFEST: &str = "steadyleaf-made.json";

/// Name of the list in the folder of a site that is being staged: the path of each file and a zero byte, written before
/// the file is made. So whatever moment a run is killed at, what it made can be told from what somebody put there; after
/// a power cut the list may lack its end, and what it lacks is named and not removed.
pub(super) const STAGED: &str = ".steadyleaf-staged";

/// What was published. Sorted, and without dates, so that the same site has the same bytes.
#[derive(Debug, Serialize, Deserialize)]
pub(super) struct Manifest {
    note: String,
    /// What the site was made from.
    #[serde(with = "hex")]
    fingerprint: Hash,
    /// Each file but the manifest itself, by its path relative to the output folder, with `/`.
    pub(super) files: BTreeMap<String, FileDigest>,
}

/// One published file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct FileDigest {
    #[serde(with = "hex")]
    pub(super) blake3: Hash,
    pub(super) bytes: u64,
}

impl Manifest {
    pub(super) fn new(fingerprint: &Hash, files: BTreeMap<String, FileDigest>) -> Self {
        Self {
            note: "steadyleaf made this folder and replaces it as a whole: keep your own files elsewhere"
                .to_owned(),
            fingerprint: *fingerprint,
            files,
        }
    }

    /// True for a file that was published, and for the manifest itself.
    pub(super) fn lists(&self, path: &str) -> bool {
        path == MANIFEST || self.files.contains_key(path)
    }

    /// What the site was made from.
    pub(super) fn fingerprint(&self) -> &Hash {
        &self.fingerprint
    }

    /// True when the site was made from these inputs.
    pub(super) fn is_from(&self, fingerprint: &Hash) -> bool {
        self.fingerprint == *fingerprint
    }
}

impl FileDigest {
    pub(super) fn of(bytes: &[u8]) -> Self {
        Self { blake3: blake3::hash(bytes), bytes: bytes.len() as u64 }
    }

    /// Reads in pieces: a video does not fit into memory.
    pub(super) fn of_file(path: &Path) -> io::Result<Self> {
        let mut hasher = Hasher::new();
        hasher.update_reader(File::open(path)?)?;
        Ok(Self { blake3: hasher.finalize(), bytes: hasher.count() })
    }
}

/// A hash as text that a person can compare with that of another program.
mod hex {
    use blake3::Hash;
    use serde::{Deserialize, Deserializer, Serializer, de::Error};

    pub(super) fn serialize<S: Serializer>(hash: &Hash, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(&hash.to_hex())
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Hash, D::Error> {
        Hash::from_hex(String::deserialize(from)?).map_err(D::Error::custom)
    }
}
