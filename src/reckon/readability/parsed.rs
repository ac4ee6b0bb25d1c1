//! An entry's texts with their sentences and words, found once for all that look at them.

use std::ops::Range;

use super::passages::{Passage, PassageKind};
use crate::model::source::Span;
use crate::text::sentences::Splitter;
use crate::text::words::{Word, words_in};

/// The texts of one entry.
#[derive(Debug)]
pub struct Parsed<'s> {
    pub passages: Vec<Passage<'s>>,
    sentences: Vec<Row>,
    words: Vec<Word>,
}

#[derive(Debug)]
struct Row {
    passage: usize,
    /// In the text of the passage.
    at: Range<usize>,
    /// In the list of all words.
    words: Range<usize>,
}

/// A sentence of an entry.
#[derive(Clone, Debug)]
pub struct ParsedSentence<'p> {
    pub passage: &'p Passage<'p>,
    /// Its place in the text of the passage.
    pub at: Range<usize>,
    /// Its words, with their places in the text of the passage.
    pub words: &'p [Word],
}

impl<'s> Parsed<'s> {
    pub fn of(passages: Vec<Passage<'s>>, splitter: &Splitter) -> Parsed<'s> {
        let mut rows = Vec::new();
        let mut all = Vec::with_capacity(passages.iter().map(|p| p.text.len()).sum::<usize>() / 4);
        for (i, passage) in passages.iter().enumerate() {
            for at in splitter.sentences(&passage.text) {
                let first = all.len();
                for word in words_in(&passage.text, at.clone()) {
                    all.push(word);
                }
                rows.push(Row { passage: i, at, words: first..all.len() });
            }
        }
        Parsed { passages, sentences: rows, words: all }
    }

    /// Every sentence, in the order of the entry.
    pub fn sentences(&self) -> impl Iterator<Item = ParsedSentence<'_>> {
        self.sentences.iter().map(|row| ParsedSentence {
            passage: &self.passages[row.passage],
            at: row.at.clone(),
            words: &self.words[row.words.clone()],
        })
    }

    /// The sentences of the steps of Move.
    pub fn steps(&self) -> impl Iterator<Item = ParsedSentence<'_>> {
        self.sentences().filter(|s| s.passage.kind == PassageKind::Step)
    }
}

impl<'p> ParsedSentence<'p> {
    pub fn span(&self) -> Span {
        self.passage.span(self.at.clone())
    }

    /// Its text as a reader sees it.
    pub fn text(&self) -> &'p str {
        &self.passage.text[self.at.clone()]
    }

    /// Word `i` as it is written; empty behind the last.
    pub fn word(&self, i: usize) -> &'p str {
        self.words.get(i).map_or("", |word| &self.passage.text[word.range()])
    }

    /// The words `from..=to` and what stands between them.
    pub fn written(&self, from: usize, to: usize) -> &'p str {
        &self.passage.text[self.part(from, to)]
    }

    /// The place of the words `from..=to`.
    pub fn span_of(&self, from: usize, to: usize) -> Span {
        self.passage.span(self.part(from, to))
    }

    /// What stands between word `i` and the word before it; empty for the first.
    pub fn before(&self, i: usize) -> &'p str {
        match i.checked_sub(1).and_then(|before| Some((self.words.get(before)?, self.words.get(i)?))) {
            Some((before, word)) => &self.passage.text[before.end as usize..word.start as usize],
            None => "",
        }
    }

    fn part(&self, from: usize, to: usize) -> Range<usize> {
        self.words[from].start as usize..self.words[to].end as usize
    }
}
