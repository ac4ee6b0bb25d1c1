//! The prose's grammar: CommonMark with tables, footnotes, definition lists, and citations such as
//! `[@key]` or `[@key, Table 4; @other]`. Nobody but [`prose`](super::prose) asks for its events.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use pulldown_cmark::{BrokenLink, CowStr, Event, Options, Parser};

use crate::model::prose::Citation;
use crate::model::prose::anchor::hyphenated;

/// What a citation's link address starts with.
pub(super) const CITATION: &str = "cite:";

fn options() -> Options {
    Options::ENABLE_TABLES | Options::ENABLE_FOOTNOTES | Options::ENABLE_DEFINITION_LIST
}

#[cfg(test)]
thread_local! {
    /// How many proses this thread has parsed.
    pub(super) static PARSED: std::cell::Cell<usize> = const { std::cell::Cell::new(0) };
}

/// The events of a text with the bytes each came from. A citation is a link whose address is
/// [`CITATION`] and the text between its brackets.
pub(super) fn events(text: &str) -> impl Iterator<Item = (Event<'_>, Range<usize>)> {
    #[cfg(test)]
    PARSED.with(|parsed| parsed.set(parsed.get() + 1));
    let cite = |link: BrokenLink<'_>| {
        link.reference
            .starts_with('@')
            .then(|| (CowStr::from(format!("{CITATION}{}", link.reference)), CowStr::from("")))
    };
    Parser::new_with_broken_link_callback(text, options(), Some(cite)).into_offset_iter()
}

/// The references that the text between a citation's brackets names.
pub(super) fn citations(label: &str) -> Vec<Citation> {
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
pub(super) struct Anchors {
    taken: BTreeSet<String>,
    /// The number to try next for a title that has come up before.
    next: BTreeMap<String, usize>,
}

impl Anchors {
    /// The fragment for the next heading: its words with hyphens, and a number when those are taken.
    pub(super) fn take(&mut self, title: &str) -> String {
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
}
