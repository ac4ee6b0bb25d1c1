//! How every Markdown entry begins: its block of fields, and its id.

use super::block::{self, Block};
use super::fields::Notes;
use crate::model::finding::Finding;
use crate::model::nearest::shown;
use crate::model::source::{FileId, Span};

/// The parts of an entry that has an opening block.
pub(super) struct Opened {
    pub(super) opening: Span,
    pub(super) fields: std::ops::Range<usize>,
    pub(super) prose: std::ops::Range<usize>,
}

/// Finds the opening block of an entry, or says why there is none.
pub(super) fn open(text: &str, file: FileId) -> Result<Opened, Finding> {
    match block::find(text) {
        Block::Found { opening, fields, prose } => {
            Ok(Opened { opening: Span::new(file, opening), fields, prose })
        }
        Block::Unclosed { opening } => Err(Finding::new(
            "unreadable-entry",
            Span::new(file, opening),
            "the block of fields that opens here never closes",
            "put a line with three backticks after the last field, before the prose",
        )),
        Block::Missing { first } => Err(Finding::new(
            "unreadable-entry",
            Span::new(file, first),
            "the entry does not open with its fields",
            "begin the file with a line of three backticks and `toml`, then the fields, then a line of three backticks",
        )),
    }
}

/// What an id is the name of.
#[derive(Clone, Copy)]
pub(super) enum IdSource {
    File,
    Folder,
}

/// Ids stand in addresses and are typed by hand: letters, digits, hyphens.
pub(super) fn check_id(id: &str, named: IdSource, place: Span, notes: &mut Notes) {
    let fits = |c: char| c.is_ascii_alphanumeric() || c == '-' || c == '_';
    if id.is_empty() || !id.chars().all(fits) {
        let (what, help) = match named {
            IdSource::File => (
                "file",
                "rename the file, for example `heel-drop.md`; its name is the id that other entries use",
            ),
            IdSource::Folder => (
                "folder",
                "rename the folder that series.toml is in, for example `first-steps`; its name is the id of the series",
            ),
        };
        notes.wrong(
            place,
            format!("expected a {what} name of letters a to z, digits and hyphens, found {}", shown(id)),
            help,
        );
    }
}
