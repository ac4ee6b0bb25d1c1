//! Prose to HTML: the same events that reading saw, with links led to their pages, citations to the
//! evidence, tables that scroll by themselves, and raw HTML made harmless.

use std::collections::BTreeSet;
use std::fmt::Write;

use pulldown_cmark::{CowStr, Event, HeadingLevel, Tag, TagEnd, html};

use crate::entry::markdown::{CITATION, Citation, anchor, citations, events};

/// What a fragment of prose is rendered for: where links lead, and what citations and pictures become.
pub struct Place<'a> {
    /// The address that a link of the author leads to on this page.
    pub link: &'a dyn Fn(&str) -> String,
    /// The HTML of a citation.
    pub cite: &'a dyn Fn(&[Citation]) -> String,
    /// The HTML of a picture with this address and description.
    pub picture: &'a dyn Fn(&str, &str) -> String,
    /// How many levels deeper headings stand on the page than in the prose.
    pub deeper: u8,
    /// Stands before the anchors of headings, so that several entries can share a page.
    pub prefix: &'a str,
    /// The name of the fragment's table with this number, which can be scrolled and so needs one.
    pub table_label: &'a dyn Fn(usize) -> String,
}

/// Renders a text as a fragment of a page.
pub fn render(text: &str, place: &Place<'_>) -> String {
    let mut tree = Decorator::new(place);
    let mut decorated: Vec<Event<'_>> = Vec::new();
    for (event, _) in events(text) {
        tree.take(event, &mut decorated);
    }
    let mut out = String::with_capacity(text.len() * 3 / 2);
    html::push_html(&mut out, decorated.into_iter());
    if tree.has_html { sanitize(&out) } else { out }
}

/// Renders a text as CommonMark says, without anything of ours: what the conformance test looks at.
pub fn render_plain(text: &str) -> String {
    let mut out = String::new();
    html::push_html(&mut out, events(text).map(|(event, _)| event));
    out
}

/// Raw HTML of an author is cut down to what prose needs. Everything else of the fragment is ours,
/// and allowed as it is.
fn sanitize(fragment: &str) -> String {
    ammonia::Builder::default()
        .add_tags(["section", "picture", "source"])
        .add_generic_attributes(["id", "class", "lang", "dir"])
        .add_tag_attributes("div", ["role", "tabindex", "aria-label"])
        .add_tag_attributes("img", ["srcset", "sizes", "loading", "decoding", "width", "height"])
        .add_tag_attributes("a", ["aria-label"])
        .add_tag_attributes("th", ["scope"])
        .rm_tags(["center", "strike", "tt"])
        .link_rel(None)
        .url_relative(ammonia::UrlRelative::PassThrough)
        .url_schemes(["http", "https", "mailto", "tel"].into())
        .clean(fragment)
        .to_string()
}

struct Decorator<'p> {
    place: &'p Place<'p>,
    /// The heading that is being read, its words and its events so far.
    heading: Option<(HeadingLevel, String, usize)>,
    /// The picture that is being read: its address and its description.
    picture: Option<(String, String)>,
    /// Inside a citation, whose own text is replaced.
    citing: bool,
    anchors: BTreeSet<String>,
    tables: usize,
    has_html: bool,
}

impl<'p> Decorator<'p> {
    fn new(place: &'p Place<'p>) -> Self {
        Decorator {
            place,
            heading: None,
            picture: None,
            citing: false,
            anchors: BTreeSet::new(),
            tables: 0,
            has_html: false,
        }
    }

    fn take<'t>(&mut self, event: Event<'t>, out: &mut Vec<Event<'t>>) {
        if self.picture.is_some() {
            return self.take_in_picture(event, out);
        }
        if self.citing {
            self.citing = !matches!(event, Event::End(TagEnd::Link));
            return;
        }
        match event {
            Event::Start(Tag::Link { dest_url, link_type, title, id }) => {
                match dest_url.strip_prefix(CITATION) {
                    Some(label) => {
                        self.citing = true;
                        out.push(Event::InlineHtml((self.place.cite)(&citations(label)).into()));
                    }
                    None => {
                        let dest_url = CowStr::from((self.place.link)(&dest_url));
                        out.push(Event::Start(Tag::Link { dest_url, link_type, title, id }));
                    }
                }
            }
            Event::Start(Tag::Image { dest_url, .. }) => {
                self.picture = Some((dest_url.to_string(), String::new()));
            }
            Event::Start(Tag::Heading { level, .. }) => {
                self.heading = Some((level, String::new(), out.len()));
            }
            Event::End(TagEnd::Heading(_)) => self.end_heading(out),
            Event::Start(Tag::Table(columns)) => {
                self.tables += 1;
                let label = escaped(&(self.place.table_label)(self.tables));
                let open =
                    format!("<div class=\"scroll\" role=\"region\" tabindex=\"0\" aria-label=\"{label}\">");
                out.push(Event::Html(open.into()));
                out.push(Event::Start(Tag::Table(columns)));
            }
            Event::End(TagEnd::Table) => {
                out.push(Event::End(TagEnd::Table));
                out.push(Event::Html("</div>\n".into()));
            }
            Event::Html(html) => {
                self.has_html = true;
                out.push(Event::Html(html));
            }
            Event::InlineHtml(html) => {
                self.has_html = true;
                out.push(Event::InlineHtml(html));
            }
            Event::Text(words) => {
                if let Some((_, heading, _)) = &mut self.heading {
                    heading.push_str(&words);
                }
                out.push(Event::Text(words));
            }
            Event::Code(words) => {
                if let Some((_, heading, _)) = &mut self.heading {
                    heading.push_str(&words);
                }
                out.push(Event::Code(words));
            }
            other => out.push(other),
        }
    }

    fn take_in_picture<'t>(&mut self, event: Event<'t>, out: &mut Vec<Event<'t>>) {
        let Some((address, description)) = &mut self.picture else { return };
        match event {
            Event::Text(words) | Event::Code(words) => description.push_str(&words),
            Event::SoftBreak | Event::HardBreak => description.push(' '),
            Event::End(TagEnd::Image) => {
                out.push(Event::InlineHtml((self.place.picture)(address, description).into()));
                self.picture = None;
            }
            _ => {}
        }
    }

    /// A heading gets its level on the page and its anchor, which needs the words in it.
    fn end_heading(&mut self, out: &mut Vec<Event<'_>>) {
        let Some((level, words, at)) = self.heading.take() else { return };
        let anchor = anchor(words.trim(), |a| self.anchors.contains(a));
        self.anchors.insert(anchor.clone());
        let level = (level as u8 + self.place.deeper).min(6);
        let id = escaped(&format!("{}{anchor}", self.place.prefix));
        out.insert(at, Event::Html(format!("<h{level} id=\"{id}\">").into()));
        out.push(Event::Html(format!("</h{level}>\n").into()));
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

    fn html(text: &str) -> String {
        let place = Place {
            link: &|href| format!("to/{href}"),
            cite: &|list| format!("({})", list.iter().map(|c| c.key.as_str()).collect::<Vec<_>>().join("; ")),
            picture: &|address, description| format!("<img src=\"{address}\" alt=\"{description}\">"),
            deeper: 1,
            prefix: "drop-",
            table_label: &|n| format!("table {n}"),
        };
        render(text, &place)
    }

    #[test]
    fn headings_go_deeper_and_carry_the_prefix_of_their_entry() {
        assert_eq!(
            html("### Two *words*\n\n### Two words"),
            "<h4 id=\"drop-two-words\">Two <em>words</em></h4>\n<h4 id=\"drop-two-words-2\">Two words</h4>\n"
        );
    }

    #[test]
    fn links_citations_and_pictures_become_what_the_page_says() {
        assert_eq!(
            html("[a](b.md) [@key] ![a *leaf*](c.jpg)"),
            "<p><a href=\"to/b.md\">a</a> (key) <img src=\"c.jpg\" alt=\"a leaf\"></p>\n"
        );
    }

    #[test]
    fn a_table_can_be_scrolled_and_has_a_name() {
        let table = html("| a |\n| - |\n| 1 |\n");
        assert!(
            table.starts_with("<div class=\"scroll\" role=\"region\" tabindex=\"0\" aria-label=\"table 1\">"),
            "{table}"
        );
        assert!(table.ends_with("</table>\n</div>\n"), "{table}");
    }

    #[test]
    fn raw_html_is_made_harmless_and_harmless_html_stays() {
        let dirty = html(
            "A <b>bold</b> <script>alert(1)</script> <img src=x onerror=alert(1)> <a href=\"javascript:x\">y</a>\n\n<iframe src=\"https://elsewhere.example\"></iframe>\n\n<div style=\"color:red\" onclick=\"x()\">z</div>",
        );
        assert!(dirty.contains("<b>bold</b>"), "{dirty}");
        for evil in ["script", "onerror", "javascript", "iframe", "style", "onclick"] {
            assert!(!dirty.contains(evil), "{evil} in {dirty}");
        }
    }
}
