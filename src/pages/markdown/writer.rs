//! Writes the tree of a prose as HTML, tag by tag.

use std::fmt::Write;

use super::{Place, escaped};
use crate::model::prose::{Block, Code, Definition, Footnote, Heading, Inline, Link, List, Picture, Table};
use crate::model::source::Spanned;
use crate::pages::raw_html;

/// Writes HTML. Without a place it is what CommonMark says, raw HTML as it is.
pub(super) struct Writer<'p> {
    pub(super) out: String,
    place: Option<&'p Place<'p>>,
    /// Nothing has been written in this line. It does not follow from `out`: what a line break ends may be empty.
    at_start: bool,
    /// Raw tags that are open inside the line.
    open: raw_html::Open,
}

impl<'p> Writer<'p> {
    pub(super) fn new(place: Option<&'p Place<'p>>) -> Self {
        Writer { out: String::new(), place, at_start: true, open: raw_html::Open::default() }
    }

    fn put(&mut self, html: &str) {
        if !html.is_empty() {
            self.out.push_str(html);
            self.at_start = html.ends_with('\n');
        }
    }

    /// Writes what begins in a line of its own.
    fn put_below(&mut self, html: &str) {
        if !self.at_start {
            self.put("\n");
        }
        self.put(html);
    }

    fn text(&mut self, text: &str) {
        for c in text.chars() {
            match c {
                '&' => self.out.push_str("&amp;"),
                '<' => self.out.push_str("&lt;"),
                '>' => self.out.push_str("&gt;"),
                c => self.out.push(c),
            }
        }
        self.at_start = text.ends_with('\n');
    }

    fn blocks(&mut self, blocks: &[Spanned<Block>]) {
        blocks.iter().for_each(|block| self.block(&block.value));
    }

    pub(super) fn block(&mut self, block: &Block) {
        match block {
            Block::Paragraph(words) => {
                self.put_below("<p>");
                self.line(words);
                self.put("</p>\n");
            }
            Block::Words(words) => self.line(words),
            Block::Heading(heading, words) => self.heading(heading, words),
            Block::List(list) => self.list(list),
            Block::Quote(blocks) => {
                self.put_below("<blockquote>\n");
                self.blocks(blocks);
                self.put("</blockquote>\n");
            }
            Block::Table(table) => self.table(table),
            Block::Code(code) => self.code(code),
            Block::Html(lines) => {
                let html: String = lines.iter().map(|line| line.value.as_str()).collect();
                match self.place {
                    Some(_) => self.put(&raw_html::block(&html)),
                    None => self.put(&html),
                }
            }
            Block::Footnote(note, blocks) => self.footnote(note, blocks),
            Block::Definitions(list) => {
                self.put_below("<dl>\n");
                list.iter().for_each(|part| self.definition(&part.value));
                self.put("</dl>\n");
            }
            Block::Rule => self.put_below("<hr />\n"),
        }
    }

    /// A heading gets its level on the page, and its id.
    fn heading(&mut self, heading: &Heading, words: &[Spanned<Inline>]) {
        let level = match self.place {
            Some(place) => {
                let level = (heading.level + place.deeper).min(6);
                let id = escaped(&format!("{}{}", place.prefix, heading.anchor));
                self.put(&format!("<h{level} id=\"{id}\">"));
                level
            }
            None => {
                self.put_below(&format!("<h{}>", heading.level));
                heading.level
            }
        };
        self.line(words);
        self.put(&format!("</h{level}>\n"));
    }

    fn list(&mut self, list: &List) {
        match list.first {
            Some(1) => self.put_below("<ol>\n"),
            Some(first) => self.put_below(&format!("<ol start=\"{first}\">\n")),
            None => self.put_below("<ul>\n"),
        }
        for item in &list.items {
            self.put_below("<li>");
            self.blocks(&item.value);
            self.put("</li>\n");
        }
        self.put(if list.first.is_some() { "</ol>\n" } else { "</ul>\n" });
    }

    /// Text stands at the left everywhere: an alignment would be an inline style, which the pages' policy blocks.
    fn table(&mut self, table: &Table) {
        let label = self.place.map(|place| escaped(&(place.table_label)(table.number)));
        if let Some(label) = &label {
            self.put(&format!(
                "<div class=\"scroll\" role=\"region\" tabindex=\"0\" aria-label=\"{label}\">"
            ));
        }
        self.put("<table><thead><tr>");
        self.cells(&table.head, "th");
        self.put("</tr></thead><tbody>\n");
        for row in &table.rows {
            self.put("<tr>");
            self.cells(row, "td");
            self.put("</tr>\n");
        }
        self.put("</tbody></table>\n");
        if label.is_some() {
            self.put("</div>\n");
        }
    }

    fn cells(&mut self, cells: &[Spanned<Vec<Spanned<Inline>>>], tag: &str) {
        for cell in cells {
            self.put(&format!("<{tag}>"));
            self.line(&cell.value);
            self.put(&format!("</{tag}>"));
        }
    }

    fn code(&mut self, code: &Code) {
        match &code.language {
            Some(language) => {
                self.put_below(&format!("<pre><code class=\"language-{}\">", in_attribute(language)));
            }
            None => self.put_below("<pre><code>"),
        }
        code.text.iter().for_each(|piece| self.text(&piece.value));
        self.put("</code></pre>\n");
    }

    fn footnote(&mut self, note: &Footnote, blocks: &[Spanned<Block>]) {
        let (id, number) = (self.note_id(note), note.number);
        self.put(&format!(
            "<div class=\"footnote-definition\" id=\"{id}\"><span class=\"footnote-definition-label\">{number}</span>\n"
        ));
        self.blocks(blocks);
        self.put("</div>\n");
    }

    fn note_id(&self, note: &Footnote) -> String {
        escaped(&format!("{}{}", self.place.map_or("", |place| place.prefix), note.anchor))
    }

    fn definition(&mut self, part: &Definition) {
        match part {
            Definition::Title(words) => {
                self.put_below("<dt>");
                self.line(words);
                self.put("</dt>\n");
            }
            Definition::Text(blocks) => {
                self.put_below("<dd>");
                self.blocks(blocks);
                self.put("</dd>\n");
            }
        }
    }

    /// Words up to the end of their line. A raw tag that was opened in it and never closed ends with it.
    fn line(&mut self, words: &[Spanned<Inline>]) {
        self.words(words);
        let closing = self.open.close_all();
        self.put(&closing);
    }

    fn words(&mut self, words: &[Spanned<Inline>]) {
        words.iter().for_each(|word| self.inline(&word.value));
    }

    fn inline(&mut self, inline: &Inline) {
        match inline {
            Inline::Text(text) => self.text(text),
            Inline::Code(text) => {
                self.put("<code>");
                self.text(text);
                self.put("</code>");
            }
            Inline::Emphasis(words) => {
                self.put("<em>");
                self.words(words);
                self.put("</em>");
            }
            Inline::Strong(words) => {
                self.put("<strong>");
                self.words(words);
                self.put("</strong>");
            }
            Inline::Link(link, words) => self.link(link, words),
            Inline::Citation(cited) => match self.place {
                Some(place) => self.put(&(place.cite)(&cited.citations)),
                None => self.words(&cited.words),
            },
            Inline::Picture(picture) => match self.place {
                Some(place) => self.put(&(place.picture)(&picture.image)),
                None => self.put(&plain_picture(picture)),
            },
            Inline::Note(note) => {
                let (id, number) = (self.note_id(note), note.number);
                self.put(&format!("<sup class=\"footnote-reference\"><a href=\"#{id}\">{number}</a></sup>"));
            }
            Inline::SoftBreak => self.put("\n"),
            Inline::HardBreak => self.put("<br />\n"),
            Inline::Html(html) => match self.place {
                Some(_) => {
                    let kept = self.open.tag(html);
                    self.put(&kept);
                }
                None => self.put(html),
            },
        }
    }

    fn link(&mut self, link: &Link, words: &[Spanned<Inline>]) {
        let address = match self.place {
            Some(place) => (place.link)(link),
            None => Some(link.address.value.clone()),
        };
        let Some(address) = address else { return self.words(words) };
        let title = title(link.title.as_deref());
        self.put(&format!("<a href=\"{}\"{title}>", in_address(&address)));
        self.words(words);
        self.put("</a>");
    }
}

fn plain_picture(picture: &Picture) -> String {
    let image = &picture.image;
    let (address, description) = (in_address(&image.address.value), in_attribute(&image.description));
    format!("<img src=\"{address}\" alt=\"{description}\"{} />", title(picture.title.as_deref()))
}

fn title(title: Option<&str>) -> String {
    title.map(|title| format!(" title=\"{}\"", in_attribute(title))).unwrap_or_default()
}

/// An author's text in an attribute.
fn in_attribute(text: &str) -> String {
    escaped(text).replace('\'', "&#39;")
}

/// An address in an attribute: what can stand in no address is written as its bytes, what is written so already stays.
fn in_address(address: &str) -> String {
    let mut out = String::with_capacity(address.len());
    for c in address.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '\'' => out.push_str("&#x27;"),
            c if c.is_ascii_alphanumeric() || "!#$%()*+,-./:;=?@^_~".contains(c) => out.push(c),
            c => {
                let mut bytes = [0; 4];
                for byte in c.encode_utf8(&mut bytes).bytes() {
                    let _ = write!(out, "%{byte:02X}");
                }
            }
        }
    }
    out
}
