//! Prose as pieces for the typesetter: the same tree that pages are rendered from, with citations in words, and addresses of
//! other websites written out: on paper nothing can be clicked. Where the sheet is read on a screen, they are links.

mod setter;

#[cfg(test)]
mod tests;

use serde::Serialize;

use super::places::{Place, Places};
use crate::model::prose::{Block, Citation, Section};
use crate::model::source::Spanned;
use setter::Setter;
pub(crate) use setter::words_of_html;

/// A piece of prose.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(tag = "piece", rename_all = "kebab-case")]
pub(super) enum Piece {
    Paragraph { place: Place, words: Vec<Run> },
    Heading { place: Place, level: u8, words: Vec<Run> },
    List { place: Place, first: Option<u64>, items: Vec<Item> },
    Quote { pieces: Vec<Piece> },
    Table { place: Place, head: Vec<Vec<Run>>, rows: Vec<Vec<Vec<Run>>> },
    Picture { place: Place, photo: String, description: String },
}

/// One item of a list.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub(super) struct Item {
    pub(super) place: Place,
    pub(super) pieces: Vec<Piece>,
}

/// Words in one weight. A line break inside a paragraph is a run of `\n`.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub(super) struct Run {
    pub(super) text: String,
    pub(super) strong: bool,
    /// Where it leads, if that is out of the site.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) link: Option<String>,
}

impl Run {
    pub(super) fn plain(text: String) -> Run {
        Run { text, strong: false, link: None }
    }
}

/// What a prose is set for: what citations, notes and pictures become.
pub(super) struct Setting<'a> {
    pub(super) cite: &'a dyn Fn(&[Citation]) -> String,
    /// "Note 2".
    pub(super) note: &'a dyn Fn(usize) -> String,
    /// Level of a level-2 heading of the prose on the sheet.
    pub(super) level: u8,
}

/// Where pieces come from and what they show.
pub(super) struct Sheet<'a> {
    pub(super) places: &'a mut Places,
    /// The name under which the sheet has the photo with this address, if it has it.
    pub(super) photo: &'a mut dyn FnMut(&str) -> Option<String>,
}

/// Sets a whole prose, or what opens it before its first section.
pub(super) fn set<'b, 's>(
    blocks: impl IntoIterator<Item = &'b Spanned<Block>>,
    setting: &'s Setting<'s>,
    sheet: Sheet<'s>,
) -> Vec<Piece> {
    let mut setter = Setter::new(setting, sheet, setting.level.saturating_sub(1));
    let mut pieces = Vec::new();
    blocks.into_iter().for_each(|block| setter.at_top(block, &mut pieces));
    pieces
}

/// Sets what is below the heading of a section, which is left to the sheet; but pictures in the heading stand first.
pub(super) fn set_section<'s>(section: &Section, setting: &'s Setting<'s>, sheet: Sheet<'s>) -> Vec<Piece> {
    let mut setter = Setter::new(setting, sheet, setting.level);
    let mut pieces = Vec::new();
    if let Block::Heading(_, words) = &section.heading.value {
        setter.pictures_of(words, &mut pieces);
    }
    section.blocks.iter().for_each(|block| setter.at_top(block, &mut pieces));
    pieces
}

/// The words of pieces, for a line that is read at a glance.
pub(super) fn plain_words(words: &[Run]) -> String {
    words.iter().map(|run| if run.text == "\n" { " " } else { run.text.as_str() }).collect()
}
