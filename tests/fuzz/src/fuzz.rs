//! Looks for inputs that break the program: libFuzzer changes texts, keeps those by which the program's own crate takes
//! a branch it has not taken before, and goes on from there. `STEADYLEAF_FUZZ` names the target. An input is one file of
//! a workspace, its name on the first line; it is read, reviewed and shown in the place of the sample's file of that name.
//!
//! What counts as a find: a panic, an overflow, more than [`MOST_TIME`] of processor time or 512 MB for one input, and
//! whatever a target forbids.
#![no_main]
#![expect(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "the harness makes its own workspace, and what cannot be had here is a find, or a mistake of the harness"
)]

mod mutate;
mod requests;
mod targets;

use std::sync::LazyLock;
use std::time::Duration;

use cpu_time::ProcessTime;
use libfuzzer_sys::{fuzz_mutator, fuzz_target, fuzzer_mutate};

use mutate::Grammar;

/// The most processor time that one input may take. It stands for one second of the program: here every branch counts,
/// and what is found may be told in four ways.
const MOST_TIME: Duration = Duration::from_secs(8);

/// What is looked at, and what its inputs are changed by.
struct Target {
    run: fn(&[u8]),
    grammar: fn() -> Grammar,
}

static TARGET: LazyLock<(Target, Grammar)> = LazyLock::new(|| {
    let name = std::env::var("STEADYLEAF_FUZZ").expect("STEADYLEAF_FUZZ names the target");
    let target = match name.as_str() {
        "entries" => Target { run: targets::entries, grammar: mutate::entries },
        "bib" => Target { run: targets::references, grammar: mutate::references },
        "captions" => Target { run: targets::captions, grammar: mutate::captions },
        "figures" => Target { run: targets::figures, grammar: mutate::figures },
        "profiles" => Target { run: targets::profiles, grammar: mutate::profiles },
        "settings" => Target { run: targets::settings, grammar: mutate::settings },
        "words" => Target { run: targets::words, grammar: mutate::words },
        "requests" => Target { run: requests::answered, grammar: mutate::requests },
        other => panic!("there is no target {other}"),
    };
    let grammar = (target.grammar)();
    (target, grammar)
});

fuzz_target!(|data: &[u8]| {
    let start = ProcessTime::now();
    (TARGET.0.run)(data);
    let took = start.elapsed();
    assert!(took <= MOST_TIME, "this input took {took:?} of processor time");
});

fuzz_mutator!(|data: &mut [u8], size: usize, max_size: usize, seed: u32| {
    let mut random = mutate::Random::new(seed);
    // A third of the changes are libFuzzer's own, which know bytes; the rest know fields, lines and words.
    if random.below(3) == 0 {
        return fuzzer_mutate(data, size, max_size);
    }
    let changed = mutate::changed(&data[..size], &TARGET.1, &mut random);
    let length = changed.len().min(max_size);
    data[..length].copy_from_slice(&changed[..length]);
    length
});
