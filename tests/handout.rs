//! `steadyleaf handout` from outside: how it ends, what it says, and which files it leaves.
#![cfg(unix)]
#![expect(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "tests look at the disk themselves, and a test that cannot go on has failed"
)]

use std::collections::BTreeSet;
use std::fs;
use std::os::unix::fs::PermissionsExt;
use std::path::Path;
use std::process::{Command, Output};

use tempfile::TempDir;

/// The day of the first week of the sample.
const TODAY: &str = "2026-01-12";

const ADA: &str = "name = \"A. Quill\"\nprecautions = [\"spine-fracture\"]\n";

struct Workspace(TempDir);

impl Workspace {
    fn begun() -> Workspace {
        let workspace = Workspace(tempfile::tempdir().unwrap());
        // The sample starts on the next Monday.
        let output = workspace.run_on("2026-01-08", &["begin", "."]);
        assert_eq!(output.status.code(), Some(0), "{}", said(&output));
        workspace
    }

    fn root(&self) -> &Path {
        self.0.path()
    }

    fn write(&self, name: &str, text: &str) {
        let path = self.root().join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }

    fn run_on(&self, today: &str, arguments: &[&str]) -> Output {
        Command::new(env!("CARGO_BIN_EXE_steadyleaf"))
            .args(arguments)
            .args(["--today", today, "--color", "never"])
            .current_dir(self.root())
            .output()
            .unwrap()
    }

    fn handout(&self, arguments: &[&str]) -> Output {
        self.run_on(TODAY, &[&["handout"], arguments].concat())
    }

    /// Every file and folder, by its path in the workspace.
    fn files(&self) -> BTreeSet<String> {
        walkdir::WalkDir::new(self.root())
            .into_iter()
            .map(|entry| {
                entry.unwrap().path().strip_prefix(self.root()).unwrap().to_str().unwrap().to_string()
            })
            .collect()
    }

    /// The sheets anywhere in it.
    fn sheets(&self) -> Vec<String> {
        self.files().into_iter().filter(|name| name.ends_with(".pdf")).collect()
    }

    fn mode(&self, name: &str) -> u32 {
        fs::metadata(self.root().join(name)).unwrap().permissions().mode() & 0o777
    }
}

fn said(output: &Output) -> String {
    String::from_utf8([output.stdout.as_slice(), output.stderr.as_slice()].concat()).unwrap()
}

#[test]
fn a_wrong_argument_is_told_and_nothing_is_written() {
    let workspace = Workspace::begun();
    workspace.write("clients/ada.toml", ADA);
    workspace.write("visitors/ada.toml", ADA);
    fs::create_dir(workspace.root().join("nobody")).unwrap();
    let before = workspace.files();
    for (arguments, code, expected) in [
        (&[][..], 2, "say what to print: --week SERIES/WEEK, --exercise ID, or --for a profile"),
        (
            &["--week", "first-steps"],
            2,
            "expected a series and a week such as first-steps/1, found `first-steps`",
        ),
        (&["--week", "first-step/1"], 2, "there is no series `first-step`; did you mean `first-steps`?"),
        (&["--week", "winter/1"], 2, "there is no series `winter`; this workspace has `first-steps`"),
        (&["--week", "first-steps/9"], 2, "the series `first-steps` has no week `9`; it has 1, 2"),
        (&["--exercise", "heel-dorp"], 2, "there is no exercise `heel-dorp`; did you mean `heel-drop`?"),
        (&["--exercise", "xyz"], 2, "use the name of its file in content/exercises/ without .md"),
        (&["--week", "first-steps/1", "--exercise", "heel-drop"], 2, "cannot be used with"),
        (&["--cue-sheet", "--for", "clients/ada.toml"], 2, "cannot be used with"),
        (&["--week", "first-steps/1", "--page"], 2, "say for whom, such as --for clients/j.toml --page"),
        (&["--cue-sheet", "--page"], 2, "cannot be used with"),
        (&["--for", "clients/ada.toml", "--named"], 2, "--page"),
        (&["--week", "first-steps/1", "--size", "20"], 2, "[possible values: 18, 24, 32]"),
        (&["--week", "first-steps/1", "--paper", "a5"], 2, "[possible values: a4, letter]"),
        (&["--for", "nobody"], 2, "nobody holds no profile: a profile is a file such as j.toml"),
        (&["--for", "clients/ada.toml", "visitors/ada.toml"], 2, "two profiles are called `ada.toml`"),
        (&["--exercise", "heel-drop", "--out", "ready"], 3, "ready"),
        (&["--exercise", "heel-drop", "--out", "content/media"], 3, "content"),
        (&["--for", "clients/ada.toml", "--out", "themes/mine"], 3, "themes"),
        (&["--for", "clients/ada.toml", "--out", "./Ready/../READY/a"], 3, "ready"),
        (&["--exercise", "heel-drop", "--out", "site.toml"], 3, "site.toml"),
    ] {
        let output = workspace.handout(arguments);
        assert_eq!(output.status.code(), Some(code), "{arguments:?}: {}", said(&output));
        let told = String::from_utf8(output.stderr.clone()).unwrap();
        assert!(told.contains(expected), "{arguments:?}: {told}");
        assert!(output.stdout.is_empty() || code != 2, "{arguments:?}: {}", said(&output));
        assert_eq!(workspace.files(), before, "{arguments:?}");
    }
}

#[test]
fn a_sheet_is_named_by_what_it_shows_its_size_and_its_paper() {
    let workspace = Workspace::begun();
    let all = "exercises-32-point-letter.pdf";
    for (arguments, expected) in [
        (&["--week", "first-steps/2"][..], "first-steps-week-02-18-point-a4.pdf"),
        (&["--week", "first-steps/week-02", "--size", "24"], "first-steps-week-02-24-point-a4.pdf"),
        (&["--exercise", "heel-drop", "--paper", "letter"], "heel-drop-18-point-letter.pdf"),
        (&["--exercise", "heel-drop", "tall-sit", "--size", "32", "--paper", "letter"], all),
        (&["--week", "first-steps/1", "--cue-sheet"], "first-steps-week-01-cue-sheet-a4.pdf"),
    ] {
        let output = workspace.handout(&[arguments, &["--out", "sheets"]].concat());
        assert_eq!(output.status.code(), Some(0), "{arguments:?}: {}", said(&output));
        assert_eq!(workspace.sheets(), [format!("sheets/{expected}")], "{arguments:?}");
        let path = workspace.root().join("sheets").join(expected);
        let pdf = fs::read(&path).unwrap();
        assert!(pdf.starts_with(b"%PDF-1.7"), "{arguments:?}");
        let told = said(&output);
        let pages = pdf.windows(11).filter(|bytes| bytes == b"/Type/Page/").count();
        assert!(told.contains(expected) && told.ends_with(&format!("  {pages} pages\n")), "{told}");
        fs::remove_file(path).unwrap();
    }
}

#[test]
fn without_a_week_it_is_that_of_the_day() {
    let workspace = Workspace::begun();
    for (today, expected) in [
        ("2026-01-01", "first-steps-week-01-cue-sheet-a4.pdf"),
        ("2026-01-12", "first-steps-week-01-cue-sheet-a4.pdf"),
        ("2026-01-18", "first-steps-week-01-cue-sheet-a4.pdf"),
        ("2026-01-19", "first-steps-week-02-cue-sheet-a4.pdf"),
        ("2026-12-31", "first-steps-week-02-cue-sheet-a4.pdf"),
    ] {
        let output = workspace.run_on(today, &["handout", "--cue-sheet"]);
        assert_eq!(output.status.code(), Some(0), "{}", said(&output));
        assert_eq!(workspace.sheets(), [expected], "{today}");
        fs::remove_file(workspace.root().join(expected)).unwrap();
    }
}

#[test]
fn one_bad_profile_of_a_folder_stops_no_other() {
    let workspace = Workspace::begun();
    workspace.write("clients/ada.toml", ADA);
    workspace.write("clients/bo.toml", "name = \"Bo\"\nprecautions = [\"spine-fractur\"]\n");
    workspace.write("clients/cy.toml", "name = \"Cy\"\nprecautions = []\nsize = 32\npaper = \"letter\"\n");
    workspace.write("clients/di.toml", "name = \"Di\"\nprecautions = []\nlanguage = \"xx\"\n");
    workspace.write("clients/es.toml", "name = \"Es\"\nprecautions = []\nlanguage = \"es\"\n");
    let output = workspace.handout(&["--for", "clients", "--week", "first-steps/1"]);
    let told = said(&output);
    assert_eq!(output.status.code(), Some(1), "{told}");
    assert_eq!(
        workspace.sheets(),
        [
            "clients/sheets/ada-first-steps-week-01-18-point-a4.pdf",
            "clients/sheets/cy-first-steps-week-01-32-point-letter.pdf",
            "clients/sheets/es-first-steps-week-01-18-point-a4.pdf",
        ]
    );
    let root = workspace.root().canonicalize().unwrap();
    let summary = format!(
        "Printed 3 handouts into {}; 2 profiles could not be used.",
        root.join("clients/sheets").display()
    );
    assert!(told.contains(&summary), "{told}");
    for expected in [
        "did you mean `spine-fracture`?",
        "clients/bo.toml",
        "expected a language that the theme has words for, found `xx`",
        "clients/di.toml",
    ] {
        assert!(told.contains(expected), "`{expected}` is not in:\n{told}");
    }
    let spanish = fs::read(workspace.root().join(&workspace.sheets()[2])).unwrap();
    assert!(String::from_utf8_lossy(&spanish).contains("/Lang(es)"));
    // What was printed before stays when all profiles are bad.
    let before = workspace.files();
    let output = workspace.handout(&["--for", "clients/bo.toml", "--week", "first-steps/1"]);
    assert_eq!(output.status.code(), Some(1), "{}", said(&output));
    assert!(said(&output).contains("Printed 0 handouts into "), "{}", said(&output));
    assert_eq!(workspace.files(), before);
}

#[test]
fn a_profile_that_is_not_there_is_a_finding_and_stops_no_other() {
    let workspace = Workspace::begun();
    workspace.write("clients/ada.toml", ADA);
    let output = workspace.handout(&["--for", "clients/nobody.toml", "clients/ada.toml"]);
    assert_eq!(output.status.code(), Some(1), "{}", said(&output));
    assert!(said(&output).contains("clients/nobody.toml"), "{}", said(&output));
    assert_eq!(workspace.sheets(), ["clients/sheets/ada-first-steps-week-01-18-point-a4.pdf"]);
}

#[test]
fn only_the_owner_can_read_the_sheets_of_people() {
    let workspace = Workspace::begun();
    workspace.write("clients/ada.toml", ADA);
    let sheet = "ada-heel-drop-18-point-a4.pdf";
    for (out, folder) in [(None, "clients/sheets"), (Some("far/away"), "far/away")] {
        let mut arguments = vec!["--for", "clients/ada.toml", "--exercise", "heel-drop"];
        arguments.extend(out.iter().flat_map(|out| ["--out", out]));
        let output = workspace.handout(&arguments);
        assert_eq!(output.status.code(), Some(0), "{}", said(&output));
        assert_eq!(workspace.mode(&format!("{folder}/{sheet}")), 0o600);
        assert_eq!(workspace.mode(folder), 0o700);
    }
    assert_eq!(workspace.mode("far"), 0o700);
    let open = workspace.handout(&["--exercise", "heel-drop", "--out", "open"]);
    assert_eq!(open.status.code(), Some(0), "{}", said(&open));
    assert_ne!(workspace.mode("open/heel-drop-18-point-a4.pdf"), 0o600);
}

#[test]
fn a_persons_page_goes_beside_her_sheet_with_its_name_and_as_private() {
    let workspace = Workspace::begun();
    workspace.write("clients/ada.toml", ADA);
    workspace.write("clients/bo.toml", "name = \"Bo\"\nprecautions = []\n");
    let pages = || -> Vec<String> {
        workspace
            .files()
            .into_iter()
            .filter(|name| name.starts_with("clients/") && name.ends_with(".html"))
            .collect()
    };
    let read = |name: &str| fs::read_to_string(workspace.root().join(name)).unwrap();
    let run = |arguments: &[&str]| {
        let output = workspace.handout(arguments);
        assert_eq!(output.status.code(), Some(0), "{}", said(&output));
        said(&output)
    };
    run(&["--for", "clients/ada.toml", "--exercise", "heel-drop"]);
    assert_eq!(pages(), [""; 0], "nobody asked for a page");
    let told = run(&["--for", "clients", "--week", "first-steps/1", "--page"]);
    let [ada, bo] =
        ["clients/sheets/ada-first-steps-week-01.html", "clients/sheets/bo-first-steps-week-01.html"];
    assert_eq!(pages(), [ada, bo]);
    assert_eq!(workspace.mode(ada), 0o600);
    assert!(told.contains(ada) && told.contains(" KB\n"), "{told}");
    assert!(!read(ada).contains("Quill"), "her name is in it");
    // Her days are kept under the same name on each page of hers, and under another on everybody else's.
    let days = |html: &str| html.split("data-days=\"").nth(1).unwrap()[..16].to_string();
    let hers = days(&read(ada));
    assert_ne!(hers, days(&read(bo)));
    fs::remove_file(workspace.root().join(bo)).unwrap();
    run(&["--for", "clients/ada.toml", "--exercise", "heel-drop", "--page", "--named"]);
    let named = read("clients/sheets/ada-heel-drop.html");
    assert!(named.contains("For A. Quill") && days(&named) == hers);
    fs::remove_file(workspace.root().join("clients/sheets/ada-heel-drop.html")).unwrap();
    fs::remove_file(workspace.root().join(ada)).unwrap();
    let told = run(&["--for", "clients/ada.toml", "--week", "first-steps/1", "--page", "--anonymous"]);
    let [page] = pages().try_into().unwrap();
    let number = page.strip_prefix("clients/sheets/first-steps-week-01-person-").unwrap();
    assert!(number.len() == "012345678901.html".len() && days(&read(&page)) == hers, "{page}");
    assert!(!read(&page).contains(number.trim_end_matches(".html")), "the number of the file is in it");
    assert!(told.contains("A. Quill: "), "{told}");
    let json = run(&["--for", "clients/ada.toml", "--week", "first-steps/1", "--page", "--format", "json"]);
    assert!(json.contains("\"pages\": [\n") && json.contains("ada-first-steps-week-01.html"), "{json}");
}

#[test]
fn nothing_is_printed_when_the_review_has_errors() {
    let workspace = Workspace::begun();
    workspace.write("clients/ada.toml", ADA);
    let path = workspace.root().join("content/exercises/heel-drop.md");
    let text = fs::read_to_string(&path).unwrap();
    assert!(text.contains("component = \"power\""));
    fs::write(&path, text.replace("component = \"power\"", "component = \"powr\"")).unwrap();
    let before = workspace.files();
    for arguments in [&["--week", "first-steps/1"][..], &["--for", "clients"], &["--cue-sheet"]] {
        let output = workspace.handout(arguments);
        let told = said(&output);
        assert_eq!(output.status.code(), Some(1), "{told}");
        assert!(told.contains("powr") && told.contains("Nothing was printed."), "{told}");
        assert_eq!(workspace.files(), before, "{arguments:?}");
    }
}

#[test]
fn quiet_says_nothing_but_what_went_wrong() {
    let workspace = Workspace::begun();
    workspace.write("clients/ada.toml", ADA);
    workspace.write("clients/bo.toml", "name = \"Bo\"\nprecautions = [\"spine-fractur\"]\n");
    let output = workspace.handout(&["--for", "clients/ada.toml", "--quiet"]);
    assert_eq!((output.status.code(), said(&output).as_str()), (Some(0), ""));
    let output = workspace.handout(&["--for", "clients", "--quiet"]);
    let told = said(&output);
    assert_eq!(output.status.code(), Some(1), "{told}");
    assert!(told.contains("spine-fractur") && !told.contains("Printed"), "{told}");
}

#[test]
fn the_educator_is_told_the_days_and_what_a_week_has_no_room_for() {
    let workspace = Workspace::begun();
    workspace
        .write("clients/bo.toml", "name = \"Bo\"\nprecautions = []\ndays = [\"tuesday\", \"saturday\"]\n");
    let output = workspace.handout(&["--for", "clients/bo.toml", "--week", "first-steps/2"]);
    let told = said(&output);
    assert_eq!(output.status.code(), Some(0), "{told}");
    assert!(told.contains("as it stands  Tue Sat  no reason against it"), "{told}");
    let short = "  Tall sit is to be done on 5 days a week, and there is room for 2; the handout asks for 2\n    \
                 this would do: add `\"monday\"` and `\"wednesday\"` and `\"thursday\"` to `days` in clients/bo.toml\n";
    assert!(told.contains(short), "{told}");
    assert!(!told.contains("Sit to stand is to be done"), "{told}");
}

#[test]
fn the_educator_is_told_which_form_was_chosen_and_why() {
    let workspace = Workspace::begun();
    workspace.write("clients/ada.toml", ADA);
    let output = workspace.handout(&["--for", "clients/ada.toml", "--exercise", "heel-drop", "tall-sit"]);
    let told = said(&output);
    assert_eq!(output.status.code(), Some(0), "{told}");
    assert!(told.contains("Exercise") && told.contains("Form chosen") && told.contains("Reason"), "{told}");
    assert!(told.contains("spine-fracture"), "{told}");
    assert_eq!(workspace.sheets(), ["clients/sheets/ada-exercises-18-point-a4.pdf"]);
}

/// A photo is read for the sheets that show it and for no other.
#[test]
fn a_photo_that_cannot_be_shown_stops_the_sheets_that_show_it_alone() {
    let workspace = Workspace::begun();
    let photo = include_bytes!("outside/everything/content/media/counter.png");
    let bytes = |id: &str| {
        let output = workspace.handout(&["--exercise", id]);
        assert_eq!(output.status.code(), Some(0), "{}", said(&output));
        fs::metadata(workspace.root().join(&workspace.sheets()[0])).unwrap().len()
    };
    let without = bytes("tall-sit");
    let media = workspace.root().join("content/media");
    fs::create_dir_all(&media).unwrap();
    fs::write(media.join("good.png"), photo).unwrap();
    fs::write(media.join("broken.png"), "no photo").unwrap();
    for (id, kind, name) in [("tall-sit", "figure", "good"), ("heel-drop", "variation.figure", "broken")] {
        let path = workspace.root().join(format!("content/exercises/{id}.md"));
        let text = fs::read_to_string(&path).unwrap();
        let figure = format!(
            "[[{kind}]]\nfile = \"media/{name}.png\"\ndescription = \"She sits tall on a chair.\"\n\n"
        );
        let before = if kind == "figure" { "[[caution]]" } else { "[[regression]]" };
        fs::write(&path, text.replacen(before, &format!("{figure}{before}"), 1)).unwrap();
    }
    let with = bytes("tall-sit");
    assert!(with > without + 1_000, "the photo is on it: {with}, {without}");
    let broken = workspace.handout(&["--exercise", "heel-drop"]);
    assert_eq!(broken.status.code(), Some(2), "{}", said(&broken));
    assert!(said(&broken).contains("content/media/broken.png cannot be shown"), "{}", said(&broken));
}

#[test]
fn an_anonymous_sheet_is_named_by_a_number_that_stays_and_that_nobody_else_has() {
    let workspace = Workspace::begun();
    let names: Vec<String> = (0..12).map(|n| format!("quill-{n}")).collect();
    for name in &names {
        workspace.write(&format!("clients/{name}.toml"), ADA);
    }
    let arguments = ["--for", "clients", "--exercise", "heel-drop", "--anonymous"];
    let output = workspace.handout(&arguments);
    let told = said(&output);
    assert_eq!(output.status.code(), Some(0), "{told}");
    let sheets = workspace.sheets();
    assert_eq!(sheets.len(), names.len());
    for sheet in &sheets {
        let name = sheet.strip_prefix("clients/sheets/heel-drop-person-").expect(sheet);
        let number = name.strip_suffix("-18-point-a4.pdf").expect(sheet);
        assert!(number.len() == 12 && number.bytes().all(|b| b.is_ascii_hexdigit()), "{sheet}");
        // Whoever prints it has to know whose it is.
        let whose = format!("A. Quill: {}", workspace.root().canonicalize().unwrap().join(sheet).display());
        assert!(told.contains(&whose), "{told}");
    }
    // A sheet after a change of the profile takes the place of the one before, so that no old one is handed out.
    workspace.write("clients/quill-3.toml", &format!("{ADA}minutes = 30\n"));
    assert_eq!(workspace.handout(&arguments).status.code(), Some(0));
    assert_eq!(workspace.sheets(), sheets);
    let output = workspace.handout(&["--exercise", "heel-drop", "--anonymous"]);
    assert_eq!(output.status.code(), Some(2), "{}", said(&output));
}

#[test]
fn the_file_of_a_persons_sheet_has_a_title_without_her_name() {
    let workspace = Workspace::begun();
    workspace.write("clients/ada.toml", ADA);
    let output = workspace.handout(&["--for", "clients/ada.toml", "--week", "first-steps/1"]);
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    let pdf = fs::read(workspace.root().join(&workspace.sheets()[0])).unwrap();
    let text = String::from_utf8_lossy(&pdf);
    assert!(text.contains(": a personal handout)"), "no title of its own");
    assert!(!text.contains("Quill"));
}

#[test]
fn texts_in_another_language_than_the_sheet_are_marked_and_counted() {
    let workspace = Workspace::begun();
    workspace.write("clients/ada.toml", ADA);
    workspace.write("clients/es.toml", &format!("{ADA}language = \"es\"\nnote = \"Despacio.\"\n"));
    let print = |name: &str| {
        let output =
            workspace.handout(&["--for", &format!("clients/{name}.toml"), "--exercise", "heel-drop"]);
        assert_eq!(output.status.code(), Some(0), "{}", said(&output));
        let sheet = format!("clients/sheets/{name}-heel-drop-18-point-a4.pdf");
        let pdf = fs::read(workspace.root().join(sheet)).unwrap();
        let text = String::from_utf8_lossy(&pdf).into_owned();
        let marks = |language: &str| text.matches(&format!("/Lang({language})")).count();
        (said(&output), marks("en"), marks("es"))
    };
    let (told, english, spanish) = print("ada");
    assert!(!told.contains("Not translated") && english > 0 && spanish == 0, "{told}");
    let (told, english, spanish) = print("es");
    let line = told.lines().find(|line| line.contains("Not translated: ")).expect(&told);
    assert!(
        line.ends_with(" texts of it are in `en` as written; only the program's own words are in `es`."),
        "{line}"
    );
    let count: usize = line.split(' ').find_map(|word| word.parse().ok()).expect(line);
    assert!((10..60).contains(&count), "{line}");
    // A list whose items are all in one language has the mark itself.
    assert!(english >= 3 && spanish >= 1, "{english} in English, {spanish} in Spanish");
}

#[test]
fn a_name_that_cannot_be_printed_is_one_finding_at_the_name() {
    let workspace = Workspace::begun();
    let long = "Counterclockwise".repeat(8);
    let many = "Ada ".repeat(200);
    for (name, rule, message) in [
        (long.as_str(), "sheet-overflow", "this is wider than the printed page: `"),
        (many.trim(), "sheet-overflow", "there is no room for this above or below the words of page 1: `"),
        (
            "\u{398}\u{3b5}\u{3ac} \u{39d}.",
            "glyph-missing",
            "the font of the handouts has no `\u{398}` (U+0398), `\u{3b5}` (U+03B5), `\u{3ac}` (U+03AC) and 1 more letters of this text",
        ),
        ("Ada \u{1f33b}", "glyph-missing", "the font of the handouts has no `\u{1f33b}` (U+1F33B)"),
    ] {
        workspace.write("clients/ada.toml", &format!("name = \"{name}\"\nprecautions = []\n"));
        let output = workspace.handout(&["--for", "clients/ada.toml", "--week", "first-steps/1"]);
        let told = said(&output);
        assert_eq!(output.status.code(), Some(1), "{told}");
        assert!(told.contains("\n1 error\n"), "{told}");
        // The report breaks its lines.
        let words = told.replace("\n  \u{2502} ", " ");
        assert!(
            told.contains(rule) && words.contains(message) && told.contains("clients/ada.toml:1:"),
            "{told}"
        );
    }
}
