//! Finds the phrases of a list in a text, all of them in one pass: as whole words, in any letter case, across line ends
//! and marks of emphasis.

use std::cmp::Reverse;
use std::ops::Range;
use std::sync::OnceLock;

use aho_corasick::AhoCorasick;

use super::fold::Folded;
use super::words::{is_edge, words};

/// Phrases in small letters.
#[derive(Debug, Default)]
pub struct Phrases {
    list: Vec<String>,
    /// Made when a text is first looked at: most commands look for no phrase.
    finder: OnceLock<Option<Finder>>,
}

#[derive(Debug)]
struct Finder {
    automaton: AhoCorasick,
    /// Which phrase each pattern of the automaton is.
    phrases: Vec<usize>,
}

/// A phrase in a text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PhraseMatch {
    pub at: Range<usize>,
    /// Which one of the list.
    pub phrase: usize,
}

impl Phrases {
    /// Of the phrases, which are in small letters, only the words count, not what stands between them. One without a
    /// word is never found.
    pub fn of(list: Vec<String>) -> Phrases {
        Phrases { list, finder: OnceLock::new() }
    }

    pub fn list(&self) -> &[String] {
        &self.list
    }

    /// Every phrase in a text, by where it begins. Of those that begin at one word the longest comes first, and of the
    /// same words the one that stands first in the list.
    pub fn all_in(&self, text: &str) -> Vec<PhraseMatch> {
        let Some(finder) = self.finder.get_or_init(|| Finder::of(&self.list)) else { return Vec::new() };
        let folded = Folded::of(text);
        let whole = |at: &Range<usize>| is_edge(&folded.text, at.start) && is_edge(&folded.text, at.end);
        let mut found: Vec<PhraseMatch> = finder
            .automaton
            .find_overlapping_iter(&folded.text)
            .filter(|hit| whole(&hit.range()))
            .map(|hit| PhraseMatch {
                at: folded.place(hit.start())..folded.place(hit.end()),
                phrase: finder.phrases[hit.pattern().as_usize()],
            })
            .collect();
        found.sort_unstable_by_key(|found| (found.at.start, Reverse(found.at.end), found.phrase));
        found
    }

    /// The longest phrase at each word at which one begins, in the order of the text.
    pub fn longest_in(&self, text: &str) -> Vec<PhraseMatch> {
        let mut found = self.all_in(text);
        found.dedup_by_key(|found| found.at.start);
        found
    }

    /// Where the first phrase stands in a text, the longest when several begin there.
    pub fn first_in(&self, text: &str) -> Option<Range<usize>> {
        self.all_in(text).into_iter().next().map(|found| found.at)
    }
}

impl Finder {
    /// `None` where there is nothing to find, or more than an automaton holds, which are two billion letters.
    fn of(list: &[String]) -> Option<Finder> {
        let spaced = |phrase: &str| words(phrase).map(|at| &phrase[at]).collect::<Vec<_>>().join(" ");
        let patterns = list.iter().map(|phrase| spaced(phrase)).enumerate();
        let (phrases, patterns): (Vec<usize>, Vec<String>) =
            patterns.filter(|(_, pattern)| !pattern.is_empty()).unzip();
        let automaton = (!patterns.is_empty()).then(|| AhoCorasick::new(&patterns).ok()).flatten()?;
        Some(Finder { automaton, phrases })
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::text::words::{is, is_space};

    fn phrases(list: &[&str]) -> Phrases {
        Phrases::of(list.iter().map(ToString::to_string).collect())
    }

    #[test]
    fn a_phrase_is_found_as_whole_words_in_any_letter_case_and_across_a_line_end() {
        let claims = phrases(&["build bone", "build bone mass", "prevents falls", "reduce el dolor"]);
        for (text, expected) in [
            ("You build bone.", Some("build bone")),
            ("You Build\r\n  bone.", Some("Build\r\n  bone")),
            ("You build **bone**", Some("build **bone")),
            ("You build bone mass", Some("build bone mass")),
            ("You build bone massively", Some("build bone")),
            ("You rebuild bone", None),
            ("You build bones", None),
            ("You build bone-like mass", None),
            ("You build. Bone", None),
            ("You build, bone", None),
            ("Reduce el dolor, prevents falls", Some("Reduce el dolor")),
            ("It prevents falls-", Some("prevents falls")),
            ("", None),
        ] {
            assert_eq!(claims.first_in(text).map(|at| &text[at]), expected, "{text}");
        }
    }

    #[test]
    fn of_several_at_one_word_the_longest_is_told_and_of_a_list_without_words_none() {
        let terms = phrases(&["", "spine", "lumbar", "lumbar spine", "lumbar"]);
        let text = "Your *lumbar*\nspine, your LUMBAR muscles.";
        let found = |found: Vec<PhraseMatch>| -> Vec<(&str, usize)> {
            found.into_iter().map(|f| (&text[f.at], f.phrase)).collect()
        };
        assert_eq!(found(terms.longest_in(text)), [("lumbar*\nspine", 3), ("spine", 1), ("LUMBAR", 2)]);
        assert_eq!(
            found(terms.all_in(text)),
            [("lumbar*\nspine", 3), ("lumbar", 2), ("lumbar", 4), ("spine", 1), ("LUMBAR", 2), ("LUMBAR", 4)]
        );
        assert_eq!(phrases(&[]).all_in(text), []);
        assert_eq!(phrases(&["...", ""]).all_in(text), []);
    }

    /// Every phrase at every word, one word after the other.
    fn naive(list: &[String], text: &str) -> Vec<PhraseMatch> {
        let places: Vec<Range<usize>> = words(text).collect();
        let mut found = Vec::new();
        for first in 0..places.len() {
            for (phrase, written) in list.iter().enumerate() {
                let of_phrase: Vec<&str> = words(written).map(|at| &written[at]).collect();
                let Some(here) = places.get(first..first + of_phrase.len()).filter(|here| !here.is_empty())
                else {
                    continue;
                };
                let same = here.iter().zip(&of_phrase).all(|(at, word)| is(&text[at.clone()], word));
                let one = here.windows(2).all(|two| text[two[0].end..two[1].start].chars().all(is_space));
                if same && one {
                    found.push(PhraseMatch { at: here[0].start..here[here.len() - 1].end, phrase });
                }
            }
        }
        found.sort_by_key(|found| (found.at.start, Reverse(found.at.end), found.phrase));
        found
    }

    proptest! {
        #[test]
        fn the_automaton_finds_what_a_naive_search_finds(
            list in prop::collection::vec("[abk\u{e9}](-?[abk1]|[ ,.'][ab\u{e9}]){0,4}", 0..12),
            text in "([abkABK1\u{e9}\u{c9}\u{130}\u{212a} ]|[ \n*_.,'-]|\\PC){0,60}",
        ) {
            let found = Phrases::of(list.clone()).all_in(&text);
            prop_assert_eq!(found, naive(&list, &text));
        }
    }
}
