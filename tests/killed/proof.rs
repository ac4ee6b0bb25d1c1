//! A preview killed in the round after a save: it writes nothing, so nothing but the save has changed.

use std::thread::sleep;
use std::time::Instant;

use crate::case::paths;
use crate::draw::Draw;
use crate::preview::{Preview, Workspace};
use crate::workspace::tree;

const KILLS: u32 = 24;
const DROP: &str = "content/exercises/heel-drop.md";
const PAGE: &str = "exercises/heel-drop.html";
const WORDS: [&str; 2] = ["light thud", "light thunder"];

#[test]
fn a_preview_killed_after_a_save_changes_nothing_and_the_next_one_answers() {
    let workspace = Workspace::begun();
    let mut preview = workspace.proof();
    let page = preview.open(PAGE);
    let start = Instant::now();
    workspace.edit(DROP, WORDS[0], WORDS[1]);
    preview.says();
    let mut span = start.elapsed();
    drop((page, preview));

    let mut draw = Draw::seeded("proof");
    let (mut during, mut after) = (0, 0);
    let mut saved = WORDS[1];
    for round in 0..KILLS {
        let mut preview = workspace.proof();
        let _page = preview.open(PAGE);
        assert!(shown(&preview).contains(saved), "round {round}");
        let next = WORDS[round as usize % 2];
        workspace.edit(DROP, saved, next);
        saved = next;
        let (before, names) = (tree(workspace.beside()), paths(workspace.beside()));
        let part = (f64::from(round) + draw.below(1000) as f64 / 1000.0) / f64::from(KILLS);
        sleep(span.mul_f64(part));
        assert!(preview.child.try_wait().unwrap().is_none(), "round {round}: it must die by our hand");
        preview.child.kill().unwrap();
        preview.child.wait().unwrap();
        // The line on the terminal ends what a save brings; as many kills come before it as after it.
        if preview.says().is_empty() {
            during += 1;
            span = span.mul_f64(1.05);
        } else {
            after += 1;
            span = span.mul_f64(0.95);
        }
        assert_eq!(paths(workspace.beside()), names, "round {round}");
        assert!(tree(workspace.beside()) == before, "round {round}: a file has changed");
    }
    println!("proof: {KILLS} kills, {during} in the round of a save, {after} after it");
    assert!(during >= 3, "too few kills in the round of a save: {during} and {after} after it");
    assert!(shown(&workspace.proof()).contains(saved));
}

fn shown(preview: &Preview) -> String {
    let answer = preview.get(&format!("/{PAGE}"));
    assert_eq!(answer.status, 200);
    answer.text()
}
