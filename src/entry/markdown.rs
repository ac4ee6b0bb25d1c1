//! The prose's grammar: CommonMark with tables, footnotes, definition lists, and citations such as
//! `[@key]` or `[@key, Table 4; @other]`. One place, so that reading and rendering see the same tree.

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

/// The fragment for a heading: its words in small letters with hyphens, and a number when taken.
pub fn anchor(title: &str, taken: impl Fn(&str) -> bool) -> String {
    let mut words = String::new();
    for c in title.chars().flat_map(char::to_lowercase) {
        if c.is_alphanumeric() {
            words.push(c);
        } else if !words.is_empty() && !words.ends_with('-') {
            words.push('-');
        }
    }
    let words = words.trim_end_matches('-');
    let base = if words.is_empty() { "section" } else { words };
    let numbered = (2..).map(|n| format!("{base}-{n}"));
    std::iter::once(base.to_string()).chain(numbered).find(|a| !taken(a)).unwrap_or_default()
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
        assert_eq!(anchor("Set up, first", |_| false), "set-up-first");
        assert_eq!(anchor("Qué hacer", |a| a == "qué-hacer"), "qué-hacer-2");
        assert_eq!(anchor("!?", |_| false), "section");
    }
}
