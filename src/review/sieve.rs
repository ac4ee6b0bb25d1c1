//! Tells at nearly the speed of reading bytes that a text has none of some phrases, as most texts have not: only
//! the others need be parted into words.

use std::ops::Range;

use super::beginnings::Beginnings;
use crate::reckon::readability::words::letters;

/// Looks for two runs of ASCII letters that begin as the first two of a phrase do. Nothing but space and marks
/// stands between the words of a phrase, so that they follow one another in every text that has it.
pub(super) struct Sieve {
    first: Beginnings,
    second: Beginnings,
    /// The first ones of phrases that have no second.
    only: Beginnings,
    /// True when a phrase has no such letters at all.
    open: bool,
}

impl Sieve {
    /// `phrases` are in small letters.
    pub(super) fn of<'w>(phrases: impl IntoIterator<Item = &'w str>) -> Sieve {
        let none = || Beginnings::NONE;
        let mut sieve = Sieve { first: none(), second: none(), only: none(), open: false };
        for phrase in phrases {
            let mut runs = runs(phrase.as_bytes());
            let Some(first) = runs.next() else {
                sieve.open = true;
                continue;
            };
            sieve.first.add(&phrase[first.clone()]);
            match runs.next() {
                Some(second) => sieve.second.add(&phrase[second]),
                None => sieve.only.add(&phrase[first]),
            }
        }
        sieve
    }

    /// False when none of the phrases stands in a text, in any letter case; true says little.
    pub(super) fn passes(&self, text: &str) -> bool {
        let text = text.as_bytes();
        let mut begun = false;
        let mut passes = |run: Range<usize>| {
            let goes_on = begun && self.second.have(text, run.clone());
            begun = self.first.have(text, run.clone());
            goes_on || begun && self.only.have(text, run)
        };
        self.open || runs(text).any(&mut passes)
    }
}

/// Where the letters of ASCII stand in a text, run by run.
fn runs(text: &[u8]) -> impl Iterator<Item = Range<usize>> {
    let mut at = 0;
    std::iter::from_fn(move || {
        while at < text.len() {
            let run = at..at + letters(text, at);
            // What ends a run belongs to none.
            at = run.end + 1;
            if !run.is_empty() {
                return Some(run);
            }
        }
        None
    })
}

#[cfg(test)]
mod tests {
    use super::Sieve;

    #[test]
    fn a_text_passes_that_might_have_a_phrase() {
        let sieve = Sieve::of(["build bone mass", "x-ray", "osteoporosis", "reduce la presión", "él cura"]);
        for (text, passes) in [
            ("You build bone mass.", true),
            ("You BUILD **bone**", true),
            ("build\r\nbone", true),
            ("You build up bone", false),
            ("You build", false),
            ("bone", false),
            ("An X-Ray", true),
            ("OSTEOPOROSIS", true),
            ("Reduce la\u{a0}PRESIÓN", true),
            ("ÉL CURA", true),
            ("", false),
        ] {
            assert_eq!(sieve.passes(text), passes, "{text}");
        }
    }

    #[test]
    fn without_letters_of_ascii_everything_passes_and_without_a_phrase_nothing() {
        assert!(Sieve::of(["\u{3b1}\u{3b2}"]).passes("Stand tall."));
        assert!(!Sieve::of([]).passes("Stand tall."));
    }
}
