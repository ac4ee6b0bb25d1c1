//! Ladders: exercises linked by progressions and regressions, easiest first.

use std::collections::BTreeMap;

use crate::model::Model;
use crate::model::exercise::Change;

/// Every exercise's direct neighbours, known from either end of a link.
pub struct Ladders<'m> {
    easier: BTreeMap<&'m str, Vec<&'m str>>,
    harder: BTreeMap<&'m str, Vec<&'m str>>,
}

impl<'m> Ladders<'m> {
    /// The links of all exercises. Links to exercises that do not exist are left out.
    pub fn of(model: &'m Model) -> Ladders<'m> {
        let mut ladders = Ladders { easier: BTreeMap::new(), harder: BTreeMap::new() };
        for exercise in model.exercises.values() {
            let id = exercise.id.as_str();
            for other in links(&exercise.regressions, model) {
                ladders.link(other, id);
            }
            for other in links(&exercise.progressions, model) {
                ladders.link(id, other);
            }
        }
        ladders
    }

    fn link(&mut self, easier: &'m str, harder: &'m str) {
        for (map, from, to) in [(&mut self.harder, easier, harder), (&mut self.easier, harder, easier)] {
            let list = map.entry(from).or_default();
            if !list.contains(&to) {
                list.push(to);
            }
        }
    }

    /// The rungs of the ladder an exercise stands on, easiest first, itself among them: down by the
    /// first easier neighbour of each, up by the first harder one. One id alone stands on no ladder.
    pub fn rungs(&self, id: &'m str) -> Vec<&'m str> {
        let mut rungs = vec![id];
        while let Some(next) = next(&self.easier, rungs[0], &rungs) {
            rungs.insert(0, next);
        }
        while let Some(next) = next(&self.harder, rungs[rungs.len() - 1], &rungs) {
            rungs.push(next);
        }
        rungs
    }
}

/// The first neighbour that is not on the ladder yet: a loop, which the review reports, ends it.
fn next<'m>(map: &BTreeMap<&'m str, Vec<&'m str>>, from: &str, rungs: &[&'m str]) -> Option<&'m str> {
    map.get(from)?.iter().copied().find(|id| !rungs.contains(id))
}

fn links<'m>(changes: &'m [Change], model: &'m Model) -> impl Iterator<Item = &'m str> {
    changes
        .iter()
        .filter_map(|c| c.exercise())
        .map(|id| id.value.as_str())
        .filter(|id| model.exercises.contains_key(*id))
}
