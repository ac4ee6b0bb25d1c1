//! The practice log: for each exercise a row for every day on which it is done, and in it a box for every
//! set on every side.

use serde::Serialize;

use super::places::Place;
use crate::model::dose::Dose;
use crate::model::vocabulary::{Day, Sides};
use crate::outputs::blocks::phrases::Phrases;
use crate::reckon::days::DaySet;

/// The boxes of one exercise for a week.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub(super) struct LogTable {
    pub(super) place: Place,
    pub(super) title: String,
    /// The dose in one line, to fill the boxes without leafing back.
    pub(super) dose: String,
    /// "Monday", or "Day 1" where the reader chooses her days.
    pub(super) rows: Vec<String>,
    /// What is checked off on one day.
    pub(super) boxes: Vec<Boxes>,
}

/// Boxes for one side, or for both together.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub(super) struct Boxes {
    /// "Left".
    pub(super) side: Option<String>,
    pub(super) count: u32,
}

const DAYS_A_WEEK: u32 = 7;

/// Whether the reader chooses on which days she does it: it is not done on all of them.
pub(super) fn chooses_days(dose: &Dose) -> bool {
    days(dose) < DAYS_A_WEEK
}

/// The most days a week that a dose allows; without a word on it, every day.
fn days(dose: &Dose) -> u32 {
    dose.days.as_ref().map_or(DAYS_A_WEEK, |d| d.value.high).clamp(1, DAYS_A_WEEK)
}

/// The rows of a dose: the days that were planned for a person; for everyone all weekdays where it is done on
/// each of them, else as many numbered days as it allows at most.
pub(super) fn rows(dose: &Dose, planned: Option<DaySet>, say: Phrases<'_>) -> Vec<String> {
    if planned.is_none() && chooses_days(dose) {
        let day = |n: u32| say.words.say_with("log-day", &[("number", n.to_string().into())]);
        return (1..=days(dose)).map(day).collect();
    }
    let weekday = |day: Day| say.capital(&say.words.say(&format!("weekday-{}", day.number())));
    planned.unwrap_or(DaySet::ALL).iter().map(weekday).collect()
}

/// The boxes of one day: as many as the most sets, for each side where the sides are done one by one.
pub(super) fn boxes(dose: &Dose, say: Phrases<'_>) -> Vec<Boxes> {
    let count = dose.sets.as_ref().map_or(1, |s| s.value.high).max(1);
    match dose.sides.as_ref().map(|s| s.value) {
        Some(Sides::Each) => ["log-left", "log-right"]
            .iter()
            .map(|side| Boxes { side: Some(say.words.say(side)), count })
            .collect(),
        Some(Sides::Alternating | Sides::BothTogether) | None => vec![Boxes { side: None, count }],
    }
}

#[cfg(test)]
mod tests;
