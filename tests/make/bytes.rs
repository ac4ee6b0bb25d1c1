//! The same input gives the same bytes, and what is unchanged is not written.

use std::collections::BTreeSet;
use std::process::Stdio;

use crate::workspace::{Workspace, text};

#[test]
fn two_workspaces_and_any_number_of_threads_give_the_same_bytes() {
    let (one, other) = (Workspace::begun(), Workspace::begun());
    one.grow(20);
    other.grow(20);
    let first = one.make();
    assert!(first.len() > 40);
    let output = other.command(&["make"]).env("RAYON_NUM_THREADS", "1").output().unwrap();
    assert_eq!(output.status.code(), Some(0), "{}", text(&output));
    let second = other.ready();
    assert_eq!(first.keys().collect::<Vec<_>>(), second.keys().collect::<Vec<_>>());
    for (path, bytes) in &first {
        assert!(*bytes == second[path], "{path} differs");
    }
}

#[test]
fn no_page_knows_where_it_was_made() {
    let workspace = Workspace::begun();
    let root = workspace.root().to_str().unwrap().as_bytes().to_vec();
    for (path, bytes) in workspace.make() {
        assert!(!bytes.windows(root.len()).any(|part| part == root), "{path} names the workspace's folder");
    }
}

#[test]
fn nothing_changed_writes_nothing() {
    let workspace = Workspace::begun();
    let (site, marks) = (workspace.make(), workspace.marks());
    for _ in 0..2 {
        assert!(workspace.make() == site);
        assert_eq!(workspace.marks(), marks);
    }
}

#[test]
fn after_a_change_elsewhere_an_unchanged_file_is_the_same_file() {
    let workspace = Workspace::begun();
    let (before, marks) = (workspace.make(), workspace.marks());
    workspace.edit("content/exercises/tall-sit.md", "## Feel\n", "## Feel\nA word more. ");
    let after = workspace.make();
    let now = workspace.marks();
    let mut changed = BTreeSet::new();
    for (path, bytes) in &after {
        if *bytes == before[path] {
            let (inode, written, _) = marks[path];
            assert_eq!((now[path].0, now[path].1), (inode, written), "{path} was written again");
        } else {
            assert_ne!(now[path].0, marks[path].0, "{path} was written in place");
            changed.insert(path.as_str());
        }
    }
    assert!(changed.contains("exercises/tall-sit.html"), "{changed:?}");
    assert!(!changed.contains("exercises/heel-drop.html"), "{changed:?}");
}

#[test]
fn an_exercise_that_is_gone_takes_its_page_with_it() {
    let workspace = Workspace::begun();
    workspace.grow(1);
    assert!(workspace.make().contains_key("exercises/one-of-many-1.html"));
    std::fs::remove_file(workspace.path("content/exercises/one-of-many-1.md")).unwrap();
    assert!(!workspace.make().contains_key("exercises/one-of-many-1.html"));
}

#[test]
fn a_profile_of_a_person_is_in_no_file() {
    let workspace = Workspace::begun();
    let site = workspace.make();
    workspace.write("clients/quillfeather.toml", "name = \"Quillfeather\"\nprecautions = [\"unsteady\"]\n");
    workspace.write("clients/broken.toml", "name = ");
    assert!(workspace.make() == site, "a profile changes the site");
}

#[test]
fn two_runs_at_once_end_well_or_say_that_another_is_at_work() {
    let workspace = Workspace::begun();
    workspace.grow(60);
    let start =
        || workspace.command(&["make"]).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    let runs = [start(), start(), start()];
    let outputs = runs.map(|run| run.wait_with_output().unwrap());
    for output in &outputs {
        let code = output.status.code();
        assert!(code == Some(0) || code == Some(3), "{code:?}: {}", text(output));
    }
    assert!(outputs.iter().any(|output| output.status.code() == Some(0)));
    let site = workspace.ready();
    std::fs::remove_dir_all(workspace.path("ready")).unwrap();
    assert!(workspace.make() == site, "the site of three runs is not that of one");
}
