//! Prose to HTML: the same events that reading saw, with links led to their pages, citations to the
//! evidence, tables that scroll by themselves, footnotes of its own, and raw HTML made harmless.

use std::collections::BTreeMap;
use std::fmt::Write;

use pulldown_cmark::{Alignment, CowStr, Event, HeadingLevel, LinkType, Tag, TagEnd, html};

use super::raw_html;
use crate::entry::markdown::{Anchors, CITATION, Citation, citations, events};

/// What a prose is rendered for: where links lead, and what citations and pictures become.
pub struct Place<'a> {
    /// The address that a link of the author leads to on this page; without one its words stand alone.
    pub link: &'a dyn Fn(&str) -> Option<String>,
    /// The HTML of a citation.
    pub cite: &'a dyn Fn(&[Citation]) -> String,
    /// The HTML of a picture with this address and description.
    pub picture: &'a dyn Fn(&str, &str) -> String,
    /// How many levels deeper headings stand on the page than in the prose.
    pub deeper: u8,
    /// Stands before the ids of headings and footnotes, so that several entries can share a page.
    pub prefix: &'a str,
    /// The name of the prose's table with this number, which can be scrolled and so needs one.
    pub table_label: &'a dyn Fn(usize) -> String,
    /// Whether level-2 headings divide the prose into parts.
    pub parts: Parts,
}

/// Whether a prose is one piece or several.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Parts {
    Whole,
    /// What stands before the first level-2 heading, then what stands below each. The headings
    /// themselves are left to the template.
    Sections,
}

/// Renders a prose: one part, or with [`Parts::Sections`] the intro and a part for each section. It is
/// read as a whole, so that link definitions and footnotes work across its parts.
pub fn render(text: &str, place: &Place<'_>) -> Vec<String> {
    let mut tree = Decorator::new(place);
    for (event, _) in events(text) {
        tree.take(event);
    }
    tree.parts
        .into_iter()
        .map(|part| {
            let mut out = String::new();
            html::push_html(&mut out, part.into_iter());
            out
        })
        .collect()
}

/// Renders a text as CommonMark says, without anything of ours: what the conformance test looks at.
pub fn render_plain(text: &str) -> String {
    let mut out = String::new();
    html::push_html(&mut out, events(text).map(|(event, _)| event));
    out
}

struct Decorator<'p, 't> {
    place: &'p Place<'p>,
    parts: Vec<Vec<Event<'t>>>,
    /// How many block containers the event is inside.
    depth: usize,
    /// The heading that is being read, its words, and where its events begin in the part.
    heading: Option<(HeadingLevel, String, usize)>,
    /// The picture that is being read: its address and its description.
    picture: Option<(String, String)>,
    /// Inside a citation, whose own text is replaced.
    citing: bool,
    /// For each open link, whether it leads anywhere.
    links: Vec<bool>,
    /// The block of raw HTML that is being read.
    block: Option<String>,
    /// Raw tags that are open inside the line.
    open: raw_html::Open,
    anchors: Anchors,
    tables: usize,
    /// The number of each footnote, by its label, and how often it was referred to.
    notes: BTreeMap<String, (usize, usize)>,
}

impl<'p, 't> Decorator<'p, 't> {
    fn new(place: &'p Place<'p>) -> Self {
        Decorator {
            place,
            parts: vec![Vec::new()],
            depth: 0,
            heading: None,
            picture: None,
            citing: false,
            links: Vec::new(),
            block: None,
            open: raw_html::Open::default(),
            anchors: Anchors::default(),
            tables: 0,
            notes: BTreeMap::new(),
        }
    }

    fn push(&mut self, event: Event<'t>) {
        if let Some(part) = self.parts.last_mut() {
            part.push(event);
        }
    }

    fn push_html(&mut self, html: String) {
        self.push(Event::Html(html.into()));
    }

    fn take(&mut self, event: Event<'t>) {
        if self.picture.is_some() {
            return self.take_in_picture(event);
        }
        if self.citing {
            self.citing = !matches!(event, Event::End(TagEnd::Link));
            return;
        }
        match event {
            Event::Start(tag) => self.start(tag),
            Event::End(tag) => self.end(tag),
            Event::Html(html) => match &mut self.block {
                Some(block) => block.push_str(&html),
                None => self.push_html(raw_html::block(&html)),
            },
            Event::InlineHtml(html) => {
                let kept = self.open.tag(&html);
                self.push(Event::InlineHtml(kept.into()));
            }
            Event::FootnoteReference(label) => self.refer(&label),
            Event::Text(words) => {
                self.note_words(&words);
                self.push(Event::Text(words));
            }
            Event::Code(words) => {
                self.note_words(&words);
                self.push(Event::Code(words));
            }
            other => self.push(other),
        }
    }

    fn note_words(&mut self, words: &str) {
        if let Some((_, heading, _)) = &mut self.heading {
            heading.push_str(words);
        }
    }

    fn start(&mut self, tag: Tag<'t>) {
        match tag {
            Tag::Link { dest_url, link_type, title, id } => match dest_url.strip_prefix(CITATION) {
                Some(label) => {
                    self.citing = true;
                    let marks = (self.place.cite)(&citations(label));
                    self.push(Event::InlineHtml(marks.into()));
                }
                None => {
                    let mail = if link_type == LinkType::Email { "mailto:" } else { "" };
                    let address = (self.place.link)(&format!("{mail}{dest_url}"));
                    self.links.push(address.is_some());
                    if let Some(address) = address {
                        let dest_url = CowStr::from(address);
                        self.push(Event::Start(Tag::Link {
                            dest_url,
                            link_type: LinkType::Inline,
                            title,
                            id,
                        }));
                    }
                }
            },
            Tag::Image { dest_url, .. } => self.picture = Some((dest_url.to_string(), String::new())),
            Tag::Heading { level, .. } => {
                let at = self.parts.last().map_or(0, Vec::len);
                self.heading = Some((level, String::new(), at));
            }
            Tag::HtmlBlock => self.block = Some(String::new()),
            Tag::Table(columns) => {
                self.depth += 1;
                self.tables += 1;
                let label = escaped(&(self.place.table_label)(self.tables));
                self.push_html(format!(
                    "<div class=\"scroll\" role=\"region\" tabindex=\"0\" aria-label=\"{label}\">"
                ));
                // Text stands at the left everywhere; and an alignment would be an inline style, which the
                // pages' policy blocks.
                self.push(Event::Start(Tag::Table(vec![Alignment::None; columns.len()])));
            }
            Tag::FootnoteDefinition(label) => {
                self.depth += 1;
                let number = self.note(&label).0;
                let id = escaped(&self.note_id(&label));
                self.push_html(format!(
                    "<div class=\"footnote-definition\" id=\"{id}\"><span class=\"footnote-definition-label\">{number}</span>\n"
                ));
            }
            tag @ (Tag::Paragraph | Tag::Emphasis | Tag::Strong | Tag::Strikethrough) => {
                self.push(Event::Start(tag))
            }
            tag => {
                self.depth += 1;
                self.push(Event::Start(tag));
            }
        }
    }

    fn end(&mut self, tag: TagEnd) {
        match tag {
            TagEnd::Link => {
                if self.links.pop().unwrap_or(true) {
                    self.push(Event::End(tag));
                }
            }
            TagEnd::Heading(_) => {
                self.close_inline();
                self.end_heading();
            }
            TagEnd::HtmlBlock => {
                let block = self.block.take().unwrap_or_default();
                self.push_html(raw_html::block(&block));
            }
            TagEnd::Table => {
                self.depth -= 1;
                self.push(Event::End(tag));
                self.push_html("</div>\n".to_string());
            }
            TagEnd::FootnoteDefinition => {
                self.depth -= 1;
                self.push_html("</div>\n".to_string());
            }
            TagEnd::Paragraph => {
                self.close_inline();
                self.push(Event::End(tag));
            }
            TagEnd::Emphasis | TagEnd::Strong | TagEnd::Strikethrough => self.push(Event::End(tag)),
            tag => {
                self.close_inline();
                self.depth = self.depth.saturating_sub(1);
                self.push(Event::End(tag));
            }
        }
    }

    /// A raw tag that was opened in a line and never closed ends with its paragraph.
    fn close_inline(&mut self) {
        let closing = self.open.close_all();
        if !closing.is_empty() {
            self.push(Event::InlineHtml(closing.into()));
        }
    }

    fn take_in_picture(&mut self, event: Event<'t>) {
        let Some((address, description)) = &mut self.picture else { return };
        match event {
            Event::Text(words) | Event::Code(words) => description.push_str(&words),
            Event::SoftBreak | Event::HardBreak => description.push(' '),
            Event::End(TagEnd::Image) => {
                let html = (self.place.picture)(address, description);
                self.picture = None;
                self.push(Event::InlineHtml(html.into()));
            }
            _ => {}
        }
    }

    /// A heading gets its level on the page and its id, which needs the words in it; a level-2 heading
    /// may begin a new part instead.
    fn end_heading(&mut self) {
        let Some((level, words, at)) = self.heading.take() else { return };
        let anchor = self.anchors.take(words.trim());
        if self.place.parts == Parts::Sections && level == HeadingLevel::H2 && self.depth == 0 {
            if let Some(part) = self.parts.last_mut() {
                part.truncate(at);
            }
            self.parts.push(Vec::new());
            return;
        }
        let level = (level as u8 + self.place.deeper).min(6);
        let id = escaped(&format!("{}{anchor}", self.place.prefix));
        if let Some(part) = self.parts.last_mut() {
            part.insert(at, Event::Html(format!("<h{level} id=\"{id}\">").into()));
        }
        self.push_html(format!("</h{level}>\n"));
    }

    /// The number of a footnote, in the order they are met.
    fn note(&mut self, label: &str) -> &mut (usize, usize) {
        let next = self.notes.len() + 1;
        self.notes.entry(label.to_string()).or_insert((next, 0))
    }

    /// A dot stands in no anchor of a heading, so a note never shares the id of one.
    fn note_id(&self, label: &str) -> String {
        format!("{}note.{}", self.place.prefix, crate::entry::markdown::hyphenated(label))
    }

    fn refer(&mut self, label: &str) {
        let note = self.note(label);
        note.1 += 1;
        let (number, _) = *note;
        let id = escaped(&self.note_id(label));
        let html = format!("<sup class=\"footnote-reference\"><a href=\"#{id}\">{number}</a></sup>");
        self.push(Event::InlineHtml(html.into()));
    }
}

/// Text made safe for HTML, attributes included.
pub fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            c => {
                let _ = out.write_char(c);
            }
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parts(text: &str, parts: Parts) -> Vec<String> {
        let place = Place {
            link: &|href| (!href.starts_with("javascript:")).then(|| format!("to/{href}")),
            cite: &|list| format!("({})", list.iter().map(|c| c.key.as_str()).collect::<Vec<_>>().join("; ")),
            picture: &|address, description| format!("<img src=\"{address}\" alt=\"{description}\">"),
            deeper: 1,
            prefix: "drop.",
            table_label: &|n| format!("table {n}"),
            parts,
        };
        render(text, &place)
    }

    fn html(text: &str) -> String {
        parts(text, Parts::Whole).concat()
    }

    #[test]
    fn headings_go_deeper_and_carry_the_prefix_of_their_entry() {
        assert_eq!(
            html("### Two *words*\n\n### Two words"),
            "<h4 id=\"drop.two-words\">Two <em>words</em></h4>\n<h4 id=\"drop.two-words-2\">Two words</h4>\n"
        );
    }

    #[test]
    fn links_citations_and_pictures_become_what_the_page_says() {
        assert_eq!(
            html("[a](b.md) [@key] ![a *leaf*](c.jpg)"),
            "<p><a href=\"to/b.md\">a</a> (key) <img src=\"c.jpg\" alt=\"a leaf\"></p>\n"
        );
        assert_eq!(
            html("<we@hill.example>"),
            "<p><a href=\"to/mailto:we@hill.example\">we@hill.example</a></p>\n"
        );
    }

    #[test]
    fn a_link_that_may_not_be_leaves_its_words() {
        assert_eq!(html("[*a* b](javascript:alert(1)) c"), "<p><em>a</em> b c</p>\n");
        assert_eq!(html("<javascript:alert(1)>"), "<p>javascript:alert(1)</p>\n");
    }

    #[test]
    fn a_table_can_be_scrolled_and_has_a_name() {
        let table = html("| a |\n| - |\n| 1 |\n");
        let open = "<div class=\"scroll\" role=\"region\" tabindex=\"0\" aria-label=\"table 1\">";
        assert!(table.starts_with(open), "{table}");
        assert!(table.ends_with("</table>\n</div>\n"), "{table}");
        assert!(!html("| a |\n| -: |\n| 1 |\n").contains("style"));
    }

    #[test]
    fn sections_are_cut_at_their_headings_and_share_definitions_and_footnotes() {
        let text = "Intro.\n\n## Set up\n[the sit][c] note[^a]\n\n### Tip\n\n## Move\n1. Go.[^b]\n\n### Tip\n\n[c]: x.md\n[^a]: First.\n[^b]: Second.\n";
        let parts = parts(text, Parts::Sections);
        assert_eq!(parts.len(), 3);
        assert_eq!(parts[0], "<p>Intro.</p>\n");
        assert!(parts[1].contains("<a href=\"to/x.md\">the sit</a>"), "{}", parts[1]);
        assert!(parts[1].contains("<a href=\"#drop.note.a\">1</a>"), "{}", parts[1]);
        assert!(parts[2].contains("<a href=\"#drop.note.b\">2</a>"), "{}", parts[2]);
        assert!(parts[1].contains("id=\"drop.tip\"") && parts[2].contains("id=\"drop.tip-2\""));
        assert!(parts[2].contains("id=\"drop.note.a\"") && parts[2].contains("Second."), "{}", parts[2]);
    }

    #[test]
    fn a_level_2_heading_inside_a_quote_divides_nothing() {
        assert_eq!(parts("> ## Quoted\n", Parts::Sections).len(), 1);
    }

    #[test]
    fn raw_html_is_made_harmless_and_no_text_is_swallowed() {
        for (dirty, clean) in [
            ("A <b>bold</b> word", "<p>A <b>bold</b> word</p>\n"),
            ("A <B onclick=\"x()\">bold", "<p>A <b>bold</b></p>\n"),
            ("Q <script> Wear shoes.\n\nNever let go.", "<p>Q  Wear shoes.</p>\n<p>Never let go.</p>\n"),
            ("A <textarea> b\n\nc", "<p>A  b</p>\n<p>c</p>\n"),
            ("a</b> x", "<p>a x</p>\n"),
            ("a <img src=x onerror=alert(1)> b", "<p>a  b</p>\n"),
        ] {
            assert_eq!(html(dirty), clean, "{dirty}");
        }
        let block = html(
            "<div style=\"color:red\" onclick=\"x()\" class=\"head\"><a href=\"javascript:x\">y</a>\n<iframe src=\"//e.example\"></iframe><img src=\"https://e.example/t.gif\"></div>\n\nAfter.",
        );
        for evil in ["onclick", "javascript", "iframe", "style", "img", "class"] {
            assert!(!block.contains(evil), "{evil} in {block}");
        }
        assert!(block.ends_with("<p>After.</p>\n"), "{block}");
        let unclosed = html("<div><textarea>\n\nNever let go.");
        assert!(unclosed.ends_with("<p>Never let go.</p>\n"), "{unclosed}");
    }
}
