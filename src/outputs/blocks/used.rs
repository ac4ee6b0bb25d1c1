//! An exercise as a page or a sheet has it: by itself, in its week, or in the form that was chosen for a person. What
//! depends on that is worked out here and nowhere else: which form it is, its number, its dose.

use std::collections::BTreeSet;

use serde::Serialize;

use super::component::ComponentBlock;
use super::dose::{DoseBlock, glance};
use super::phrases::Phrases;
use crate::model::Model;
use crate::model::dose::Dose;
use crate::model::exercise::Exercise;
use crate::model::form::Form;
use crate::model::source::Spanned;
use crate::model::week::{Week, WeekExercise};
use crate::reckon::between::Between;
use crate::reckon::dose::Practice;
use crate::reckon::personal::Chosen;

/// An exercise as it is used.
#[derive(Clone, Copy, Debug)]
pub struct UsedExercise<'p, 'm> {
    pub exercise: &'m Exercise,
    pub in_week: Option<&'m WeekExercise>,
    /// The form that was chosen for a person, and her days.
    pub chosen: Option<&'p Chosen<'m>>,
    /// Which one it is, and of how many; `None` for an exercise by itself.
    number: Option<(usize, usize)>,
    /// The number in its week of the exercise that the form was chosen for.
    stands_for: Option<usize>,
}

/// An exercise at a glance.
#[derive(Clone, Debug, Serialize)]
pub struct GlanceBlock<'m> {
    pub component: ComponentBlock,
    pub title: &'m Spanned<String>,
    /// In one line.
    pub dose: String,
}

impl<'p, 'm> UsedExercise<'p, 'm> {
    /// An exercise by itself.
    pub fn alone(exercise: &'m Exercise) -> UsedExercise<'p, 'm> {
        UsedExercise { exercise, in_week: None, chosen: None, number: None, stands_for: None }
    }

    /// An exercise in the dose of a week, for what says nothing of the others there.
    pub fn in_row(exercise: &'m Exercise, row: &'m WeekExercise) -> UsedExercise<'p, 'm> {
        UsedExercise { in_week: Some(row), ..UsedExercise::alone(exercise) }
    }

    /// The exercises of a week. One that the week names twice is shown where it comes first, and counts once.
    pub fn of_week(model: &'m Model, week: &'m Week) -> Vec<UsedExercise<'p, 'm>> {
        let each = model.each_exercise_of(week);
        numbered(each.map(|(row, e)| UsedExercise::in_row(e, row)))
    }

    /// Some exercises, each once; one has no number.
    pub fn of_each(exercises: &[&'m Exercise]) -> Vec<UsedExercise<'p, 'm>> {
        let mut seen = BTreeSet::new();
        let each: Vec<&Exercise> = exercises.iter().copied().filter(|e| seen.insert(e.id.as_str())).collect();
        match each[..] {
            [one] => vec![UsedExercise::alone(one)],
            _ => numbered(each.into_iter().map(UsedExercise::alone)),
        }
    }

    /// The forms that were chosen for a person, from a week if it is one.
    pub fn of_person(
        chosen: impl Iterator<Item = &'p Chosen<'m>>,
        week: Option<&'m Week>,
        model: &'m Model,
    ) -> Vec<UsedExercise<'p, 'm>> {
        let place = |asked: &Exercise| {
            let mut asked_for = model.each_exercise_of(week?);
            Some(asked_for.position(|(_, e)| e.id == asked.id)? + 1)
        };
        numbered(chosen.map(|chosen| UsedExercise {
            in_week: chosen.used,
            chosen: Some(chosen),
            stands_for: place(chosen.asked),
            ..UsedExercise::alone(chosen.form.exercise)
        }))
    }

    /// The form that is shown.
    pub fn form(&self) -> Form<'m> {
        self.chosen.map_or(Form::base(self.exercise), |chosen| chosen.form)
    }

    pub fn title(&self) -> &'m Spanned<String> {
        self.form().title()
    }

    /// Its dose: hers, else that of the week, else its own.
    pub fn dose(&self) -> Dose {
        match self.chosen {
            Some(chosen) => chosen.dose.clone(),
            None => self.form().dose(self.in_week.and_then(|row| row.dose.as_ref())),
        }
    }

    /// How long it takes on one day, where that is known.
    pub fn length(&self) -> Option<Between> {
        match self.chosen {
            Some(chosen) => Some(chosen.practice.whole()),
            None => {
                let dose = self.dose();
                self.exercise.standing.is_sound("dose").then(|| Practice::of(self.exercise, &dose).whole())
            }
        }
    }

    /// The exercise in a line of a list.
    pub fn glance(&self, say: Phrases<'_>) -> GlanceBlock<'m> {
        GlanceBlock {
            component: ComponentBlock::of(self.exercise.component.value, say),
            title: self.title(),
            dose: glance(&self.dose(), say),
        }
    }

    /// The dose whole, with the time that it takes where that is known.
    pub fn dose_block(&self, say: Phrases<'_>) -> DoseBlock {
        let dose = self.dose();
        // A variation has a dose of its own, whatever the week changes.
        let changes =
            self.in_week.filter(|_| self.form().variation.is_none()).and_then(|row| row.dose.as_ref());
        DoseBlock::of(&dose, self.length(), changes.is_some(), say)
    }

    /// "Exercise 2 of 4".
    pub fn number_line(&self, say: Phrases<'_>) -> Option<String> {
        let (number, count) = self.number?;
        let both = [("number", number.to_string().into()), ("count", count.to_string().into())];
        Some(say.words.say_with("exercise-of", &both))
    }

    /// What stands below the title of a form that was chosen for a person: which exercise of the week it is done for. It
    /// names no form that is not on her sheet.
    pub fn form_line(&self, say: Phrases<'_>) -> Option<String> {
        self.chosen.filter(|chosen| !chosen.form.is(&Form::base(chosen.asked)))?;
        Some(match self.stands_for {
            Some(number) => say.words.say_with("sheet-your-way", &[("number", number.to_string().into())]),
            None => say.words.say("sheet-your-own-way"),
        })
    }
}

fn numbered<'p, 'm>(exercises: impl Iterator<Item = UsedExercise<'p, 'm>>) -> Vec<UsedExercise<'p, 'm>> {
    let mut exercises: Vec<_> = exercises.collect();
    let count = exercises.len();
    exercises.iter_mut().enumerate().for_each(|(at, used)| used.number = Some((at + 1, count)));
    exercises
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::review::testing::{edited, with_sample, words};

    #[test]
    fn an_exercise_that_a_week_names_twice_counts_once_and_one_by_itself_has_no_number() {
        const WEEK: &str = "content/series/first-steps/week-01.md";
        let twice = edited(
            WEEK,
            &[("  { id = \"heel-raise\" },", "  { id = \"sit-to-stand\" },\n  { id = \"heel-raise\" },")],
        );
        with_sample(&[(WEEK, &twice)], |model| {
            let say = Phrases { words: words() };
            let (_, week) = model.weeks().next().unwrap();
            let lines = |exercises: &[UsedExercise<'_, '_>]| {
                exercises.iter().map(|p| p.number_line(say)).collect::<Vec<_>>()
            };
            let of_four = [1, 2, 3, 4].map(|n| Some(format!("Exercise {n} of 4")));
            assert_eq!(lines(&UsedExercise::of_week(model, week)), of_four);
            let [raise, drop] = ["heel-raise", "heel-drop"].map(|id| &model.exercises[id]);
            assert_eq!(lines(&UsedExercise::of_each(&[raise, raise])), [None]);
            let of_two = [1, 2].map(|n| Some(format!("Exercise {n} of 2")));
            assert_eq!(lines(&UsedExercise::of_each(&[raise, drop, raise])), of_two);
        });
    }
}
