//! Finds phrases of a list (promises of a health effect, clinical terms) as whole words in any letter case.

use std::collections::BTreeMap;
use std::ops::Range;

use crate::model::Model;
use crate::model::source::{Span, Spanned};

/// Phrases, each as its words, by their first word.
pub(super) struct Phrases<'w> {
    by_first: BTreeMap<&'w str, Vec<Vec<&'w str>>>,
    /// Which ASCII letters a phrase begins with: most words of a text begin with another.
    begins: [bool; 128],
}

impl<'w> Phrases<'w> {
    /// `phrases` are in small letters.
    pub(super) fn new(phrases: impl IntoIterator<Item = &'w str>) -> Phrases<'w> {
        let mut by_first: BTreeMap<&str, Vec<Vec<&str>>> = BTreeMap::new();
        for phrase in phrases {
            let words: Vec<&'w str> = words(phrase).map(|at| &phrase[at]).collect();
            if let Some(&first) = words.first() {
                by_first.entry(first).or_default().push(words);
            }
        }
        let mut begins = [false; 128];
        for first in by_first.keys().filter_map(|word| word.bytes().next()).filter(u8::is_ascii) {
            begins[usize::from(first)] = true;
        }
        Phrases { by_first, begins }
    }

    /// Where the first phrase stands in a text, the longest when several begin there.
    pub(super) fn first_in(&self, text: &str) -> Option<Range<usize>> {
        self.each_in(text).next()
    }

    /// Where phrases stand in a text, the longest when several begin at one word.
    pub(super) fn each_in(&self, text: &str) -> impl Iterator<Item = Range<usize>> {
        let places: Vec<Range<usize>> = words(text).collect();
        let mut first = String::new();
        (0..places.len()).filter_map(move |i| {
            let letter = text.as_bytes()[places[i].start].to_ascii_lowercase();
            if letter.is_ascii() && !self.begins[usize::from(letter)] {
                return None;
            }
            first.clear();
            first.extend(text[places[i].clone()].chars().flat_map(char::to_lowercase));
            let phrases = self.by_first.get(first.as_str())?;
            let fits = |phrase: &&Vec<&str>| {
                let here = places.get(i..i + phrase.len());
                here.is_some_and(|here| {
                    here.iter().zip(phrase.iter()).all(|(at, word)| is(&text[at.clone()], word))
                        && here.windows(2).all(|w| joins(&text[w[0].end..w[1].start]))
                })
            };
            let longest = phrases.iter().filter(fits).map(Vec::len).max()?;
            Some(places[i].start..places[i + longest - 1].end)
        })
    }
}

/// True when a text is this word, which is in small letters.
fn is(text: &str, word: &str) -> bool {
    text.chars().flat_map(char::to_lowercase).eq(word.chars())
}

/// The words of a text: runs of letters and digits, with apostrophes and hyphens inside.
fn words(text: &str) -> impl Iterator<Item = Range<usize>> {
    let mut at = 0;
    std::iter::from_fn(move || {
        let start = at + text[at..].find(char::is_alphanumeric)?;
        let inside = |c: char| c.is_alphanumeric() || matches!(c, '\'' | '\u{2019}' | '-');
        let end = start + text[start..].find(|c| !inside(c)).unwrap_or(text.len() - start);
        at = end;
        Some(start..start + text[start..end].trim_end_matches(|c: char| !c.is_alphanumeric()).len())
    })
}

/// True when two words with this between them stand in one phrase: space, or marks of emphasis.
fn joins(between: &str) -> bool {
    between.chars().all(|c| c.is_whitespace() || matches!(c, '*' | '_'))
}

/// Every text of an entry that stands on pages and sheets but cannot cite.
pub(super) fn short_texts(model: &Model) -> Vec<Span> {
    let mut spans = Vec::new();
    let mut add = |text: &Spanned<String>| spans.push(text.span);
    for e in model.exercises.values() {
        [&e.title, &e.summary].into_iter().for_each(&mut add);
        for v in &e.variations {
            [&v.title, &v.text].into_iter().for_each(&mut add);
        }
        e.regressions.iter().chain(&e.progressions).filter_map(|c| c.text()).for_each(&mut add);
        e.cautions.iter().map(|c| &c.text).for_each(&mut add);
        e.figures.iter().filter_map(|f| f.caption.as_ref()).for_each(&mut add);
    }
    for s in model.series.values() {
        [&s.title, &s.summary, &s.audience].into_iter().for_each(&mut add);
    }
    for (_, w) in model.weeks() {
        add(&w.title);
        w.question.iter().for_each(&mut add);
        w.exercises.iter().filter_map(|used| used.focus.as_ref()).for_each(&mut add);
    }
    for p in model.pages.values() {
        add(&p.title);
        p.summary.iter().for_each(&mut add);
    }
    add(&model.site.title);
    model.site.summary.iter().for_each(&mut add);
    spans.sort_unstable();
    // A stand-in has the place of its entry's opening, which several may share.
    spans.dedup();
    spans
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_phrase_is_found_as_whole_words_in_any_letter_case_and_across_a_line_end() {
        let phrases =
            ["build bone", "build bone mass", "prevents falls", "reduce el dolor"].map(String::from);
        let claims = Phrases::new(phrases.iter().map(String::as_str));
        let found = |text: &'static str| claims.first_in(text).map(|at| &text[at]);
        for (text, expected) in [
            ("You build bone.", Some("build bone")),
            ("You Build\r\n  bone.", Some("Build\r\n  bone")),
            ("You build **bone**", Some("build **bone")),
            ("You build bone mass", Some("build bone mass")),
            ("You rebuild bone", None),
            ("You build bones", None),
            ("You build. Bone", None),
            ("You build, bone", None),
            ("Reduce el dolor, prevents falls", Some("Reduce el dolor")),
            ("It prevents falls-", Some("prevents falls")),
            ("", None),
        ] {
            assert_eq!(found(text), expected, "{text}");
        }
    }

    #[test]
    fn plain_words_of_training_are_no_claim() {
        let words = crate::review::testing::words();
        let claims = Phrases::new(words.claims.iter().map(String::as_str));
        for text in [
            "This trains the muscles that hold you tall.",
            "If you have a high risk of falling, hold the counter with both hands.",
            "Build up slowly. Bones and joints need time.",
            "Stop if you have pain. Do less to reduce soreness.",
            "Older adults with weak bones, at home.",
            "If you are afraid that you will fall, use a chair.",
        ] {
            assert_eq!(claims.first_in(text).map(|at| &text[at]), None, "{text}");
        }
    }

    #[test]
    fn every_promise_of_the_list_is_found() {
        let words = crate::review::testing::words();
        let claims = Phrases::new(words.claims.iter().map(String::as_str));
        assert!(words.claims.len() > 100);
        for phrase in &words.claims {
            assert_eq!(claims.first_in(phrase), Some(0..phrase.len()), "{phrase}");
        }
        for text in
            ["lowers your blood pressure", "reverses osteoporosis", "prevents fractures", "build bone"]
        {
            assert_eq!(claims.first_in(text), Some(0..text.len()), "{text}");
        }
    }
}
