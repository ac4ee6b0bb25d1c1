//! A series at a glance: coverage, minutes, landings, ladders, targets and limits, week by week.
//!
//! What could not be read is not invented: a week of which something is not known has no figures, and says why.

mod ladders;
mod limits;
mod targets;
mod weeks;

#[cfg(test)]
mod tests;

use super::ladder::Ladders;
use crate::model::Model;
use crate::model::series::Series;
use crate::model::source::Sources;
use crate::model::words::Words;
pub use ladders::{LadderUse, Rung, RungUse};
pub use limits::{Limit, Trained};
pub use targets::{Score, TargetUse, Verdict};
pub use weeks::{Landings, Load, PlannedWeek, Unmeasured};

/// A series at a glance.
pub struct Overview<'m> {
    pub series: &'m Series,
    pub weeks: Vec<PlannedWeek<'m>>,
    /// The ladders on which an exercise of a week stands, in order of component and of the first week on each.
    pub ladders: Vec<LadderUse<'m>>,
    pub targets: Vec<TargetUse<'m>>,
    pub limits: Vec<Limit>,
}

impl<'m> Overview<'m> {
    pub fn of(
        model: &'m Model,
        sources: &Sources,
        words: &Words,
        ladders: &Ladders<'m>,
        series: &'m Series,
    ) -> Overview<'m> {
        let weeks: Vec<PlannedWeek<'m>> =
            series.weeks.iter().map(|week| PlannedWeek::of(model, sources, words, ladders, week)).collect();
        Overview {
            series,
            ladders: ladders::used(model, ladders, &weeks),
            targets: targets::of(model, series),
            limits: limits::of(&weeks),
            weeks,
        }
    }
}
