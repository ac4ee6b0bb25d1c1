//! Prose as pieces for the typesetter: the same events that pages are rendered from, in the same order,
//! with citations in words, and addresses of other websites written out, since paper has no links.

use std::collections::BTreeMap;
use std::ops::Range;

use pulldown_cmark::{Event, HeadingLevel, Tag, TagEnd};
use serde::Serialize;

use super::places::{Place, Places};
use crate::entry::markdown::{CITATION, Citation, HtmlPlace, citations, events, keeps, opening_tags};
use crate::model::source::{FileId, Span};

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
}

/// What a prose is set for: what citations, notes, links and pictures become.
pub(super) struct Setting<'a> {
    pub(super) file: FileId,
    pub(super) cite: &'a dyn Fn(&[Citation]) -> String,
    /// "Note 2".
    pub(super) note: &'a dyn Fn(usize) -> String,
    /// The address to write out behind the words of a link, if it leads out of the site.
    pub(super) elsewhere: &'a dyn Fn(&str) -> Option<String>,
    /// The name under which the sheet has the photo with this address, if it has it.
    pub(super) photo: &'a dyn Fn(&str) -> Option<String>,
    /// Level of a level-2 heading of the prose on the sheet.
    pub(super) level: u8,
    /// Level-2 headings divide the prose and are left to the sheet, as on pages.
    pub(super) divided: bool,
}

/// Sets a prose that starts at byte `base` of its file: one part, or when it is divided the intro and
/// a part for each section.
pub(super) fn set<'s>(
    text: &'s str,
    base: usize,
    setting: &'s Setting<'s>,
    places: &'s mut Places,
) -> Vec<Vec<Piece>> {
    let mut setter = Setter {
        text,
        setting,
        places,
        base,
        parts: Vec::new(),
        open: vec![Open::Part(Vec::new())],
        words: Vec::new(),
        said: None,
        strong: 0,
        links: Vec::new(),
        pictures: Vec::new(),
        picture: None,
        inside_picture: 0,
        citing: false,
        html: None,
        notes: BTreeMap::new(),
        level: setting.level.saturating_sub(1),
    };
    for (event, range) in events(text) {
        setter.take(event, range);
    }
    setter.finish()
}

/// A container that is being read.
enum Open {
    Part(Vec<Piece>),
    List {
        place: Place,
        first: Option<u64>,
        items: Vec<Item>,
    },
    Item {
        place: Place,
        pieces: Vec<Piece>,
    },
    Quote(Vec<Piece>),
    /// A footnote, a description: its pieces stand where it stands.
    Plain(Vec<Piece>),
    Table {
        place: Place,
        head: Vec<Vec<Run>>,
        rows: Vec<Vec<Vec<Run>>>,
        row: Vec<Vec<Run>>,
    },
}

struct Setter<'s> {
    text: &'s str,
    setting: &'s Setting<'s>,
    places: &'s mut Places,
    base: usize,
    parts: Vec<Vec<Piece>>,
    open: Vec<Open>,
    words: Vec<Run>,
    /// Where the words read so far stand.
    said: Option<Range<usize>>,
    /// How many emphases are open: large print has no italics, so all of them are bold.
    strong: usize,
    /// For each open link the address to write out, and how many bytes of words there were before it.
    links: Vec<(Option<String>, usize)>,
    /// Pictures inside a paragraph stand after it.
    pictures: Vec<Piece>,
    picture: Option<(String, String, Range<usize>)>,
    /// How many pictures are open inside the description of that one.
    inside_picture: usize,
    citing: bool,
    html: Option<(String, Range<usize>)>,
    /// The number of each footnote, in the order they are met.
    notes: BTreeMap<String, usize>,
    /// Level of the last heading: none skips one, or the sheet could not be tagged.
    level: u8,
}

impl Setter<'_> {
    fn place(&mut self, range: &Range<usize>) -> Place {
        // The line end behind a block is no part of what a finding is about.
        let end = range.start + self.text[range.clone()].trim_end().len();
        self.places.at(Span::new(self.setting.file, self.base + range.start..self.base + end))
    }

    fn take(&mut self, event: Event<'_>, range: Range<usize>) {
        if let Some((_, description, _)) = &mut self.picture {
            match event {
                Event::Text(words) | Event::Code(words) => description.push_str(&words),
                Event::SoftBreak | Event::HardBreak => description.push(' '),
                Event::Start(Tag::Image { .. }) => self.inside_picture += 1,
                Event::End(TagEnd::Image) if self.inside_picture > 0 => self.inside_picture -= 1,
                Event::End(TagEnd::Image) => self.end_picture(),
                _ => {}
            }
            return;
        }
        if self.citing {
            self.citing = !matches!(event, Event::End(TagEnd::Link));
            return;
        }
        if is_inline(&event) {
            self.extend(&range);
        }
        match event {
            Event::Start(tag) => self.start(tag, range),
            Event::End(tag) => self.end(tag, range),
            Event::Text(words) | Event::Code(words) => self.say(&words),
            Event::SoftBreak => self.say(" "),
            Event::HardBreak => self.say("\n"),
            Event::Html(html) => {
                if let Some((block, _)) = &mut self.html {
                    block.push_str(&html);
                }
            }
            Event::InlineHtml(html) if html.starts_with("<br") => {
                self.say("\n");
            }
            Event::FootnoteReference(label) => {
                let note = self.note(&label);
                self.say(&format!(" ({note})"));
            }
            Event::Rule => self.break_words(),
            _ => {}
        }
    }

    /// The words that are being read go on, or begin, there.
    fn extend(&mut self, range: &Range<usize>) {
        match &mut self.said {
            Some(said) => said.end = said.end.max(range.end),
            None => self.said = Some(range.clone()),
        }
    }

    fn say(&mut self, words: &str) {
        let strong = self.strong > 0;
        match self.words.last_mut() {
            Some(last) if last.strong == strong && last.text != "\n" && words != "\n" => {
                last.text.push_str(words);
            }
            _ => self.words.push(Run { text: words.to_string(), strong }),
        }
    }

    fn note(&mut self, label: &str) -> String {
        let next = self.notes.len() + 1;
        let number = *self.notes.entry(label.to_string()).or_insert(next);
        (self.setting.note)(number)
    }

    fn start(&mut self, tag: Tag<'_>, range: Range<usize>) {
        match tag {
            Tag::Link { dest_url, .. } => match dest_url.strip_prefix(CITATION) {
                Some(label) => {
                    self.citing = true;
                    let words = (self.setting.cite)(&citations(label));
                    self.say(&words);
                }
                None => {
                    let before = self.words.iter().map(|run| run.text.len()).sum();
                    self.links.push(((self.setting.elsewhere)(&dest_url), before));
                }
            },
            Tag::Image { dest_url, .. } => {
                self.picture = Some((dest_url.to_string(), String::new(), range));
            }
            Tag::Emphasis | Tag::Strong => self.strong += 1,
            Tag::HtmlBlock => {
                self.break_words();
                self.html = Some((String::new(), range));
            }
            Tag::List(first) => {
                self.break_words();
                let place = self.place(&range);
                self.open.push(Open::List { place, first, items: Vec::new() });
            }
            Tag::Item => {
                let place = self.place(&range);
                self.open.push(Open::Item { place, pieces: Vec::new() });
            }
            Tag::BlockQuote(_) => {
                self.break_words();
                self.open.push(Open::Quote(Vec::new()));
            }
            Tag::FootnoteDefinition(label) => {
                self.break_words();
                self.open.push(Open::Plain(Vec::new()));
                let note = self.note(&label);
                self.extend(&range);
                self.words.push(Run { text: format!("{note}. "), strong: true });
            }
            Tag::DefinitionListTitle => self.strong += 1,
            Tag::DefinitionListDefinition => self.open.push(Open::Plain(Vec::new())),
            Tag::Table(_) => {
                self.break_words();
                let place = self.place(&range);
                self.open.push(Open::Table { place, head: Vec::new(), rows: Vec::new(), row: Vec::new() });
            }
            Tag::CodeBlock(_) | Tag::Heading { .. } | Tag::DefinitionList => self.break_words(),
            _ => {}
        }
    }

    fn end(&mut self, tag: TagEnd, range: Range<usize>) {
        match tag {
            TagEnd::Link => self.end_link(),
            TagEnd::Emphasis | TagEnd::Strong => self.strong = self.strong.saturating_sub(1),
            TagEnd::DefinitionListTitle => {
                self.close_words(&range);
                self.strong = self.strong.saturating_sub(1);
            }
            TagEnd::Paragraph | TagEnd::CodeBlock => self.close_words(&range),
            TagEnd::Heading(level) => self.end_heading(level, range),
            TagEnd::HtmlBlock => self.end_html(),
            TagEnd::TableCell => {
                let words = self.taken();
                if let Some(Open::Table { row, .. }) = self.open.last_mut() {
                    row.push(words);
                }
            }
            TagEnd::TableHead => {
                if let Some(Open::Table { head, row, .. }) = self.open.last_mut() {
                    *head = std::mem::take(row);
                }
            }
            TagEnd::TableRow => {
                if let Some(Open::Table { rows, row, .. }) = self.open.last_mut() {
                    rows.push(std::mem::take(row));
                }
            }
            TagEnd::List(_)
            | TagEnd::Item
            | TagEnd::BlockQuote(_)
            | TagEnd::FootnoteDefinition
            | TagEnd::DefinitionListDefinition => {
                self.close_words(&range);
                self.close();
            }
            TagEnd::Table => {
                self.close();
                // Pictures in its cells stand after it.
                self.close_words(&range);
            }
            _ => {}
        }
    }

    /// The words read so far, without the space around them.
    fn taken(&mut self) -> Vec<Run> {
        self.said = None;
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

    /// Ends the words of a tight item, which are no paragraph of their own, where another block begins.
    fn break_words(&mut self) {
        if let Some(said) = self.said.clone() {
            self.close_words(&said);
        }
    }

    /// Ends a paragraph that stands at `range`, if there are words for one. Its pictures follow it.
    fn close_words(&mut self, range: &Range<usize>) {
        let words = self.taken();
        if !words.is_empty() {
            let place = self.place(range);
            self.push(Piece::Paragraph { place, words });
        }
        self.push_pictures();
    }

    fn push_pictures(&mut self) {
        for picture in std::mem::take(&mut self.pictures) {
            self.push(picture);
        }
    }

    fn push(&mut self, piece: Piece) {
        match self.open.last_mut() {
            Some(
                Open::Part(pieces) | Open::Item { pieces, .. } | Open::Quote(pieces) | Open::Plain(pieces),
            ) => {
                pieces.push(piece);
            }
            // A list holds nothing but items, a table nothing but rows: the grammar sees to it.
            Some(Open::List { .. } | Open::Table { .. }) | None => {}
        }
    }

    fn close(&mut self) {
        match self.open.pop() {
            Some(Open::List { place, first, items }) => self.push(Piece::List { place, first, items }),
            Some(Open::Item { place, pieces }) => {
                if let Some(Open::List { items, .. }) = self.open.last_mut() {
                    items.push(Item { place, pieces });
                }
            }
            Some(Open::Quote(pieces)) => self.push(Piece::Quote { pieces }),
            Some(Open::Plain(pieces)) => pieces.into_iter().for_each(|piece| self.push(piece)),
            Some(Open::Table { place, head, rows, .. }) => self.push(Piece::Table { place, head, rows }),
            Some(part @ Open::Part(_)) => self.open.push(part),
            None => {}
        }
    }

    fn end_link(&mut self) {
        let Some((address, before)) = self.links.pop() else { return };
        let Some(address) = address else { return };
        let words: String = self.words.iter().map(|run| run.text.as_str()).collect();
        // An address that is its own words is not written twice.
        if !words.get(before..).is_some_and(|own| own.contains(&address)) {
            self.say(&format!(" ({address})"));
        }
    }

    fn end_picture(&mut self) {
        let Some((address, description, range)) = self.picture.take() else { return };
        match (self.setting.photo)(&address) {
            Some(photo) if !description.trim().is_empty() => {
                let place = self.place(&range);
                self.pictures.push(Piece::Picture { place, photo, description });
            }
            // As on pages: a picture that cannot be shown is told in words.
            _ => self.say(&description),
        }
    }

    fn end_heading(&mut self, level: HeadingLevel, range: Range<usize>) {
        let words = self.taken();
        let at_top = matches!(self.open.as_slice(), [Open::Part(_)]);
        if self.setting.divided && level == HeadingLevel::H2 && at_top {
            if let Some(Open::Part(part)) = self.open.pop() {
                self.parts.push(part);
            }
            self.open.push(Open::Part(Vec::new()));
            self.level = self.setting.level;
            self.push_pictures();
            return;
        }
        if words.is_empty() {
            self.push_pictures();
            return;
        }
        let deeper = (level as u8).saturating_sub(2);
        let level = (self.setting.level + deeper).clamp(1, self.level + 1);
        let place = self.place(&range);
        if at_top {
            self.level = level;
            self.push(Piece::Heading { place, level, words });
        } else {
            // In a quote or a list it would break the order of the sheet's headings.
            let words = words.into_iter().map(|run| Run { strong: true, ..run }).collect();
            self.push(Piece::Paragraph { place, words });
        }
        self.push_pictures();
    }

    fn end_html(&mut self) {
        let Some((html, range)) = self.html.take() else { return };
        let lines = plain(&html);
        for line in lines.lines().map(str::trim).filter(|line| !line.is_empty()) {
            self.say(line);
            self.close_words(&range);
        }
    }

    fn finish(mut self) -> Vec<Vec<Piece>> {
        while self.open.len() > 1 {
            self.close();
        }
        if let Some(Open::Part(part)) = self.open.pop() {
            self.parts.push(part);
        }
        self.parts
    }
}

/// Events that stand in a line of words.
fn is_inline(event: &Event<'_>) -> bool {
    use Event::{Code, FootnoteReference, HardBreak, InlineHtml, SoftBreak, Start, Text};
    match event {
        Text(_) | Code(_) | SoftBreak | HardBreak | InlineHtml(_) | FootnoteReference(_) => true,
        Start(tag) => {
            matches!(tag, Tag::Link { .. } | Tag::Image { .. } | Tag::Emphasis | Tag::Strong)
        }
        _ => false,
    }
}

/// The text of a piece of raw HTML, on a line of its own for each block in it.
fn plain(html: &str) -> String {
    let mut lines = html.to_string();
    for (name, at) in opening_tags(html).into_iter().rev() {
        if name == "br" || !keeps(&name, HtmlPlace::Inline) {
            lines.insert(at.start, '\n');
        }
    }
    let text = ammonia::Builder::empty().clean(&lines).to_string();
    text.replace("&nbsp;", " ").replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&")
}

/// The words of pieces, for a line that is read at a glance.
pub(super) fn plain_words(words: &[Run]) -> String {
    words.iter().map(|run| if run.text == "\n" { " " } else { run.text.as_str() }).collect()
}

#[cfg(test)]
mod tests;
