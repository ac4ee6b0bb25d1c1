//! The evidence: the references that entries cite by key.

use super::source::Spanned;

/// All references of a workspace, in the order of the file.
#[derive(Debug, Default)]
pub struct References {
    /// False when the file has mistakes: a key may have been lost.
    pub complete: bool,
    pub entries: Vec<Reference>,
}

/// One reference.
#[derive(Debug)]
pub struct Reference {
    pub key: Spanned<String>,
    pub entry: hayagriva::Entry,
}

impl References {
    /// The reference with that key.
    pub fn get(&self, key: &str) -> Option<&Reference> {
        self.entries.iter().find(|r| r.key.value == key)
    }
}
