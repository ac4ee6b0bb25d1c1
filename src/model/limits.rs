//! How much of everything a workspace may hold: generous for whatever an author writes, and less than what would starve
//! the program or stop the typesetter. What goes beyond is told at its place (`beyond-limit`, if nothing else is said), and
//! not read.

use super::finding::Finding;
use super::source::Span;

/// Bytes of text in one entry (`unreadable-entry`): an entry is a few pages.
pub const TEXT: u64 = 1_000_000;
/// Earlier states of one entry that are kept, and their bytes in all.
pub const STATES: usize = 100;
pub const STATES_BYTES: u64 = 10_000_000;
/// Items of one list among the fields.
pub const ITEMS: usize = 500;
/// Variations and figures of an exercise, exercises of a week: each of them is set on pages and handouts.
pub const GROUPS: usize = 60;
/// Items of all lists among the fields of one entry.
pub const ITEMS_IN_ALL: usize = 5_000;
/// Rungs of a ladder.
pub const RUNGS: usize = 100;

/// Bytes that one decoded photo may take, so that a small file cannot fill the memory: room for 53 million pixels
/// (`broken-link`).
pub const DECODED_PHOTO: u64 = 160_000_000;
/// Bytes of the mark of a clinic.
pub const LOGO: u64 = 1_000_000;
/// Bytes of one file of a theme, the largest of which are fonts.
pub const THEME_FILE: u64 = 20_000_000;
/// Bytes of one photo as a file: what the largest cameras write (`broken-link`).
pub const PHOTO: u64 = 60_000_000;

/// Bytes of one prose: a book of a hundred pages.
pub const PROSE: usize = 200_000;
/// Quotes, lists, marks of emphasis inside each other.
pub const NESTED: usize = 10;
/// Paragraphs, headings, items of lists and of definitions, and cells of tables in one prose.
pub const BLOCKS: usize = 2_000;
/// Links and pictures of one prose.
pub const LINKS: usize = 2_000;
/// Tags of raw HTML in one prose.
pub const TAGS: usize = 1_000;
/// Sources that are cited in one place.
pub const CITED: usize = 50;

/// References of a workspace.
pub const REFERENCES: usize = 1_000;
/// Braces inside each other, in one value of a reference.
pub const BRACES: usize = 30;
/// Pieces of one value of a reference, joined by `#`.
pub const PIECES: usize = 100;
/// Bytes of one value of a reference, its abbreviations written out.
pub const VALUE: usize = 20_000;
/// References that one takes its fields from, those of these counted too.
pub const SOURCES: usize = 100;

/// Years in which whatever is cited has appeared.
pub const YEARS: std::ops::RangeInclusive<i32> = 1000..=2199;

/// The finding for what goes beyond.
pub fn beyond(span: Span, what: impl Into<String>, help: &str) -> Finding {
    Finding::new("beyond-limit", span, what, help)
}
