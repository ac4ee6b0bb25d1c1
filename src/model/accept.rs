//! A reasoned exception: the author has seen a finding and says why it stands.

use jiff::civil::Date;

use super::source::{Span, Spanned};

/// One `accept` row of an entry.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Accept {
    pub span: Span,
    /// A rule's name, and after it, where a rule finds several things in one entry, subjects of the finding that tell which
    /// (`unanswered-demand impact-low spine-fracture`).
    pub finding: Spanned<String>,
    pub because: Spanned<String>,
    /// Who accepted it, and when: an exception to a rule of safety needs both.
    pub by: Option<Spanned<String>>,
    pub on: Option<Spanned<Date>>,
}
