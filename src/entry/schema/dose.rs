//! A dose, as it is written.

use schemars::JsonSchema;

use super::values::{Amount, Time, Word};
use crate::model::vocabulary::Sides;

/// How much and how often.
#[derive(JsonSchema)]
#[schemars(deny_unknown_fields)]
pub(super) struct Dose {
    /// Repetitions in a set, from 1 to 500: 10 or "8-12".
    reps: Option<Amount<1, 500>>,
    /// How long each repetition is held: "20 s" or "10-20 s".
    hold: Option<Time>,
    /// How long a set goes on, for what is not counted in repetitions: "5 min".
    time: Option<Time>,
    /// Sets, from 1 to 20.
    sets: Option<Amount<1, 20>>,
    /// How repetitions are shared between the sides: both-together; each, as many on each side; alternating, changing
    /// sides, as many in all.
    sides: Option<Word<Sides>>,
    /// The rest between two sets: "60 s".
    rest: Option<Time>,
    /// How long one repetition takes: "4 s".
    pace: Option<Time>,
    /// Days a week, from 1 to 7: 3 or "3-4".
    days: Option<Amount<1, 7>>,
    /// Clear days in between, from 0 to 6.
    rest_days: Option<Amount<0, 6>>,
    /// How hard it feels, from 0 (rest) to 10 (the most possible): "5-6".
    effort: Option<Amount<0, 10>>,
}
