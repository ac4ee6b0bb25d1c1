//! One result of a review: which rule, how serious, where, what, and what to do about it.

use super::source::Span;
pub use super::subject::Subject;

/// How serious a finding is. An error stops `make`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Level {
    Note,
    Warning,
    Error,
}

impl Level {
    /// The word for it in reports and in `site.toml`.
    pub fn word(self) -> &'static str {
        match self {
            Level::Note => "note",
            Level::Warning => "warning",
            Level::Error => "error",
        }
    }
}

/// One result of a review.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    /// The rule's name, as in the list of rules.
    pub rule: &'static str,
    pub level: Level,
    /// An error whatever level its rule has in the workspace.
    pub severe: bool,
    pub span: Span,
    /// Lower case, no full stop, the author's own text in backticks.
    pub message: String,
    /// An instruction that can be carried out.
    pub help: String,
    /// What it is about, the most telling first: by these an `accept` row tells it from others of its rule in an entry.
    /// A rule that finds one thing an entry needs none.
    pub subjects: Vec<Subject>,
}

impl Finding {
    /// A finding at the level of an error; the review sets the level its rule has in this workspace.
    pub fn new(
        rule: &'static str,
        span: Span,
        message: impl Into<String>,
        help: impl Into<String>,
    ) -> Finding {
        Finding {
            rule,
            level: Level::Error,
            severe: false,
            span,
            message: message.into(),
            help: help.into(),
            subjects: Vec::new(),
        }
    }

    /// The same finding, which is about these as well.
    pub fn about(mut self, subjects: impl IntoIterator<Item = Subject>) -> Finding {
        self.subjects.extend(subjects);
        self
    }
}
