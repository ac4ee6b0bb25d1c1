//! The texts of a prose: what of its tree stands by itself, and how a line of it reads without its marks.

use super::tree::{Block, Code, Definition, Inline, List};
use super::{Heading, ParagraphKind};
use crate::model::source::{Span, Spanned};

/// A text that stands by itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Text<'p> {
    /// A heading of any level, with its words as they are written.
    Heading(&'p Heading, &'p [Spanned<Inline>]),
    /// A paragraph, the words of an item, a cell, or what a definition explains.
    Paragraph(ParagraphKind, &'p [Spanned<Inline>]),
    Code(ParagraphKind, &'p Code),
    /// A block of raw HTML, line by line.
    Html(&'p [Spanned<String>]),
}

/// The texts of blocks, in their order.
pub fn texts<'p>(blocks: impl IntoIterator<Item = &'p Spanned<Block>>) -> Vec<Text<'p>> {
    let mut walk = Walk { texts: Vec::new(), kind: ParagraphKind::Running };
    blocks.into_iter().for_each(|block| walk.block(block, false));
    walk.texts
}

struct Walk<'p> {
    texts: Vec<Text<'p>>,
    /// What the next paragraph is part of.
    kind: ParagraphKind,
}

impl<'p> Walk<'p> {
    fn blocks(&mut self, blocks: &'p [Spanned<Block>], listed: bool) {
        blocks.iter().for_each(|block| self.block(block, listed));
    }

    /// `listed` where the block is in a list.
    fn block(&mut self, block: &'p Spanned<Block>, listed: bool) {
        match &block.value {
            // What comes after words of an item is still a part of it.
            Block::Words(words) => return self.paragraph(words),
            Block::Heading(heading, words) => return self.texts.push(Text::Heading(heading, words)),
            Block::Rule => return,
            Block::Paragraph(words) => self.paragraph(words),
            Block::List(list) => self.list(list, listed),
            Block::Quote(blocks) | Block::Footnote(_, blocks) => self.blocks(blocks, listed),
            Block::Table(table) => {
                self.kind = ParagraphKind::Cell;
                let cells = table.head.iter().chain(table.rows.iter().flatten());
                cells.for_each(|cell| self.paragraph(&cell.value));
            }
            Block::Code(code) => self.texts.push(Text::Code(self.kind, code)),
            Block::Html(lines) => self.texts.push(Text::Html(lines)),
            Block::Definitions(list) => {
                for part in list {
                    match &part.value {
                        Definition::Title(words) => self.paragraph(words),
                        Definition::Text(blocks) => self.blocks(blocks, listed),
                    }
                    self.kind = ParagraphKind::Running;
                }
            }
        }
        self.kind = ParagraphKind::Running;
    }

    fn list(&mut self, list: &'p List, listed: bool) {
        self.kind = ParagraphKind::Running;
        for item in &list.items {
            if list.first.is_some() && !listed {
                self.kind = ParagraphKind::Step;
            }
            self.blocks(&item.value, true);
            self.kind = ParagraphKind::Running;
        }
    }

    fn paragraph(&mut self, words: &'p [Spanned<Inline>]) {
        self.texts.push(Text::Paragraph(self.kind, words));
    }
}

/// What of a line is told in words beside its words. Notes and raw HTML never are, but that `<br>` parts words.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Beside {
    Nothing,
    /// The descriptions of its pictures.
    Pictures,
    /// The words between the brackets of its citations.
    Keys,
}

/// How a line reads without its marks. A line break in it is a space.
pub fn plain(line: &[Spanned<Inline>], beside: Beside) -> String {
    let mut out = String::new();
    say(line, beside, &mut out);
    out
}

fn say(line: &[Spanned<Inline>], beside: Beside, out: &mut String) {
    for word in line {
        match &word.value {
            Inline::Text(text) | Inline::Code(text) => out.push_str(text),
            Inline::SoftBreak | Inline::HardBreak => out.push(' '),
            Inline::Emphasis(words) | Inline::Strong(words) | Inline::Link(_, words) => {
                say(words, beside, out)
            }
            Inline::Citation(cited) if beside == Beside::Keys => say(&cited.words, beside, out),
            Inline::Picture(picture) if beside == Beside::Pictures => {
                out.push_str(&picture.image.description)
            }
            Inline::Html(tag) if tag.starts_with("<br") => out.push(' '),
            Inline::Citation(_) | Inline::Picture(_) | Inline::Note(_) | Inline::Html(_) => {}
        }
    }
}

impl Code {
    /// Its text as it is written.
    pub fn plain(&self) -> String {
        self.text.iter().map(|piece| piece.value.as_str()).collect()
    }
}

/// The pieces of raw HTML in the texts of blocks, each where it stands.
pub fn html<'p>(blocks: impl IntoIterator<Item = &'p Spanned<Block>>) -> Vec<(&'p str, Span)> {
    let mut found = Vec::new();
    for text in texts(blocks) {
        match text {
            Text::Html(lines) => found.extend(lines.iter().map(|line| (line.value.as_str(), line.span))),
            Text::Heading(_, line) | Text::Paragraph(_, line) => tags(line, &mut found),
            Text::Code(..) => {}
        }
    }
    found
}

fn tags<'p>(line: &'p [Spanned<Inline>], found: &mut Vec<(&'p str, Span)>) {
    for word in line {
        match &word.value {
            Inline::Html(tag) => found.push((tag, word.span)),
            Inline::Emphasis(words) | Inline::Strong(words) | Inline::Link(_, words) => tags(words, found),
            _ => {}
        }
    }
}
