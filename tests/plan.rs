//! `steadyleaf plan` from outside: what it says, and how it ends.
#![expect(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "tests look at the disk themselves, and a test that cannot go on has failed"
)]

use std::fs;
use std::process::{Command, Output};

use tempfile::TempDir;

/// The day of the first week of the sample.
const TODAY: &str = "2026-01-12";

struct Workspace(TempDir);

impl Workspace {
    fn begun() -> Workspace {
        let workspace = Workspace(tempfile::tempdir().unwrap());
        // The sample starts on the next Monday.
        let output = workspace.run_on("2026-01-08", &["begin", "."]);
        assert_eq!(output.status.code(), Some(0), "{}", said(&output));
        workspace
    }

    /// Replaces words of a file; they must be there.
    fn edit(&self, name: &str, old: &str, new: &str) {
        let path = self.0.path().join(name);
        let before = fs::read_to_string(&path).unwrap();
        assert!(before.contains(old), "{name} does not say `{old}`");
        fs::write(path, before.replace(old, new)).unwrap();
    }

    fn run_on(&self, today: &str, arguments: &[&str]) -> Output {
        Command::new(env!("CARGO_BIN_EXE_steadyleaf"))
            .args(arguments)
            .args(["--today", today])
            .env("COLUMNS", "100")
            .current_dir(self.0.path())
            .output()
            .unwrap()
    }

    fn plan(&self, arguments: &[&str]) -> Output {
        self.run_on(TODAY, &[&["plan"], arguments].concat())
    }

    fn json(&self, arguments: &[&str]) -> serde_json::Value {
        let output = self.plan(&[&["--format", "json"], arguments].concat());
        assert_eq!(output.status.code(), Some(0), "{}", said(&output));
        serde_json::from_slice(&output.stdout).unwrap()
    }
}

fn said(output: &Output) -> String {
    String::from_utf8([output.stdout.as_slice(), output.stderr.as_slice()].concat()).unwrap()
}

#[test]
fn the_sample_is_shown_at_a_glance() {
    let workspace = Workspace::begun();
    let output = workspace.plan(&[]);
    assert_eq!(output.status.code(), Some(0));
    insta::assert_snapshot!(said(&output));
}

#[test]
fn programs_read_the_same_as_json() {
    let workspace = Workspace::begun();
    let output = workspace.plan(&["--format", "json"]);
    assert_eq!(output.status.code(), Some(0));
    insta::assert_snapshot!(said(&output));
}

#[test]
fn every_line_fits_the_terminal_and_only_color_brings_escapes() {
    let workspace = Workspace::begun();
    for columns in [40, 64, 80, 100, 160] {
        let output = Command::new(env!("CARGO_BIN_EXE_steadyleaf"))
            .args(["plan", "--workspace", env!("CARGO_MANIFEST_DIR"), "--today", TODAY])
            .env("COLUMNS", columns.to_string())
            .output()
            .unwrap();
        let text = said(&output);
        for line in text.lines() {
            assert!(line.chars().count() <= columns, "{columns}: {line}");
            assert_eq!(line, line.trim_end());
        }
        assert!(!text.contains('\u{1b}'));
    }
    assert!(said(&workspace.plan(&["--color", "always"])).contains('\u{1b}'));
}

#[test]
fn a_series_that_is_not_there_is_told_with_what_was_meant() {
    let workspace = Workspace::begun();
    let output = workspace.plan(&["--series", "first-step"]);
    assert_eq!(output.status.code(), Some(2));
    assert_eq!(said(&output), "steadyleaf: there is no series `first-step`; did you mean `first-steps`?\n");
}

#[test]
fn errors_do_not_stop_it_and_what_could_not_be_read_is_left_open() {
    let workspace = Workspace::begun();
    workspace.edit("content/exercises/feet-together-stand.md", "days = \"5-7\"", "days = \"often\"");
    let output = workspace.plan(&[]);
    assert_eq!(output.status.code(), Some(0));
    let text = said(&output);
    assert!(text.starts_with("There is 1 error in this workspace"), "{text}");
    assert!(text.contains("not known: `feet-together-stand` could not be read"), "{text}");
    let report = workspace.json(&[]);
    assert_eq!(report["errors"], 1);
    let week = &report["series"][0]["weeks"][0];
    assert_eq!(week["session_minutes"], serde_json::Value::Null);
    assert_eq!(week["unknown"], "`feet-together-stand` could not be read");
}

#[test]
fn each_of_several_series_has_its_own_figures() {
    let workspace = Workspace::begun();
    let added = workspace.run_on(TODAY, &["add", "series", "Winter mornings"]);
    assert_eq!(added.status.code(), Some(0), "{}", said(&added));
    let ids = |report: serde_json::Value| {
        let series = report["series"].as_array().unwrap().clone();
        series.into_iter().map(|s| s["id"].as_str().unwrap().to_string()).collect::<Vec<_>>()
    };
    assert_eq!(ids(workspace.json(&[])), ["first-steps", "winter-mornings"]);
    assert_eq!(ids(workspace.json(&["--series", "winter-mornings"])), ["winter-mornings"]);
    let text = said(&workspace.plan(&[]));
    assert!(text.contains("It has no week yet"), "{text}");
    assert!(text.contains("First Steps (first-steps): 2 weeks"), "{text}");
}
