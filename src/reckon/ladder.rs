//! Ladders: exercises linked by progressions and regressions, easiest first.

use std::collections::{BTreeMap, BTreeSet};

use petgraph::Direction;
use petgraph::algo::kosaraju_scc;
use petgraph::graphmap::DiGraphMap;

use crate::model::Model;
use crate::model::limits::RUNGS;
use crate::model::reads::{Read, note};
use crate::model::source::Span;

/// The links of all exercises, and the ladders they make.
pub struct Ladders<'m> {
    /// From each exercise to every harder one.
    graph: DiGraphMap<&'m str, Link>,
    ladders: Vec<Ladder<'m>>,
    /// The ladder and the rung of each exercise that stands on one.
    places: BTreeMap<&'m str, RungPosition>,
}

/// A link between two exercises, and where the author wrote it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Link {
    /// The progression of the easier exercise that says so.
    pub progression: Option<Span>,
    /// The regression of the harder exercise that says so.
    pub regression: Option<Span>,
}

/// Exercises that progressions and regressions join, by rung.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ladder<'m> {
    /// The easiest rung first; the exercises of a rung in order of their ids. No rung is empty.
    pub rungs: Vec<Vec<&'m str>>,
}

/// Where an exercise stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct RungPosition {
    ladder: usize,
    /// From 0.
    rung: usize,
}

impl<'m> Ladders<'m> {
    /// The ladders of a workspace. Links to exercises that do not exist are left out.
    pub fn of(model: &'m Model) -> Ladders<'m> {
        let mut graph: DiGraphMap<&str, Link> = DiGraphMap::new();
        let find = |id: &str| model.exercises.get_key_value(id).map(|(id, _)| id.as_str());
        for exercise in model.exercises.values() {
            let id = exercise.id.as_str();
            for harder in exercise.progressions.iter().filter_map(|p| p.exercise()) {
                if let Some(to) = find(&harder.value) {
                    link(&mut graph, id, to).progression.get_or_insert(harder.span);
                }
            }
            for easier in exercise.regressions.iter().filter_map(|r| r.exercise()) {
                if let Some(from) = find(&easier.value) {
                    link(&mut graph, from, id).regression.get_or_insert(easier.span);
                }
            }
        }
        Ladders::from_graph(graph)
    }

    fn from_graph(graph: DiGraphMap<&'m str, Link>) -> Ladders<'m> {
        let rungs = rungs(&graph);
        let mut ladders: Vec<Ladder<'m>> = Vec::new();
        let mut places = BTreeMap::new();
        for members in joined(&graph) {
            // The rungs of a ladder begin with the first, whatever is above it elsewhere.
            let mut ladder = Ladder { rungs: Vec::new() };
            for id in members {
                let rung = rungs[id];
                if ladder.rungs.len() <= rung {
                    ladder.rungs.resize(rung + 1, Vec::new());
                }
                ladder.rungs[rung].push(id);
                places.insert(id, RungPosition { ladder: ladders.len(), rung });
            }
            ladders.push(ladder);
        }
        Ladders { graph, ladders, places }
    }

    /// Every ladder, in order of the first id on it.
    pub fn all(&self) -> &[Ladder<'m>] {
        note(|| Read::Ladders);
        &self.ladders
    }

    /// The ladder that an exercise stands on; `None` for one that nothing leads to or from.
    pub fn ladder_of(&self, id: &str) -> Option<&Ladder<'m>> {
        note(|| Read::Ladder(id.to_string()));
        self.ladders.get(self.places.get(id)?.ladder)
    }

    /// The number of the rung that an exercise stands on, the first being 1.
    pub fn rung_of(&self, id: &str) -> Option<usize> {
        note(|| Read::Ladder(id.to_string()));
        self.places.get(id).map(|standing| standing.rung + 1)
    }

    /// The exercises one rung down, in order of their ids.
    pub fn easier(&self, id: &str) -> Vec<&'m str> {
        self.neighbors(id, Direction::Incoming)
    }

    /// The exercises one rung up, in order of their ids.
    pub fn harder(&self, id: &str) -> Vec<&'m str> {
        self.neighbors(id, Direction::Outgoing)
    }

    fn neighbors(&self, id: &str, direction: Direction) -> Vec<&'m str> {
        note(|| Read::Ladder(id.to_string()));
        let Some((&id, _)) = self.places.get_key_value(id) else { return Vec::new() };
        let mut list: Vec<&str> = self.graph.neighbors_directed(id, direction).collect();
        list.sort_unstable();
        list
    }

    /// The links that lead from one rung to a higher one; those of a loop, which the review reports, do not.
    pub fn steps(&self) -> Vec<(&'m str, &'m str, Link)> {
        let rises = |easier: &str, harder: &str| self.rung_of(easier) < self.rung_of(harder);
        self.links().into_iter().filter(|(easier, harder, _)| rises(easier, harder)).collect()
    }

    /// Every link, from the easier to the harder exercise, in order of the easier one's id.
    pub fn links(&self) -> Vec<(&'m str, &'m str, Link)> {
        note(|| Read::Ladders);
        let mut links: Vec<_> = self.graph.all_edges().map(|(from, to, link)| (from, to, *link)).collect();
        links.sort_unstable_by_key(|(from, to, _)| (*from, *to));
        links
    }

    /// The links as a graph, from each exercise to every harder one.
    pub fn graph(&self) -> &DiGraphMap<&'m str, Link> {
        note(|| Read::Ladders);
        &self.graph
    }

    /// Every exercise on a lower rung from which progressions lead to this one, down to as many rungs as a ladder may have.
    pub fn below(&self, id: &str) -> Vec<&'m str> {
        let mut below: BTreeSet<&str> = BTreeSet::new();
        let mut open = self.easier(id);
        while let Some(next) = open.pop() {
            // A loop, which the review reports, ends here, and so does what is too long to be one.
            let is_near = self.rung_of(next).map(|rung| rung + RUNGS) >= self.rung_of(id);
            if next != id && is_near && below.insert(next) {
                open.extend(self.easier(next));
            }
        }
        let rung = self.rung_of(id);
        below.into_iter().filter(|easier| self.rung_of(easier) < rung).collect()
    }
}

impl Link {
    /// Where it is written: at the progression, or else at the regression.
    pub fn place(&self) -> Option<Span> {
        self.progression.or(self.regression)
    }
}

fn link<'g, 'm>(graph: &'g mut DiGraphMap<&'m str, Link>, from: &'m str, to: &'m str) -> &'g mut Link {
    if !graph.contains_edge(from, to) {
        graph.add_edge(from, to, Link { progression: None, regression: None });
    }
    graph.edge_weight_mut(from, to).expect("the link was added above")
}

/// The rung of every exercise, from 0: one above the highest from which a link leads to it. The exercises
/// of a loop, which the review reports, share a rung.
fn rungs<'m>(graph: &DiGraphMap<&'m str, Link>) -> BTreeMap<&'m str, usize> {
    let mut rungs: BTreeMap<&str, usize> = BTreeMap::new();
    // Kosaraju's algorithm, which needs no stack for a long ladder, yields what others lead to before what leads to it.
    for together in kosaraju_scc(graph).into_iter().rev() {
        let below = together.iter().flat_map(|id| graph.neighbors_directed(id, Direction::Incoming));
        let below = below.filter(|id| !together.contains(id)).filter_map(|id| rungs.get(id));
        let rung = below.max().map_or(0, |rung| rung + 1);
        rungs.extend(together.into_iter().map(|id| (id, rung)));
    }
    rungs
}

/// Exercises that are joined by links in either direction, each group and the groups in order of ids.
fn joined<'m>(graph: &DiGraphMap<&'m str, Link>) -> Vec<Vec<&'m str>> {
    let mut ids: Vec<&str> = graph.nodes().collect();
    ids.sort_unstable();
    let mut seen: BTreeSet<&str> = BTreeSet::new();
    let mut groups: Vec<Vec<&str>> = Vec::new();
    for id in ids {
        if !seen.insert(id) {
            continue;
        }
        let mut group = vec![id];
        let mut at = 0;
        while let Some(&next) = group.get(at) {
            at += 1;
            for direction in [Direction::Incoming, Direction::Outgoing] {
                group.extend(graph.neighbors_directed(next, direction).filter(|id| seen.insert(id)));
            }
        }
        group.sort_unstable();
        groups.push(group);
    }
    groups
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ladders(links: &[(&'static str, &'static str)]) -> Ladders<'static> {
        let mut graph = DiGraphMap::new();
        for (from, to) in links {
            link(&mut graph, from, to);
        }
        Ladders::from_graph(graph)
    }

    fn drawn(ladders: &Ladders<'_>) -> Vec<String> {
        let rung = |rung: &Vec<&str>| rung.join("+");
        ladders.all().iter().map(|l| l.rungs.iter().map(rung).collect::<Vec<_>>().join(" < ")).collect()
    }

    #[test]
    fn a_rung_is_one_above_the_highest_that_leads_to_it() {
        let joining = ladders(&[("a", "b"), ("b", "d"), ("c", "d"), ("d", "e"), ("x", "y")]);
        assert_eq!(drawn(&joining), ["a+c < b < d < e", "x < y"]);
        assert_eq!(joining.rung_of("e"), Some(4));
        assert_eq!(joining.rung_of("z"), None);
        assert_eq!(joining.easier("d"), ["b", "c"]);
        assert_eq!(joining.harder("d"), ["e"]);
        assert_eq!(joining.below("e"), ["a", "b", "c", "d"]);
    }

    #[test]
    fn a_loop_shares_a_rung_and_ends_every_walk() {
        let looped = ladders(&[("a", "b"), ("b", "c"), ("c", "b"), ("c", "d"), ("e", "e")]);
        assert_eq!(drawn(&looped), ["a < b+c < d", "e"]);
        assert_eq!(looped.below("b"), ["a"]);
    }

    #[test]
    fn the_order_in_which_links_are_written_changes_nothing() {
        let one = ladders(&[("a", "b"), ("c", "b"), ("b", "d")]);
        let other = ladders(&[("b", "d"), ("c", "b"), ("a", "b")]);
        assert_eq!(drawn(&one), drawn(&other));
        assert_eq!(one.links(), other.links());
    }
}
