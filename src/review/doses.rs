//! Every dose that a reader is given, so that a rule on doses looks at all of them.

use crate::model::Model;
use crate::model::dose::Dose;
use crate::model::exercise::Exercise;

/// A dose that a page or a sheet shows.
pub(super) struct Given<'m> {
    pub(super) exercise: &'m Exercise,
    pub(super) dose: Dose,
    /// What it changes: the dose of the exercise.
    pub(super) changes: Option<&'m Dose>,
}

/// The dose of every exercise, then those of its variations and of the weeks that change it. Doses that could
/// not be read whole are left out.
pub(super) fn given(model: &Model) -> impl Iterator<Item = Given<'_>> {
    let readable = |e: &&Exercise| e.standing.is_sound("dose");
    let own = model.exercises.values().filter(readable).map(|exercise| Given {
        exercise,
        dose: exercise.dose.clone(),
        changes: None,
    });
    let varied = model.exercises.values().filter(readable).flat_map(|exercise| {
        let doses = exercise.variations.iter().filter_map(|v| v.dose.as_ref());
        let sound = exercise.standing.is_sound("variation");
        doses.filter(move |_| sound).map(move |dose| (exercise, dose))
    });
    let weeks = model.weeks().filter(|(_, week)| week.standing.is_sound("exercises"));
    let weekly = weeks
        .flat_map(|(_, week)| model.exercises_of(week))
        .filter_map(|(used, exercise)| Some((exercise, used.dose.as_ref()?)))
        .filter(move |(exercise, _)| readable(exercise));
    own.chain(varied.chain(weekly).map(|(exercise, changed)| Given {
        exercise,
        dose: exercise.dose.overridden_by(changed),
        changes: Some(&exercise.dose),
    }))
}
