//! What weeks of this kind cannot do by themselves. A limit is how a series is built, and no fault.

use super::super::between::Between;
use super::PlannedWeek;
use crate::model::vocabulary::Component;

/// Something that a series cannot do by itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Limit {
    /// Weeks have so few strength exercises, fewer than one for each of the five [`REGIONS`].
    Regions { strength: Between },
}

/// Regions of the body that each ask for a strength exercise of its own: legs, arms, chest, shoulders, back.
pub const REGIONS: u64 = 5;

/// Where [`REGIONS`] is from.
pub const REGIONS_SOURCE: &str = "Giangregorio 2015, Osteoporos Int 26:891-910, Table 4";

/// Nothing is concluded from weeks whose exercises are not all known.
pub(super) fn of(weeks: &[PlannedWeek<'_>]) -> Vec<Limit> {
    let strength = weeks.iter().flat_map(|week| &week.cells);
    let strength = strength.filter(|cell| cell.component == Component::Strength && cell.is_whole);
    let counts: Vec<u64> = strength.map(|cell| cell.exercises.len() as u64).collect();
    match (counts.iter().min(), counts.iter().max()) {
        (Some(&fewest), Some(&most)) if fewest < REGIONS => {
            vec![Limit::Regions { strength: Between::new(fewest, most) }]
        }
        _ => Vec::new(),
    }
}
