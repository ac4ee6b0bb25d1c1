//! What the rules on plain words share: every entry with its texts, and the grammar of steps.

use std::ops::Range;

use rayon::prelude::*;

use super::{Case, Sink};
use crate::model::finding::Finding;
use crate::model::source::Span;
use crate::reckon::readability::passages::{self, Passage};
use crate::reckon::readability::sentences::sentences;
use crate::reckon::readability::words::words;

/// True when the workspace's words are English, the only language whose grammar the rules know.
pub(super) fn is_english(case: &Case<'_>) -> bool {
    case.words.language.split('-').next() == Some("en")
}

/// Gives each exercise, week and free page to `look`, with the place of the entry and the texts that
/// clients read, and adds what it found. On all cores: these rules read every word.
pub(super) fn each_entry(
    case: &Case<'_>,
    sink: &mut Sink<'_>,
    look: impl Fn(Span, Vec<Passage<'_>>, &mut Sink<'_>) + Sync,
) {
    let (model, sources) = (case.model, case.sources);
    let rule = sink.rule;
    let looked = |place: Span, texts: Vec<Passage<'_>>| -> Vec<Finding> {
        let mut sink = Sink { rule, findings: Vec::new() };
        look(place, texts, &mut sink);
        sink.findings
    };
    let exercises: Vec<_> = model.exercises.values().collect();
    let weeks: Vec<_> = model.weeks().map(|(_, week)| week).collect();
    let pages: Vec<_> = model.pages.values().collect();
    let found = exercises
        .par_iter()
        .flat_map_iter(|e| looked(e.place(), passages::of_exercise(e, sources)))
        .chain(weeks.par_iter().flat_map_iter(|w| looked(w.title.span, passages::of_week(w, sources))))
        .chain(pages.par_iter().flat_map_iter(|p| looked(p.title.span, passages::of_page(p, sources))));
    sink.findings.par_extend(found);
}

/// One sentence of a step and its words.
pub(super) struct StepSentence<'p> {
    passage: &'p Passage<'p>,
    /// The whole step in small letters. Bytes stay where they are: only ASCII letters are lowered.
    lowered: &'p str,
    words: Vec<Range<usize>>,
}

impl StepSentence<'_> {
    pub(super) fn count(&self) -> usize {
        self.words.len()
    }

    /// Word `i` in small letters; empty behind the last.
    pub(super) fn word(&self, i: usize) -> &str {
        self.words.get(i).map_or("", |at| &self.lowered[at.clone()])
    }

    /// The place of the words `from..=to`.
    pub(super) fn span(&self, from: usize, to: usize) -> Span {
        self.passage.span(self.words[from].start..self.words[to].end)
    }

    /// The words `from..=to` as the author wrote them.
    pub(super) fn written(&self, from: usize, to: usize) -> &str {
        &self.passage.text[self.words[from].start..self.words[to].end]
    }

    /// True when a comma, a semicolon, a colon or a dash stands before word `i`.
    pub(super) fn is_parted_before(&self, i: usize) -> bool {
        let behind = self.words[i - 1].end;
        self.lowered[behind..self.words[i].start].contains([',', ';', ':', '\u{2013}', '\u{2014}'])
    }

    /// Where the main clause begins: behind an opening that says when or how ("When you feel steady, …",
    /// "With your left hand, …"), and behind small words that open a step ("then", "now").
    pub(super) fn main_clause(&self) -> usize {
        const OPENINGS: [&str; 22] = [
            "after", "and", "as", "at", "before", "by", "during", "for", "from", "if", "in", "on", "once",
            "so", "to", "until", "when", "while", "with", "without", "each", "every",
        ];
        const SMALL: [&str; 12] = [
            "again",
            "also",
            "always",
            "carefully",
            "finally",
            "first",
            "gently",
            "next",
            "now",
            "please",
            "slowly",
            "then",
        ];
        let mut start = 0;
        if OPENINGS.contains(&self.word(0)) && !matches!(self.word(0), "each" | "every") {
            start = (1..self.words.len()).find(|i| self.is_parted_before(*i)).unwrap_or(0);
        }
        while SMALL.contains(&self.word(start)) {
            start += 1;
        }
        start
    }
}

/// Gives each sentence of each step of each exercise to `look`.
pub(super) fn each_step(
    case: &Case<'_>,
    sink: &mut Sink<'_>,
    look: impl Fn(&StepSentence<'_>, &mut Sink<'_>) + Sync,
) {
    let rule = sink.rule;
    let exercises: Vec<_> = case.model.exercises.values().collect();
    let found = exercises.par_iter().flat_map_iter(|e| {
        let mut sink = Sink { rule, findings: Vec::new() };
        for passage in passages::steps_of(e, case.sources) {
            let lowered = passage.text.to_ascii_lowercase();
            for at in sentences(&passage.text) {
                let words = words(&lowered[at.clone()]).map(|w| at.start + w.start..at.start + w.end);
                let words = words.collect();
                look(&StepSentence { passage: &passage, lowered: &lowered, words }, &mut sink);
            }
        }
        sink.findings
    });
    sink.findings.par_extend(found);
}
