//! Whether an exercise has an answer to what it asks of the body, for people with a precaution.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

use super::choice::{self, Choice, Need};
use super::demands::Demand;
use super::safety::Why;
use crate::model::Model;
use crate::model::exercise::Exercise;
use crate::model::week::WeekExercise;

/// What keeps people with a precaution from an exercise of which no form is safe for them.
#[derive(Clone, Debug)]
pub struct Unanswered<'m> {
    pub precaution: &'m str,
    /// What speaks against the exercise as it stands.
    pub why: Why<'m>,
}

impl<'m> Unanswered<'m> {
    /// The demand that has no answer; `None` where a caution alone keeps them from it.
    pub fn demand(&self) -> Option<&Demand<'m>> {
        self.why.demand()
    }
}

/// The form that people with one precaution alone get of an exercise by itself, worked out once: every series weighs every
/// exercise, and most of them for the same precautions.
#[derive(Debug, Default)]
pub struct Answers<'m> {
    known: Mutex<BTreeMap<(&'m str, &'m str), Arc<Choice<'m>>>>,
}

impl<'m> Answers<'m> {
    /// The form of an exercise that people with this precaution alone get.
    pub fn get(&self, exercise: &'m Exercise, precaution: &'m str, model: &'m Model) -> Arc<Choice<'m>> {
        let known = || self.known.lock().unwrap_or_else(PoisonError::into_inner);
        let key = (exercise.id.as_str(), precaution);
        if let Some(choice) = known().get(&key) {
            return Arc::clone(choice);
        }
        let choice = Arc::new(choice::choose(exercise, None, &Need::only(&[precaution]), model));
        known().insert(key, Arc::clone(&choice));
        choice
    }
}

/// For each of these precautions whose people have no safe form of the exercise as a week uses it: every demand that keeps
/// them from it as it stands or, where there is none, the caution that does.
///
/// A demand is answered when some form, of the exercise or of one that a regression leads to, is safe for people with that
/// precaution alone, by the function that chooses for a person. Says nothing of what could not be read.
pub fn unanswered<'m>(
    exercise: &'m Exercise,
    used: Option<&'m WeekExercise>,
    precautions: &[&'m str],
    model: &'m Model,
) -> Vec<Unanswered<'m>> {
    let choice = |precaution| choice::choose(exercise, used, &Need::only(&[precaution]), model);
    precautions.iter().flat_map(|&precaution| of_choice(precaution, &choice(precaution))).collect()
}

/// What has no answer, by what people with the precaution get of the exercise.
pub fn of_choice<'m>(precaution: &'m str, choice: &Choice<'m>) -> Vec<Unanswered<'m>> {
    if choice.chosen.is_some() {
        return Vec::new();
    }
    let against: Vec<&Why<'m>> = choice.against_base.iter().filter(|why| !why.is_told_elsewhere()).collect();
    let demands = against.iter().filter(|why| why.demand().is_some());
    let mut told: Vec<&Why<'m>> = demands.copied().collect();
    if told.is_empty() {
        told.extend(against.first().copied());
    }
    told.into_iter().map(|why| Unanswered { precaution, why: why.clone() }).collect()
}
