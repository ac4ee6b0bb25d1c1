//! Syllables of a spoken English word: from the CMU pronouncing dictionary, its first pronunciation; then
//! from the theme's own list (`words/syllables.en.txt`); then by its stem; else by rule. What endings sound like stands in
//! `words/endings.en.txt`.

use std::cell::{RefCell, RefMut};
use std::collections::BTreeMap;

use super::dictionary;
use super::recent_cache::RecentCache;
use crate::model::words::endings::{Adds, Endings};
use crate::model::words::{Spoken, Words};
use crate::text::sentences::Splitter;

/// Knows how a text is read aloud, and how many syllables a word has.
#[derive(Debug)]
pub struct Lexicon<'w> {
    own: &'w BTreeMap<String, u8>,
    endings: &'w Endings,
    pub(super) spoken: &'w Spoken,
    pub(super) splitter: &'w Splitter,
    recent: RefCell<RecentCache>,
}

impl<'w> Lexicon<'w> {
    pub fn of(words: &'w Words) -> Lexicon<'w> {
        Lexicon {
            own: &words.syllables,
            endings: &words.endings,
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
            return lowered.chars().map(|letter| self.known(&letter.to_string()).unwrap_or(1)).sum();
        }
        lowered.split('-').filter(|part| !part.is_empty()).map(|part| self.part(part)).sum::<u32>().max(1)
    }

    /// A part of a hyphenated word.
    fn part(&self, word: &str) -> u32 {
        self.known(word).or_else(|| self.by_stem(word)).unwrap_or_else(|| self.by_rule(word))
    }

    fn known(&self, word: &str) -> Option<u32> {
        dictionary::syllables(word).or_else(|| self.own.get(word).map(|count| u32::from(*count)))
    }

    /// By the known word that an ending was put to.
    fn by_stem(&self, word: &str) -> Option<u32> {
        self.endings.adds.iter().find_map(|(ending, adds)| {
            let stem = ending.stem(word)?;
            let behind = |ends: &[String]| u32::from(ends.iter().any(|end| stem.ends_with(end.as_str())));
            let added = match adds {
                Adds::None => 0,
                Adds::One => 1,
                Adds::BehindAHiss => behind(&self.endings.hisses),
                Adds::BehindAStop => behind(&self.endings.stops),
            };
            Some(self.known(&stem)? + added)
        })
    }

    /// A guess for words that nothing else knows: a syllable for each run of vowels, with the usual exceptions of the
    /// spelling. At least one.
    fn by_rule(&self, word: &str) -> u32 {
        let endings = self.endings;
        let vowel = |c: char| endings.vowels.contains(&c);
        let mut count: u32 = 0;
        let mut before = None;
        for c in word.chars() {
            let opens = before.is_none_or(|before| {
                !vowel(before) || endings.two_vowels.iter().any(|two| two.chars().eq([before, c]))
            });
            count += u32::from(vowel(c) && opens);
            before = Some(c);
        }
        for soft in &endings.one_vowel {
            count = count.saturating_sub(word.matches(soft.as_str()).count() as u32);
        }
        let ends = |ends: &[String]| ends.iter().any(|end| word.ends_with(end.as_str()));
        let behind_a_consonant = |ends: &[String]| {
            let stems = ends.iter().filter_map(|end| word.strip_suffix(end.as_str()));
            stems.filter_map(|stem| stem.chars().last()).any(|last| !vowel(last))
        };
        let heard = ends(&endings.heard) || behind_a_consonant(&endings.heard_behind_a_consonant);
        if behind_a_consonant(&endings.silent) && !heard {
            count = count.saturating_sub(1);
        }
        (count + u32::from(ends(&endings.one_more))).max(1)
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
        let lexicon = Lexicon::of(words);
        for (word, count) in &words.syllables {
            assert_eq!(dictionary::syllables(word), None, "{word}");
            assert!(
                u32::from(*count).abs_diff(lexicon.by_rule(word)) <= 2,
                "{word}: {count} is far from its vowels"
            );
        }
        assert_eq!(lexicon.syllables("Kyphosis"), 3);
    }

    #[test]
    fn unknown_words_are_guessed_by_their_vowels() {
        let lexicon = Lexicon::of(crate::review::testing::words());
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
            assert_eq!(lexicon.by_rule(word), syllables, "{word}");
        }
    }
}
