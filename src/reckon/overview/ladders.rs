//! The ladders that a series uses, and the rung that each week stands on.

use super::super::ladder::{Ladder, Ladders};
use super::PlannedWeek;
use crate::model::Model;
use crate::model::exercise::Exercise;
use crate::model::vocabulary::Component;

/// Where an exercise stands on its ladder.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rung {
    /// The first is 1.
    pub number: usize,
    /// So many rungs the ladder has.
    pub of: usize,
}

/// A ladder that a series uses.
pub struct LadderUse<'m> {
    /// The easiest first.
    pub rungs: Vec<RungUse<'m>>,
}

/// One rung, with its exercises and the weeks that use one of them.
pub struct RungUse<'m> {
    pub exercises: Vec<&'m Exercise>,
    /// Places in the list of the series's weeks, in their order.
    pub weeks: Vec<usize>,
}

impl Rung {
    pub fn of(ladders: &Ladders<'_>, id: &str) -> Option<Rung> {
        let of = ladders.ladder_of(id)?.rungs.len();
        Some(Rung { number: ladders.rung_of(id)?, of })
    }
}

pub(super) fn used<'m>(
    model: &'m Model,
    ladders: &Ladders<'m>,
    weeks: &[PlannedWeek<'m>],
) -> Vec<LadderUse<'m>> {
    let uses = ladders.all().iter().map(|ladder| LadderUse::of(model, ladder, weeks));
    let mut used: Vec<LadderUse<'m>> = uses.filter(|ladder| ladder.first_week().is_some()).collect();
    used.sort_by_key(|ladder| (ladder.component(), ladder.first_week()));
    used
}

impl<'m> LadderUse<'m> {
    fn of(model: &'m Model, ladder: &Ladder<'m>, weeks: &[PlannedWeek<'m>]) -> LadderUse<'m> {
        let rungs = ladder.rungs.iter().map(|rung| {
            let stands = |week: &PlannedWeek<'_>| {
                week.week.exercises.iter().any(|used| rung.contains(&used.id.value.as_str()))
            };
            RungUse {
                exercises: rung.iter().filter_map(|id| model.exercises.get(id)).collect(),
                weeks: (0..weeks.len()).filter(|&at| stands(&weeks[at])).collect(),
            }
        });
        LadderUse { rungs: rungs.collect() }
    }

    /// The component of its easiest exercise.
    pub fn component(&self) -> Option<Component> {
        self.rungs.iter().flat_map(|rung| &rung.exercises).next().map(|exercise| exercise.component.value)
    }

    /// The first week that uses it.
    fn first_week(&self) -> Option<usize> {
        self.rungs.iter().filter_map(|rung| rung.weeks.first()).min().copied()
    }
}
