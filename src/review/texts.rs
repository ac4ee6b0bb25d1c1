//! The rules on texts: each entry's client-facing texts are parted into sentences and words once, and then
//! shown to every rule.

use std::sync::LazyLock;

use rayon::prelude::*;

use super::phrases::Phrases;
use super::rule::{Check, Rule};
use super::{Case, Sink, rules};
use crate::model::finding::Finding;
use crate::model::source::Span;
use crate::reckon::readability::parsed::Parsed;
use crate::reckon::readability::{self, passages};

/// What a rule on texts looks at.
pub struct Texts<'a> {
    /// The title of the entry.
    pub place: Span,
    pub parsed: Parsed<'a>,
    /// True when the words of the workspace are English, the only language whose grammar the rules know.
    pub english: bool,
    /// The clinical terms of the theme.
    pub(super) terms: &'a Phrases<'a>,
}

static RULES: LazyLock<Vec<&Rule>> = LazyLock::new(|| {
    let on_texts = |rule: &&&Rule| matches!(rule.check, Check::Texts(_));
    rules::ALL.iter().filter(on_texts).copied().collect()
});

/// What the rules on texts find. On all cores: they read every word of the workspace.
pub(super) fn review(case: &Case<'_>) -> Vec<Finding> {
    let (model, sources) = (case.model, case.sources);
    let english = readability::measures(&case.words.language);
    let terms = Phrases::new(case.words.terms.iter().map(|t| t.term.as_str()));
    let look = |place: Span, passages: Vec<passages::Passage<'_>>| {
        let texts = Texts { place, parsed: Parsed::of(passages), english, terms: &terms };
        let mut findings = Vec::new();
        for rule in RULES.iter() {
            let Check::Texts(check) = rule.check else { continue };
            let mut sink = Sink { rule, findings };
            check(case, &texts, &mut sink);
            findings = sink.findings;
        }
        findings
    };
    let exercises: Vec<_> = model.exercises.values().collect();
    let weeks: Vec<_> = model.weeks().map(|(_, week)| week).collect();
    let pages: Vec<_> = model.pages.values().collect();
    let exercises =
        exercises.par_iter().flat_map_iter(|e| look(e.place(), passages::of_exercise(e, sources)));
    let weeks = weeks.par_iter().flat_map_iter(|w| look(w.title.span, passages::of_week(w, sources)));
    let pages = pages.par_iter().flat_map_iter(|p| look(p.title.span, passages::of_page(p, sources)));
    exercises.chain(weeks).chain(pages).collect()
}
