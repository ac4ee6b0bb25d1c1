//! A slip in the demonstration's text, and what is expected of the review.

use std::collections::{BTreeMap, BTreeSet};

use crate::demonstration::Demonstration;
use crate::draw::Draw;

/// Files that differ from the demonstration's.
#[derive(Clone, Debug, Default)]
pub(crate) struct Edits {
    /// The new text, or none for a file that is gone.
    pub(crate) files: BTreeMap<String, Option<String>>,
    /// Photos and videos that are there beside those of the demonstration, below `content/`.
    pub(crate) media: BTreeSet<String>,
    /// Those of them that say where they were filmed.
    pub(crate) positions: BTreeSet<String>,
}

impl Edits {
    pub(crate) fn of(file: &str, text: String) -> Edits {
        Edits::default().and(file, text)
    }

    pub(crate) fn and(mut self, file: &str, text: String) -> Edits {
        self.files.insert(file.to_string(), Some(text));
        self
    }

    pub(crate) fn without(file: &str) -> Edits {
        Edits { files: BTreeMap::from([(file.to_string(), None)]), ..Edits::default() }
    }

    pub(crate) fn is_empty(&self) -> bool {
        self.files.is_empty() && self.media.is_empty() && self.positions.is_empty()
    }
}

/// One slip.
pub(crate) struct Fault {
    /// Says what was done and where.
    pub(crate) what: String,
    /// What had to be laid out before the slip is one, such as an exercise in which one caution is the only answer. The
    /// review must find nothing in it.
    pub(crate) ground: Edits,
    /// The ground with the slip in it.
    pub(crate) edits: Edits,
    /// The file that the finding belongs to; several where the fault lies between them.
    pub(crate) files: Vec<String>,
}

impl Fault {
    /// A slip in the demonstration as it stands.
    pub(crate) fn new(what: impl Into<String>, edits: Edits, file: &str) -> Fault {
        Fault { what: what.into(), ground: Edits::default(), edits, files: vec![file.to_string()] }
    }

    /// A slip in one file, where the finding belongs too.
    pub(crate) fn inside(file: &str, what: impl Into<String>, text: String) -> Fault {
        Fault::new(format!("{file}: {}", what.into()), Edits::of(file, text), file)
    }

    pub(crate) fn on(self, ground: Edits) -> Fault {
        Fault { ground, ..self }
    }
}

/// A kind of slip, and the rule that is meant to find it.
pub(crate) struct Kind {
    pub(crate) name: &'static str,
    pub(crate) rule: &'static str,
    /// Places where the slip is a fault, more than are tried where there are more. What is left to chance, such as which
    /// letter is mistyped, is drawn.
    pub(crate) places: fn(&Demonstration, &mut Draw) -> Vec<Fault>,
}
