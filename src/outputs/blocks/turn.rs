//! An exercise in its turn: what the first page of a week's paper says of it, and the week on one page.

use serde::Serialize;

use super::component::ComponentBlock;
use super::dose::{count, days_a_week};
use super::minutes::about;
use super::phrases::Phrases;
use super::used::UsedExercise;
use crate::model::source::Spanned;
use crate::model::vocabulary::Day;
use crate::reckon::days::DaySet;

/// An exercise of a week in two lines.
#[derive(Clone, Debug, Serialize)]
pub struct TurnBlock<'m> {
    pub component: ComponentBlock,
    pub title: &'m Spanned<String>,
    /// "10 times, 2 sets": what is done on one day.
    pub count: String,
    /// "3 to 4 days a week"; to a person, "Monday and Thursday".
    pub days: Option<String>,
    /// "About 4 minutes", where it is known.
    pub time: Option<String>,
}

impl<'m> TurnBlock<'m> {
    pub fn of(used: &UsedExercise<'_, 'm>, say: Phrases<'_>) -> TurnBlock<'m> {
        let dose = used.dose();
        let days = match used.chosen {
            Some(chosen) => Some(on_days(chosen.days, say)),
            None => dose.days.as_ref().map(|days| days_a_week(days.value, say)),
        };
        TurnBlock {
            component: ComponentBlock::of(used.exercise.component.value, say),
            title: used.title(),
            count: count(&dose, say),
            days: days.map(|days| say.capital(&days)),
            time: used.length().map(|length| about(length, None, say)),
        }
    }
}

/// "Monday and Thursday", or "every day".
pub(super) fn on_days(days: DaySet, say: Phrases<'_>) -> String {
    if days == DaySet::ALL {
        return say.words.say("dose-days-every");
    }
    let named: Vec<String> = days.iter().map(|day| weekday(day, say)).collect();
    say.and(&named)
}

/// "Monday" as it stands in the middle of a sentence.
pub(super) fn weekday(day: Day, say: Phrases<'_>) -> String {
    say.words.say(&format!("weekday-{}", day.number()))
}
