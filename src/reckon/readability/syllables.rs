//! Syllables of a spoken English word: from the CMU pronouncing dictionary, its first pronunciation; then
//! from the theme's own list (`words/syllables.en.txt`); then by its stem; else by rule.

use std::cell::{RefCell, RefMut};
use std::collections::BTreeMap;

use super::dictionary;
use super::recent_cache::RecentCache;
use crate::model::words::{Spoken, Words};
use crate::text::sentences::Splitter;

/// Knows how a text is read aloud, and how many syllables a word has.
#[derive(Debug)]
pub struct Lexicon<'w> {
    own: &'w BTreeMap<String, u8>,
    pub(super) spoken: &'w Spoken,
    pub(super) splitter: &'w Splitter,
    recent: RefCell<RecentCache>,
}

impl<'w> Lexicon<'w> {
    pub fn of(words: &'w Words) -> Lexicon<'w> {
        Lexicon {
            own: &words.syllables,
            spoken: &words.spoken,
            splitter: &words.splitter,
            recent: RefCell::default(),
        }
    }

    /// What was counted with it lately.
    pub(super) fn recent(&self) -> RefMut<'_, RecentCache> {
        self.recent.borrow_mut()
    }

    /// How many syllables a word of letters, hyphens and apostrophes has; at least one.
    pub fn syllables(&self, word: &str) -> u32 {
        let lowered: String = match word.is_ascii() {
            true => word.to_ascii_lowercase(),
            false => word.chars().flat_map(char::to_lowercase).map(plain).collect(),
        };
        if let Some(known) = self.known(&lowered) {
            return known;
        }
        if is_letters(word) {
            return lowered.bytes().map(|letter| if letter == b'w' { 3 } else { 1 }).sum();
        }
        lowered.split('-').filter(|part| !part.is_empty()).map(|part| self.part(part)).sum::<u32>().max(1)
    }

    /// A part of a hyphenated word.
    fn part(&self, word: &str) -> u32 {
        self.known(word).or_else(|| self.by_stem(word)).unwrap_or_else(|| by_rule(word))
    }

    fn known(&self, word: &str) -> Option<u32> {
        dictionary::syllables(word).or_else(|| self.own.get(word).map(|count| u32::from(*count)))
    }

    /// By the known word that an ending was put to.
    fn by_stem(&self, word: &str) -> Option<u32> {
        let hisses = |stem: &str| {
            ["s", "x", "z", "ch", "sh", "ce", "ge", "se", "ze"].iter().any(|end| stem.ends_with(end))
        };
        if let Some(stem) = word.strip_suffix("'s").or_else(|| word.strip_suffix('\'')) {
            return Some(self.known(stem)? + u32::from(word.ends_with('s') && hisses(stem)));
        }
        // Stem, whether a silent e was dropped from it, and what the ending adds.
        let rows: [(&str, &str, u32); 9] = [
            ("s", "", 0),
            ("es", "", 1),
            ("ies", "y", 0),
            ("ed", "", 0),
            ("d", "", 0),
            ("ing", "", 1),
            ("ing", "e", 1),
            ("ly", "", 1),
            ("er", "", 1),
        ];
        rows.iter().find_map(|(ending, instead, adds)| {
            let stem = word.strip_suffix(ending)?;
            let known = match instead.is_empty() {
                true => self.known(stem)?,
                false => self.known(&format!("{stem}{instead}"))?,
            };
            let spoken = match *ending {
                "s" => u32::from(hisses(stem)),
                "ed" | "d" => {
                    let heard = stem.trim_end_matches('e');
                    u32::from(heard.ends_with(['t', 'd']))
                }
                _ => *adds,
            };
            Some(known + spoken)
        })
    }
}

fn plain(c: char) -> char {
    match c {
        '\u{2019}' => '\'',
        '\u{2010}' | '\u{2011}' => '-',
        other => other,
    }
}

/// True for what is read letter by letter: two to five capitals.
fn is_letters(word: &str) -> bool {
    (2..=5).contains(&word.len()) && word.bytes().all(|b| b.is_ascii_uppercase())
}

/// A guess for words that nothing else knows: a syllable for each run of vowels, with the usual exceptions
/// of English spelling. At least one.
fn by_rule(word: &str) -> u32 {
    let vowel = |c: char| "aeiouyàáâäãåèéêëìíîïòóôöõøùúûüýÿœæ".contains(c);
    let mut count: u32 = 0;
    let mut before = None;
    for c in word.chars() {
        let splits =
            matches!((before, c), (Some('i'), 'a' | 'o' | 'u') | (Some('e'), 'o') | (Some('u'), 'a'));
        if vowel(c) && (!before.is_some_and(vowel) || splits) {
            count += 1;
        }
        before = Some(c);
    }
    // "-tion", "-cious", "-tial": their i opens no syllable of its own.
    for soft in ["tion", "sion", "cion", "cious", "tious", "gious", "cial", "tial", "cian", "tian"] {
        count = count.saturating_sub(word.matches(soft).count() as u32);
    }
    let consonant_before =
        |end: &str| word.strip_suffix(end).and_then(|stem| stem.chars().last()).is_some_and(|c| !vowel(c));
    let silent = (consonant_before("e") && !consonant_le(word))
        || (consonant_before("es")
            && !["s", "x", "z", "c", "g", "h"].iter().any(|h| word.trim_end_matches("es").ends_with(h)))
        || (consonant_before("ed") && !word.trim_end_matches("ed").ends_with(['t', 'd']));
    if silent {
        count = count.saturating_sub(1);
    }
    if word.ends_with("sm") || word.ends_with("thm") {
        count += 1;
    }
    count.max(1)
}

/// True for "table", "muscle": a consonant, l and e make a syllable.
fn consonant_le(word: &str) -> bool {
    let stem = word.strip_suffix("le").and_then(|stem| stem.chars().last());
    stem.is_some_and(|c| !"aeiouy".contains(c))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// With these words for the theme's own list.
    fn check(own: &BTreeMap<String, u8>, rows: &[(&str, u32)]) {
        let words = crate::review::testing::words();
        let lexicon = Lexicon { own, ..Lexicon::of(words) };
        for (word, syllables) in rows {
            assert_eq!(lexicon.syllables(word), *syllables, "{word}");
        }
    }

    #[test]
    fn the_dictionary_counts_in_any_letter_case_and_with_any_apostrophe() {
        let none = BTreeMap::new();
        check(
            &none,
            &[("Sit", 1), ("TALL", 1), ("don\u{2019}t", 1), ("every", 3), ("x-ray", 2), ("osteoporosis", 6)],
        );
    }

    #[test]
    fn hyphenated_words_count_by_their_parts_and_letters_by_their_names() {
        let none = BTreeMap::new();
        check(
            &none,
            &[("sit-to-stand", 3), ("twelve-week", 2), ("PDF", 3), ("WHO", 1), ("WWW", 9), ("PT", 2)],
        );
    }

    #[test]
    fn what_the_dictionary_lacks_comes_from_the_own_list_with_its_endings() {
        let own = BTreeMap::from([("physiotherapist".to_string(), 6), ("kyphosis".to_string(), 3)]);
        check(&own, &[("Physiotherapists", 6), ("kyphosis", 3), ("physiotherapist\u{2019}s", 6)]);
    }

    /// The counts of the list are our own: each was said aloud, none is from a dictionary.
    #[test]
    fn the_list_of_the_theme_has_only_words_that_the_dictionary_lacks() {
        let words = crate::review::testing::words();
        assert!(words.syllables.len() > 60, "{}", words.syllables.len());
        for (word, count) in &words.syllables {
            assert_eq!(dictionary::syllables(word), None, "{word}");
            assert!(u32::from(*count).abs_diff(by_rule(word)) <= 2, "{word}: {count} is far from its vowels");
        }
        let lexicon = Lexicon::of(words);
        assert_eq!(lexicon.syllables("Kyphosis"), 3);
    }

    #[test]
    fn unknown_words_are_guessed_by_their_vowels() {
        for (word, syllables) in [
            ("proprioceptive", 5),
            ("zorble", 2),
            ("blented", 2),
            ("flimped", 1),
            ("grimes", 1),
            ("stroxes", 2),
            ("quention", 2),
            ("hmm", 1),
            ("spondylolisthesis", 6),
        ] {
            assert_eq!(by_rule(word), syllables, "{word}");
        }
    }
}
