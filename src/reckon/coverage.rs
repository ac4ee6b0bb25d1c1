//! Which exercises of a week train which component, so that a gap is seen at once.

use crate::model::Model;
use crate::model::exercise::Exercise;
use crate::model::vocabulary::{Component, Vocabulary};
use crate::model::week::{Week, WeekExercise};

/// The exercises of a week for one component, in the order of the week.
pub struct Cell<'m> {
    pub component: Component,
    pub exercises: Vec<(&'m WeekExercise, &'m Exercise)>,
}

/// The four components of a week in their fixed order, each with its exercises.
pub fn of_week<'m>(model: &'m Model, week: &'m Week) -> Vec<Cell<'m>> {
    Component::ALL
        .iter()
        .map(|&component| Cell {
            component,
            exercises: model.exercises_of(week).filter(|(_, e)| e.component.value == component).collect(),
        })
        .collect()
}
