//! How long 5,000 drawn figures take on one thread, from their poses to their SVG, beside writing as many bytes of bare path
//! data in the same run.
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
use std::time::Instant;

use measure::processor_time;
use steadyleaf::drawing::{Colours, Picture, svg};
use steadyleaf::entry;
use steadyleaf::model::figure::Drawing;
use steadyleaf::model::words::Words;
use steadyleaf::reckon::figure::Scene;
use steadyleaf::workspace::theme::Theme;
use steadyleaf::workspace::{Bytes, Texts, sample};

const FIGURES: usize = 5_000;
const ROUNDS: usize = 3;

/// Figures of one to three poses in every position, with and without things.
const POSES: [&str; 6] = [
    "props = [\"counter\"]\narrows = [\"hips\"]\n[[figure.pose]]\nbase = \"standing\"\nhold = \"counter\"\n[[figure.pose]]\nbase = \"standing\"\nhold = \"counter\"\nknee.flexion = 45\nhip.flexion = 50\n",
    "props = [\"chair\"]\n[[figure.pose]]\nbase = \"seated\"\n[[figure.pose]]\nbase = \"seated\"\nhip.flexion = 110\n[[figure.pose]]\nbase = \"standing\"\n",
    "props = [\"bed\"]\n[[figure.pose]]\nbase = \"lying\"\nfeet = \"flat\"\n[[figure.pose]]\nbase = \"lying\"\nfeet = \"flat\"\nhips_raised = 12\n",
    "view = \"front\"\nprops = [\"rail\"]\n[[figure.pose]]\nbase = \"standing\"\nleft_foot = \"lifted\"\nleft_hip.abduction = 20\n",
    "layout = \"over\"\nprops = [{ thing = \"wall\", distance = 55 }]\n[[figure.pose]]\nbase = \"standing\"\nhold = \"wall\"\n[[figure.pose]]\nbase = \"standing\"\nhold = \"wall\"\nankle.dorsiflexion = 12\n",
    "labels = [{ at = \"hips\", text = \"Level\" }]\n[[figure.pose]]\nbase = \"hands-and-knees\"\n",
];

fn main() {
    let drawings = drawings();
    let all: Vec<&Drawing> = drawings.iter().cycle().take(FIGURES).collect();
    let (mut clock, mut work) = ([f64::INFINITY; 5], [f64::INFINITY; 5]);
    let (mut still, mut moving) = (0, 0);
    for _ in 0..ROUNDS {
        let mut note = |row: usize, (start, before): (Instant, f64)| {
            clock[row] = clock[row].min(start.elapsed().as_secs_f64());
            work[row] = work[row].min(processor_time() - before);
        };
        let now = || (Instant::now(), processor_time());
        let start = now();
        let scenes: Vec<Scene<'_>> = all.iter().map(|d| Scene::of(d)).collect();
        note(0, start);
        let start = now();
        let pictures: Vec<Picture> = scenes.iter().map(Picture::of).collect();
        note(1, start);
        let written = |pictures: &[Picture]| -> usize {
            pictures.iter().map(|p| black_box(svg(p, Colours::Theme, None)).len()).sum()
        };
        let start = now();
        still = written(&pictures);
        note(2, start);
        let start = now();
        moving = written(&scenes.iter().map(Picture::moving).collect::<Vec<_>>());
        note(3, start);
        let start = now();
        black_box(bare(still));
        note(4, start);
    }
    println!("{FIGURES} figures on one thread, best of {ROUNDS}, seconds by the clock (by the processor):");
    for (row, name) in [
        "bodies and things in space",
        "shapes",
        "SVG without the movement",
        "shapes and SVG with the movement",
        "as many bytes of bare path data as without it",
    ]
    .iter()
    .enumerate()
    {
        println!("{name:<50} {:.2} ({:.2})", clock[row], work[row]);
    }
    let whole = |times: [f64; 5]| times[..3].iter().sum::<f64>();
    println!(
        "drawn and written, without the movement: {:.2} s ({:.2}), {:.1} of the bare data; {} and {} MB",
        whole(clock),
        whole(work),
        whole(work) / work[4],
        still / 1_000_000,
        moving / 1_000_000,
    );
}

/// The drawn figures of an exercise that has them all.
fn drawings() -> Vec<Drawing> {
    let theme = Theme::built_in();
    let words = Words::read("en", theme.text("words/en.ftl").unwrap(), theme.lists("en")).unwrap();
    let name = "content/exercises/tall-sit.md";
    let mut files = sample::files();
    let text = String::from_utf8(files.iter().find(|(n, _)| n == name).unwrap().1.clone()).unwrap();
    let figures: String =
        POSES.iter().map(|p| format!("[[figure]]\ndescription = \"She moves.\"\n{p}\n")).collect();
    let (before, after) = text.split_at(text.find("[[caution]]").unwrap());
    files.retain(|(n, _)| n != name);
    files.push((name.to_string(), format!("{before}{figures}{after}").into_bytes()));
    let texts =
        Texts::sorted(files.into_iter().map(|(n, b)| (n, Bytes::of(b))).collect(), Default::default());
    let (site, _) = entry::read_site(&texts);
    let (model, _) = entry::read(&texts, site, &words);
    let exercise = &model.exercises["tall-sit"];
    let drawings: Vec<Drawing> = exercise.figures.iter().filter_map(|f| f.drawing().cloned()).collect();
    assert!(drawings.len() >= POSES.len(), "every figure is read");
    drawings
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
