//! How hard a text is to read: sentences, words and syllables counted by the published definitions, and
//! the grades that follow from them. Text in, counts out.
//!
//! - A list item, a step and a paragraph each end a sentence, and a sentence of one word counts.
//! - A hyphenated word is one word. Numerals and abbreviations count as they are spoken.
//! - Titles, headings and cells of tables are no sentences and are left out.
//! - A semicolon or a colon ends no sentence. (The guidance on SMOG is not uniform there.)
//!
//! English only. Spanish is not measured: the formula in use (Fernández Huerta 1959) circulates in two
//! forms that disagree about what it counts, and no published target level goes with it.

mod dictionary;
pub mod formulas;
mod numerals;
pub mod parsed;
pub mod passages;
mod recent_cache;
pub mod spoken;
pub mod syllables;

#[cfg(test)]
mod tests;

use std::iter::Sum;
use std::ops::{Add, AddAssign, Range};

use crate::model::source::{Sources, Span};
use crate::model::week::Week;
use crate::text::words::{Word, words_in};
use parsed::Parsed;
use recent_cache::RecentCache;
use spoken::Said;
use syllables::Lexicon;

/// What was counted in a text.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Counts {
    pub sentences: u32,
    pub words: u32,
    pub syllables: u32,
    /// Words of three syllables or more.
    pub long_words: u32,
}

impl Add for Counts {
    type Output = Counts;

    fn add(self, other: Counts) -> Counts {
        Counts {
            sentences: self.sentences + other.sentences,
            words: self.words + other.words,
            syllables: self.syllables + other.syllables,
            long_words: self.long_words + other.long_words,
        }
    }
}

impl AddAssign for Counts {
    fn add_assign(&mut self, other: Counts) {
        *self = *self + other;
    }
}

impl Sum for Counts {
    fn sum<I: Iterator<Item = Counts>>(counts: I) -> Counts {
        counts.fold(Counts::default(), Add::add)
    }
}

/// How hard a text is to read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Score {
    /// Flesch-Kincaid, in years of school in the United States.
    pub grade: f64,
    /// SMOG, in years of school in the United States; about two higher than `grade`.
    pub smog: f64,
    /// Flesch reading ease: 100 is easy, 0 is hard.
    pub ease: f64,
}

/// What was counted in a text that has no score: fewer words than [`FEWEST_WORDS`] or fewer sentences than
/// [`FEWEST_SENTENCES`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TooShort(pub Counts);

/// A score of fewer words says nothing. Common practice, no source.
pub const FEWEST_WORDS: u32 = 30;

/// A score of fewer sentences says nothing. Common practice, no source.
pub const FEWEST_SENTENCES: u32 = 3;

/// True for the languages whose texts are measured.
pub fn measures(language: &str) -> bool {
    language.split('-').next() == Some("en")
}

/// The score of counts, if they are enough for one.
///
/// # Errors
/// [`TooShort`].
pub fn score(counts: Counts) -> Result<Score, TooShort> {
    if counts.words < FEWEST_WORDS || counts.sentences < FEWEST_SENTENCES {
        return Err(TooShort(counts));
    }
    Ok(Score {
        grade: formulas::flesch_kincaid_grade(counts),
        smog: formulas::smog(counts),
        ease: formulas::flesch_reading_ease(counts),
    })
}

/// What is counted in a plain text. Blank lines part paragraphs.
pub fn count(text: &str, lexicon: &Lexicon<'_>) -> Counts {
    let mut words = Vec::new();
    let mut recent = lexicon.recent();
    let of_sentence = |at: Range<usize>| {
        words.clear();
        words.extend(words_in(text, at.clone()));
        count_sentence(text, at, &words, lexicon, &mut recent)
    };
    lexicon.splitter.sentences(text).map(of_sentence).sum()
}

/// What is counted in the sentence at `at` of a text, whose words are `words`.
fn count_sentence(
    text: &str,
    at: Range<usize>,
    words: &[Word],
    lexicon: &Lexicon<'_>,
    recent: &mut RecentCache,
) -> Counts {
    let of_number = |number: &str| {
        let mut counts = Counts::default();
        spoken::number(number, lexicon.spoken, &mut |word| counts += count_word(word, lexicon));
        counts
    };
    let mut counts = Counts { sentences: 1, ..Counts::default() };
    spoken::each_said(text, at, words, lexicon.spoken, |said| {
        counts += match said {
            Said::Written(word) => recent.counts(text, word.range(), |word| count_word(word, lexicon)),
            Said::Number(word) => recent.counts(text, word.range(), of_number),
            Said::Other(words) => words.split(' ').map(|word| count_word(word, lexicon)).sum(),
        }
    });
    counts
}

/// What is counted in a word as it is spoken.
fn count_word(word: &str, lexicon: &Lexicon<'_>) -> Counts {
    let syllables = lexicon.syllables(word);
    Counts { words: 1, syllables, long_words: u32::from(syllables >= 3), ..Counts::default() }
}

/// One sentence of an entry.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sentence {
    pub span: Span,
    pub counts: Counts,
}

/// An entry's client-facing texts, counted sentence by sentence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reading {
    /// In the order of the entry.
    pub sentences: Vec<Sentence>,
}

impl Reading {
    /// The sentences of an entry's texts, counted.
    pub fn of(parsed: &Parsed<'_>, lexicon: &Lexicon<'_>) -> Reading {
        let mut recent = lexicon.recent();
        let counted = parsed.sentences().filter(|s| s.passage.counts_as_text()).map(|s| Sentence {
            span: s.span(),
            counts: count_sentence(&s.passage.text, s.at.clone(), s.words, lexicon, &mut recent),
        });
        Reading { sentences: counted.collect() }
    }

    /// What was counted in all of it.
    pub fn counts(&self) -> Counts {
        self.sentences.iter().map(|s| s.counts).sum()
    }

    /// The score of all of it.
    ///
    /// # Errors
    /// [`TooShort`].
    pub fn score(&self) -> Result<Score, TooShort> {
        score(self.counts())
    }

    /// The sentences without which the grade would be lowest, the heaviest first; of equal weight, the
    /// earlier first.
    pub fn heaviest(&self, most: usize) -> Vec<&Sentence> {
        let all = self.counts();
        let without = |s: &Sentence| {
            let rest = Counts {
                sentences: all.sentences - s.counts.sentences,
                words: all.words - s.counts.words,
                syllables: all.syllables - s.counts.syllables,
                long_words: all.long_words - s.counts.long_words,
            };
            if rest.words == 0 { f64::NEG_INFINITY } else { formulas::flesch_kincaid_grade(rest) }
        };
        let mut ranked: Vec<(f64, &Sentence)> = self.sentences.iter().map(|s| (without(s), s)).collect();
        ranked.sort_by(|a, b| a.0.total_cmp(&b.0));
        ranked.into_iter().take(most).map(|(_, s)| s).collect()
    }
}

/// A week's welcome, its cues and its question, counted. Its exercises are counted by themselves.
pub fn of_week(week: &Week, sources: &Sources, lexicon: &Lexicon<'_>) -> Reading {
    Reading::of(&Parsed::of(passages::of_week(week, sources), lexicon.splitter), lexicon)
}
