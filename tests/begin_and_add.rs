//! What `begin` and `add` write passes the review: the sample as it is, an added entry once its
//! marked blanks are filled.
#![expect(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "a test reads and writes its own folder, and has failed when it cannot go on"
)]

use std::fs;
use std::path::Path;
use std::process::{Command, Output};

fn steadyleaf(root: &Path, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_steadyleaf"))
        .args(arguments)
        .args(["--today", "2026-03-04", "--color", "never"])
        .current_dir(root)
        .output()
        .unwrap()
}

fn printed(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
}

fn begun() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let output = steadyleaf(folder.path(), &["begin", "mine"]);
    assert!(output.status.success(), "{}", printed(&output));
    folder
}

/// Replaces each text once, in order, and insists that it stands there.
fn fill(path: &Path, blanks: &[(&str, &str)]) {
    let mut text = fs::read_to_string(path).unwrap();
    for (blank, filled) in blanks {
        assert!(text.contains(blank), "`{blank}` is not in:\n{text}");
        text = text.replacen(blank, filled, 1);
    }
    fs::write(path, text).unwrap();
}

fn review_is_content(root: &Path) {
    let output = steadyleaf(root, &["review"]);
    assert_eq!(printed(&output), "no problems found\n");
    assert_eq!(output.status.code(), Some(0));
}

#[test]
fn a_new_workspace_has_nothing_to_mend_and_starts_on_the_next_monday() {
    let folder = begun();
    let root = folder.path().join("mine");
    review_is_content(&root);
    let series = fs::read_to_string(root.join("content/series/first-steps/series.toml")).unwrap();
    assert!(series.contains("2026-03-09"), "2026-03-04 is a Wednesday:\n{series}");
    let made = steadyleaf(&root, &["make"]);
    assert!(made.status.success(), "{}", printed(&made));
    assert!(root.join("ready/index.html").exists());
}

#[test]
fn begin_leaves_a_folder_with_files_alone() {
    let folder = begun();
    let site = folder.path().join("mine/site.toml");
    fs::write(&site, "mine").unwrap();
    let again = steadyleaf(folder.path(), &["begin", "mine"]);
    assert_eq!(again.status.code(), Some(3), "{}", printed(&again));
    assert_eq!(fs::read_to_string(site).unwrap(), "mine");
}

/// The names in a folder, sorted.
fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).unwrap();
    let mut names: Vec<String> = entries.map(|e| e.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    names
}

#[cfg(unix)]
#[test]
fn what_a_killed_run_left_is_gone_after_the_next_one() {
    let folder = tempfile::tempdir().unwrap();
    for parent in ["", "empty"] {
        let half = folder.path().join(parent).join(".begun-a1B2c3/content/exercises");
        fs::create_dir_all(&half).unwrap();
        fs::write(half.join("heel-drop.md"), "half").unwrap();
    }
    for target in ["mine", "empty"] {
        let output = steadyleaf(folder.path(), &["begin", target]);
        assert!(output.status.success(), "{}", printed(&output));
        review_is_content(&folder.path().join(target));
    }
    assert_eq!(names(folder.path()), ["empty", "mine"]);
    let root = folder.path().join("mine");
    let exercises = root.join("content/exercises");
    let before = names(&exercises);
    fs::write(exercises.join(".begun-a1B2c3"), "half").unwrap();
    let added = steadyleaf(&root, &["add", "exercise", "Toe taps", "--component", "balance"]);
    assert!(added.status.success(), "{}", printed(&added));
    let mut after = names(&exercises);
    after.retain(|name| name != "toe-taps.md");
    assert_eq!(after, before);
}

#[test]
fn an_added_exercise_passes_once_its_blanks_are_filled() {
    let folder = begun();
    let root = folder.path().join("mine");
    let added = steadyleaf(&root, &["add", "exercise", "Pas de côté", "--component", "balance"]);
    assert!(added.status.success(), "{}", printed(&added));
    let path = root.join("content/exercises/pas-de-cote.md");
    let blank = steadyleaf(&root, &["review"]);
    assert_eq!(blank.status.code(), Some(1), "blanks must not pass:\n{}", printed(&blank));
    fill(
        &path,
        &[
            ("position = \"\"", "position = \"standing\""),
            ("support = []", "support = [\"counter\"]"),
            ("demands = [\"\"]", "demands = []"),
            ("summary = \"\"", "summary = \"Step to the side and back.\""),
            (
                "# reviewed = { by = \"Name, PT\", on = 2026-01-31 }",
                "reviewed = { by = \"A. Reviewer, PT\", on = 2026-03-01 }",
            ),
            ("reps = \"\"", "reps = 8"),
            ("days = \"\"", "days = \"5-7\""),
            ("title = \"\"", "title = \"Seated\""),
            ("text = \"\"", "text = \"Sit tall and step one foot out.\""),
            ("steps = [\"\", \"\"]", "steps = [\"Sit tall.\", \"Step one foot out and back.\"]"),
            ("text = \"\"", "text = \"Make the step smaller.\""),
            ("text = \"\"", "text = \"Stop if you feel dizzy.\""),
            ("description = \"\"", "description = \"She stands at the counter and steps to the side.\""),
            ("# view = \"side\"", "view = \"front\""),
            ("props = []", "props = [\"counter\"]"),
            ("base = \"\"\n", "base = \"standing\"\nhold = \"counter\"\n"),
            ("base = \"\"\n", "base = \"standing\"\nhold = \"counter\"\nstance = \"wide\"\n"),
            ("<!-- Where to stand or sit, what to hold, where the feet are. -->", "Face the counter."),
            (
                "<!-- Three to six numbered steps, one action each: \"1. Rise on your toes.\" -->",
                "1. Step out.\n2. Bring your foot in.",
            ),
        ],
    );
    review_is_content(&root);
    let before = fs::read(&path).unwrap();
    let again = steadyleaf(&root, &["add", "exercise", "pas de cote", "--component", "power"]);
    assert_eq!(again.status.code(), Some(3), "{}", printed(&again));
    assert_eq!(fs::read(&path).unwrap(), before, "an entry must not be overwritten");
}

#[test]
fn a_title_stays_as_it_was_typed() {
    let folder = begun();
    let root = folder.path().join("mine");
    for (title, file) in [("MOVE your hips", "move-your-hips"), ("COMPONENT TITLE", "component-title")] {
        let added = steadyleaf(&root, &["add", "exercise", title, "--component", "power"]);
        assert!(added.status.success(), "{}", printed(&added));
        let text = fs::read_to_string(root.join(format!("content/exercises/{file}.md"))).unwrap();
        assert!(text.contains(&format!("\ntitle = \"{title}\"\n")), "{text}");
        assert!(text.contains("\ncomponent = \"power\"\n") && text.contains("\n## Move\n"), "{text}");
    }
    let added = steadyleaf(&root, &["add", "series", "START here"]);
    assert!(added.status.success(), "{}", printed(&added));
    let text = fs::read_to_string(root.join("content/series/start-here/series.toml")).unwrap();
    assert!(text.contains("title = \"START here\"\n") && !text.contains("start = START"), "{text}");
}

#[test]
fn with_a_position_the_figure_is_sketched_and_only_its_description_is_blank() {
    let folder = begun();
    let root = folder.path().join("mine");
    for (position, title) in [("standing", "Calf lift"), ("side-lying", "Top leg lift"), ("lying", "Hips up")]
    {
        let add = ["add", "exercise", title, "--component", "strength", "--position", position];
        let added = steadyleaf(&root, &add);
        assert!(added.status.success(), "{}", printed(&added));
        let path = root.join(format!("content/exercises/{}.md", title.to_lowercase().replace(' ', "-")));
        let text = fs::read_to_string(path).unwrap();
        assert!(text.contains(&format!("\nposition = \"{position}\"\n")), "{text}");
        assert_eq!(text.matches(&format!("\nbase = \"{position}\"\n")).count(), 2, "{text}");
    }
    let wrong = steadyleaf(&root, &["add", "exercise", "X", "--component", "power", "--position", "sitting"]);
    assert_eq!(wrong.status.code(), Some(2));
    assert!(printed(&wrong).contains("`seated`"), "{}", printed(&wrong));
}

#[test]
fn an_added_week_and_series_pass_once_their_blanks_are_filled() {
    let folder = begun();
    let root = folder.path().join("mine");
    for arguments in [&["add", "series", "Winter mornings"][..], &["add", "week", "--series", "first-steps"]]
    {
        let added = steadyleaf(&root, arguments);
        assert!(added.status.success(), "{}", printed(&added));
    }
    fill(
        &root.join("content/series/winter-mornings/series.toml"),
        &[
            ("summary = \"\"", "summary = \"Twelve mornings.\""),
            ("audience = \"\"", "audience = \"Early risers.\""),
            ("serves = [\"\"]", "serves = [\"low-bone-density\"]"),
        ],
    );
    // Week 3, a week after the sample's second; its exercises are those of the first.
    fill(
        &root.join("content/series/first-steps/week-03.md"),
        &[
            ("title = \"\"", "title = \"Once more\""),
            ("{ id = \"\" }, # posture", "{ id = \"tall-sit\", dose = { reps = 9 } },"),
            ("{ id = \"\" }, # balance", "{ id = \"feet-together-stand\", dose = { reps = 9 } },"),
            ("{ id = \"\" }, # strength", "{ id = \"sit-to-stand\", dose = { reps = 9 } },"),
            ("{ id = \"\" }, # power", "{ id = \"heel-drop\", dose = { reps = 9 } },"),
        ],
    );
    review_is_content(&root);
    let week = fs::read_to_string(root.join("content/series/first-steps/week-03.md")).unwrap();
    assert!(week.contains("week = 3") && week.contains("date = 2026-03-23"), "{week}");
}

#[test]
fn a_wrong_component_or_series_says_what_was_expected() {
    let folder = begun();
    let root = folder.path().join("mine");
    let component = steadyleaf(&root, &["add", "exercise", "X", "--component", "balanse"]);
    assert_eq!(component.status.code(), Some(2));
    assert!(printed(&component).contains("did you mean `balance`?"), "{}", printed(&component));
    let series = steadyleaf(&root, &["add", "week", "--series", "first-step"]);
    assert_eq!(series.status.code(), Some(2));
    assert!(printed(&series).contains("did you mean `first-steps`?"), "{}", printed(&series));
}
