//! How much of the time of reading 5,000 exercises and 1,250 weeks their review needs, in the same run.
//!
//! `cargo bench --bench review` prints ratios; ratios are what to compare, the machine is noisy.
#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "a benchmark may stop at the first surprise"
)]

mod measure;

use std::path::Path;
use std::time::Instant;

use measure::corpus::{EXERCISES, SERIES, WEEKS, generate};
use measure::processor_time;
use steadyleaf::model::words::Words;
use steadyleaf::workspace::theme::Theme;
use steadyleaf::{entry, review, workspace};

const ROUNDS: usize = 5;

fn main() {
    let folder = tempfile::tempdir().unwrap();
    generate(folder.path());
    println!("{EXERCISES} exercises and {} weeks, best of {ROUNDS} rounds", SERIES * WEEKS);
    for threads in [1, 2] {
        let (clock, work) = measure(folder.path(), threads);
        println!(
            "{threads} thread(s): reading {:.3} s, review {:.3} s; the review needs {:.2} of it, {:.2} by processor time",
            clock[0],
            clock[1],
            clock[1] / clock[0],
            work[1] / work[0]
        );
    }
}

/// Seconds of reading and of the review, by the clock and by the processor, each the least of all rounds.
fn measure(root: &Path, threads: usize) -> ([f64; 2], [f64; 2]) {
    let theme = Theme::built_in();
    let words = Words::read("en", theme.text("words/en.ftl").unwrap(), theme.lists("en")).unwrap();
    let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
    let (mut clock, mut work) = ([f64::INFINITY; 2], [f64::INFINITY; 2]);
    for _ in 0..ROUNDS {
        let mut note = |row: usize, (start, before): (Instant, f64)| {
            clock[row] = clock[row].min(start.elapsed().as_secs_f64());
            work[row] = work[row].min(processor_time() - before);
        };
        let now = || (Instant::now(), processor_time());
        let start = now();
        let (sources, model, findings) = pool.install(|| {
            let texts = workspace::read(root).unwrap();
            let (site, mut findings) = entry::read_site(&texts);
            let (model, found) = entry::read(&texts, site, &words);
            findings.extend(found);
            (texts.sources, model, findings)
        });
        note(0, start);
        let today = jiff::civil::date(2026, 6, 1);
        let case = review::Case { model: &model, sources: &sources, words: &words, today };
        let start = now();
        let review = pool.install(|| review::review(&case, findings));
        note(1, start);
        assert!(!review.has_errors());
    }
    (clock, work)
}
