//! Sets the tree of a prose, block by block.

use super::{Item, Piece, Run, Setting, Sheet};
use crate::model::link::Target;
use crate::model::prose::html::{HtmlPlace, keeps, opening_tags};
use crate::model::prose::{Block, Definition, Heading, Image, Inline, Link, List, Table};
use crate::model::source::{Span, Spanned};
use crate::print::places::Place;

pub(super) struct Setter<'s> {
    setting: &'s Setting<'s>,
    sheet: Sheet<'s>,
    words: Vec<Run>,
    /// How many emphases are open: large print has no italics, so all of them are bold.
    strong: usize,
    /// Where the link leads that is open.
    link: Option<String>,
    /// Pictures inside a paragraph stand after it.
    pictures: Vec<Piece>,
    /// Level of the last heading: none skips one, or the sheet could not be tagged.
    level: u8,
}

/// What holds a block.
#[derive(Clone, Copy)]
struct Holder {
    /// Where the holder stands, if the block is the last that it holds.
    ends: Option<Span>,
    /// The sheet itself holds it.
    at_top: bool,
}

impl<'s> Setter<'s> {
    /// Sets what stands below a heading of this level.
    pub(super) fn new(setting: &'s Setting<'s>, sheet: Sheet<'s>, level: u8) -> Self {
        Setter { setting, sheet, words: Vec::new(), strong: 0, link: None, pictures: Vec::new(), level }
    }

    /// Sets a block that stands by itself on the sheet.
    pub(super) fn at_top(&mut self, block: &Spanned<Block>, out: &mut Vec<Piece>) {
        self.block(block, Holder { ends: None, at_top: true }, out);
    }

    /// Sets the pictures in these words, and leaves the words out.
    pub(super) fn pictures_of(&mut self, words: &[Spanned<Inline>], out: &mut Vec<Piece>) {
        self.inlines(words);
        self.words.clear();
        out.append(&mut self.pictures);
    }

    fn place(&mut self, span: Span) -> Place {
        self.sheet.places.at(span)
    }

    fn held(&mut self, blocks: &[Spanned<Block>], by: Span, out: &mut Vec<Piece>) {
        for (index, block) in blocks.iter().enumerate() {
            let ends = (index + 1 == blocks.len()).then_some(by);
            self.block(block, Holder { ends, at_top: false }, out);
        }
    }

    fn block(&mut self, Spanned { value, span }: &Spanned<Block>, holder: Holder, out: &mut Vec<Piece>) {
        match value {
            Block::Paragraph(words) => {
                self.inlines(words);
                self.end_words(*span, out);
            }
            Block::Words(words) => {
                self.inlines(words);
                self.end_words(holder.ends.unwrap_or(*span), out);
            }
            Block::Heading(heading, words) => self.heading(heading, words, *span, holder.at_top, out),
            Block::List(list) => self.list(list, *span, out),
            Block::Quote(blocks) => {
                let mut pieces = Vec::new();
                self.held(blocks, *span, &mut pieces);
                out.push(Piece::Quote { pieces });
            }
            Block::Table(table) => self.table(table, *span, out),
            Block::Code(code) => {
                code.text.iter().for_each(|piece| self.say(&piece.value));
                self.end_words(*span, out);
            }
            Block::Html(lines) => self.html(lines, *span, out),
            Block::Footnote(note, blocks) => {
                // Its number stands before its first words, or alone where something else comes first.
                let note = (self.setting.note)(note.number);
                self.words.push(Run { strong: true, ..Run::plain(format!("{note}. ")) });
                let begins = blocks.first().map(|block| &block.value);
                if !matches!(begins, Some(Block::Paragraph(_) | Block::Words(_))) {
                    self.end_words(*span, out);
                }
                self.held(blocks, *span, out);
            }
            Block::Definitions(list) => list.iter().for_each(|part| self.definition(part, out)),
            Block::Rule => {}
        }
    }

    fn heading(
        &mut self,
        heading: &Heading,
        words: &[Spanned<Inline>],
        span: Span,
        at_top: bool,
        out: &mut Vec<Piece>,
    ) {
        self.inlines(words);
        let words = self.taken();
        if !words.is_empty() {
            let deeper = heading.level.saturating_sub(2);
            let level = (self.setting.level + deeper).clamp(1, self.level + 1);
            let place = self.place(span);
            if at_top {
                self.level = level;
                out.push(Piece::Heading { place, level, words });
            } else {
                // In a quote or a list it would break the order of the sheet's headings.
                let words = words.into_iter().map(|run| Run { strong: true, ..run }).collect();
                out.push(Piece::Paragraph { place, words });
            }
        }
        out.append(&mut self.pictures);
    }

    fn list(&mut self, list: &List, span: Span, out: &mut Vec<Piece>) {
        let place = self.place(span);
        let mut items = Vec::new();
        for item in &list.items {
            let place = self.place(item.span);
            let mut pieces = Vec::new();
            self.held(&item.value, item.span, &mut pieces);
            items.push(Item { place, pieces });
        }
        out.push(Piece::List { place, first: list.first, items });
    }

    /// Pictures in its cells stand after it.
    fn table(&mut self, table: &Table, span: Span, out: &mut Vec<Piece>) {
        let place = self.place(span);
        let head = self.cells(&table.head);
        let rows = table.rows.iter().map(|row| self.cells(row)).collect();
        out.push(Piece::Table { place, head, rows });
        out.append(&mut self.pictures);
    }

    fn cells(&mut self, cells: &[Spanned<Vec<Spanned<Inline>>>]) -> Vec<Vec<Run>> {
        let mut row = Vec::new();
        for cell in cells {
            self.inlines(&cell.value);
            row.push(self.taken());
        }
        row
    }

    fn html(&mut self, lines: &[Spanned<String>], span: Span, out: &mut Vec<Piece>) {
        for line in words_of_html(lines).lines().map(str::trim).filter(|line| !line.is_empty()) {
            self.say(line);
            self.end_words(span, out);
        }
    }

    fn definition(&mut self, part: &Spanned<Definition>, out: &mut Vec<Piece>) {
        match &part.value {
            Definition::Title(words) => {
                self.strong += 1;
                self.inlines(words);
                self.end_words(part.span, out);
                self.strong -= 1;
            }
            Definition::Text(blocks) => self.held(blocks, part.span, out),
        }
    }

    fn inlines(&mut self, words: &[Spanned<Inline>]) {
        words.iter().for_each(|word| self.inline(word));
    }

    fn inline(&mut self, Spanned { value, span }: &Spanned<Inline>) {
        match value {
            Inline::Text(text) | Inline::Code(text) => self.say(text),
            Inline::SoftBreak => self.say(" "),
            Inline::HardBreak => self.say("\n"),
            Inline::Emphasis(words) | Inline::Strong(words) => {
                self.strong += 1;
                self.inlines(words);
                self.strong -= 1;
            }
            Inline::Link(link, words) => self.link(link, words),
            Inline::Citation(cited) => self.say(&(self.setting.cite)(&cited.citations)),
            Inline::Picture(picture) => self.picture(&picture.image, *span),
            Inline::Note(note) => self.say(&format!(" ({})", (self.setting.note)(note.number))),
            Inline::Html(html) if html.starts_with("<br") => self.say("\n"),
            Inline::Html(_) => {}
        }
    }

    fn link(&mut self, link: &Link, words: &[Spanned<Inline>]) {
        let before: usize = self.words.iter().map(|run| run.text.len()).sum();
        let Some(address) = leads_out(link) else { return self.inlines(words) };
        let outer = self.link.replace(address.to_string());
        self.inlines(words);
        let words: String = self.words.iter().map(|run| run.text.as_str()).collect();
        let written = address.trim_start_matches("mailto:").trim_start_matches("tel:");
        // An address that is its own words is not written twice.
        if !words.get(before..).is_some_and(|own| own.contains(written)) {
            self.say(&format!(" ({written})"));
        }
        self.link = outer;
    }

    fn picture(&mut self, image: &Image, span: Span) {
        match (self.sheet.photo)(&image.address.value) {
            Some(photo) if !image.description.trim().is_empty() => {
                let place = self.place(span);
                self.pictures.push(Piece::Picture { place, photo, description: image.description.clone() });
            }
            // As on pages: a picture that cannot be shown is told in words.
            _ => self.say(&image.description),
        }
    }

    fn say(&mut self, words: &str) {
        let strong = self.strong > 0;
        match self.words.last_mut() {
            Some(last)
                if (last.strong, &last.link) == (strong, &self.link)
                    && last.text != "\n"
                    && words != "\n" =>
            {
                last.text.push_str(words);
            }
            _ => self.words.push(Run { text: words.to_string(), strong, link: self.link.clone() }),
        }
    }

    /// The words read so far, without the space around them.
    fn taken(&mut self) -> Vec<Run> {
        let mut words = std::mem::take(&mut self.words);
        if let Some(first) = words.first_mut() {
            first.text = first.text.trim_start().to_string();
        }
        if let Some(last) = words.last_mut() {
            last.text = last.text.trim_end().to_string();
        }
        words.retain(|run| !run.text.is_empty());
        words
    }

    /// Ends a paragraph, if there are words for one. Its pictures follow it.
    fn end_words(&mut self, span: Span, out: &mut Vec<Piece>) {
        let words = self.taken();
        if !words.is_empty() {
            let place = self.place(span);
            out.push(Piece::Paragraph { place, words });
        }
        out.append(&mut self.pictures);
    }
}

/// The address of a link, if it leads out of the site: that of a page, of mail or of a phone.
fn leads_out(link: &Link) -> Option<&str> {
    match &link.leads.as_ref().ok()?.target {
        Target::Elsewhere(address) => Some(address),
        _ => None,
    }
}

/// The words of a block of raw HTML, on a line of its own for each block in it.
pub(crate) fn words_of_html(html: &[Spanned<String>]) -> String {
    let mut lines: String = html.iter().map(|line| line.value.as_str()).collect();
    for (name, at) in opening_tags(&lines).into_iter().rev() {
        if name == "br" || !keeps(&name, HtmlPlace::Inline) {
            lines.insert(at.start, '\n');
        }
    }
    let text = ammonia::Builder::empty().clean(&lines).to_string();
    text.replace("&nbsp;", " ").replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&")
}
