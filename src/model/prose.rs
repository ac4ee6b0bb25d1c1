//! An entry's prose: one tree of blocks and words, and lists of everything in it that points elsewhere or is measured.

pub mod anchor;
pub mod html;
pub mod texts;

mod tree;

pub use tree::{
    Block, Blocks, Citation, Cited, Code, Definition, Footnote, Inline, Inlines, List, Picture, Table,
};

use super::link::ResolvedLink;
use super::source::{Span, Spanned};
use super::vocabulary::SectionName;

/// The prose of one entry.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Prose {
    pub span: Span,
    /// What comes before the first level-2 heading.
    pub opening: Blocks,
    pub sections: Vec<Section>,
    pub links: Vec<Link>,
    /// Pictures that are shown: one in the description of another only lends its words.
    pub images: Vec<Image>,
    /// Keys of cited references.
    pub citations: Vec<Spanned<String>>,
    pub paragraphs: Vec<Paragraph>,
    pub headings: Vec<Heading>,
    /// Lines that are set as code because they stand far to the right, each block of them once.
    pub indented: Vec<Span>,
    /// Tags of raw HTML that pages do not keep.
    pub dropped_html: Vec<Spanned<String>>,
    /// The hash of its words as [`settled`] leaves them, without comments: what a clinical review is compared with.
    pub wording: blake3::Hash,
}

/// A text without what no reader sees of it: line ends of either kind, whitespace before them, blank lines.
pub fn settled(text: &str) -> String {
    let lines = text.lines().map(str::trim_end).filter(|line| !line.is_empty());
    lines.collect::<Vec<_>>().join("\n")
}

/// A level-2 section.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Section {
    /// Which known section it is, if any.
    pub name: Option<SectionName>,
    pub title: Spanned<String>,
    /// The fragment by which links reach it, as in [`Heading::anchor`].
    pub anchor: String,
    /// Where that stands which is below the heading.
    pub body: Span,
    /// Items of its ordered lists.
    pub steps: usize,
    /// Its heading as it is written: a [`Block::Heading`].
    pub heading: Spanned<Block>,
    /// What is below the heading.
    pub blocks: Blocks,
}

/// A link, and where it leads.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Link {
    /// The address as the author wrote it, with `mailto:` before a bare mail address.
    pub address: Spanned<String>,
    pub title: Option<String>,
    /// What it means; else what is wrong with it, in words that complete "this link …".
    pub leads: Result<ResolvedLink, String>,
}

/// A picture in the prose.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Image {
    pub address: Spanned<String>,
    pub description: String,
}

/// A paragraph, list item or table cell.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Paragraph {
    pub span: Span,
    pub kind: ParagraphKind,
    /// True when it cites a reference.
    pub cites: bool,
    /// The words that a reader sees, in order, without marks, addresses and citations.
    pub seen: Vec<Span>,
}

/// What a paragraph is part of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ParagraphKind {
    /// Running text, and the items of lists that are no steps.
    Running,
    /// The first paragraph of a numbered item, in a list that is in no other list.
    Step,
    Cell,
}

/// A heading of any level.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Heading {
    pub level: u8,
    /// Its words, without citations.
    pub title: Spanned<String>,
    /// The fragment by which links reach it, unique in the entry.
    pub anchor: String,
}

impl Prose {
    /// Prose without a word, where an entry could not be read.
    pub fn empty(span: Span) -> Prose {
        Prose {
            span,
            opening: Vec::new(),
            sections: Vec::new(),
            links: Vec::new(),
            images: Vec::new(),
            citations: Vec::new(),
            paragraphs: Vec::new(),
            headings: Vec::new(),
            indented: Vec::new(),
            dropped_html: Vec::new(),
            wording: blake3::hash(b""),
        }
    }

    /// The known section of that name.
    pub fn section(&self, name: SectionName) -> Option<&Section> {
        self.sections.iter().find(|s| s.name == Some(name))
    }

    /// All of it in its order, the headings of the sections among it.
    pub fn blocks(&self) -> impl Iterator<Item = &Spanned<Block>> {
        let sections = self.sections.iter();
        let sections = sections.flat_map(|section| std::iter::once(&section.heading).chain(&section.blocks));
        self.opening.iter().chain(sections)
    }
}
