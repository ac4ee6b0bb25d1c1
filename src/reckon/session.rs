//! A form in its dose as a run of timed parts: what a voice counts out.
//!
//! The parts are those that [`Practice`] adds up, one after the other, so that a session takes the minutes which the plan
//! and the sheets say: all at the low end, its low; all at the high end, its high. Between the two stands what the voice
//! counts unless she asks for more: as few as the dose allows, without haste. Every repetition, set, hold and time is then
//! at its low end, every pace, rest and way at its high end.

use super::between::Between;
use super::dose::{Practice, Rest};
use crate::model::dose::Dose;
use crate::model::form::Form;
use crate::model::vocabulary::Sides;

/// Which end of a range is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum End {
    Low,
    High,
}

/// Which ends a timeline takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ends {
    /// Of how much is done: sets, repetitions, holds, times.
    pub much: End,
    /// Of what passes meanwhile: the pace, the rests, the ways from side to side and into the exercise.
    pub pause: End,
}

/// The parts of one exercise in one session.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Timeline {
    pub parts: Vec<Part>,
}

/// A part, and how long it takes: lengths in milliseconds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// Into the exercise: from the one before, or into place.
    Ready(u64),
    Reps(Reps),
    /// What is not counted goes on for so long.
    Time(u64),
    /// To the other side.
    Change(u64),
    /// Between two sets.
    Rest(u64),
}

/// Repetitions one after the other. None has a rest after the last.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reps {
    pub count: u64,
    /// All of them, their holds included; each takes its equal share.
    pub work: u64,
    /// The hold in the middle of each; as long as all of it where there is no more than the hold.
    pub hold: u64,
    /// After each but the last.
    pub rest: u64,
    /// The side changes with each.
    pub alternating: bool,
}

impl End {
    fn of(self, between: Between) -> u64 {
        match self {
            End::Low => between.low,
            End::High => between.high,
        }
    }
}

impl Ends {
    /// What the voice counts first.
    pub const FEWEST: Ends = Ends { much: End::Low, pause: End::High };
    /// All that the dose allows.
    pub const MOST: Ends = Ends { much: End::High, pause: End::High };
}

impl Timeline {
    /// A form in this dose, by these ends of its ranges.
    pub fn of(form: &Form<'_>, dose: &Dose, ends: Ends) -> Timeline {
        let practice = Practice::of_form(form, dose);
        let pieces = &practice.pieces;
        let (much, pause) = (|of| ends.much.of(of), |of| ends.pause.of(of));
        let (of_sets, of_reps) = match pieces.rest {
            Rest::None => (0, 0),
            Rest::OfSets(rest) => (pause(rest), 0),
            Rest::OfReps(rest) => (0, pause(rest)),
        };
        let count = much(practice.reps_in_a_set);
        let (time, hold) = (pieces.time.map(much), much(pieces.hold));
        let work = match time.filter(|_| count == 0) {
            Some(time) => Part::Time(time),
            None => Part::Reps(Reps {
                count,
                work: time.unwrap_or(pause(pieces.pace).max(hold) * count),
                hold,
                rest: of_reps,
                alternating: dose.sides.as_ref().is_some_and(|sides| sides.value == Sides::Alternating),
            }),
        };
        let mut parts = vec![Part::Ready(pause(practice.transition))];
        for set in 0..much(practice.sets) {
            if set > 0 {
                parts.push(Part::Rest(of_sets));
            }
            parts.push(work);
            for _ in 1..much(pieces.sides) {
                parts.extend([Part::Change(pause(pieces.change)), work]);
            }
        }
        Timeline { parts }
    }
}

#[cfg(test)]
mod tests;
