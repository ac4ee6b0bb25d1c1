//! The exact search for one item of each list: the least cost within a time and a number of landings.
//!
//! Costs are compared figure by figure. From the last list to the first, every item is put before every choice of
//! the lists after it. A choice is dropped when it cannot fit, or when another of the same lists is better and takes no
//! longer and has no more landings: whatever comes before it could come before the other. So few are carried on,
//! at most one for each time and number of landings that differ.

use std::iter::Sum;
use std::ops::Add;

/// Figures that are to be as small as possible, the weightiest first.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Cost(pub(super) [i64; 8]);

/// Something that can be chosen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
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
/// those that stand earliest, the first list weighing most. `None` when nothing fits.
pub(super) fn best(lists: &[Vec<Item>], limits: Limits) -> Option<Vec<usize>> {
    let fits = |item: &Item| item.time <= limits.time && item.landings <= limits.landings;
    let mut choices = vec![Choice { whole: Item::default(), places: Vec::new() }];
    for list in lists.iter().rev() {
        let alone = list.iter().enumerate().map(|(at, item)| Choice { whole: *item, places: vec![at] });
        let alone = undominated(alone.collect());
        let pairs = alone.iter().flat_map(|first| choices.iter().map(|rest| first.before(rest)));
        choices = undominated(pairs.filter(|choice| fits(&choice.whole)).collect());
    }
    choices.into_iter().next().map(|choice| choice.places)
}

/// The least time of a choice within so many landings.
pub(super) fn shortest(lists: &[Vec<Item>], landings: u64) -> Option<u64> {
    let by_time = |item: &Item| {
        let mut cost = Cost::default();
        cost.0[0] = i64::try_from(item.time).unwrap_or(i64::MAX);
        Item { cost, ..*item }
    };
    let lists: Vec<Vec<Item>> = lists.iter().map(|list| list.iter().map(by_time).collect()).collect();
    let picked = best(&lists, Limits { time: u64::MAX, landings })?;
    Some(lists.iter().zip(picked).map(|(list, at)| list[at].time).sum())
}

/// An item of each of some lists.
struct Choice {
    /// All of them together.
    whole: Item,
    places: Vec<usize>,
}

impl Choice {
    /// Both together, this one's lists standing before the other's.
    fn before(&self, rest: &Choice) -> Choice {
        let whole = Item {
            cost: self.whole.cost + rest.whole.cost,
            time: self.whole.time.saturating_add(rest.whole.time),
            landings: self.whole.landings.saturating_add(rest.whole.landings),
        };
        Choice { whole, places: [self.places.as_slice(), rest.places.as_slice()].concat() }
    }
}

/// The choices that no better one makes needless, the best first.
fn undominated(mut choices: Vec<Choice>) -> Vec<Choice> {
    choices.sort_by(|a, b| (a.whole.cost, &a.places).cmp(&(b.whole.cost, &b.places)));
    let mut kept: Vec<Choice> = Vec::new();
    for choice in choices {
        let needless = |better: &Choice| {
            better.whole.time <= choice.whole.time && better.whole.landings <= choice.whole.landings
        };
        if !kept.iter().any(needless) {
            kept.push(choice);
        }
    }
    kept
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
