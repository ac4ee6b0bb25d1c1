//! `steadyleaf approve` from outside: what it writes into an entry, what it leaves alone, and when it writes nothing.
#![expect(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "tests look at the disk themselves, and a test that cannot go on has failed"
)]

use std::fs;
use std::path::PathBuf;
use std::process::{Command, Output};

use tempfile::TempDir;

/// The day on which the sample is begun, and its exercises were reviewed.
const BEGUN: &str = "2026-03-04";
/// The day of the approvals.
const TODAY: &str = "2026-03-20";
const OLD: &str = "reviewed = { by = \"A. Reviewer, PT\", on = 2026-03-04 }\n";

struct Workspace(TempDir);

impl Workspace {
    fn begun() -> Workspace {
        let workspace = Workspace(tempfile::tempdir().unwrap());
        let output = workspace.run_on(BEGUN, &["begin", "."]);
        assert_eq!(output.status.code(), Some(0), "{}", said(&output));
        workspace
    }

    fn run_on(&self, today: &str, arguments: &[&str]) -> Output {
        Command::new(env!("CARGO_BIN_EXE_steadyleaf"))
            .args(arguments)
            .args(["--today", today, "--color", "never"])
            .env("COLUMNS", "100")
            .current_dir(self.0.path())
            .output()
            .unwrap()
    }

    fn run(&self, arguments: &[&str]) -> Output {
        self.run_on(TODAY, arguments)
    }

    fn approve(&self, ids: &[&str]) -> Output {
        self.run(&[&["approve"], ids, &["--by", "B. Second, DPT"]].concat())
    }

    fn path(&self, id: &str) -> PathBuf {
        self.0.path().join(format!("content/exercises/{id}.md"))
    }

    fn text(&self, id: &str) -> String {
        fs::read_to_string(self.path(id)).unwrap()
    }

    fn write(&self, id: &str, text: &str) {
        fs::write(self.path(id), text).unwrap();
    }

    /// Replaces words of an exercise, which must be there once.
    fn edit(&self, id: &str, old: &str, new: &str) {
        let text = self.text(id);
        assert_eq!(text.matches(old).count(), 1, "times that this stands in {id}: {old}");
        self.write(id, &text.replace(old, new));
    }

    /// The names beside an exercise.
    fn names(&self) -> Vec<String> {
        let folder = self.0.path().join("content/exercises");
        let mut names: Vec<String> =
            fs::read_dir(folder).unwrap().map(|e| e.unwrap().file_name().into_string().unwrap()).collect();
        names.sort();
        names
    }
}

fn said(output: &Output) -> String {
    String::from_utf8([output.stdout.as_slice(), output.stderr.as_slice()].concat()).unwrap()
}

/// The fingerprint in what was said of one exercise.
fn fingerprint(output: &Output) -> String {
    let text = said(output);
    let fingerprint = text.trim_end().rsplit(' ').next().unwrap();
    assert_eq!(fingerprint.len(), 16, "{text}");
    assert!(fingerprint.bytes().all(|b| b.is_ascii_digit() || (b'a'..=b'f').contains(&b)), "{text}");
    fingerprint.to_string()
}

fn line(of: &str) -> String {
    format!("reviewed = {{ by = \"B. Second, DPT\", on = 2026-03-20, of = \"{of}\" }}\n")
}

#[test]
fn it_writes_who_when_and_what_and_nothing_else_changes() {
    let workspace = Workspace::begun();
    let before = workspace.text("tall-sit");
    assert!(before.contains("\n# Who must take care"), "an entry with comments:\n{before}");
    let output = workspace.approve(&["tall-sit"]);
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    let of = fingerprint(&output);
    assert_eq!(
        said(&output),
        format!(
            "content/exercises/tall-sit.md: approved by B. Second, DPT on 2026-03-20, fingerprint {of}\n"
        )
    );
    assert_eq!(workspace.text("tall-sit"), before.replace(OLD, &line(&of)));
    assert_eq!(said(&workspace.run(&["review"])), "no problems found\n");
    // The same again changes nothing, and says the same.
    let after = workspace.text("tall-sit");
    assert_eq!(fingerprint(&workspace.approve(&["tall-sit", "tall-sit"])), of);
    assert_eq!(workspace.text("tall-sit"), after);
    assert!(workspace.names().iter().all(|name| !name.starts_with('.')), "{:?}", workspace.names());
}

#[test]
fn line_ends_a_byte_order_mark_and_a_table_are_kept_and_the_fingerprint_is_the_same() {
    let of = {
        let workspace = Workspace::begun();
        fingerprint(&workspace.approve(&["tall-sit"]))
    };
    let table = "# Hers.\n[reviewed] # once\nby = \"A. Reviewer, PT\" # PT\non = 2026-03-04\n";
    let table_after =
        format!("# Hers.\n[reviewed] # once\nby = \"B. Second, DPT\" # PT\non = 2026-03-20\nof = \"{of}\"\n");
    let plain = |text: &str| text.to_string();
    let windows = |text: &str| text.replace('\n', "\r\n");
    let marked = |text: &str| format!("\u{feff}{}", text.replace('\n', "\r\n"));
    for shape in [&plain as &dyn Fn(&str) -> String, &windows, &marked] {
        let workspace = Workspace::begun();
        let text = workspace.text("tall-sit");
        let as_table = text.replace(OLD, "").replace("[[regression]]", &format!("{table}\n[[regression]]"));
        for (before, after) in [
            (text.clone(), text.replace(OLD, &line(&of))),
            (
                text.replace(OLD, ""),
                text.replace(OLD, "").replace("and rest.\"\n", &format!("and rest.\"\n{}", line(&of))),
            ),
            (as_table.clone(), as_table.replace(table, &table_after)),
        ] {
            assert_ne!(before, after);
            workspace.write("tall-sit", &shape(&before));
            let output = workspace.approve(&["tall-sit"]);
            assert_eq!(output.status.code(), Some(0), "{}", said(&output));
            assert_eq!(fingerprint(&output), of);
            assert_eq!(workspace.text("tall-sit"), shape(&after));
        }
    }
}

#[test]
fn what_changes_later_is_told_until_it_is_approved_again() {
    let workspace = Workspace::begun();
    let first = fingerprint(&workspace.approve(&["tall-sit"]));
    workspace.edit("tall-sit", "title = \"Tall sit\"", "title = \"Sit tall\" # a better name");
    assert_eq!(said(&workspace.run(&["review"])), "no problems found\n", "the title does not count");
    workspace.edit("tall-sit", "Do not arch your back.", "Do not arch your lower back.");
    let output = workspace.run(&["review"]);
    assert_eq!(output.status.code(), Some(0), "a warning: {}", said(&output));
    assert!(said(&output).contains("changed-since-review"), "{}", said(&output));
    assert!(said(&output).contains("steadyleaf approve tall-sit --by NAME"), "{}", said(&output));
    let made = workspace.run(&["make"]);
    assert_eq!(made.status.code(), Some(0), "{}", said(&made));
    let page = fs::read_to_string(workspace.0.path().join("ready/exercises/tall-sit.html")).unwrap();
    assert!(page.contains("Changed since it was checked.") && !page.contains("B. Second, DPT"), "{page}");
    let again = workspace.approve(&["tall-sit"]);
    assert_ne!(fingerprint(&again), first);
    assert_eq!(said(&workspace.run(&["review"])), "no problems found\n");
}

#[test]
fn an_unknown_id_is_told_with_what_was_meant_and_nothing_is_written() {
    let workspace = Workspace::begun();
    let before = workspace.text("heel-raise");
    let output = workspace.approve(&["heel-raise", "tal-sit"]);
    assert_eq!(output.status.code(), Some(2));
    assert_eq!(said(&output), "steadyleaf: there is no exercise `tal-sit`; did you mean `tall-sit`?\n");
    assert_eq!(workspace.text("heel-raise"), before);
}

#[test]
fn an_exercise_with_errors_or_that_cannot_be_read_is_not_approved_nor_is_any_beside_it() {
    for (old, new, code, words) in [
        ("level = \"adapt\"", "level = \"adopt\"", 1, "wrong-value"),
        ("reps = 5", "reps = 5\nreps = 6", 1, "unreadable-entry"),
        ("```toml\n", "", 2, "`tall-sit` could not be read; run `steadyleaf review` and fix it first"),
    ] {
        let workspace = Workspace::begun();
        workspace.edit("tall-sit", old, new);
        let before = [workspace.text("tall-sit"), workspace.text("heel-raise")];
        let output = workspace.approve(&["heel-raise", "tall-sit"]);
        assert_eq!(output.status.code(), Some(code), "{}", said(&output));
        assert!(said(&output).contains(words), "{}", said(&output));
        assert_eq!([workspace.text("tall-sit"), workspace.text("heel-raise")], before);
    }
    // A warning does not stand in the way, nor does an error elsewhere.
    let workspace = Workspace::begun();
    workspace.edit("tall-sit", "level = \"adapt\"", "level = \"adopt\"");
    let output = workspace.approve(&["heel-raise"]);
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
}

#[test]
fn a_review_that_is_overdue_or_cannot_be_read_is_mended_even_where_it_is_an_error() {
    let workspace = Workspace::begun();
    let site = workspace.0.path().join("site.toml");
    let text = fs::read_to_string(&site).unwrap();
    fs::write(&site, text + "\n[rules]\nreview-overdue = \"error\"\n").unwrap();
    for old in ["reviewed = { by = \"A. Reviewer, PT\", on = 2024-01-05 }\n", "reviewed = \"yes\"\n", ""] {
        let text = workspace.text("tall-sit");
        let at = text.find("reviewed = ").map(|at| at..at + text[at..].find('\n').unwrap() + 1);
        let mut text = text.clone();
        if let Some(at) = at {
            text.replace_range(at, old);
        }
        workspace.write("tall-sit", &text);
        assert_eq!(workspace.run(&["review"]).status.code(), Some(1), "{old}");
        let output = workspace.approve(&["tall-sit"]);
        assert_eq!(output.status.code(), Some(0), "{old}: {}", said(&output));
        assert_eq!(workspace.run(&["review"]).status.code(), Some(0), "{old}");
    }
}

#[test]
fn somebody_has_to_answer_for_it() {
    let workspace = Workspace::begun();
    let before = workspace.text("tall-sit");
    for arguments in
        [&["approve", "tall-sit"][..], &["approve", "tall-sit", "--by", " "], &["approve", "--by", "B"]]
    {
        let output = workspace.run(arguments);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}: {}", said(&output));
    }
    assert_eq!(workspace.text("tall-sit"), before);
}

#[cfg(unix)]
#[test]
fn a_link_is_neither_followed_nor_replaced_and_permissions_are_kept() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let workspace = Workspace::begun();
    let path = workspace.path("tall-sit");
    fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).unwrap();
    assert_eq!(workspace.approve(&["tall-sit"]).status.code(), Some(0));
    assert_eq!(fs::metadata(&path).unwrap().permissions().mode() & 0o7777, 0o640);

    let elsewhere = workspace.0.path().join("elsewhere.md");
    fs::rename(&path, &elsewhere).unwrap();
    symlink(&elsewhere, &path).unwrap();
    let before = [fs::read_to_string(&elsewhere).unwrap(), workspace.text("heel-raise")];
    let output = workspace.run(&["approve", "heel-raise", "tall-sit", "--by", "C. Third, PT"]);
    assert_eq!(output.status.code(), Some(3), "{}", said(&output));
    assert!(said(&output).contains("a link is there"), "{}", said(&output));
    assert_eq!([fs::read_to_string(&elsewhere).unwrap(), workspace.text("heel-raise")], before);
}

#[test]
fn an_accepted_safety_finding_stands_on_the_plan_with_who_and_how_long_ago() {
    let workspace = Workspace::begun();
    let caution = "[[caution]]\nfor = [\"spine-fracture\"]\nlevel = \"adapt\"\n\
                   text = \"Grow tall gently. Do not arch your back.\"\n";
    workspace.edit("tall-sit", caution, "");
    let accept = "demands = []\naccept = [{ finding = \"missing-caution\", because = \"Seated.\", by = \"A. Reviewer, PT\", on = 2025-10-31 }]\n";
    workspace.edit("tall-sit", "demands = []\n", accept);
    assert!(
        said(&workspace.run(&["review"]))
            .ends_with("no problems found, 1 exception accepted (1 to a safety rule)\n")
    );
    for arguments in [&["plan"][..], &["plan", "--series", "first-steps"]] {
        let text = said(&workspace.run(arguments));
        assert!(text.contains("missing-caution: `Tall sit` has no caution"), "{text}");
        assert!(text.contains("accepted by A. Reviewer, PT on 2025-10-31, 20 weeks ago: Seated."), "{text}");
    }
    let json = workspace.run(&["plan", "--format", "json"]);
    let report: serde_json::Value = serde_json::from_slice(&json.stdout).unwrap();
    assert_eq!(
        report["accepted"],
        serde_json::json!([{
            "rule": "missing-caution",
            "file": "content/exercises/tall-sit.md",
            "line": 10,
            "message": "`Tall sit` has no caution",
            "by": "A. Reviewer, PT",
            "on": "2025-10-31",
            "days": 140,
            "because": "Seated.",
        }])
    );
    // In a series of its own it is no matter of.
    assert_eq!(workspace.run(&["add", "series", "Winter mornings"]).status.code(), Some(0));
    let text = said(&workspace.run(&["plan", "--series", "winter-mornings"]));
    assert!(!text.contains("Accepted safety findings"), "{text}");
}
