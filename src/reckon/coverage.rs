//! Which exercises of a week train which component, so that a gap is seen at once.

use crate::model::Model;
use crate::model::exercise::Exercise;
use crate::model::vocabulary::{Component, Vocabulary};
use crate::model::week::{Week, WeekExercise};

/// The exercises of a week for one component, in the order of the week.
pub struct Cell<'m> {
    pub component: Component,
    pub exercises: Vec<(&'m WeekExercise, &'m Exercise)>,
    /// False where the week may hold more of them than could be read.
    pub is_whole: bool,
}

impl Cell<'_> {
    /// True when the week has none of them, and not only none that could be read.
    pub fn is_gap(&self) -> bool {
        self.exercises.is_empty() && self.is_whole
    }
}

/// True when all exercises of a week could be found, and to which component each belongs.
pub fn is_known(model: &Model, week: &Week) -> bool {
    let known = |id: &str| model.exercises.get(id).is_some_and(|e| e.standing.knows("component"));
    week.standing.knows("exercises") && week.exercises.iter().all(|used| known(&used.id.value))
}

/// The four components of a week in their fixed order, each with its exercises. An exercise whose component
/// could not be read is in none of them.
pub fn of_week<'m>(model: &'m Model, week: &'m Week) -> Vec<Cell<'m>> {
    let is_whole = is_known(model, week);
    let of = |component: Component| {
        let trains = |e: &Exercise| e.standing.knows("component") && e.component.value == component;
        model.exercises_of(week).filter(|(_, e)| trains(e)).collect()
    };
    Component::ALL.iter().map(|&component| Cell { component, exercises: of(component), is_whole }).collect()
}
