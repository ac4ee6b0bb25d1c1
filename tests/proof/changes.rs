//! How the preview follows what is saved.

use std::fs;
use std::process::Command;
use std::thread;
use std::time::Duration;

use crate::preview::Workspace;

const DROP: &str = "content/exercises/heel-drop.md";
const PAGE: &str = "exercises/heel-drop.html";

#[test]
fn a_saved_exercise_reaches_its_open_page_and_the_terminal_says_so_in_a_line() {
    let workspace = Workspace::begun();
    let mut preview = workspace.proof();
    let mut open = preview.open(PAGE);
    assert!(!preview.get("/exercises/heel-drop.html").text().contains("light thunder"));
    workspace.edit(DROP, "light thud", "light thunder");
    open.told();
    assert!(preview.get("/exercises/heel-drop.html").text().contains("light thunder"));
    let line = preview.says();
    let parts: Vec<&str> = line.trim_end().split("  ").collect();
    assert_eq!((parts[0], parts[1]), ("heel-drop.md", "1 page"), "{line}");
    assert!(parts[2].ends_with(" ms"), "{line}");
}

#[test]
fn the_panel_shows_the_findings_of_the_page_and_the_line_of_each() {
    let workspace = Workspace::begun();
    let mut preview = workspace.proof();
    let _open = preview.open(PAGE);
    workspace.edit(DROP, "impact-low", "impact-loud");
    assert!(preview.says().contains("error"));
    let panel = preview.get(&format!("/-/panel/{PAGE}")).text();
    assert!(panel.contains("On this page") && panel.contains("<code>impact-loud</code>"), "{panel}");
    let excerpt = panel.split("data-excerpt=\"").nth(1).unwrap().split('"').next().unwrap();
    let lines = preview.get(excerpt).text();
    assert!(lines.contains("<mark>") && lines.contains("impact-loud"), "{lines}");
}

#[test]
fn a_broken_entry_keeps_the_last_good_page_and_the_panel_says_why() {
    let workspace = Workspace::begun();
    let mut preview = workspace.proof();
    let _open = preview.open(PAGE);
    let whole = fs::read_to_string(workspace.path(DROP)).unwrap();
    let good = preview.get(&format!("/{PAGE}")).text();
    for broken in ["", "no fields at all", "\u{0}", &whole.replace("title = ", "title == ")] {
        workspace.write(DROP, broken);
        assert!(preview.says().contains("error"), "{broken:?}");
        assert_eq!(preview.get(&format!("/{PAGE}")).text(), good, "{broken:?}");
        let panel = preview.get(&format!("/-/panel/{PAGE}")).text();
        assert!(panel.contains("Showing the last good version"), "{broken:?}: {panel}");
        assert!(panel.contains("<code>content/exercises/heel-drop.md</code>, line "), "{broken:?}: {panel}");
    }
    workspace.write(DROP, &whole.replace("light thud", "light thunder"));
    preview.says();
    assert!(preview.get(&format!("/{PAGE}")).text().contains("light thunder"));
    assert!(!preview.get(&format!("/-/panel/{PAGE}")).text().contains("last good version"));
}

#[test]
fn a_mistake_in_a_template_keeps_every_page() {
    let workspace = Workspace::begun();
    let mut preview = workspace.proof();
    let _open = preview.open(PAGE);
    let good = preview.get(&format!("/{PAGE}")).text();
    // The folder is new, and is followed from now on.
    workspace.write("themes/wideleaf/pages/exercise.html", "{{ nothing");
    assert!(preview.says().contains("template"));
    assert_eq!(preview.get(&format!("/{PAGE}")).text(), good);
    fs::remove_file(workspace.path("themes/wideleaf/pages/exercise.html")).unwrap();
    while preview.says().contains("template") {}
    assert!(!preview.get(&format!("/-/panel/{PAGE}")).text().contains("last good version"));
}

#[test]
fn new_and_removed_entries_come_and_go() {
    let workspace = Workspace::begun();
    let mut preview = workspace.proof();
    let about = fs::read_to_string(workspace.path("content/pages/about.md")).unwrap();
    assert_eq!(preview.get("/pages/hours.html").status, 404);
    workspace.write("content/pages/hours.md", &about);
    preview.says();
    assert_eq!(preview.get("/pages/hours.html").status, 200);
    fs::remove_file(workspace.path("content/pages/hours.md")).unwrap();
    preview.says();
    assert_eq!(preview.get("/pages/hours.html").status, 404);
}

#[test]
fn what_nothing_reads_and_what_says_the_same_is_no_change() {
    let workspace = Workspace::begun();
    let mut preview = workspace.proof();
    let same = fs::read_to_string(workspace.path(DROP)).unwrap();
    workspace.write(DROP, &same);
    workspace.write("content/exercises/4913", "");
    workspace.write("content/exercises/heel-drop.md~", "x");
    workspace.write("ready/index.html", "x");
    thread::sleep(Duration::from_millis(300));
    workspace.edit("content/exercises/heel-raise.md", "title = \"", "title = \"A ");
    assert!(preview.says().starts_with("heel-raise.md  "));
}

#[test]
fn an_interrupt_ends_it_in_order() {
    let workspace = Workspace::begun();
    let mut preview = workspace.proof();
    let _open = preview.open(PAGE);
    let id = preview.child.id().to_string();
    assert!(Command::new("kill").args(["-INT", &id]).status().unwrap().success());
    assert_eq!(preview.child.wait().unwrap().code(), Some(0));
    assert!(!workspace.path("ready").exists());
}

/// Every thread of an idle preview sleeps: a program that looks every so often wakes up for it (proc(5),
/// `voluntary_ctxt_switches`).
#[cfg(target_os = "linux")]
#[test]
fn an_idle_preview_does_not_wake_up() {
    let workspace = Workspace::begun();
    let preview = workspace.proof();
    let _open = preview.open(PAGE);
    let wakings = || -> u64 {
        let threads = fs::read_dir(format!("/proc/{}/task", preview.child.id())).unwrap();
        let status = threads.map(|t| fs::read_to_string(t.unwrap().path().join("status")).unwrap());
        status
            .map(|s| {
                let line = s.lines().find(|l| l.starts_with("voluntary_ctxt_switches:")).unwrap();
                line.split_whitespace().nth(1).unwrap().parse::<u64>().unwrap()
            })
            .sum()
    };
    // What the first page set going comes to rest; the panel is there when the first review is done.
    preview.get(&format!("/-/panel/{PAGE}"));
    thread::sleep(Duration::from_secs(2));
    let before = wakings();
    thread::sleep(Duration::from_secs(3));
    assert!(wakings() - before <= 3, "woke up {} times in 3 seconds", wakings() - before);
}

#[test]
fn a_finding_about_words_comes_and_goes_with_them() {
    let workspace = Workspace::begun();
    let mut preview = workspace.proof();
    let about = "content/pages/about.md";
    let whole = fs::read_to_string(workspace.path(about)).unwrap();
    let panel = |preview: &crate::preview::Preview| preview.get("/-/panel/pages/about.html").text();
    for _ in 0..2 {
        assert!(!panel(&preview).contains("long-sentence"));
        workspace.edit(about, "\n```\n", &format!("\n```\nThis is {}long.\n\n", "very ".repeat(40)));
        preview.says();
        assert!(panel(&preview).contains("long-sentence"));
        workspace.write(about, &whole);
        preview.says();
    }
    assert!(!panel(&preview).contains("long-sentence"));
}
