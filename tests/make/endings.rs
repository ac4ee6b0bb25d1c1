//! How a run ends: 0 done, 1 the review found errors, 2 unreadable, 3 unwritable; a broken pipe is success.

use std::fs::{self, File};
use std::process::Stdio;

use crate::workspace::{Workspace, text};

/// A caution, which every exercise must have, that is there no more.
fn break_an_exercise(workspace: &Workspace) {
    let name = "content/exercises/heel-drop.md";
    let before = fs::read_to_string(workspace.path(name)).unwrap();
    let (start, rest) = before.split_once("[[caution]]").unwrap();
    let (_, prose) = rest.split_once("\n```\n").unwrap();
    workspace.write(name, format!("{start}```\n{prose}"));
}

#[test]
fn a_sample_is_made_and_help_is_given() {
    let workspace = Workspace::begun();
    assert!(workspace.make().contains_key("index.html"));
    for argument in ["--help", "--version"] {
        assert_eq!(
            workspace.steadyleaf().arg(argument).output().unwrap().status.code(),
            Some(0),
            "{argument}"
        );
    }
}

#[test]
fn errors_end_with_1_and_leave_ready_byte_for_byte_as_it_was() {
    let workspace = Workspace::begun();
    let (before, marks) = (workspace.make(), workspace.marks());
    break_an_exercise(&workspace);
    let output = workspace.run(&["make"]);
    assert_eq!(output.status.code(), Some(1), "{}", text(&output));
    assert!(text(&output).contains("missing-caution"), "{}", text(&output));
    assert!(workspace.ready() == before, "ready/ has changed");
    assert_eq!(workspace.marks(), marks);
    assert!(!workspace.names().iter().any(|n| n == ".ready-new" || n == ".ready-old"));
}

#[test]
fn errors_in_a_first_run_leave_no_ready_at_all() {
    let workspace = Workspace::begun();
    break_an_exercise(&workspace);
    assert_eq!(workspace.run(&["make"]).status.code(), Some(1));
    assert!(!workspace.path("ready").exists());
}

#[test]
fn a_link_that_leads_nowhere_ends_with_1_too() {
    let workspace = Workspace::begun();
    let before = workspace.make();
    workspace
        .write("content/pages/more.md", "```toml\ntitle = \"More\"\n```\nSee [this](no-such-page.md).\n");
    let output = workspace.run(&["make"]);
    assert_eq!(output.status.code(), Some(1), "{}", text(&output));
    assert!(workspace.ready() == before, "ready/ has changed");
}

#[test]
fn what_cannot_be_read_ends_with_2() {
    let workspace = Workspace::begun();
    let empty = tempfile::tempdir().unwrap();
    let mut elsewhere = workspace.steadyleaf();
    elsewhere.arg("make").arg("--workspace").arg(empty.path());
    let nowhere = workspace.path("no-such-folder");
    let mut missing = workspace.steadyleaf();
    missing.arg("make").arg("--workspace").arg(&nowhere);
    let mut upward = workspace.steadyleaf();
    upward.arg("make").current_dir(empty.path());
    let cases = [
        ("a bad flag", workspace.command(&["make", "--no-such-flag"])),
        ("a bad command", workspace.command(&["no-such-command"])),
        ("a bad date", workspace.command(&["make", "--today", "2026-02-30"])),
        ("no command", workspace.steadyleaf()),
        ("no site.toml", elsewhere),
        ("no folder", missing),
        ("no site.toml upward", upward),
    ];
    for (name, mut command) in cases {
        let output = command.output().unwrap();
        assert_eq!(output.status.code(), Some(2), "{name}: {}", text(&output));
        assert!(!output.stderr.is_empty(), "{name}: says nothing");
        assert!(output.stdout.is_empty(), "{name}: {}", text(&output));
    }
    assert!(!workspace.path("ready").exists());
}

#[test]
fn a_template_with_a_mistake_ends_with_2() {
    let workspace = Workspace::begun();
    let before = workspace.make();
    workspace.write("themes/wideleaf/pages/home.html", "{{ no_such_thing }}");
    let output = workspace.run(&["make"]);
    assert_eq!(output.status.code(), Some(2), "{}", text(&output));
    assert!(workspace.ready() == before, "ready/ has changed");
}

#[test]
fn a_file_where_ready_should_be_ends_with_3() {
    let workspace = Workspace::begun();
    workspace.write("ready", "mine");
    let output = workspace.run(&["make"]);
    assert_eq!(output.status.code(), Some(3), "{}", text(&output));
    assert_eq!(fs::read(workspace.path("ready")).unwrap(), b"mine");
}

#[test]
fn a_ready_of_somebody_else_ends_with_3_and_is_left_alone() {
    let workspace = Workspace::begun();
    workspace.write("ready/letters.txt", "mine");
    let output = workspace.run(&["make"]);
    assert_eq!(output.status.code(), Some(3), "{}", text(&output));
    assert!(text(&output).contains("letters.txt"), "{}", text(&output));
    assert_eq!(workspace.ready(), [("letters.txt".to_string(), b"mine".to_vec())].into());
}

#[test]
fn a_file_of_somebody_else_among_ours_ends_with_3_and_is_left_alone() {
    let workspace = Workspace::begun();
    workspace.make();
    workspace.write("ready/exercises/letters.txt", "mine");
    let before = workspace.ready();
    workspace.edit("site.toml", "title = \"", "title = \"New ");
    let output = workspace.run(&["make"]);
    assert_eq!(output.status.code(), Some(3), "{}", text(&output));
    assert!(workspace.ready() == before, "ready/ has changed");
}

#[test]
fn output_that_is_full_ends_with_3() {
    let workspace = Workspace::begun();
    let full = File::options().write(true).open("/dev/full").unwrap();
    let output = workspace.command(&["make"]).stdout(full).output().unwrap();
    assert_eq!(output.status.code(), Some(3), "{}", text(&output));
}

#[test]
fn output_that_nobody_reads_is_success() {
    let workspace = Workspace::begun();
    break_an_exercise(&workspace);
    for arguments in [&["review"][..], &["review", "--format", "json"], &["make", "--draft"]] {
        let (reader, writer) = std::io::pipe().unwrap();
        drop(reader);
        let output = workspace.command(arguments).stdout(writer).stderr(Stdio::piped()).output().unwrap();
        assert_eq!(output.status.code(), Some(0), "{arguments:?}: {}", text(&output));
        assert!(output.stderr.is_empty(), "{arguments:?}: {}", text(&output));
    }
    let site = workspace.ready();
    assert!(site.contains_key("index.html"), "the draft is whole, though nobody heard of it");
}

#[test]
fn a_draft_goes_on_in_spite_of_errors_and_marks_every_page() {
    let mark = "class=\"draft\"";
    let marked = |bytes: &Vec<u8>| String::from_utf8_lossy(bytes).contains(mark);
    let workspace = Workspace::begun();
    let clean = workspace.make();
    break_an_exercise(&workspace);
    let output = workspace.run(&["make", "--draft"]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output));
    let draft = workspace.ready();
    assert_eq!(draft.keys().collect::<Vec<_>>(), clean.keys().collect::<Vec<_>>());
    let pages = |path: &&String| path.ends_with(".html");
    assert!(draft.keys().filter(pages).count() > 10);
    for path in draft.keys().filter(pages) {
        assert!(marked(&draft[path]), "{path} is not marked as a draft");
        assert!(!marked(&clean[path]), "{path} is no draft");
    }
}
