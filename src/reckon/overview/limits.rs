//! What weeks of this kind cannot do by themselves. A limit is how a series is built, and no fault.

use super::super::between::Between;
use super::super::regions::{Advised, Regions};
use super::PlannedWeek;
use crate::model::vocabulary::Component;

/// Something that a series cannot do by itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Limit {
    /// Some weeks have no strength exercise for one of the five regions that published advice counts.
    Regions {
        /// How many strength exercises a week has.
        strength: Between,
        /// One of every week, in their order; `None` where what it trains could not all be read.
        weeks: Vec<Option<Trained>>,
    },
}

/// Which of the five regions the strength exercises of a week train.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Trained {
    pub trained: Vec<Advised>,
    pub missing: Vec<Advised>,
}

/// Nothing is concluded from weeks whose exercises are not all known.
pub(super) fn of(weeks: &[PlannedWeek<'_>]) -> Vec<Limit> {
    let strength = weeks.iter().flat_map(|week| &week.cells);
    let strength = strength.filter(|cell| cell.component == Component::Strength && cell.is_whole);
    let counts: Vec<u64> = strength.map(|cell| cell.exercises.len() as u64).collect();
    let weeks: Vec<Option<Trained>> = weeks.iter().map(trained).collect();
    let lacks = weeks.iter().flatten().any(|week| !week.missing.is_empty());
    match (counts.iter().min(), counts.iter().max()) {
        (Some(&fewest), Some(&most)) if lacks => {
            vec![Limit::Regions { strength: Between::new(fewest, most), weeks }]
        }
        _ => Vec::new(),
    }
}

fn trained(week: &PlannedWeek<'_>) -> Option<Trained> {
    let cell = week.cells.iter().find(|cell| cell.component == Component::Strength)?;
    let is_known = cell.is_whole && cell.exercises.iter().all(|(_, e)| e.standing.is_sound("trains"));
    let regions = cell.exercises.iter().fold(Regions::NONE, |all, (_, e)| all.union(Regions::trained_by(e)));
    let (trained, missing) = Advised::ALL
        .into_iter()
        .partition(|&advised| regions.iter().any(|region| Advised::of(region) == Some(advised)));
    is_known.then_some(Trained { trained, missing })
}
