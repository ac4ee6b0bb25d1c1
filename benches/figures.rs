//! How long 5,000 drawn figures of the demonstration take on one thread, from their poses to their SVG, beside writing as many
//! bytes of bare path data in the same run.
//!
//! `cargo bench --bench figures` prints seconds and the ratio; the ratio is what to compare, the machine is noisy.
#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "a benchmark may stop at the first surprise"
)]

mod measure;

use std::fmt::Write;
use std::hint::black_box;

use measure::corpus::demonstration;
use measure::opened::Opened;
use measure::{Took, is_small};
use steadyleaf::drawing::{Colors, Motion, Panels, Picture, Size, Words, svg};
use steadyleaf::model::figure::Drawing;
use steadyleaf::reckon::figure::Scene;

const ROWS: [&str; 5] = [
    "bodies and things in space",
    "shapes",
    "SVG without the movement",
    "shapes and SVG with the movement",
    "as many bytes of bare path data as without it",
];

fn main() {
    let (figures, rounds) = if is_small() { (100, 1) } else { (5_000, 3) };
    let opened = Opened::read(demonstration());
    let drawings =
        opened.edition.model().exercises.values().flat_map(|e| e.all_figures()).filter_map(|f| f.drawing());
    let drawings: Vec<&Drawing> = drawings.collect();
    let all: Vec<&Drawing> = drawings.iter().copied().cycle().take(figures).collect();
    let mut least = [Took::FOREVER; 5];
    let (mut still, mut moving) = (0, 0);
    for _ in 0..rounds {
        let mut note = |row: usize, took: Took| least[row] = least[row].least(took);
        let written = |pictures: &[Picture]| -> usize {
            pictures.iter().map(|p| black_box(svg(p, Colors::Theme, None)).len()).sum()
        };
        let (took, scenes) = Took::by(|| all.iter().map(|d| Scene::of(d)).collect::<Vec<_>>());
        note(0, took);
        let (took, pictures) = Took::by(|| scenes.iter().map(Picture::of).collect::<Vec<_>>());
        note(1, took);
        let (took, bytes) = Took::by(|| written(&pictures));
        note(2, took);
        still = bytes;
        let moved = |scene: &Scene<'_>| -> usize {
            let panels = Panels::of(&Picture::of(scene), Size::Large);
            let words = Words { id: "", title: "", description: "" };
            black_box(panels.with(words, Motion::of(scene).as_ref())).iter().map(String::len).sum()
        };
        let (took, bytes) = Took::by(|| scenes.iter().map(moved).sum::<usize>());
        note(3, took);
        moving = bytes;
        note(4, Took::by(|| black_box(bare(still))).0);
    }
    println!(
        "{figures} figures on one thread, {} of them different, best of {rounds} round(s), seconds by the clock (by the processor):",
        drawings.len()
    );
    for (name, took) in ROWS.iter().zip(least) {
        println!("{name:<50} {:.2} ({:.2})", took.clock, took.processor);
    }
    let whole = least[0] + least[1] + least[2];
    println!(
        "drawn and written, without the movement: {:.2} s ({:.2}), {:.1} of the bare data; {:.1} and {:.1} MB",
        whole.clock,
        whole.processor,
        whole.of(least[4])[0],
        still as f64 / 1e6,
        moving as f64 / 1e6,
    );
}

/// As many bytes of numbers in path data, by the standard library's writer alone.
fn bare(bytes: usize) -> String {
    let mut out = String::new();
    let mut at = 0_i64;
    while out.len() < bytes {
        at = (at * 31 + 7) % 1000;
        let _ = write!(out, "L{} {}", at, 1000 - at);
    }
    out
}
