//! Which weeks use an exercise.

use std::collections::BTreeMap;

use crate::model::Model;
use crate::model::reads::{Read, note};
use crate::model::series::Series;
use crate::model::week::Week;

/// The weeks of every exercise, in order of series and week.
pub struct Uses<'m> {
    weeks: BTreeMap<&'m str, Vec<(&'m Series, &'m Week)>>,
}

impl<'m> Uses<'m> {
    pub fn of(model: &'m Model) -> Uses<'m> {
        let mut weeks: BTreeMap<&str, Vec<_>> = BTreeMap::new();
        for (series, week) in model.weeks() {
            for used in &week.exercises {
                let list = weeks.entry(used.id.value.as_str()).or_default();
                if list.last().is_none_or(|(_, last): &(&Series, &Week)| !std::ptr::eq(*last, week)) {
                    list.push((series, week));
                }
            }
        }
        Uses { weeks }
    }

    /// The weeks that use an exercise.
    pub fn weeks_of(&self, id: &str) -> impl Iterator<Item = (&'m Series, &'m Week)> + '_ {
        note(|| Read::Uses(id.to_string()));
        self.weeks.get(id).into_iter().flatten().map(|(series, week)| (*series, series.weeks.noted(week)))
    }
}
