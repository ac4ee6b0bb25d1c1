//! Telling phrases: phrases of a list that each tell something, such as a demand or that another form is meant. They are
//! found as whole words in any letter case, and `…` in one stands for a few words.

use std::collections::BTreeMap;
use std::ops::Range;

use super::phrases::{is, joins};
use super::sieve::Sieve;
use crate::model::words::Telling;
use crate::reckon::readability::words::Word;

/// What a phrase tells that tells nothing: it keeps a shorter one with the same beginning from being found.
pub(super) const NOTHING: &str = "nothing";

/// The most words that a gap stands for; it stands for one at least.
const GAP: usize = 6;

/// Telling phrases, by their first words.
pub(super) struct Tellings<'w> {
    by_first: BTreeMap<&'w str, Vec<Pattern<'w>>>,
    sieve: Sieve,
}

struct Pattern<'w> {
    tells: &'w str,
    /// What stands behind the first word.
    rest: Vec<Part<'w>>,
}

enum Part<'w> {
    Word(&'w str),
    Gap,
}

/// A phrase that was found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Told<'w> {
    /// What it tells, as the list has it: several where the phrase stands in several lines.
    pub(super) tells: Vec<&'w str>,
    /// Its first and its last word.
    pub(super) from: usize,
    pub(super) to: usize,
}

impl<'w> Tellings<'w> {
    /// Phrases in small letters. `seeks` tells of a line whether it is what is looked for, and no word that only says how
    /// the others are to be understood.
    pub(super) fn of(list: &'w [Telling], seeks: impl Fn(&str) -> bool) -> Tellings<'w> {
        let mut by_first: BTreeMap<&str, Vec<Pattern<'_>>> = BTreeMap::new();
        for Telling { tells, phrase } in list {
            let mut parts = phrase.split_whitespace();
            let Some(first) = parts.next() else { continue };
            let rest = parts.map(|part| if part == "…" { Part::Gap } else { Part::Word(part) }).collect();
            by_first.entry(first).or_default().push(Pattern { tells, rest });
        }
        let before_gaps = |telling: &'w Telling| telling.phrase.split('…').next().unwrap_or_default();
        let sought = list.iter().filter(|telling| telling.tells != NOTHING && seeks(&telling.tells));
        Tellings { by_first, sieve: Sieve::of(sought.map(before_gaps)) }
    }

    /// False when nothing that is looked for stands in a text; true says little.
    pub(super) fn may_be_in(&self, text: &str) -> bool {
        self.sieve.passes(text)
    }

    /// The phrases among some words of a text, in their order. Where several begin at one word the longest is found, and
    /// none begins inside another.
    pub(super) fn told(&self, text: &str, words: &[Word]) -> Vec<Told<'w>> {
        let mut found = Vec::new();
        let mut at = 0;
        while at < words.len() {
            match self.longest_at(text, words, at) {
                Some(told) => {
                    at = told.to + 1;
                    found.push(told);
                }
                None => at += 1,
            }
        }
        found
    }

    fn longest_at(&self, text: &str, words: &[Word], from: usize) -> Option<Told<'w>> {
        let first = text[words[from].range()].to_lowercase();
        let patterns = self.by_first.get(first.as_str())?;
        let ends = patterns.iter().filter_map(|p| Some((end(&p.rest, text, words, from)?, p.tells)));
        let ends: Vec<(usize, &str)> = ends.collect();
        let to = ends.iter().map(|(end, _)| *end).max()?;
        let mut tells: Vec<&str> = Vec::new();
        for (end, told) in ends {
            if end == to && !tells.contains(&told) {
                tells.push(told);
            }
        }
        Some(Told { tells, from, to })
    }
}

impl Told<'_> {
    /// Where it stands in the text of these words.
    pub(super) fn place(&self, words: &[Word]) -> Range<usize> {
        words[self.from].range().start..words[self.to].range().end
    }
}

/// The last word of what these parts fit behind the word `at`, if they do.
fn end(parts: &[Part<'_>], text: &str, words: &[Word], at: usize) -> Option<usize> {
    let next = |at: usize| {
        let (here, next) = (words[at].range(), words.get(at + 1)?.range());
        joins(&text[here.end..next.start]).then_some(at + 1)
    };
    match parts {
        [] => Some(at),
        [Part::Word(word), rest @ ..] => {
            let next = next(at)?;
            if is(&text[words[next].range()], word) { end(rest, text, words, next) } else { None }
        }
        [Part::Gap, rest @ ..] => {
            let mut last = at;
            for _ in 0..GAP {
                last = next(last)?;
                if let Some(end) = end(rest, text, words, last) {
                    return Some(end);
                }
            }
            None
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reckon::readability::words::words_in;

    fn list(lines: &[(&str, &str)]) -> Vec<Telling> {
        lines
            .iter()
            .map(|(tells, phrase)| Telling { tells: tells.to_string(), phrase: phrase.to_string() })
            .collect()
    }

    fn found(lines: &[(&str, &str)], text: &str) -> Vec<String> {
        let list = list(lines);
        let tellings = Tellings::of(&list, |_| true);
        let words: Vec<Word> = words_in(text, 0..text.len()).collect();
        let told = tellings.told(text, &words);
        assert!(told.iter().all(|t| t.tells == [NOTHING] || tellings.may_be_in(text)), "{text}");
        told.iter().map(|t| format!("{}: {}", t.tells.join(" "), &text[t.place(&words)])).collect()
    }

    #[test]
    fn a_gap_stands_for_one_to_six_words_of_the_same_run() {
        let lines = [("form", "do the … instead")];
        for (text, expected) in [
            ("Do the press instead.", Some("form: Do the press instead")),
            ("Do the **slow press with both of your hands** instead.", None),
            (
                "Do the slow press with both hands instead.",
                Some("form: Do the slow press with both hands instead"),
            ),
            ("Do the instead.", None),
            ("Do the press. Rest instead.", None),
            ("Do the press, and rest instead.", None),
        ] {
            assert_eq!(found(&lines, text), Vec::from_iter(expected.map(str::to_string)), "{text}");
        }
    }

    #[test]
    fn the_longest_is_found_and_nothing_inside_it() {
        let lines = [
            ("a", "jump"),
            ("b", "jump up high"),
            ("c", "up"),
            (NOTHING, "jump rope"),
            ("d", "sit up"),
            ("e", "sit up"),
        ];
        for (text, expected) in [
            ("Jump up, then up.", &["a: Jump", "c: up", "c: up"][..]),
            ("Jump up high.", &["b: Jump up high"]),
            ("A JUMP rope.", &["nothing: JUMP rope"]),
            ("Sit up.", &["d e: Sit up"]),
            ("Jumps.", &[]),
        ] {
            assert_eq!(found(&lines, text), expected, "{text}");
        }
    }
}
