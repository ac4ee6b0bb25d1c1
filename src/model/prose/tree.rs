//! The tree of a prose. Every block and every run of words has the place it was read from; a block's ends with its last
//! letter. Nothing in it is deeper than [`NESTED`](crate::model::limits::NESTED) allows, so that it can be walked by
//! calls within calls.

use super::{Heading, Image, Link};
use crate::model::source::{Span, Spanned};

/// Blocks, one below the other.
pub type Blocks = Vec<Spanned<Block>>;

/// Words in a line, from left to right.
pub type Inlines = Vec<Spanned<Inline>>;

/// What stands by itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Block {
    Paragraph(Inlines),
    /// Words of an item or a definition that are no paragraph of their own.
    Words(Inlines),
    Heading(Box<Heading>, Inlines),
    List(List),
    Quote(Blocks),
    Table(Box<Table>),
    Code(Box<Code>),
    /// Raw HTML, line by line.
    Html(Vec<Spanned<String>>),
    Footnote(Footnote, Blocks),
    Definitions(Vec<Spanned<Definition>>),
    Rule,
}

/// What stands in a line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Inline {
    Text(String),
    Code(String),
    Emphasis(Inlines),
    Strong(Inlines),
    Link(Box<Link>, Inlines),
    Citation(Box<Cited>),
    Picture(Box<Picture>),
    /// A mark that leads to a footnote.
    Note(Footnote),
    SoftBreak,
    HardBreak,
    /// One tag of raw HTML, or a comment.
    Html(String),
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct List {
    /// The number of its first item; `None` for a list without numbers.
    pub first: Option<u64>,
    pub items: Vec<Spanned<Blocks>>,
}

/// A table, by its cells.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Table {
    /// Which table of the prose it is, from 1.
    pub number: usize,
    pub head: Vec<Spanned<Inlines>>,
    pub rows: Vec<Vec<Spanned<Inlines>>>,
}

/// Words that are set as they are written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Code {
    /// What the author says it is in, such as `text`.
    pub language: Option<String>,
    /// Its first line, where it is code only because it stands far to the right.
    pub indented: Option<Span>,
    /// Its text, in the pieces in which that is written.
    pub text: Vec<Spanned<String>>,
}

/// Which footnote.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Footnote {
    /// From 1, in the order in which notes are met.
    pub number: usize,
    /// The fragment by which its marks reach it. It has a dot, which stands in no anchor of a heading.
    pub anchor: String,
}

/// A part of a list of definitions.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Definition {
    /// What is explained.
    Title(Inlines),
    /// The explanation.
    Text(Blocks),
}

/// A picture, with the words of its description as they are written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picture {
    pub image: Image,
    pub title: Option<String>,
    pub words: Inlines,
}

/// A citation such as `[@key, Table 4; @other]`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cited {
    pub citations: Vec<Citation>,
    /// The words between its brackets, which no reader sees.
    pub words: Inlines,
}

/// One reference of a citation.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Citation {
    pub key: String,
    /// The part of the source that is meant, such as `Table 4`.
    pub part: Option<String>,
}
