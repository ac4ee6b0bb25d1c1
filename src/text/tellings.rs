//! Telling phrases: phrases of a list that each tell something, such as a demand or that another form is meant. `…` in
//! one stands for a few words.

use std::ops::Range;

use super::phrases::{PhraseMatch, Phrases};
use super::words::{Word, is, is_space, words};

/// What a phrase tells that tells nothing: it keeps a shorter one with the same beginning from being found.
pub const NOTHING: &str = "nothing";

/// The most words that a gap stands for; it stands for one at least.
const GAP: usize = 6;

/// A phrase and what it tells, as the list has it before and behind the `=`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Telling {
    pub tells: String,
    /// In small letters. `…` in it stands for a few words.
    pub phrase: String,
}

/// A list of telling phrases with what finds them.
#[derive(Debug, Default)]
pub struct Tellings {
    list: Vec<Telling>,
    /// What stands before the first gap of each.
    prefixes: Phrases,
    /// What stands behind that.
    rests: Vec<Vec<Segment>>,
}

#[derive(Debug)]
enum Segment {
    Word(String),
    Gap,
}

/// A phrase that was found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TellingMatch<'w> {
    /// What it tells, as the list has it: several where the phrase stands in several lines.
    pub tells: Vec<&'w str>,
    /// Its first and its last word.
    pub from: usize,
    pub to: usize,
}

impl Tellings {
    pub fn of(list: Vec<Telling>) -> Tellings {
        let (mut prefixes, mut rests) = (Vec::new(), Vec::new());
        for Telling { phrase, .. } in &list {
            let mut parts = phrase.split('…');
            prefixes.push(parts.next().unwrap_or_default().to_string());
            let behind_gap = |part| {
                let words = words(part).map(move |at: Range<usize>| Segment::Word(part[at].to_string()));
                std::iter::once(Segment::Gap).chain(words)
            };
            rests.push(parts.flat_map(behind_gap).collect());
        }
        Tellings { list, prefixes: Phrases::of(prefixes), rests }
    }

    pub fn list(&self) -> &[Telling] {
        &self.list
    }

    /// What the phrases without a gap tell of the words of a text, by where they begin.
    pub fn all_in(&self, text: &str) -> impl Iterator<Item = (Range<usize>, &Telling)> {
        let found = self.prefixes.all_in(text).into_iter();
        found.filter(|f| self.rests[f.phrase].is_empty()).map(|f| (f.at, &self.list[f.phrase]))
    }

    /// False when no phrase that tells what `seeks` looks for stands in a text; true says little, for what is behind the
    /// first gap of a phrase is not looked at.
    pub fn may_tell(&self, text: &str, seeks: impl Fn(&str) -> bool) -> bool {
        self.prefixes.all_in(text).iter().any(|found| seeks(&self.list[found.phrase].tells))
    }

    /// The phrases among some words of a text, which follow one another, in their order. Where several begin at one word
    /// the longest is found, and none begins inside another.
    pub fn told(&self, text: &str, words: &[Word]) -> Vec<TellingMatch<'_>> {
        let (Some(first), Some(last)) = (words.first(), words.last()) else { return Vec::new() };
        let start = first.start as usize;
        let mut found: Vec<TellingMatch<'_>> = Vec::new();
        let begun = self.prefixes.all_in(&text[start..last.end as usize]);
        for begun in begun.chunk_by(|one, other| one.at.start == other.at.start) {
            let from = words.partition_point(|word| (word.start as usize) < start + begun[0].at.start);
            if found.last().is_none_or(|told| told.to < from) {
                found.extend(self.longest(begun, text, words, from));
            }
        }
        found
    }

    /// The longest phrase of those that are begun at the word `from`.
    fn longest(
        &self,
        begun: &[PhraseMatch],
        text: &str,
        words: &[Word],
        from: usize,
    ) -> Option<TellingMatch<'_>> {
        let start = words.first()?.start as usize;
        let ends = begun.iter().filter_map(|found| {
            let at = words.partition_point(|word| (word.end as usize) < start + found.at.end);
            Some((end(&self.rests[found.phrase], text, words, at)?, found.phrase))
        });
        let mut ends: Vec<(usize, usize)> = ends.collect();
        let to = ends.iter().map(|(end, _)| *end).max()?;
        ends.retain(|(end, _)| *end == to);
        // In the order of the list.
        ends.sort_unstable();
        let mut tells: Vec<&str> = Vec::new();
        for (_, phrase) in ends {
            let told = self.list[phrase].tells.as_str();
            if !tells.contains(&told) {
                tells.push(told);
            }
        }
        Some(TellingMatch { tells, from, to })
    }
}

impl TellingMatch<'_> {
    /// Where it stands in the text of these words.
    pub fn place(&self, words: &[Word]) -> Range<usize> {
        words[self.from].range().start..words[self.to].range().end
    }
}

/// The last word of what these parts fit behind the word `at`, if they do.
fn end(parts: &[Segment], text: &str, words: &[Word], at: usize) -> Option<usize> {
    let next = |at: usize| {
        let (here, next) = (words.get(at)?.range(), words.get(at + 1)?.range());
        text[here.end..next.start].chars().all(is_space).then_some(at + 1)
    };
    match parts {
        [] => Some(at),
        [Segment::Word(word), rest @ ..] => {
            let next = next(at)?;
            if is(&text[words[next].range()], word) { end(rest, text, words, next) } else { None }
        }
        [Segment::Gap, rest @ ..] => {
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
    use crate::text::words::words_in;

    fn tellings(lines: &[(&str, &str)]) -> Tellings {
        let telling =
            |(tells, phrase): &(&str, &str)| Telling { tells: tells.to_string(), phrase: phrase.to_string() };
        Tellings::of(lines.iter().map(telling).collect())
    }

    fn found(lines: &[(&str, &str)], text: &str) -> Vec<String> {
        let tellings = tellings(lines);
        let words: Vec<Word> = words_in(text, 0..text.len()).collect();
        let told = tellings.told(text, &words);
        let sought = |t: &TellingMatch<'_>| {
            t.tells.iter().all(|tells| tellings.may_tell(text, |other| other == *tells))
        };
        assert!(told.iter().all(sought), "{text}");
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
        assert_eq!(
            found(&[("a", "… instead"), ("b", "to … …")], "Go to bed now instead."),
            ["b: to bed now"]
        );
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

    #[test]
    fn only_the_words_that_are_given_are_looked_at() {
        let tellings = tellings(&[("a", "up high"), ("b", "high")]);
        let text = "Sit up high. Reach high up";
        let words: Vec<Word> = words_in(text, 0..text.len()).collect();
        let told = |from: usize, to: usize| -> Vec<String> {
            let words = &words[from..to];
            tellings.told(text, words).iter().map(|t| format!("{} {}-{}", t.tells[0], t.from, t.to)).collect()
        };
        assert_eq!(told(0, 6), ["a 1-2", "b 4-4"]);
        assert_eq!(told(2, 5), ["b 0-0", "b 2-2"]);
        assert_eq!(told(0, 2), [""; 0]);
        assert!(!tellings.may_tell("Sit up high.", |tells| tells == "c"));
    }

    #[test]
    fn words_without_a_gap_are_told_by_their_places() {
        let tellings = tellings(&[("verb", "sit"), ("verb", "do the … now"), ("small", "then")]);
        let told: Vec<_> =
            tellings.all_in("Then do the sit now.").map(|(at, t)| (at, t.tells.as_str())).collect();
        assert_eq!(told, [(0..4, "small"), (12..15, "verb")]);
    }
}
