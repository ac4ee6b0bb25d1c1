//! What stands beside the output folder stays out of a repository.

use super::*;
use crate::publish::places::Places;
use crate::workspace::sample;

#[test]
fn a_new_workspace_and_this_one_ignore_what_is_made_and_what_is_private() {
    let own = include_str!("../../../.gitignore");
    for ignored in [own, sample::text(".gitignore").unwrap()] {
        let lines: Vec<_> = ignored.lines().map(|line| line.trim_end_matches('/')).collect();
        for line in ["/ready", "/.ready-*", "/clients", "/.steadyleaf"] {
            assert!(lines.contains(&line), "{line} in {lines:?}");
        }
    }
}

#[test]
fn every_name_beside_the_output_folder_begins_as_the_ignored_ones_do() {
    let root = Path::new("workspace");
    let Places { root: _, ready, new, old, sheets, lock } = Places::of(root);
    assert_eq!(ready, root.join("ready"));
    for place in [new, old, sheets, lock] {
        assert_eq!(place.parent(), Some(root));
        let name = place.file_name().unwrap().to_str().unwrap();
        assert!(name.starts_with(".ready-"), "{name}");
    }
}
