//! `steadyleaf plan --write` from outside: the week it writes, and when it writes none.
#![expect(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "tests look at the disk themselves, and a test that cannot go on has failed"
)]

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use tempfile::TempDir;

struct Workspace(TempDir);

impl Workspace {
    /// The sample, which starts on a Monday.
    fn begun() -> Workspace {
        let workspace = Workspace(tempfile::tempdir().unwrap());
        let output = workspace.run(&["begin", "."]);
        assert_eq!(output.status.code(), Some(0), "{}", said(&output));
        workspace
    }

    /// The demonstration with its weeks up to this one.
    fn demonstration(last: u32) -> Workspace {
        let workspace = Workspace(tempfile::tempdir().unwrap());
        let root = Path::new(env!("CARGO_MANIFEST_DIR"));
        fs::copy(root.join("site.toml"), workspace.path("site.toml")).unwrap();
        copy(&root.join("content"), &workspace.path("content"));
        for week in last + 1..=12 {
            fs::remove_file(workspace.week(week)).unwrap();
        }
        workspace
    }

    fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    fn week(&self, number: u32) -> PathBuf {
        self.path(&format!("content/series/lantern-hill/week-{number:02}.md"))
    }

    fn run(&self, arguments: &[&str]) -> Output {
        Command::new(env!("CARGO_BIN_EXE_steadyleaf"))
            .args(arguments)
            .args(["--today", "2027-01-04", "--color", "never"])
            .current_dir(self.0.path())
            .output()
            .unwrap()
    }

    fn plan(&self, arguments: &[&str]) -> Output {
        self.run(&[&["plan"], arguments].concat())
    }

    /// Every error and warning of the review, notes aside.
    fn findings(&self) -> BTreeSet<String> {
        let output = self.run(&["review", "--format", "json"]);
        let report: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
        let findings = report["findings"].as_array().unwrap().iter().filter(|f| f["level"] != "note");
        findings.map(|f| format!("{} {} {}", f["file"], f["rule"], f["message"])).collect()
    }
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap().map(Result::unwrap) {
        let to = to.join(entry.file_name());
        match entry.file_type().unwrap().is_dir() {
            true => copy(&entry.path(), &to),
            false => drop(fs::copy(entry.path(), to).unwrap()),
        }
    }
}

fn said(output: &Output) -> String {
    String::from_utf8([output.stdout.as_slice(), output.stderr.as_slice()].concat()).unwrap()
}

/// Fills in the one blank that a written week has.
fn fill(week: &Path) {
    let text = fs::read_to_string(week).unwrap();
    assert_eq!(text.matches("\"\"").count(), 1, "{text}");
    fs::write(week, text.replace("title = \"\"", "title = \"Once more\"")).unwrap();
}

#[test]
fn a_written_week_is_clean_once_its_title_is_filled_in() {
    for last in 2..=12 {
        let workspace = Workspace::demonstration(last);
        let before = workspace.findings();
        let output = workspace.plan(&["--write"]);
        assert_eq!(output.status.code(), Some(0), "{}", said(&output));
        fill(&workspace.week(last + 1));
        let new: Vec<String> = workspace.findings().difference(&before).cloned().collect();
        assert_eq!(new, [""; 0], "after week {last}");
    }
}

#[test]
fn the_week_is_written_with_its_fields_explained_and_is_never_written_over() {
    let workspace = Workspace::demonstration(11);
    let output = workspace.plan(&["--write", "--series", "lantern-hill"]);
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    let told = said(&output).replace(&workspace.0.path().display().to_string(), "DIR");
    let week = fs::read_to_string(workspace.week(12)).unwrap();
    insta::assert_snapshot!(format!("{told}\n{week}"));

    let workspace = Workspace::demonstration(11);
    fs::write(workspace.week(12), "notes").unwrap();
    let output = workspace.plan(&["--write"]);
    assert_eq!(output.status.code(), Some(3), "{}", said(&output));
    assert!(said(&output).contains("is there already and stays as it is"), "{}", said(&output));
    assert_eq!(fs::read_to_string(workspace.week(12)).unwrap(), "notes");
}

#[test]
fn what_is_kept_is_in_the_week_and_what_is_left_out_is_not() {
    let workspace = Workspace::demonstration(12);
    let choice = |arguments: &[&str]| {
        let output = workspace.plan(&[&["--format", "json"], arguments].concat());
        let report: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
        report["series"][0]["proposals"]["choice"]["exercises"].clone()
    };
    let ids = |choice: serde_json::Value| serde_json::from_value::<Vec<String>>(choice).unwrap();
    let plain = ids(choice(&[]));
    assert!(!plain.contains(&"heel-drop".to_string()), "it was in week 12: {plain:?}");
    let kept = ids(choice(&["--keep", "heel-drop", "--leave-out", &plain[0]]));
    assert!(kept.contains(&"heel-drop".to_string()) && !kept.contains(&plain[0]), "{kept:?}");
}

#[test]
fn where_nothing_fits_no_week_is_written_and_it_says_what_would_do() {
    let workspace = Workspace::demonstration(12);
    let output = workspace.plan(&["--write", "--minutes", "5"]);
    assert_eq!(output.status.code(), Some(3));
    let told = said(&output);
    assert!(told.starts_with("steadyleaf: no week was written: every choice takes at least `"), "{told}");
    assert!(!workspace.week(13).exists());
    let least = told.split('`').nth(1).unwrap();
    assert!(told.contains(&format!("allow them with `--minutes {least}`")), "{told}");
    let less = (least.parse::<u32>().unwrap() - 1).to_string();
    assert_eq!(workspace.plan(&["--write", "--minutes", &less]).status.code(), Some(3));
    assert_eq!(workspace.plan(&["--write", "--minutes", least]).status.code(), Some(0));
    assert!(workspace.week(13).exists());

    let sample = Workspace::begun();
    let output = sample.plan(&["--write"]);
    assert_eq!(output.status.code(), Some(3));
    assert_eq!(
        said(&output),
        "steadyleaf: no week was written: there is nothing to propose for `posture`, `balance`, `strength`, \
         `power`; keep one on purpose with `--keep ID`, set `weeks_apart` under [targets], or add one with `steadyleaf add exercise TITLE --component posture`\n"
    );
    let broken = sample.path("content/series/first-steps/week-02.md");
    let text = fs::read_to_string(&broken).unwrap();
    fs::write(&broken, text.replace("id = \"tall-sit\"", "id = \"tall-stand\"")).unwrap();
    let output = sample.plan(&["--write"]);
    assert_eq!(output.status.code(), Some(3));
    assert_eq!(
        said(&output),
        "steadyleaf: no week was written: what came before is not known: week-02.md uses `tall-stand`, which is not there \
         or could not be read whole; run `steadyleaf review` and fix it first\n"
    );
}

#[test]
fn what_it_is_asked_for_must_be_there() {
    let workspace = Workspace::begun();
    for (arguments, expected) in [
        (&["--keep", "heel-dorp"][..], "there is no exercise `heel-dorp`; did you mean `heel-drop`?"),
        (
            &["--leave-out", "yodel"],
            "there is no exercise `yodel`; use the name of its file in content/exercises/ without .md",
        ),
        (
            &["--write", "--series", "first-step"],
            "there is no series `first-step`; did you mean `first-steps`?",
        ),
    ] {
        let output = workspace.plan(arguments);
        assert_eq!(output.status.code(), Some(2), "{}", said(&output));
        assert_eq!(said(&output), format!("steadyleaf: {expected}\n"));
    }
    let added = workspace.run(&["add", "series", "Winter mornings"]);
    assert_eq!(added.status.code(), Some(0), "{}", said(&added));
    let output = workspace.plan(&["--write"]);
    assert_eq!(output.status.code(), Some(2));
    assert_eq!(
        said(&output),
        "steadyleaf: there are several series; say for which one the week is, such as `--series first-steps`\n"
    );
    for arguments in [&["--minutes", "0"][..], &["--write", "--format", "json"]] {
        assert_eq!(workspace.plan(arguments).status.code(), Some(2));
    }
}
