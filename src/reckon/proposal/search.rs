//! The exact search for one item of each list: the least cost within a time and a number of landings.
//!
//! Costs are compared figure by figure. An item that costs no less than one before it, takes as long and has as
//! many landings is never in the best choice; without these a list is short. The rest is searched in depth, the
//! cheapest items first, and left as soon as even the cheapest of all further items could not make a better choice,
//! or the shortest would not fit.

use std::iter::Sum;
use std::ops::Add;

/// Figures that are to be as small as possible, the weightiest first.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Cost(pub(super) [i64; 8]);

/// Something that can be chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Item {
    pub(super) cost: Cost,
    /// Milliseconds.
    pub(super) time: u64,
    pub(super) landings: u64,
}

/// What a choice may take in all.
#[derive(Clone, Copy, Debug)]
pub(super) struct Limits {
    pub(super) time: u64,
    pub(super) landings: u64,
}

/// The places of the items, one of each list, that cost least of all that stay within the limits; of equal ones
/// those that stand earliest, the first list weighing most. `None` when nothing fits. The lists are in order of cost.
pub(super) fn best(lists: &[Vec<Item>], limits: Limits) -> Option<Vec<usize>> {
    let lists: Vec<Vec<(usize, Item)>> = lists.iter().map(|list| undominated(list)).collect();
    let mut rest = vec![Rest::default()];
    for list in lists.iter().rev() {
        let items = || list.iter().map(|(_, item)| item);
        let after = rest[rest.len() - 1];
        rest.push(Rest {
            cost: after.cost + items().map(|item| item.cost).min()?,
            time: after.time + items().map(|item| item.time).min()?,
            landings: after.landings + items().map(|item| item.landings).min()?,
        });
    }
    rest.reverse();
    let mut search = Search { lists: &lists, rest: &rest, limits, picked: Vec::new(), best: None };
    search.descend(Rest::default());
    search.best.map(|(_, picked)| picked)
}

/// The least time of a choice within so many landings.
pub(super) fn shortest(lists: &[Vec<Item>], landings: u64) -> Option<u64> {
    let by_time = |list: &Vec<Item>| {
        let mut list = list.clone();
        list.sort_by_key(|item| item.time);
        let cost = |item: &Item| {
            let mut cost = Cost::default();
            cost.0[0] = i64::try_from(item.time).unwrap_or(i64::MAX);
            cost
        };
        list.iter().map(|item| Item { cost: cost(item), ..*item }).collect()
    };
    let lists: Vec<Vec<Item>> = lists.iter().map(by_time).collect();
    let picked = best(&lists, Limits { time: u64::MAX, landings })?;
    Some(lists.iter().zip(picked).map(|(list, at)| list[at].time).sum())
}

/// A list without the items that one before them makes needless, each with its place.
fn undominated(list: &[Item]) -> Vec<(usize, Item)> {
    let mut kept: Vec<(usize, Item)> = Vec::new();
    for (at, item) in list.iter().enumerate() {
        let needless = kept.iter().any(|(_, k)| k.time <= item.time && k.landings <= item.landings);
        if !needless {
            kept.push((at, *item));
        }
    }
    kept
}

/// Of the items chosen so far, or the least of those still to be chosen.
#[derive(Clone, Copy, Default)]
struct Rest {
    cost: Cost,
    time: u64,
    landings: u64,
}

struct Search<'a> {
    lists: &'a [Vec<(usize, Item)>],
    /// By list: the least that it and the lists after it take.
    rest: &'a [Rest],
    limits: Limits,
    picked: Vec<usize>,
    best: Option<(Cost, Vec<usize>)>,
}

impl Search<'_> {
    fn descend(&mut self, so_far: Rest) {
        let at = self.picked.len();
        let Some(list) = self.lists.get(at) else {
            // Equal choices come in order of preference, so that the first of them stays.
            if self.best.as_ref().is_none_or(|(cost, _)| so_far.cost < *cost) {
                self.best = Some((so_far.cost, self.picked.clone()));
            }
            return;
        };
        let rest = self.rest[at + 1];
        for (place, item) in list {
            let now = Rest {
                cost: so_far.cost + item.cost,
                time: so_far.time + item.time,
                landings: so_far.landings + item.landings,
            };
            if self.best.as_ref().is_some_and(|(cost, _)| now.cost + rest.cost >= *cost) {
                return;
            }
            if now.time + rest.time > self.limits.time || now.landings + rest.landings > self.limits.landings
            {
                continue;
            }
            self.picked.push(*place);
            self.descend(now);
            self.picked.pop();
        }
    }
}

impl Add for Cost {
    type Output = Cost;

    fn add(self, other: Cost) -> Cost {
        Cost(std::array::from_fn(|at| self.0[at].saturating_add(other.0[at])))
    }
}

impl Sum for Cost {
    fn sum<I: Iterator<Item = Cost>>(all: I) -> Cost {
        all.fold(Cost::default(), Add::add)
    }
}
