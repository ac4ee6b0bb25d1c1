//! The sheets of a site: printed once, marked in a draft, and led to from their pages.

use std::collections::BTreeMap;
use std::os::unix::fs::MetadataExt;
use std::process::Command;

use super::workspace::{Tree, Workspace, text};

/// Every kept sheet with its bytes and the file that it is.
fn kept(workspace: &Workspace) -> BTreeMap<String, (Vec<u8>, u64, i64)> {
    std::fs::read_dir(workspace.path(".ready-sheets"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "sheet"))
        .map(|path| {
            let found = std::fs::metadata(&path).unwrap();
            let mark = found.mtime() * 1_000_000_000 + found.mtime_nsec();
            let name = path.file_name().unwrap().to_str().unwrap().to_string();
            (name, (std::fs::read(path).unwrap(), found.ino(), mark))
        })
        .collect()
}

fn pdfs(tree: Tree) -> Tree {
    tree.into_iter().filter(|(name, _)| name.ends_with(".pdf")).collect()
}

/// What is kept once it is made: the sheets, and the images of the weeks.
fn made_once(tree: Tree) -> Tree {
    tree.into_iter().filter(|(name, _)| name.ends_with(".pdf") || name.ends_with("-preview.png")).collect()
}

/// Has the site made anew without a change to any sheet.
fn touch(workspace: &Workspace) {
    let page = std::fs::read_to_string(workspace.path("content/pages/about.md")).unwrap();
    workspace.write("content/pages/about.md", format!("{page}\nWe look forward to you.\n"));
}

#[test]
fn an_unchanged_sheet_is_taken_from_the_store_and_a_spoilt_one_is_not() {
    let workspace = Workspace::begun();
    let first = made_once(workspace.make());
    let before = kept(&workspace);
    assert_eq!(before.len(), first.len());
    touch(&workspace);
    assert_eq!(made_once(workspace.make()), first);
    assert_eq!(kept(&workspace), before);

    // One sheet with another letter in it, one cut short, one gone.
    let names: Vec<&String> = before.keys().collect();
    let (altered, cut, gone) = (names[0], names[1], names[2]);
    let path = |name: &String| workspace.path(".ready-sheets").join(name);
    let mut bytes = before[altered].0.clone();
    let last = bytes.len() - 20;
    bytes[last] ^= 1;
    std::fs::write(path(altered), bytes).unwrap();
    std::fs::write(path(cut), &before[cut].0[..1000]).unwrap();
    std::fs::remove_file(path(gone)).unwrap();
    touch(&workspace);
    // What is published lies as it was left, so that nobody looks into the store.
    assert_eq!(made_once(workspace.make()), first);
    assert!(!path(gone).exists());
    // Without a record of the site all sheets are asked for.
    std::fs::remove_file(workspace.path(".ready-sheets/site.record")).unwrap();
    touch(&workspace);
    assert_eq!(made_once(workspace.make()), first);
    for (name, (bytes, file, _)) in kept(&workspace) {
        assert!(bytes == before[&name].0, "{name} is not as it was");
        let anew = [altered, cut, gone].contains(&&name);
        assert!(anew || file == before[&name].1, "{name} was printed anew");
    }
}

#[test]
fn a_changed_word_changes_the_sheets_that_show_it_and_no_other() {
    let workspace = Workspace::begun();
    let first = made_once(workspace.make());
    let before = kept(&workspace);
    let entry = std::fs::read_to_string(workspace.path("content/exercises/heel-drop.md")).unwrap();
    let (head, steps) = entry.split_once("## Set up\n").unwrap();
    workspace.write("content/exercises/heel-drop.md", format!("{head}## Set up\nSmile. {steps}"));
    let second = made_once(workspace.make());
    assert!(first.keys().eq(second.keys()));
    let changed: Vec<&String> = first.keys().filter(|name| first[*name] != second[*name]).collect();
    let uses = |week: &str| {
        let week = format!("content/series/first-steps/{week}.md");
        std::fs::read_to_string(workspace.path(&week)).unwrap().contains("\"heel-drop\"")
    };
    let weeks: Vec<&str> = ["week-01", "week-02"].into_iter().filter(|week| uses(week)).collect();
    assert!(!weeks.is_empty());
    let shows = |name: &&String| {
        let of_week = weeks.iter().any(|week| name.contains(&format!("{week}-")));
        name.ends_with(".pdf") && (name.starts_with("exercises/heel-drop-") || of_week)
    };
    let expected: Vec<&String> = first.keys().filter(shows).collect();
    assert_eq!(changed, expected);
    assert!(expected.len() < first.len());
    let after = kept(&workspace);
    let same = after.iter().filter(|(name, sheet)| before.get(*name) == Some(sheet)).count();
    assert_eq!(same, first.len() - changed.len());
}

/// Each link to a sheet in a page: its address, and its words.
fn links(html: &str) -> Vec<(String, String)> {
    let link = |part: &str| {
        let (address, rest) = part.split_once('"')?;
        let words = rest.split_once("</a>")?.0.split_once('>')?.1;
        address.ends_with(".pdf").then(|| (address.to_string(), words.to_string()))
    };
    html.split("href=\"").skip(1).filter_map(link).collect()
}

#[test]
fn pages_lead_to_their_sheets_and_say_size_paper_and_pages() {
    let workspace = Workspace::begun();
    let ready = workspace.make();
    let mut led_to = Vec::new();
    // The page on what a device keeps and the one to check off days lead to the current sheets once more.
    let own =
        |name: &String| name.ends_with(".html") && !["saved.html", "my-days.html"].contains(&name.as_str());
    for (page, html) in ready.iter().filter(|(name, _)| own(name)) {
        let folder = page.rsplit_once('/').map_or("", |(folder, _)| folder);
        for (address, words) in links(std::str::from_utf8(html).unwrap()) {
            let path = format!("{folder}/{address}");
            let pdf = ready.get(&path).unwrap_or_else(|| panic!("{page} leads to {path}"));
            assert!(path.starts_with(page.trim_end_matches(".html")), "{page} leads to {path}");
            let pages = pdf.windows(11).filter(|bytes| bytes == b"/Type/Page/").count();
            let size = if path.contains("-18-point-") { "18" } else { "24" };
            let paper = if path.ends_with("-a4.pdf") { "A4" } else { "Letter" };
            for told in [size, paper, &format!("{pages} pages")] {
                assert!(words.contains(told), "{page} does not say `{told}` of {path}: {words}");
            }
            led_to.push(path);
        }
    }
    led_to.sort();
    // The first of a page stands on its button too.
    led_to.dedup();
    let sheets: Vec<String> = pdfs(ready).into_keys().collect();
    assert_eq!(led_to, sheets);
}

#[test]
fn a_draft_is_marked_on_every_sheet_and_leaves_out_one_with_a_finding() {
    let workspace = Workspace::begun();
    let first = pdfs(workspace.make());
    let entry = std::fs::read_to_string(workspace.path("content/exercises/tall-sit.md")).unwrap();
    let (head, steps) = entry.split_once("## Set up\n").unwrap();
    let wide = "Standtallforamomentandkeepbreathingwithbothheelsoffthefloor".repeat(2);
    workspace.write("content/exercises/tall-sit.md", format!("{head}## Set up\n{wide}. {steps}"));
    let stopped = workspace.run(&["make"]);
    assert_eq!(stopped.status.code(), Some(1), "{}", text(&stopped));
    assert_eq!(pdfs(workspace.ready()), first);

    let output = workspace.run(&["make", "--draft"]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output));
    assert!(text(&output).contains("sheet-overflow"), "{}", text(&output));
    let ready = workspace.ready();
    let page = std::str::from_utf8(&ready["exercises/tall-sit.html"]).unwrap();
    assert_eq!(links(page), []);
    let draft = pdfs(ready.clone());
    assert!(!draft.is_empty() && draft.keys().all(|name| !name.contains("tall-sit")), "{:?}", draft.keys());
    for (name, pdf) in &draft {
        assert!(*pdf != first[name], "{name} is the same as outside a draft");
    }
    // Words of a PDF are packed; where there is a tool that reads them, each page has to say it.
    let Some((name, pages)) = read(&workspace, draft.keys()) else { return };
    assert!(pages.iter().all(|page| page.contains("Draft")), "{name}: {pages:?}");
}

/// The words of each page of the sheets, if a tool for it is there; stops at the first sheet that does not
/// say on each page that it is a draft.
fn read<'a>(workspace: &Workspace, names: impl Iterator<Item = &'a String>) -> Option<(String, Vec<String>)> {
    let mut last = None;
    for name in names {
        let path = workspace.path("ready").join(name);
        let output = Command::new("pdftotext").arg(path).arg("-").output().ok()?;
        let words = String::from_utf8(output.stdout).unwrap();
        let pages: Vec<String> =
            words.split('\u{c}').filter(|page| !page.trim().is_empty()).map(str::to_string).collect();
        assert!(!pages.is_empty(), "{name} has no words");
        let marked = pages.iter().all(|page| page.contains("Draft"));
        last = Some((name.clone(), pages));
        if !marked {
            break;
        }
    }
    last
}

#[test]
fn a_card_that_is_too_long_and_accepted_is_printed() {
    let workspace = Workspace::begun();
    const ENTRY: &str = "content/exercises/heel-drop.md";
    let step = "Hold the counter and stand tall with your feet as wide as your hips. ".repeat(4);
    workspace.edit(ENTRY, "## Move\n", &format!("## Move\n{}", format!("1. {step}\n").repeat(12)));
    let refused = workspace.run(&["make"]);
    assert_eq!(refused.status.code(), Some(1), "{}", text(&refused));
    assert!(text(&refused).contains("card-overflow"), "{}", text(&refused));

    let row =
        "accept = [{ finding = \"card-overflow\", because = \"She reads it as two sheets.\" }]\nsummary = ";
    workspace.edit(ENTRY, "summary = ", row);
    let made = workspace.run(&["make"]);
    assert_eq!(made.status.code(), Some(0), "{}", text(&made));
    assert!(workspace.ready().contains_key("exercises/heel-drop-18-point-a4.pdf"));
    let out = workspace.path("sheets");
    let printed = workspace.run(&["handout", "--exercise", "heel-drop", "--out", out.to_str().unwrap()]);
    assert_eq!(printed.status.code(), Some(0), "{}", text(&printed));
    assert!(text(&printed).contains("She reads it as two sheets."), "{}", text(&printed));

    // A letter that is not there would be missed.
    workspace.edit(ENTRY, "\"card-overflow\"", "\"glyph-missing\"");
    let refused = workspace.run(&["make"]);
    assert!(text(&refused).contains("expected a finding that can be accepted, found `glyph-missing`"));
}
