//! How much of everything an entry may hold: generous for whatever an author writes, and less than what would starve the
//! program or stop the typesetter. What goes beyond is told at its place (`beyond-limit`), and not read.

use crate::model::finding::Finding;
use crate::model::source::Span;

/// Quotes, lists, marks of emphasis inside each other.
pub(super) const NESTED: usize = 10;
/// Paragraphs, headings, items of lists and of definitions, and cells of tables in one prose.
pub(super) const BLOCKS: usize = 3_000;
/// Sources that are cited in one place.
pub(super) const CITED: usize = 50;

/// References of a workspace.
pub(super) const REFERENCES: usize = 5_000;
/// Braces inside each other, in one value of a reference.
pub(super) const BRACES: usize = 30;
/// Pieces of one value of a reference, joined by `#`.
pub(super) const PIECES: usize = 100;
/// Bytes of one value of a reference, its abbreviations written out.
pub(super) const VALUE: usize = 20_000;
/// References that one takes its fields from, those of these counted too.
pub(super) const SOURCES: usize = 100;

/// The finding for what goes beyond.
pub(super) fn beyond(span: Span, what: impl Into<String>, help: &str) -> Finding {
    Finding::new("beyond-limit", span, what, help)
}
