//! How much of the time of reading 5,014 exercises and 1,308 weeks their review needs, in the same run.
//!
//! `cargo bench --bench review` prints ratios; ratios are what to compare, the machine is noisy.
//! `STEADYLEAF_BENCH_TIMES` is how often the demonstration is taken.
#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "a benchmark may stop at the first surprise"
)]

mod measure;

use std::path::Path;

use measure::corpus::{MANY, generate};
use measure::opened::{Opened, TODAY};
use measure::{Took, is_small, number};

fn main() {
    let (times, rounds) = if is_small() { (2, 1) } else { (number("STEADYLEAF_BENCH_TIMES", MANY), 5) };
    let folder = tempfile::tempdir().unwrap();
    generate(folder.path(), times);
    for threads in [1, 2] {
        let [reading, review] = measure(folder.path(), threads, rounds);
        let [clock, processor] = review.of(reading);
        println!(
            "{threads} thread(s): reading {:.3} s by the clock, {:.3} by the processor; review {:.3}, {:.3}; it needs {clock:.2} \
             of reading by the clock, {processor:.2} by the processor",
            reading.clock, reading.processor, review.clock, review.processor
        );
    }
}

/// What reading and the review take, each the least of all rounds.
fn measure(root: &Path, threads: usize, rounds: usize) -> [Took; 2] {
    let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
    let mut least = [Took::FOREVER; 2];
    for round in 0..rounds {
        let (reading, opened) = Took::by(|| pool.install(|| Opened::read(root)));
        let (reviewing, review) = Took::by(|| pool.install(|| opened.edition.review(TODAY)));
        if round == 0 && threads == 1 {
            let model = opened.edition.model();
            let (exercises, weeks) = (model.exercises.len(), model.weeks().count());
            println!("{exercises} exercises and {weeks} weeks, best of {rounds} round(s)");
        }
        // What is found costs time of its own, and the demonstration is clean.
        assert!(review.findings.is_empty(), "{:?}", review.findings);
        least = [least[0].least(reading), least[1].least(reviewing)];
    }
    least
}
