//! The README and DEVELOPERS say what the program really has: every rule with its level, every
//! dependency, every demand and precaution.

use steadyleaf::model::catalogue::{Catalogue, DEMANDS};
use steadyleaf::review::rules;

const README: &str = include_str!("../README.md");
const DEVELOPERS: &str = include_str!("../DEVELOPERS.md");

#[test]
fn the_readme_lists_every_rule_with_its_level() {
    for rule in rules::ALL {
        let safety = if rule.safety { ", safety" } else { "" };
        let row = format!("| `{}` | {}{safety} |", rule.name, rule.level.word());
        assert!(README.contains(&row), "README.md lacks the row {row}");
    }
    let rows = README
        .lines()
        .filter(|l| ["| error", "| warning", "| note |"].iter().any(|level| l.contains(level)))
        .count();
    assert_eq!(rows, rules::ALL.len(), "README.md lists a rule that is not there");
}

#[test]
fn the_readme_names_every_demand_and_precaution() {
    let precautions = Catalogue::built_in().precautions;
    for id in DEMANDS.iter().copied().chain(precautions.keys().map(String::as_str)) {
        assert!(README.contains(&format!("`{id}`")), "README.md does not name `{id}`");
    }
}

#[test]
fn developers_says_of_every_dependency_why_it_is_here() {
    let manifest: toml::Table = include_str!("../Cargo.toml").parse().expect("Cargo.toml");
    for kind in ["dependencies", "dev-dependencies"] {
        for name in manifest[kind].as_table().expect("a table").keys() {
            let named = DEVELOPERS.lines().any(|line| {
                let first = line.strip_prefix("| ").and_then(|l| l.split(" |").next());
                first.is_some_and(|cell| cell.split([',', ' ']).any(|word| word == name))
            });
            assert!(named, "DEVELOPERS.md says nothing of `{name}`");
        }
    }
}
