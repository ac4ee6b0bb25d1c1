//! Whether an exercise has an answer to what it asks of the body, for people with a precaution.

use crate::model::Model;
use crate::model::catalogue::Row;
use crate::model::exercise::{Change, Exercise};
use crate::model::source::Spanned;
use crate::model::vocabulary::Restriction;

/// A demand that a precaution restricts, and that nothing in the exercise answers.
#[derive(Clone, Copy, Debug)]
pub struct Unanswered<'m> {
    pub demand: &'m Spanned<String>,
    pub precaution: &'m str,
    pub row: &'m Row,
}

/// Every demand of an exercise without an answer for one of these precautions, in the order of the demands.
///
/// A demand is answered when a variation or a regression takes it away or, where the precaution says to
/// modify it or to ask about it, when a caution names the precaution. Says nothing of what could not be read.
pub fn unanswered<'m>(
    exercise: &'m Exercise,
    precautions: &[&'m str],
    model: &'m Model,
) -> Vec<Unanswered<'m>> {
    let catalogue = &model.site.catalogue;
    let pairs = exercise.demands.iter().flat_map(|demand| precautions.iter().map(move |p| (demand, *p)));
    pairs
        .filter_map(|(demand, precaution)| {
            let row = catalogue.row(precaution, &demand.value)?;
            let open = !is_answered(exercise, &demand.value, precaution, row, model);
            open.then_some(Unanswered { demand, precaution, row })
        })
        .collect()
}

fn is_answered(exercise: &Exercise, demand: &str, precaution: &str, row: &Row, model: &Model) -> bool {
    let catalogue = &model.site.catalogue;
    let answers = |removes: &[Spanned<String>], adds: &[Spanned<String>]| {
        removes.iter().any(|d| d.value == demand)
            && exercise.spoils(adds, demand, precaution, catalogue).is_none()
    };
    let cautioned = || exercise.cautions.iter().any(|c| c.names(precaution));
    exercise.variations.iter().any(|v| answers(&v.removes, &v.adds))
        || exercise
            .regressions
            .iter()
            .any(|r| answers(&r.removes, &r.adds) && !leads_to_same(r, demand, model))
        || (row.by != Restriction::Avoid && cautioned())
}

/// True for a regression to an exercise that has the demand itself: it cannot take it away.
pub fn leads_to_same(regression: &Change, demand: &str, model: &Model) -> bool {
    let easier = regression.exercise().and_then(|id| model.exercises.get(&id.value));
    easier.is_some_and(|e| e.asks(demand))
}
