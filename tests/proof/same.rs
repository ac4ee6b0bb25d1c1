//! What the preview serves is what `make` writes.

use std::fs;

use crate::preview::{TODAY, Workspace, steadyleaf};

#[test]
fn every_file_of_the_site_is_served_as_make_writes_it() {
    let workspace = Workspace::begun();
    workspace.edit(
        "site.toml",
        "sizes = [18, 24]\npapers = [\"a4\", \"letter\"]",
        "sizes = [18]\npapers = [\"a4\"]",
    );
    let output =
        steadyleaf().args(["make", "--today", TODAY, "--workspace"]).arg(workspace.root()).output().unwrap();
    assert_eq!(output.status.code(), Some(0), "{output:?}");
    let preview = workspace.proof();
    let ready = workspace.path("ready");
    let mut compared = 0;
    for entry in
        walkdir::WalkDir::new(&ready).into_iter().map(Result::unwrap).filter(|e| e.file_type().is_file())
    {
        let path = entry.path().strip_prefix(&ready).unwrap().to_str().unwrap();
        // The record of `make` itself, and the program that keeps the site on a device, which a preview must not be.
        if ["steadyleaf-made.json", "worker.js"].contains(&path) {
            continue;
        }
        let answer = preview.get(&format!("/{path}"));
        assert_eq!(answer.status, 200, "{path}");
        let made = fs::read(entry.path()).unwrap();
        if path.ends_with(".html") {
            let made = without_keeping(&without_page_counts(&String::from_utf8(made).unwrap()));
            assert_eq!(undressed(&answer.text()), made, "{path}");
        } else {
            assert!(answer.body == made, "{path} differs");
        }
        compared += 1;
    }
    assert!(compared > 30, "{compared} files");
}

/// A page without what the preview adds to it.
fn undressed(page: &str) -> String {
    let page = page.replacen("; connect-src 'self'", "", 1);
    // A letter has no policy and is served as it is. Every other page's names the preview's own script first.
    let Some((start, rest)) = page.split_once("script-src ") else { return page };
    let (_, others) = rest.split_once(' ').unwrap();
    let page = format!("{start}script-src {others}");
    let page = without_script(&page, "<script id=\"proof.script\"", "</script>\n");
    // Only a preview leads to the plan, which is the educator's.
    let is_added = |line: &&str| line.contains("data-proof") || line.contains("plan.html\"");
    page.split_inclusive('\n').filter(|line| !is_added(line)).collect()
}

/// Nor does the preview have the script that lets a device keep the site.
fn without_keeping(page: &str) -> String {
    without_script(page, "<script data-name=\"saved\"", "</script>")
}

/// A page without the script that begins and ends so, if there is one.
fn without_script(page: &str, start: &str, end: &str) -> String {
    let Some((before, rest)) = page.split_once(start) else { return page.to_string() };
    let (_, after) = rest.split_once(end).unwrap();
    format!("{before}{after}")
}

/// A link to a sheet that is not printed yet does not say how many pages it has.
fn without_page_counts(page: &str) -> String {
    let counted =
        [", 1 page (PDF)".to_string()].into_iter().chain((2..50).map(|n| format!(", {n} pages (PDF)")));
    counted.fold(page.to_string(), |page, counted| page.replace(&counted, " (PDF)"))
}
