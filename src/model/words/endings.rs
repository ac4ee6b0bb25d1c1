//! How the words of a language end, and what their endings sound like: the theme's list `endings`.

use std::collections::BTreeSet;

use super::lists::{tellings, told};
use crate::text::tellings::Telling;

/// An ending as it is put to a word.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Ending {
    /// The last letters of the word that it takes the place of; mostly none.
    pub instead_of: String,
    pub letters: String,
}

/// The endings of one language, in small letters. A language without a list has none.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Endings {
    /// Of words that say how.
    pub adverbs: Vec<String>,
    /// Of the participles of regular verbs.
    pub participles: Vec<String>,
    /// How many syllables an ending adds to a word, in the order in which they are tried.
    pub adds: Vec<(Ending, Adds)>,
    /// Ends of words behind which an ending may have a syllable of its own.
    pub hisses: Vec<String>,
    pub stops: Vec<String>,
    pub vowels: BTreeSet<char>,
    /// Two vowels that open a syllable each.
    pub two_vowels: Vec<String>,
    /// Letters whose first vowel opens no syllable.
    pub one_vowel: Vec<String>,
    /// Ends of words that have no syllable behind a consonant,
    pub silent: Vec<String>,
    /// unless they are these,
    pub heard: Vec<String>,
    /// or these behind a consonant.
    pub heard_behind_a_consonant: Vec<String>,
    /// Ends of words that have a syllable without a vowel.
    pub one_more: Vec<String>,
}

/// How many syllables an ending adds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Adds {
    None,
    One,
    /// One behind a hiss, else none.
    BehindAHiss,
    /// One behind a stop, else none.
    BehindAStop,
}

impl Adds {
    fn named(name: &str) -> Option<Adds> {
        Some(match name {
            "adds none" => Adds::None,
            "adds one" => Adds::One,
            "adds one behind a hiss" => Adds::BehindAHiss,
            "adds one behind a stop" => Adds::BehindAStop,
            _ => return None,
        })
    }
}

impl Ending {
    /// `s`, or `y ies` for one that takes the place of letters.
    pub(super) fn of(phrase: &str) -> Ending {
        let (instead_of, letters) = phrase.split_once(' ').unwrap_or(("", phrase));
        Ending { instead_of: instead_of.to_string(), letters: letters.to_string() }
    }

    /// The word that a word was before this ending was put to it.
    pub fn stem(&self, word: &str) -> Option<String> {
        let stem = word.strip_suffix(self.letters.as_str()).filter(|stem| !stem.is_empty())?;
        Some(format!("{stem}{}", self.instead_of))
    }

    /// True when a word is another one with this ending.
    pub fn makes(&self, word: &str, of: &str) -> bool {
        let stem = of.strip_suffix(self.instead_of.as_str());
        stem.is_some_and(|stem| word.strip_prefix(stem) == Some(self.letters.as_str()))
    }

    /// The word with this ending.
    pub fn put_to(&self, word: &str) -> Option<String> {
        Some(format!("{}{}", word.strip_suffix(self.instead_of.as_str())?, self.letters))
    }
}

impl Endings {
    pub(super) fn of(list: &str) -> Endings {
        let all = tellings(list);
        let that = |what: &str| told(&all, what).map(str::to_string).collect::<Vec<_>>();
        let adds = all.iter().filter_map(|t| Some((Ending::of(&t.phrase), Adds::named(&t.tells)?)));
        Endings {
            adverbs: that("adverb"),
            participles: that("participle"),
            adds: adds.collect(),
            hisses: that("hiss"),
            stops: that("stop"),
            vowels: told(&all, "vowel").flat_map(str::chars).collect(),
            two_vowels: that("two vowels"),
            one_vowel: that("one vowel"),
            silent: that("silent"),
            heard: that("heard"),
            heard_behind_a_consonant: that("heard behind a consonant"),
            one_more: that("one more"),
        }
    }
}

/// True when a word ends with one of these, and is more than that.
pub fn ends_with_one(word: &str, ends: &[String]) -> bool {
    ends.iter().any(|end| word.len() > end.len() && word.ends_with(end.as_str()))
}

/// Those endings of these lists, each once.
pub(super) fn endings<'t>(lists: impl IntoIterator<Item = &'t str>, what: &str) -> Vec<Ending> {
    let mut endings: Vec<Ending> = Vec::new();
    for ending in lists.into_iter().flat_map(tellings).filter(|t: &Telling| t.tells == what) {
        let ending = Ending::of(&ending.phrase);
        if !endings.contains(&ending) {
            endings.push(ending);
        }
    }
    endings
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::workspace::theme::Theme;

    #[test]
    fn an_ending_is_put_to_a_word_and_taken_from_it() {
        let (plain, other) = (Ending::of("es"), Ending::of("y ies"));
        assert_eq!(
            (plain.put_to("press"), other.put_to("carry")),
            (Some("presses".into()), Some("carries".into()))
        );
        assert_eq!(
            (plain.stem("presses"), other.stem("carries")),
            (Some("press".into()), Some("carry".into()))
        );
        assert_eq!((other.put_to("press"), plain.stem("press"), plain.stem("es")), (None, None, None));
        assert!(
            other.makes("carries", "carry")
                && !other.makes("carries", "carri")
                && !plain.makes("press", "press")
        );
    }

    /// A list may name nothing that the program does not look for.
    #[test]
    fn every_kind_of_ending_is_known() {
        let theme = Theme::built_in();
        let kinds = |language: &str| {
            let list = tellings(theme.lists(language).endings);
            list.into_iter().map(|t| t.tells).collect::<BTreeSet<_>>()
        };
        let known = [
            "adds none",
            "adds one",
            "adds one behind a hiss",
            "adds one behind a stop",
            "adverb",
            "heard",
            "heard behind a consonant",
            "hiss",
            "one more",
            "one vowel",
            "ordinal",
            "ordinal mark",
            "participle",
            "plural",
            "silent",
            "stop",
            "two vowels",
            "vowel",
        ];
        assert_eq!(Vec::from_iter(kinds("en")), known);
        for language in theme.languages() {
            let kinds = kinds(language);
            assert!(
                kinds.contains("plural") && kinds.iter().all(|kind| known.contains(&kind.as_str())),
                "{language}"
            );
        }
    }
}
