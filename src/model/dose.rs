//! How much and how often: repetitions, sets, holds, rest, pace and days.

use super::amount::{Amount, Time};
use super::source::{Span, Spanned};
use super::vocabulary::Sides;

/// A dose as an author wrote it. A week's dose holds only the fields it overrides.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Dose {
    /// The whole table, for findings about what it lacks.
    pub span: Span,
    pub reps: Option<Spanned<Amount>>,
    pub hold: Option<Spanned<Time>>,
    /// How long the whole exercise goes on, for what is not counted in repetitions.
    pub time: Option<Spanned<Time>>,
    pub sets: Option<Spanned<Amount>>,
    pub sides: Option<Spanned<Sides>>,
    pub rest: Option<Spanned<Time>>,
    /// The length of one repetition.
    pub pace: Option<Spanned<Time>>,
    /// Days a week.
    pub days: Option<Spanned<Amount>>,
    /// Clear days in between.
    pub rest_days: Option<Spanned<Amount>>,
    /// Effort on the scale from 0 (rest) to 10 (the most possible).
    pub effort: Option<Spanned<Amount>>,
}

/// The values of a dose without their places, to compare two doses.
pub type DoseValues = ([Option<Amount>; 5], [Option<(u32, u32)>; 4], Option<Sides>);

impl Dose {
    pub fn empty(span: Span) -> Dose {
        Dose {
            span,
            reps: None,
            hold: None,
            time: None,
            sets: None,
            sides: None,
            rest: None,
            pace: None,
            days: None,
            rest_days: None,
            effort: None,
        }
    }

    /// This dose with every field that `other` sets taken from `other`.
    pub fn overridden_by(&self, other: &Dose) -> Dose {
        let other = other.clone();
        let mine = self.clone();
        Dose {
            span: other.span,
            reps: other.reps.or(mine.reps),
            hold: other.hold.or(mine.hold),
            time: other.time.or(mine.time),
            sets: other.sets.or(mine.sets),
            sides: other.sides.or(mine.sides),
            rest: other.rest.or(mine.rest),
            pace: other.pace.or(mine.pace),
            days: other.days.or(mine.days),
            rest_days: other.rest_days.or(mine.rest_days),
            effort: other.effort.or(mine.effort),
        }
    }

    /// The values alone, times in milliseconds: two doses are the same when these are equal.
    pub fn values(&self) -> DoseValues {
        fn of<T: Copy>(field: &Option<Spanned<T>>) -> Option<T> {
            field.as_ref().map(|f| f.value)
        }
        fn millis(field: &Option<Spanned<Time>>) -> Option<(u32, u32)> {
            field.as_ref().map(|f| (f.value.low, f.value.high))
        }
        (
            [of(&self.reps), of(&self.sets), of(&self.days), of(&self.rest_days), of(&self.effort)],
            [millis(&self.hold), millis(&self.time), millis(&self.rest), millis(&self.pace)],
            of(&self.sides),
        )
    }
}
