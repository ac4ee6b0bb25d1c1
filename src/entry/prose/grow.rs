//! Grows the tree of a prose from the events of its grammar, in one pass.

use std::collections::BTreeMap;
use std::ops::Range;

use pulldown_cmark::{CodeBlockKind, CowStr, Event, LinkType, Tag, TagEnd};

use super::measure::Count;
use crate::entry::markdown::{Anchors, CITATION, citations, events};
use crate::entry::{Origin, links};
use crate::model::finding::Finding;
use crate::model::limits;
use crate::model::prose::anchor::hyphenated;
use crate::model::prose::texts::{Beside, plain};
use crate::model::prose::{
    Block, Blocks, Cited, Code, Definition, Footnote, Heading, Image, Inline, Inlines, Link, List, Picture,
    Table,
};
use crate::model::source::{Span, Spanned};

/// The tree of a prose.
pub(super) struct Grown {
    pub(super) blocks: Blocks,
    /// Where raw HTML stands, piece by piece.
    pub(super) html: Vec<Range<usize>>,
}

/// Grows the tree of the prose at `range` of a text.
///
/// # Errors
/// The finding for what goes beyond the limits.
pub(super) fn grow(text: &str, range: Range<usize>, origin: Origin<'_>) -> Result<Grown, Finding> {
    let start = range.start;
    let events = events(&text[range]).map(|(event, at)| (event, at.start + start..at.end + start));
    let mut grower = Grower {
        events,
        text,
        origin,
        count: Count::default(),
        beyond: None,
        anchors: Anchors::default(),
        tables: 0,
        notes: BTreeMap::new(),
        in_picture: false,
        html: Vec::new(),
    };
    let blocks = grower.blocks();
    match grower.beyond {
        Some(finding) => Err(finding),
        None => Ok(Grown { blocks, html: grower.html }),
    }
}

struct Grower<'t, E> {
    events: E,
    text: &'t str,
    origin: Origin<'t>,
    count: Count,
    /// What goes beyond a limit; nothing is read after it.
    beyond: Option<Finding>,
    anchors: Anchors,
    tables: usize,
    /// The number of each footnote, by its label.
    notes: BTreeMap<String, usize>,
    /// Inside the description of a picture.
    in_picture: bool,
    html: Vec<Range<usize>>,
}

impl<'t, E: Iterator<Item = (Event<'t>, Range<usize>)>> Grower<'t, E> {
    fn next(&mut self) -> Option<(Event<'t>, Range<usize>)> {
        if self.beyond.is_some() {
            return None;
        }
        let (event, at) = self.events.next()?;
        if let Some((what, help)) = self.count.beyond(&event) {
            // To the end of its line, and not of all that it holds.
            let end = self.text[at.start..].find('\n').map_or(at.end, |line| (at.start + line).min(at.end));
            self.beyond = Some(limits::beyond(Span::new(self.origin.file, at.start..end), what, help));
            return None;
        }
        if matches!(event, Event::Html(_) | Event::InlineHtml(_)) {
            self.html.push(at.clone());
        }
        Some((event, at))
    }

    /// The place of a block. The line end behind it is no part of what a finding is about.
    fn span(&self, at: Range<usize>) -> Span {
        let end = at.start + self.text[at.clone()].trim_end().len();
        Span::new(self.origin.file, at.start..end)
    }

    /// The blocks up to the end of what holds them.
    fn blocks(&mut self) -> Blocks {
        let mut blocks = Vec::new();
        let mut words = Vec::new();
        while let Some((event, at)) = self.next() {
            match event {
                Event::End(_) => break,
                Event::Rule => {
                    self.end_words(&mut words, &mut blocks);
                    blocks.push(Spanned::new(Block::Rule, self.span(at)));
                }
                Event::Start(tag) if !stands_in_a_line(&tag) => {
                    self.end_words(&mut words, &mut blocks);
                    let block = self.block(tag, &at);
                    blocks.push(Spanned::new(block, self.span(at)));
                }
                event => self.inline(event, at, &mut words),
            }
        }
        self.end_words(&mut words, &mut blocks);
        blocks
    }

    /// Ends words that are no paragraph of their own, if there are any.
    fn end_words(&self, words: &mut Inlines, blocks: &mut Blocks) {
        let Some(first) = words.first() else { return };
        let end = words.iter().map(|word| word.span.end).fold(first.span.end, u32::max);
        let span = self.span(first.span.start as usize..end as usize);
        blocks.push(Spanned::new(Block::Words(std::mem::take(words)), span));
    }

    fn block(&mut self, tag: Tag<'t>, at: &Range<usize>) -> Block {
        match tag {
            Tag::Paragraph => Block::Paragraph(self.inlines()),
            Tag::Heading { level, .. } => {
                let words = self.inlines();
                // Without pictures, and without the keys of what it cites.
                let title = plain(&words, Beside::Nothing).trim().to_string();
                let title = Spanned::new(title, self.span(at.clone()));
                let anchor = self.anchors.take(&title.value);
                Block::Heading(Box::new(Heading { level: level as u8, title, anchor }), words)
            }
            Tag::List(first) => Block::List(List { first, items: self.items() }),
            Tag::BlockQuote(_) => Block::Quote(self.blocks()),
            Tag::Table(_) => Block::Table(Box::new(self.table())),
            Tag::CodeBlock(kind) => Block::Code(Box::new(self.code(&kind, at))),
            Tag::HtmlBlock => Block::Html(self.pieces()),
            Tag::FootnoteDefinition(label) => {
                let note = self.note(&label);
                Block::Footnote(note, self.blocks())
            }
            Tag::DefinitionList => Block::Definitions(self.definitions()),
            // The grammar has nothing else; if it had, its words would stand all the same.
            _ => Block::Words(self.inlines()),
        }
    }

    fn items(&mut self) -> Vec<Spanned<Blocks>> {
        let mut items = Vec::new();
        while let Some((Event::Start(_), at)) = self.next() {
            let blocks = self.blocks();
            items.push(Spanned::new(blocks, self.span(at)));
        }
        items
    }

    fn definitions(&mut self) -> Vec<Spanned<Definition>> {
        let mut list = Vec::new();
        while let Some((Event::Start(tag), at)) = self.next() {
            let part = match tag {
                Tag::DefinitionListTitle => Definition::Title(self.inlines()),
                _ => Definition::Text(self.blocks()),
            };
            list.push(Spanned::new(part, self.span(at)));
        }
        list
    }

    fn table(&mut self) -> Table {
        self.tables += 1;
        let mut table = Table { number: self.tables, head: Vec::new(), rows: Vec::new() };
        while let Some((Event::Start(tag), _)) = self.next() {
            let mut cells = Vec::new();
            while let Some((Event::Start(_), at)) = self.next() {
                let words = self.inlines();
                cells.push(Spanned::new(words, self.span(at)));
            }
            match tag {
                Tag::TableHead => table.head = cells,
                _ => table.rows.push(cells),
            }
        }
        table
    }

    fn code(&mut self, kind: &CodeBlockKind<'_>, at: &Range<usize>) -> Code {
        let (language, indented) = match kind {
            CodeBlockKind::Fenced(info) => (info.split(' ').next().filter(|word| !word.is_empty()), None),
            CodeBlockKind::Indented => {
                let first = self.text[at.clone()].lines().next().unwrap_or_default().trim_end();
                let end = at.start + first.len();
                (None, Some(Span::new(self.origin.file, end - first.trim_start().len()..end)))
            }
        };
        Code { language: language.map(str::to_string), indented, text: self.pieces() }
    }

    /// Text that is taken as it is written, piece by piece.
    fn pieces(&mut self) -> Vec<Spanned<String>> {
        let mut pieces = Vec::new();
        while let Some((Event::Text(text) | Event::Html(text) | Event::InlineHtml(text), at)) = self.next() {
            pieces.push(Spanned::new(text.into_string(), Span::new(self.origin.file, at)));
        }
        pieces
    }

    /// The words up to the end of what holds them. A picture inside the description of another lends it its words.
    fn inlines(&mut self) -> Inlines {
        let mut words = Vec::new();
        let mut pictures = 0;
        while let Some((event, at)) = self.next() {
            match event {
                Event::Start(Tag::Image { .. }) if self.in_picture => pictures += 1,
                Event::End(TagEnd::Image) if pictures > 0 => pictures -= 1,
                Event::End(_) => break,
                event => self.inline(event, at, &mut words),
            }
        }
        words
    }

    fn inline(&mut self, event: Event<'t>, at: Range<usize>, words: &mut Inlines) {
        let span = Span::new(self.origin.file, at);
        let inline = match event {
            Event::Text(text) => Inline::Text(text.into_string()),
            Event::Code(text) => Inline::Code(text.into_string()),
            Event::Html(html) | Event::InlineHtml(html) => Inline::Html(html.into_string()),
            Event::SoftBreak => Inline::SoftBreak,
            Event::HardBreak => Inline::HardBreak,
            // A description leads nowhere, so that its notes take no number.
            Event::FootnoteReference(label) if !self.in_picture => Inline::Note(self.note(&label)),
            Event::Start(Tag::Emphasis) => Inline::Emphasis(self.inlines()),
            Event::Start(Tag::Strong) => Inline::Strong(self.inlines()),
            Event::Start(Tag::Link { link_type, dest_url, title, .. }) => {
                match dest_url.strip_prefix(CITATION) {
                    Some(label) => {
                        let words = self.inlines();
                        Inline::Citation(Box::new(Cited { citations: citations(label), words }))
                    }
                    None => self.link(link_type, &dest_url, &title, span),
                }
            }
            Event::Start(Tag::Image { dest_url, title, .. }) => self.picture(dest_url, &title, span),
            // The grammar has nothing else that holds words.
            Event::Start(_) => return words.extend(self.inlines()),
            _ => return,
        };
        words.push(Spanned::new(inline, span));
    }

    fn link(&mut self, kind: LinkType, address: &str, title: &str, span: Span) -> Inline {
        let scheme = if kind == LinkType::Email { "mailto:" } else { "" };
        let address = format!("{scheme}{address}");
        let leads = links::resolve(self.origin.name, &address);
        let link = Link { address: Spanned::new(address, span), title: written(title), leads };
        Inline::Link(Box::new(link), self.inlines())
    }

    fn picture(&mut self, address: CowStr<'t>, title: &str, span: Span) -> Inline {
        self.in_picture = true;
        let words = self.inlines();
        self.in_picture = false;
        let description = plain(&words, Beside::Keys);
        let image = Image { address: Spanned::new(address.into_string(), span), description };
        Inline::Picture(Box::new(Picture { image, title: written(title), words }))
    }

    fn note(&mut self, label: &str) -> Footnote {
        let next = self.notes.len() + 1;
        let number = *self.notes.entry(label.to_string()).or_insert(next);
        Footnote { number, anchor: format!("note.{}", hyphenated(label)) }
    }
}

/// True for the tags of words, false for those of blocks.
fn stands_in_a_line(tag: &Tag<'_>) -> bool {
    matches!(
        tag,
        Tag::Emphasis
            | Tag::Strong
            | Tag::Strikethrough
            | Tag::Superscript
            | Tag::Subscript
            | Tag::Link { .. }
            | Tag::Image { .. }
    )
}

fn written(title: &str) -> Option<String> {
    (!title.is_empty()).then(|| title.to_string())
}
