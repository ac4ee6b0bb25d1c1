//! The prose's grammar: CommonMark with tables, footnotes, definition lists, and citations such as
//! `[@key]` or `[@key, Table 4; @other]`. One place, so that reading and rendering see the same tree.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use pulldown_cmark::{BrokenLink, CowStr, Event, Options, Parser};

/// What a citation's link address starts with.
pub const CITATION: &str = "cite:";

fn options() -> Options {
    Options::ENABLE_TABLES | Options::ENABLE_FOOTNOTES | Options::ENABLE_DEFINITION_LIST
}

/// The events of a text with the bytes each came from. A citation is a link whose address is
/// [`CITATION`] and the text between its brackets.
pub fn events(text: &str) -> impl Iterator<Item = (Event<'_>, Range<usize>)> {
    let cite = |link: BrokenLink<'_>| {
        link.reference
            .starts_with('@')
            .then(|| (CowStr::from(format!("{CITATION}{}", link.reference)), CowStr::from("")))
    };
    Parser::new_with_broken_link_callback(text, options(), Some(cite)).into_offset_iter()
}

/// One reference of a citation.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Citation {
    pub key: String,
    /// The part of the source that is meant, such as `Table 4`.
    pub part: Option<String>,
}

/// The references that the text between a citation's brackets names.
pub fn citations(label: &str) -> Vec<Citation> {
    label
        .split(';')
        .filter_map(|one| {
            let one = one.trim().strip_prefix('@')?;
            let (key, part) = match one.split_once(',') {
                Some((key, part)) => (key, Some(part.trim().to_string())),
                None => (one, None),
            };
            Some(Citation { key: key.trim().to_string(), part })
        })
        .collect()
}

/// The fragments of an entry's headings, each unique in it.
#[derive(Debug, Default)]
pub struct Anchors {
    taken: BTreeSet<String>,
    /// The number to try next for a title that has come up before.
    next: BTreeMap<String, usize>,
}

impl Anchors {
    /// The fragment for the next heading: its words with hyphens, and a number when those are taken.
    pub fn take(&mut self, title: &str) -> String {
        let base = match hyphenated(title) {
            words if words.is_empty() => "section".to_string(),
            words => words,
        };
        let number = self.next.entry(base.clone()).or_insert(1);
        loop {
            let anchor = if *number == 1 { base.clone() } else { format!("{base}-{number}") };
            *number += 1;
            if self.taken.insert(anchor.clone()) {
                return anchor;
            }
        }
    }
}

/// Words in small letters with hyphens between them, and nothing else.
pub fn hyphenated(words: &str) -> String {
    let mut out = String::new();
    for c in words.chars().flat_map(char::to_lowercase) {
        if c.is_alphanumeric() {
            out.push(c);
        } else if !out.is_empty() && !out.ends_with('-') {
            out.push('-');
        }
    }
    out.truncate(out.trim_end_matches('-').len());
    out
}

/// Raw HTML that may stand inside a line.
const KEPT_INLINE: [&str; 17] = [
    "abbr", "b", "br", "code", "del", "em", "ins", "kbd", "mark", "q", "s", "small", "span", "strong", "sub",
    "sup", "wbr",
];

/// Raw HTML that may stand in a block of its own, beside [`KEPT_INLINE`].
const KEPT_BLOCK: [&str; 22] = [
    "a",
    "blockquote",
    "caption",
    "dd",
    "details",
    "div",
    "dl",
    "dt",
    "hr",
    "li",
    "ol",
    "p",
    "pre",
    "summary",
    "table",
    "tbody",
    "td",
    "tfoot",
    "th",
    "thead",
    "tr",
    "ul",
];

/// Where a tag of raw HTML stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HtmlPlace {
    Inline,
    Block,
}

/// True when pages keep a tag of that name there. Whatever else raw HTML can do (scripts, frames, media
/// of other sites, forms) has no place in prose.
pub fn keeps(name: &str, place: HtmlPlace) -> bool {
    KEPT_INLINE.contains(&name) || (place == HtmlPlace::Block && KEPT_BLOCK.contains(&name))
}

/// The names of all tags that a block may hold.
pub fn kept_in_blocks() -> impl Iterator<Item = &'static str> {
    KEPT_INLINE.into_iter().chain(KEPT_BLOCK)
}

/// The tags in a piece of raw HTML: each name in small letters, with its place in the text. Comments and
/// closing tags are none.
pub fn opening_tags(html: &str) -> Vec<(String, Range<usize>)> {
    let mut tags = Vec::new();
    for (at, _) in html.match_indices('<') {
        let rest = &html[at + 1..];
        let name: String = rest.chars().take_while(|c| c.is_ascii_alphanumeric() || *c == '-').collect();
        if name.starts_with(|c: char| c.is_ascii_alphabetic()) {
            tags.push((name.to_ascii_lowercase(), at..at + 1 + name.len()));
        }
    }
    tags
}

#[cfg(test)]
mod tests {
    use pulldown_cmark::Tag;

    use super::*;

    #[test]
    fn a_citation_is_a_link_with_its_keys() {
        let text = "Small thuds help. [@a-2022; @b-2015, Table 4] [not one]";
        let address = events(text).find_map(|(event, _)| match event {
            Event::Start(Tag::Link { dest_url, .. }) => Some(dest_url.to_string()),
            _ => None,
        });
        let address = address.expect("a link");
        let cited = citations(address.strip_prefix(CITATION).unwrap());
        assert_eq!(cited[0], Citation { key: "a-2022".into(), part: None });
        assert_eq!(cited[1], Citation { key: "b-2015".into(), part: Some("Table 4".into()) });
    }

    #[test]
    fn anchors_are_unique_and_readable() {
        let mut anchors = Anchors::default();
        let taken = ["Set up, first", "Qué hacer", "Tip 2", "Tip", "Tip", "!?"].map(|t| anchors.take(t));
        assert_eq!(taken, ["set-up-first", "qué-hacer", "tip-2", "tip", "tip-3", "section"]);
    }

    #[test]
    fn tags_are_found_by_name() {
        let names: Vec<String> =
            opening_tags("<DIV class=x><b>a < b</b><!-- <i> --><br/>").into_iter().map(|t| t.0).collect();
        assert_eq!(names, ["div", "b", "i", "br"]);
    }
}
