//! Tells at the speed of reading bytes that a text has none of some words, as most texts have not: only the
//! others need be parted into words.

use std::collections::BTreeSet;

use aho_corasick::{AhoCorasick, AhoCorasickKind};

/// Finds texts that might have one of some words.
pub(super) struct Sieve {
    /// `None` lets every text pass.
    words: Option<AhoCorasick>,
}

impl Sieve {
    /// `words` are in small letters.
    pub(super) fn of<'w>(words: impl IntoIterator<Item = &'w str>) -> Sieve {
        let parts: BTreeSet<String> = words.into_iter().flat_map(parts).collect();
        let mut builder = AhoCorasick::builder();
        builder.ascii_case_insensitive(true).kind(Some(AhoCorasickKind::DFA));
        Sieve { words: builder.build(parts).ok() }
    }

    /// False when none of the words stands in a text, in any letter case. They may stand inside others.
    pub(super) fn passes(&self, text: &str) -> bool {
        self.words.as_ref().is_none_or(|words| words.is_match(text))
    }
}

/// What of a word to look for, so that the letter case of ASCII letters alone is left open: the word with
/// its one other letter small and large, or its longest part without such letters.
fn parts(word: &str) -> Vec<String> {
    match word.chars().filter(|c| !c.is_ascii()).count() {
        0 => vec![word.to_string()],
        1 => vec![word.to_string(), word.to_uppercase()],
        _ => {
            let ascii = word.split(|c: char| !c.is_ascii());
            vec![ascii.max_by_key(|part| part.len()).unwrap_or("").to_string()]
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Sieve;

    #[test]
    fn a_text_passes_with_a_word_in_any_letter_case_and_not_without() {
        let sieve = Sieve::of(["bone", "prevención", "ácido úrico"]);
        for (text, passes) in [
            ("You build BoNe.", true),
            ("Bones", true),
            ("PREVENCIÓN", true),
            ("prevenciÓn", true),
            ("prevencion", false),
            ("ÁCIDO úrico", true),
            ("Stand tall.", false),
            ("b one", false),
            ("", false),
        ] {
            assert_eq!(sieve.passes(text), passes, "{text}");
        }
    }

    #[test]
    fn a_word_without_a_letter_of_ascii_lets_everything_pass_and_no_word_nothing() {
        assert!(Sieve::of(["\u{3b1}\u{3b2}"]).passes("Stand tall."));
        assert!(!Sieve::of([]).passes("Stand tall."));
    }
}
