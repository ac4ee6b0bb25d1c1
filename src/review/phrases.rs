//! Finds phrases of a list (promises of a health effect, words of evidence, clinical terms) as whole words in any letter case.

use std::collections::BTreeMap;
use std::ops::Range;

use super::beginnings::Beginnings;
use crate::model::Model;
use crate::model::source::{Span, Spanned};
use crate::reckon::readability::words::{Word, words};

/// Phrases, each as its words, by their first word.
pub(super) struct Phrases<'w> {
    by_first: BTreeMap<&'w str, Vec<Vec<&'w str>>>,
    first_words: Beginnings,
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
        let first_words = Beginnings::of(by_first.keys().copied());
        Phrases { by_first, first_words }
    }

    /// Where the first phrase stands in a text, the longest when several begin there.
    pub(super) fn first_in(&self, text: &str) -> Option<Range<usize>> {
        words(text).find_map(|at| self.phrase_at(text, at))
    }

    /// Where phrases stand among some words of a text, the longest when several begin at one word.
    pub(super) fn each_of(&self, text: &str, words: &[Word]) -> impl Iterator<Item = Range<usize>> {
        words.iter().filter_map(|word| self.phrase_at(text, word.range()))
    }

    /// The longest phrase that begins with the word at `first`.
    fn phrase_at(&self, text: &str, first: Range<usize>) -> Option<Range<usize>> {
        if !self.first_words.have(text.as_bytes(), first.clone()) {
            return None;
        }
        let phrases = self.by_first.get(text[first.clone()].to_lowercase().as_str())?;
        let end = phrases.iter().filter_map(|phrase| fits(phrase, text, first.clone())).max()?;
        Some(first.start..end)
    }
}

/// Where the words of a phrase end that begins with the word at `first`, if they all stand there.
fn fits(phrase: &[&str], text: &str, first: Range<usize>) -> Option<usize> {
    let mut end = first.end;
    let mut rest = words(&text[first.end..]).map(|at| first.end + at.start..first.end + at.end);
    for word in &phrase[1..] {
        let next = rest.next()?;
        if !joins(&text[end..next.start]) || !is(&text[next.clone()], word) {
            return None;
        }
        end = next.end;
    }
    Some(end)
}

/// True when a text is this word, which is in small letters.
pub(super) fn is(text: &str, word: &str) -> bool {
    match text.is_ascii() {
        true => text.eq_ignore_ascii_case(word),
        false => text.chars().flat_map(char::to_lowercase).eq(word.chars()),
    }
}

/// True when two words with this between them stand in one phrase: space, or marks of emphasis.
pub(super) fn joins(between: &str) -> bool {
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
            v.steps().iter().for_each(&mut add);
        }
        e.regressions.iter().chain(&e.progressions).filter_map(|c| c.text()).for_each(&mut add);
        e.cautions.iter().map(|c| &c.text).for_each(&mut add);
        e.all_figures().filter_map(|f| f.caption.as_ref()).for_each(&mut add);
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
