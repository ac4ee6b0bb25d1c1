//! How long an exercise takes, and how much of it is done, in one session and in a week.
//!
//! A session takes `sets x (repetitions x one repetition) x sides + (sets - 1) x rest`, the changes of side, and
//! the way into the exercise. What the dose does not say is reckoned with a default of [`assumed`].
//!
//! - One repetition lasts its pace, and never less than its hold. A dose of `time` takes that time, every
//!   set and each side anew.
//! - `each` side does all of it; with `alternating`, and with both sides together, the repetitions are all.
//! - Rest is between sets where the dose says how many sets there are, one included; else it is between
//!   repetitions.

use super::assumed::{self, Assumed};
use super::between::Between;
use super::demands::{self, Demand};
use crate::model::Model;
use crate::model::dose::Dose;
use crate::model::exercise::Exercise;
use crate::model::form::Form;
use crate::model::vocabulary::{Component, Sides};
use crate::model::week::Week;

/// One exercise in one session: lengths in milliseconds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Practice {
    pub sets: Between,
    /// In one set, on one side where the sides take turns set by set.
    pub reps_in_a_set: Between,
    /// In all sets and on both sides; nothing where the dose counts none.
    pub reps: Between,
    /// Holds in all sets and on both sides.
    pub holds: Between,
    /// Time in holds.
    pub held: Between,
    /// The hardest landing it asks for, and how many of them.
    pub impacts: Option<(Impact, Between)>,
    pub work: Between,
    pub rest: Between,
    /// From side to side.
    pub changes: Between,
    /// Into the exercise.
    pub transition: Between,
    /// Days a week.
    pub days: Between,
    /// The defaults that stand in for what the dose does not say.
    pub assumed: Vec<(Field, Assumed)>,
    /// What the lengths above are made of.
    pub(super) pieces: Pieces,
}

/// The pieces of a session, each once: lengths in milliseconds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Pieces {
    /// That take turns set by set: one or two.
    pub(super) sides: Between,
    /// One repetition, but for its hold; nothing for a hold that goes on from one to the next, and where a time is set.
    pub(super) pace: Between,
    /// Inside of a repetition, which never lasts less.
    pub(super) hold: Between,
    /// In place of repetitions: on each side, in each set.
    pub(super) time: Option<Between>,
    pub(super) rest: Rest,
    /// From one side to the other.
    pub(super) change: Between,
}

/// One rest, and what it is between.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Rest {
    None,
    OfSets(Between),
    OfReps(Between),
}

/// The demand that takes the time to get down and up again.
const TO_THE_FLOOR: &str = "floor-transfer";

/// How hard a landing is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Impact {
    Low,
    Moderate,
    High,
}

/// A field of a dose that a default stands in for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Field {
    Reps,
    Pace,
    Sets,
    Rest,
    Days,
}

impl Practice {
    /// The exercise in this dose, which is its own or that of a week.
    pub fn of(exercise: &Exercise, dose: &Dose) -> Practice {
        Practice::of_form(&Form::base(exercise), dose)
    }

    /// A form in this dose.
    pub fn of_form(form: &Form<'_>, dose: &Dose) -> Practice {
        let demands = demands::of_the_body(form);
        let down = demands::has(&demands, TO_THE_FLOOR);
        Practice::reckoned(form.exercise.component.value, Impact::among(&demands), down, dose)
    }

    fn reckoned(component: Component, impact: Option<Impact>, floor: bool, dose: &Dose) -> Practice {
        let mut assumed = Vec::new();
        let mut parts = Parts { component, impact: impact.is_some(), dose, assumed: &mut assumed };
        let (sets, sides) = (parts.sets(), parts.sides());
        let counted = dose.reps.is_some() || (dose.hold.is_some() && dose.time.is_none());
        let reps_in_a_set = if counted { parts.reps() } else { Between::ZERO };
        let reps = reps_in_a_set.times(sets).times(sides);
        let holds = if dose.hold.is_some() { reps } else { Between::ZERO };
        let hold = dose.hold.as_ref().map_or(Between::ZERO, |hold| hold.value.into());
        let time = dose.time.as_ref().map(|time| Between::from(time.value));
        let pace = if time.is_some() { Between::ZERO } else { parts.one_pace() };
        let work = match time {
            Some(time) => time.times(sets).times(sides),
            None => pace.at_least(hold).times(reps),
        };
        let landings = impact.map(|level| (level, if counted { reps } else { parts.landings_in(work) }));
        let between = parts.rest(sets);
        let rest = match between {
            Rest::None => Between::ZERO,
            Rest::OfSets(rest) => rest.times(sets.gaps()),
            Rest::OfReps(rest) => rest.times(reps_in_a_set.gaps()).times(sides),
        };
        let days = parts.days();
        let change = assumed::SIDE_CHANGE.value;
        let changes = if sides.low > 1 { change.times(sets) } else { Between::ZERO };
        let down = if floor { assumed::TO_THE_FLOOR.value } else { Between::ZERO };
        Practice {
            sets,
            reps_in_a_set,
            reps,
            holds,
            held: holds.times(hold),
            impacts: landings,
            work,
            rest,
            changes,
            transition: assumed::TRANSITION.value + down,
            days,
            assumed,
            pieces: Pieces { sides, pace, hold, time, rest: between, change },
        }
    }

    /// Work and changes of side, without the rests.
    pub fn exercising(&self) -> Between {
        self.work + self.changes
    }

    /// Work, rest and changes of side.
    pub fn practicing(&self) -> Between {
        self.exercising() + self.rest
    }

    /// All the time it takes, the way into it included.
    pub fn whole(&self) -> Between {
        self.practicing() + self.transition
    }

    /// The same figure for a week: for instance `practice.a_week(practice.reps)`.
    pub fn a_week(&self, figure: Between) -> Between {
        figure.times(self.days)
    }

    /// Landings of that level in a session.
    pub fn impacts_of(&self, level: Impact) -> Between {
        self.impacts.filter(|(of, _)| *of == level).map_or(Between::ZERO, |(_, count)| count)
    }

    /// Landings of any level in a session.
    pub fn all_impacts(&self) -> Between {
        self.impacts.map_or(Between::ZERO, |(_, count)| count)
    }
}

impl Impact {
    pub const ALL: [Impact; 3] = [Impact::Low, Impact::Moderate, Impact::High];

    /// The demand that asks for it.
    pub fn demand(self) -> &'static str {
        match self {
            Impact::Low => "impact-low",
            Impact::Moderate => "impact-moderate",
            Impact::High => "impact-high",
        }
    }

    fn among(demands: &[Demand<'_>]) -> Option<Impact> {
        Impact::ALL.into_iter().rev().find(|level| demands::has(demands, level.demand()))
    }
}

/// The session of a week in which all its exercises are done, and the week of such practice.
#[derive(Clone, Debug)]
pub struct Session<'m> {
    /// The exercises that could be found, in the order of the week.
    pub practices: Vec<(&'m Exercise, Practice)>,
}

impl<'m> Session<'m> {
    /// The exercises of a week in the doses of that week.
    pub fn of(model: &'m Model, week: &'m Week) -> Session<'m> {
        let practices =
            model.exercises_of(week).map(|(used, e)| (e, Practice::of(e, &used.dose_of(e)))).collect();
        Session { practices }
    }

    /// A figure of every exercise, added up: for instance `session.sum(Practice::whole)`.
    pub fn sum(&self, figure: impl Fn(&Practice) -> Between) -> Between {
        self.practices.iter().map(|(_, practice)| figure(practice)).sum()
    }

    /// A figure of every exercise on each of its days, added up: for instance `session.a_week(Practice::whole)`.
    pub fn a_week(&self, figure: impl Fn(&Practice) -> Between) -> Between {
        self.sum(|practice| practice.a_week(figure(practice)))
    }

    /// The part of it that trains one component.
    pub fn component(&self, component: Component) -> Session<'m> {
        let of_it = self.practices.iter().filter(|(e, _)| e.component.value == component);
        Session { practices: of_it.cloned().collect() }
    }
}

/// Reads one field after another, and notes where a default stands in.
struct Parts<'a> {
    component: Component,
    impact: bool,
    dose: &'a Dose,
    assumed: &'a mut Vec<(Field, Assumed)>,
}

impl Parts<'_> {
    fn assume(&mut self, field: Field, assumed: Assumed) -> Between {
        if !self.assumed.iter().any(|(f, _)| *f == field) {
            self.assumed.push((field, assumed));
        }
        assumed.value
    }

    fn sets(&mut self) -> Between {
        match &self.dose.sets {
            Some(sets) => sets.value.into(),
            None => self.assume(Field::Sets, assumed::ONCE),
        }
    }

    fn sides(&self) -> Between {
        match self.dose.sides.as_ref().map(|s| s.value) {
            Some(Sides::Each) => Between::exactly(2),
            Some(Sides::Alternating | Sides::BothTogether) | None => Between::exactly(1),
        }
    }

    fn reps(&mut self) -> Between {
        match &self.dose.reps {
            Some(reps) => reps.value.into(),
            None => self.assume(Field::Reps, assumed::ONCE),
        }
    }

    fn pace(&mut self) -> Between {
        match &self.dose.pace {
            Some(pace) => pace.value.into(),
            None => self.assume(Field::Pace, assumed::pace(self.component, self.impact)),
        }
    }

    /// A hold without a pace takes its own time and no other.
    fn one_pace(&mut self) -> Between {
        match (&self.dose.pace, &self.dose.hold) {
            (None, Some(_)) => Between::ZERO,
            _ => self.pace(),
        }
    }

    /// Landings in a time of work that is not counted in repetitions.
    fn landings_in(&mut self, work: Between) -> Between {
        let pace = self.pace();
        Between::new(work.low / pace.high.max(1), work.high / pace.low.max(1))
    }

    fn rest(&mut self, sets: Between) -> Rest {
        match (&self.dose.rest, &self.dose.sets) {
            (Some(rest), Some(_)) => Rest::OfSets(rest.value.into()),
            (Some(rest), None) => Rest::OfReps(rest.value.into()),
            (None, _) if sets.high > 1 => {
                Rest::OfSets(self.assume(Field::Rest, assumed::rest(self.component)))
            }
            (None, _) => Rest::None,
        }
    }

    fn days(&mut self) -> Between {
        match &self.dose.days {
            Some(days) => days.value.into(),
            None => self.assume(Field::Days, assumed::days(self.component)),
        }
    }
}

#[cfg(test)]
mod tests;
