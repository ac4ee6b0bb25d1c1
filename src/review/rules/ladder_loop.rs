//! `ladder-loop`: progressions and regressions that lead back to where they began.

use std::collections::BTreeSet;

use petgraph::algo::{astar, kosaraju_scc};
use petgraph::graphmap::DiGraphMap;

use crate::model::finding::{Level, Subject};
use crate::model::limits::RUNGS;
use crate::reckon::ladder::{Ladders, Link};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "ladder-loop",
    level: Level::Error,
    safety: false,
    finds: "Progressions and regressions form a loop: an exercise would be harder than itself.",
    why: "A client who goes up the ladder would come back to where she began, and one who looks for an easier\n\
          rung would be sent to a harder one.",
    bad: Example::lines(
        "content/exercises/heel-drop.md",
        &[(
            r#"
[[progression]]
text = "Let go with one hand.""#,
            r#"
[[progression]]
exercise = "heel-raise"
           ^^^^^^^^^^^^ this ladder is a loop: `heel-drop`, `heel-raise`, `heel-drop`"#,
        )],
    ),
    good: Example::lines(
        "content/exercises/heel-drop.md",
        &[(
            r#"
[[progression]]
text = "Let go with one hand.""#,
            r#"
[[progression]]
text = "Let go with one hand, when it feels easy.""#,
        )],
    ),
    check: Check::Ladders(check),
};

fn check(_: &Case<'_>, ladders: &Ladders<'_>, sink: &mut Sink<'_>) {
    let graph = ladders.graph();
    for cycle in loops(graph) {
        let next = cycle.get(1).or(cycle.first()).copied().unwrap_or_default();
        let Some(place) = graph.edge_weight(cycle[0], next).and_then(Link::place) else { continue };
        let names: Vec<String> = cycle.iter().chain(&cycle[..1]).map(|id| format!("`{id}`")).collect();
        sink.about(cycle.iter().map(|id| Subject::Exercise(id.to_string()))).add(
            place,
            format!("this ladder is a loop: {}", names.join(", ")),
            "decide which of them is the easiest, and remove the progression or regression that leads back to it",
        );
    }
}

/// For every link of a loop the shortest loop through it, from its first exercise in the order of the
/// alphabet. (All loops can be exponentially many.) Of loops that join more exercises than a ladder may have rungs, that
/// of the first one alone.
fn loops<'a>(ladders: &DiGraphMap<&'a str, Link>) -> BTreeSet<Vec<&'a str>> {
    let mut found: BTreeSet<Vec<&str>> = BTreeSet::new();
    for mut together in kosaraju_scc(ladders) {
        together.sort_unstable();
        let from = if together.len() > RUNGS { 1 } else { together.len() };
        for &easier in &together[..from] {
            for harder in ladders.neighbors(easier).filter(|to| together.binary_search(to).is_ok()) {
                if let Some((_, way)) = astar(ladders, harder, |at| at == easier, |_| 1, |_| 0) {
                    found.insert(from_first(way));
                }
            }
        }
    }
    found
}

fn from_first(mut cycle: Vec<&str>) -> Vec<&str> {
    let first = cycle.iter().enumerate().min_by_key(|(_, id)| **id).map_or(0, |(at, _)| at);
    cycle.rotate_left(first);
    cycle
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use super::loops;
    use petgraph::graphmap::DiGraphMap;

    use crate::reckon::ladder::Link;
    use crate::review::testing::{edited, found};

    fn of(links: &[(&'static str, &'static str)]) -> Vec<String> {
        let mut ladders = DiGraphMap::new();
        for (easier, harder) in links {
            ladders.add_edge(*easier, *harder, Link { progression: None, regression: None });
        }
        loops(&ladders).iter().map(|cycle| cycle.join(" ")).collect()
    }

    #[test]
    fn every_loop_is_told_once_from_its_first_exercise() {
        assert_eq!(of(&[("a", "b"), ("b", "c"), ("a", "c")]), [""; 0], "two ways up are no loop");
        assert_eq!(of(&[("b", "c"), ("c", "a"), ("a", "b")]), ["a b c"]);
        assert_eq!(of(&[("a", "a")]), ["a"]);
        assert_eq!(of(&[("a", "b"), ("b", "a"), ("c", "d"), ("d", "c")]), ["a b", "c d"]);
        assert_eq!(
            of(&[("a", "b"), ("b", "a"), ("b", "c"), ("c", "b")]),
            ["a b", "b c"],
            "two that share one"
        );
    }

    #[test]
    fn many_loops_through_the_same_exercises_are_found_in_a_moment() {
        let names: Vec<&'static str> = "a b c d e f g h i j k l m n o p".split(' ').collect();
        let all = names.iter().flat_map(|a| names.iter().map(move |b| (*a, *b))).filter(|(a, b)| a != b);
        let found = of(&all.collect::<Vec<_>>());
        assert_eq!(found.len(), 16 * 15 / 2);
        assert_eq!(found[0], "a b");
    }

    #[test]
    fn an_exercise_that_is_both_harder_and_easier_than_another_is_a_loop() {
        let raise = "content/exercises/heel-raise.md";
        let text = edited(
            raise,
            &[("[[progression]]\n", "[[regression]]\nexercise = \"heel-drop\"\n\n[[progression]]\n")],
        );
        let found = found(&[(raise, &text)]);
        assert_eq!(found.len(), 1, "{found:?}");
        assert!(
            found[0].ends_with("this ladder is a loop: `heel-drop`, `heel-raise`, `heel-drop`"),
            "{found:?}"
        );
    }

    #[test]
    fn an_exercise_that_is_harder_than_itself_is_a_loop() {
        let sit = "content/exercises/tall-sit.md";
        let old = "text = \"Sit away from the back of the chair.\"";
        let found = found(&[(sit, &edited(sit, &[(old, "exercise = \"tall-sit\"")]))]);
        assert_eq!(found, ["ladder-loop 27:12 this ladder is a loop: `tall-sit`, `tall-sit`"]);
    }

    #[test]
    fn a_loop_of_three_is_told_once_though_every_file_is_part_of_it() {
        let files: BTreeMap<&str, String> = [
            ("tall-sit", "text = \"Sit away from the back of the chair.\"", "exercise = \"sit-to-stand\""),
            (
                "sit-to-stand",
                "text = \"Cross your arms over your chest.\"",
                "exercise = \"feet-together-stand\"",
            ),
            ("feet-together-stand", "text = \"Hold on with one hand.\"", "exercise = \"tall-sit\""),
        ]
        .map(|(id, old, new)| (id, edited(&format!("content/exercises/{id}.md"), &[(old, new)])))
        .into();
        let names: Vec<(String, &String)> =
            files.iter().map(|(id, text)| (format!("content/exercises/{id}.md"), text)).collect();
        let files: Vec<(&str, &str)> = names.iter().map(|(n, t)| (n.as_str(), t.as_str())).collect();
        let found = found(&files);
        assert_eq!(found.len(), 1, "{found:?}");
        let order = "`feet-together-stand`, `tall-sit`, `sit-to-stand`, `feet-together-stand`";
        assert!(found[0].ends_with(order), "{found:?}");
    }
}
