//! What has to come before an exercise: an easier rung of its ladder, a lighter impact, nearly as
//! much work.

use std::collections::BTreeSet;

use super::demands;
use super::ladder::Ladders;
use crate::model::Model;
use crate::model::exercise::Exercise;

/// The levels of impact, each with the one that prepares for it.
const STEPS: [(&str, &str); 2] = [("impact-moderate", "impact-low"), ("impact-high", "impact-moderate")];

/// The exercises on lower rungs that prepare for this one, however many rungs down, in order of their ids. Only
/// those of its component count: a link from another one is a slip that the review tells by itself.
pub fn below<'m>(exercise: &Exercise, ladders: &Ladders<'m>, model: &Model) -> Vec<&'m str> {
    ladders.below(&exercise.id).into_iter().filter(|id| is_alike(exercise, id, model)).collect()
}

/// The exercises one rung down from which links lead to this one; only those of its component.
pub fn just_below<'m>(exercise: &Exercise, ladders: &Ladders<'m>, model: &Model) -> Vec<&'m str> {
    let rung = ladders.rung_of(&exercise.id);
    let lower = |id: &&str| ladders.rung_of(id) < rung && is_alike(exercise, id, model);
    ladders.easier(&exercise.id).into_iter().filter(lower).collect()
}

/// True when no rung below an exercise was used before it, though it has some.
pub fn skips_a_rung(exercise: &Exercise, used: &BTreeSet<&str>, below: &[&str]) -> bool {
    !below.is_empty()
        && !used.contains(exercise.id.as_str())
        && !below.iter().any(|easier| used.contains(easier))
}

/// The impacts of an exercise that nothing has prepared for, each with the one that has to come first.
/// `had` tells whether an earlier week has an impact.
pub fn unprepared_impacts(
    exercise: &Exercise,
    had: impl Fn(&str) -> bool,
) -> impl Iterator<Item = (&'static str, &'static str)> {
    STEPS.into_iter().filter(move |(impact, before)| demands::asks(exercise, impact) && !had(before))
}

/// True when the work of a component, milliseconds a week, rises by more than the step, in percent, above the most
/// of the weeks before, and by more than 5 minutes: less is too little to be a jump (common practice, no source).
/// What comes first is no jump.
pub fn is_jump(before: u64, now: u64, step: u64) -> bool {
    const SMALL: u64 = 5 * 60_000;
    before > 0 && now > before.saturating_mul(100 + step) / 100 && now - before > SMALL
}

fn is_alike(exercise: &Exercise, id: &str, model: &Model) -> bool {
    model.exercises.get(id).is_some_and(|other| other.component.value == exercise.component.value)
}
