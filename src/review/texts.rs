//! The rules on texts: each entry's client-facing texts are split into sentences and words once, and then
//! shown to every rule.

use std::sync::LazyLock;

use rayon::prelude::*;

use super::cache::ByEntry;
use super::grammar::{self, Roles, Step};
use super::rule::{Check, Rule};
use super::{Awaited, Case, Sink, rules};
use crate::model::finding::Finding;
use crate::model::source::{FileId, Span};
use crate::reckon::readability::parsed::Parsed;
use crate::reckon::readability::syllables::Lexicon;
use crate::reckon::readability::{self, passages};

/// What a rule on texts looks at.
pub struct Texts<'a> {
    /// The title of the entry.
    pub place: Span,
    pub parsed: Parsed<'a>,
    /// True when the words of the workspace are English, the only language whose grammar the rules know.
    pub english: bool,
    /// Counts syllables.
    pub lexicon: &'a Lexicon<'a>,
    /// What the words of the steps do, in English.
    roles: Vec<Vec<Roles>>,
}

impl Texts<'_> {
    /// The sentences of the steps of Move, with what their words do; none but in English.
    pub(super) fn steps(&self) -> impl Iterator<Item = Step<'_>> {
        self.parsed.steps().zip(&self.roles).map(|(sentence, roles)| Step { sentence, roles })
    }
}

static RULES: LazyLock<Vec<&Rule>> = LazyLock::new(|| {
    let on_texts = |rule: &&&Rule| matches!(rule.check, Check::Texts(_));
    rules::ALL.iter().filter(on_texts).copied().collect()
});

/// What the rules on texts find in the entries that are not kept; all that are looked at while somebody waits for it are
/// kept then. On all cores: they read every word.
pub(super) fn review(case: &Case<'_>, kept: &mut ByEntry, awaited: Awaited<'_>) -> Vec<Finding> {
    let (model, sources) = (case.model, case.sources);
    let english = readability::measures(&case.words.language);
    // What it remembers of words is kept from one entry to the next.
    let lexicon = || Lexicon::of(case.words);
    let look = |lexicon: &Lexicon<'_>, place: Span, passages: Vec<passages::Passage<'_>>| {
        let parsed = Parsed::of(passages, &case.words.splitter);
        let roles = if english { grammar::roles(&parsed, &case.words.steps) } else { Vec::new() };
        let texts = Texts { place, parsed, english, lexicon, roles };
        let mut findings = Vec::new();
        for rule in RULES.iter() {
            let Check::Texts(check) = rule.check else { continue };
            let mut sink = Sink { rule, findings };
            check(case, &texts, &mut sink);
            findings = sink.findings;
        }
        (place.file, findings)
    };
    let is_new = |file: FileId| !kept.contains_key(&file);
    let exercises: Vec<_> = model.exercises.values().filter(|e| is_new(e.file)).collect();
    let weeks: Vec<_> = model.weeks().map(|(_, week)| week).filter(|w| is_new(w.file)).collect();
    let pages: Vec<_> = model.pages.values().filter(|p| is_new(p.file)).collect();
    let exercises = exercises
        .par_iter()
        .filter(|_| awaited())
        .map_init(lexicon, |lexicon, e| look(lexicon, e.place(), passages::of_exercise(e, sources)));
    let weeks = weeks
        .par_iter()
        .filter(|_| awaited())
        .map_init(lexicon, |lexicon, w| look(lexicon, w.title.span, passages::of_week(w, sources)));
    let pages = pages
        .par_iter()
        .filter(|_| awaited())
        .map_init(lexicon, |lexicon, p| look(lexicon, p.title.span, passages::of_page(p, sources)));
    let found: Vec<_> = exercises.chain(weeks).chain(pages).collect();
    kept.extend(found);
    kept.values().flatten().cloned().collect()
}
