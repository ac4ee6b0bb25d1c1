//! The shape of an entry's prose: sections, links, pictures, citations, paragraphs, headings.

use std::ops::Range;

use pulldown_cmark::{CodeBlockKind, Event, HeadingLevel, LinkType, Tag, TagEnd};

use super::Known;
use super::markdown::{Anchors, CITATION, HtmlPlace, citations, events, keeps, opening_tags};
use crate::model::finding::Finding;
use crate::model::limits::{self, BLOCKS, CITED, LINKS, NESTED, PROSE, TAGS};
use crate::model::prose::{Heading, Image, Paragraph, ParagraphKind, Prose, Section, settled};
use crate::model::source::{FileId, Span, Spanned};

/// Reads the prose that stands at `range` of a file's text. Of a prose that goes beyond the limits nothing is read, or what
/// comes after would have to bear it.
pub(super) fn read(
    text: &str,
    range: Range<usize>,
    file: FileId,
    known: &Known<'_>,
    findings: &mut Vec<Finding>,
) -> Prose {
    if range.len() > PROSE {
        let at = range.start..text[range.clone()].find('\n').map_or(range.end, |line| range.start + line);
        let what = format!("expected at most {PROSE} letters of prose, found {}", range.len());
        findings.push(limits::beyond(
            Span::new(file, at),
            what,
            "split it into several pages, or take out what came along with a copied text",
        ));
        return Prose::empty(Span::new(file, range));
    }
    let mut shape = Shape::new(text, file, range.clone(), known);
    let mut count = Count::default();
    for (event, at) in events(&text[range.clone()]) {
        let at = at.start + range.start..at.end + range.start;
        if let Some((what, help)) = count.beyond(&event) {
            // To the end of its line, and not of all that it holds.
            let end = text[at.start..].find('\n').map_or(at.end, |line| (at.start + line).min(at.end));
            findings.push(limits::beyond(Span::new(file, at.start..end), what, help));
            return Prose::empty(Span::new(file, range));
        }
        shape.take(event, at);
    }
    shape.finish(range.end)
}

/// How much of a prose has been read.
#[derive(Default)]
struct Count {
    nested: usize,
    blocks: usize,
    links: usize,
    tags: usize,
    /// In the paragraph that is being read.
    cited: usize,
}

impl Count {
    /// What goes beyond a limit with this event, and what to do.
    fn beyond(&mut self, event: &Event<'_>) -> Option<(String, &'static str)> {
        match event {
            Event::Start(
                Tag::Paragraph
                | Tag::Item
                | Tag::TableCell
                | Tag::Heading { .. }
                | Tag::CodeBlock(_)
                | Tag::HtmlBlock
                | Tag::DefinitionListTitle
                | Tag::DefinitionListDefinition,
            ) => {
                self.blocks += 1;
                self.cited = 0;
            }
            Event::Start(Tag::Link { dest_url, .. }) if dest_url.starts_with(CITATION) => {
                self.cited += citations(&dest_url[CITATION.len()..]).len();
            }
            Event::Start(Tag::Link { .. } | Tag::Image { .. }) => self.links += 1,
            Event::Html(html) | Event::InlineHtml(html) => self.tags += opening_tags(html).len(),
            Event::Start(tag) if nests(&tag.to_end()) => self.nested += 1,
            Event::End(tag) if nests(tag) => self.nested = self.nested.saturating_sub(1),
            _ => {}
        }
        if self.nested > NESTED {
            let what = format!("quotes, lists and emphasis are more than {NESTED} deep here");
            return Some((what, "write it flatter, or take out the marks that came with a copied text"));
        }
        if self.blocks > BLOCKS {
            let what = format!("more than {BLOCKS} paragraphs, headings, items and cells are before this");
            return Some((what, "split it into several pages"));
        }
        if self.links > LINKS {
            let what = format!("more than {LINKS} links and pictures are before this");
            return Some((what, "split it into several pages"));
        }
        if self.tags > TAGS {
            let what = format!("more than {TAGS} tags of HTML are before this");
            return Some((what, "write it in Markdown: these tags came along with a copied page"));
        }
        (self.cited > CITED).then(|| {
            (
                format!("more than {CITED} sources are cited in one place"),
                "cite those that support the sentence",
            )
        })
    }
}

/// True for what can stand inside itself.
fn nests(tag: &TagEnd) -> bool {
    matches!(
        tag,
        TagEnd::BlockQuote(_)
            | TagEnd::List(_)
            | TagEnd::FootnoteDefinition
            | TagEnd::DefinitionList
            | TagEnd::Emphasis
            | TagEnd::Strong
            | TagEnd::Strikethrough
    )
}

struct Shape<'k> {
    text: &'k str,
    file: FileId,
    known: &'k Known<'k>,
    prose: Prose,
    /// How many block containers (lists, quotes, …) the event is inside.
    depth: usize,
    /// Ordered lists among the open lists, outermost first.
    lists: Vec<bool>,
    /// The paragraph of inline text that is being read.
    run: Option<Paragraph>,
    /// What the next paragraph is part of.
    kind: ParagraphKind,
    /// True inside a citation, whose label no reader sees.
    citing: bool,
    /// The heading that is being read: its level, its range and its words.
    heading: Option<(HeadingLevel, Range<usize>, String)>,
    /// The picture that is being read, whose inline text is its description.
    image: Option<Image>,
    anchors: Anchors,
    /// Where raw HTML stands, which may hold comments.
    html: Vec<Range<usize>>,
}

impl<'k> Shape<'k> {
    fn new(text: &'k str, file: FileId, range: Range<usize>, known: &'k Known<'k>) -> Self {
        let prose = Prose::empty(Span::new(file, range));
        Shape {
            text,
            file,
            known,
            prose,
            depth: 0,
            lists: Vec::new(),
            run: None,
            kind: ParagraphKind::Running,
            citing: false,
            heading: None,
            image: None,
            anchors: Anchors::default(),
            html: Vec::new(),
        }
    }

    fn take(&mut self, event: Event<'_>, at: Range<usize>) {
        match event {
            Event::Start(tag) => self.start(tag, at),
            Event::End(tag) => self.end(tag, at),
            Event::Text(words) | Event::Code(words) => {
                self.words(&words);
                self.extend(at.clone());
                self.see(at);
            }
            Event::SoftBreak | Event::HardBreak => self.words(" "),
            Event::InlineHtml(html) => {
                self.raw_html(&html, &at, HtmlPlace::Inline);
                self.extend(at);
            }
            Event::Html(html) => self.raw_html(&html, &at, HtmlPlace::Block),
            _ => {}
        }
    }

    fn start(&mut self, tag: Tag<'_>, at: Range<usize>) {
        match tag {
            Tag::Link { dest_url, link_type, .. } => {
                let span = Span::new(self.file, at.clone());
                self.extend(at);
                match dest_url.strip_prefix(CITATION) {
                    Some(label) => {
                        let cited = citations(label).into_iter().map(|c| Spanned::new(c.key, span));
                        self.prose.citations.extend(cited);
                        self.citing = true;
                        if let Some(run) = &mut self.run {
                            run.cites = true;
                        }
                    }
                    None => {
                        let scheme = if link_type == LinkType::Email { "mailto:" } else { "" };
                        self.prose.links.push(Spanned::new(format!("{scheme}{dest_url}"), span));
                    }
                }
            }
            Tag::Image { dest_url, .. } => {
                let address = Spanned::new(dest_url.to_string(), Span::new(self.file, at.clone()));
                self.image = Some(Image { address, description: String::new() });
                self.extend(at);
            }
            Tag::Emphasis | Tag::Strong | Tag::Strikethrough => self.extend(at),
            Tag::CodeBlock(CodeBlockKind::Indented) => {
                self.flush();
                self.depth += 1;
                let first = self.text[at.clone()].lines().next().unwrap_or_default().trim_end();
                let end = at.start + first.len();
                let start = end - first.trim_start().len();
                self.prose.indented.push(Span::new(self.file, start..end));
            }
            Tag::Heading { level, .. } => {
                self.flush();
                self.heading = Some((level, at, String::new()));
            }
            Tag::Paragraph => self.flush(),
            Tag::List(first) => {
                self.flush();
                self.kind = ParagraphKind::Running;
                self.lists.push(first.is_some());
                self.depth += 1;
            }
            Tag::Item => {
                self.flush();
                if self.lists == [true]
                    && let Some(section) = self.prose.sections.last_mut()
                {
                    section.steps += 1;
                }
                if self.lists == [true] {
                    self.kind = ParagraphKind::Step;
                }
            }
            Tag::TableCell => {
                self.flush();
                self.depth += 1;
                self.kind = ParagraphKind::Cell;
            }
            _ => {
                self.flush();
                self.depth += 1;
            }
        }
    }

    fn end(&mut self, tag: TagEnd, at: Range<usize>) {
        match tag {
            TagEnd::Link => {
                self.citing = false;
                self.extend(at);
            }
            TagEnd::Emphasis | TagEnd::Strong | TagEnd::Strikethrough => self.extend(at),
            TagEnd::Image => self.prose.images.extend(self.image.take()),
            TagEnd::Heading(_) => self.end_heading(),
            TagEnd::Paragraph | TagEnd::Item => {
                self.flush();
                self.kind = ParagraphKind::Running;
            }
            TagEnd::List(_) => {
                self.flush();
                self.lists.pop();
                self.depth -= 1;
            }
            _ => {
                self.flush();
                self.kind = ParagraphKind::Running;
                self.depth -= 1;
            }
        }
    }

    /// Notes the tags that pages do not keep. A block may come in several events, a line each.
    fn raw_html(&mut self, html: &str, at: &Range<usize>, place: HtmlPlace) {
        self.html.push(at.clone());
        for (name, tag) in opening_tags(html) {
            if !keeps(&name, place) {
                let span = Span::new(self.file, at.start + tag.start..at.start + tag.end);
                self.prose.dropped_html.push(Spanned::new(name, span));
            }
        }
    }

    fn end_heading(&mut self) {
        self.run = None;
        let Some((level, at, words)) = self.heading.take() else { return };
        // The grammar counts the line end to the heading; whoever reads a finding does not.
        let shown = at.start + self.text[at.clone()].trim_end().len();
        let title = Spanned::new(words.trim().to_string(), Span::new(self.file, at.start..shown));
        let anchor = self.anchors.take(&title.value);
        self.prose.headings.push(Heading {
            level: level as u8,
            title: title.clone(),
            anchor: anchor.clone(),
        });
        if level != HeadingLevel::H2 || self.depth > 0 {
            return;
        }
        self.close_section(at.start);
        let name = self.known.sections.iter().find(|(_, word)| same(word, &title.value)).map(|(n, _)| *n);
        let body = Span::new(self.file, at.end..at.end);
        self.prose.sections.push(Section { name, title, anchor, body, steps: 0 });
    }

    fn close_section(&mut self, end: usize) {
        match self.prose.sections.last_mut() {
            Some(section) => section.body.end = end as u32,
            None => self.prose.intro.end = end as u32,
        }
    }

    fn words(&mut self, words: &str) {
        if let Some(image) = &mut self.image {
            image.description.push_str(words);
        } else if let Some((_, _, heading)) = &mut self.heading {
            heading.push_str(words);
        }
    }

    fn extend(&mut self, at: Range<usize>) {
        let span = Span::new(self.file, at);
        match &mut self.run {
            Some(run) => run.span.end = run.span.end.max(span.end),
            None => self.run = Some(Paragraph { span, kind: self.kind, cites: false, seen: Vec::new() }),
        }
    }

    /// Notes words that a reader sees in the running text.
    fn see(&mut self, at: Range<usize>) {
        if !self.citing
            && self.image.is_none()
            && let Some(run) = &mut self.run
        {
            run.seen.push(Span::new(self.file, at));
        }
    }

    fn flush(&mut self) {
        self.prose.paragraphs.extend(self.run.take());
    }

    fn finish(mut self, end: usize) -> Prose {
        self.flush();
        self.close_section(end);
        let words = without_comments(self.text, self.prose.span.range(), &self.html);
        self.prose.wording = blake3::hash(settled(&words).as_bytes());
        self.prose
    }
}

/// The text of the prose without the comments in its raw HTML. One that spans lines comes in several pieces.
fn without_comments(text: &str, prose: Range<usize>, html: &[Range<usize>]) -> String {
    let mut kept = String::new();
    let mut from = prose.start;
    let mut open = false;
    for piece in html {
        let Some(before) = text.get(from..piece.start) else { continue };
        kept.push_str(before);
        // Words end a comment that was never closed; the indent of a list does not.
        open = open && before.trim().is_empty();
        let mut rest = &text[piece.clone()];
        while !rest.is_empty() {
            let mark = if open { "-->" } else { "<!--" };
            let (before, after) = rest.split_once(mark).unwrap_or((rest, ""));
            if !open {
                kept.push_str(before);
            }
            open = (before.len() < rest.len()) != open;
            rest = after;
        }
        from = piece.end;
    }
    kept.push_str(&text[from..prose.end]);
    kept
}

/// Section names are compared without regard to letter case.
fn same(word: &str, title: &str) -> bool {
    word.to_lowercase() == title.to_lowercase()
}
