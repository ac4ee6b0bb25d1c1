//! What the benchmarks measure with: processor time, and the memory of a program while it runs.
#![allow(clippy::disallowed_methods, reason = "a benchmark asks the clock and the system")]
#![allow(dead_code, reason = "each benchmark uses what it needs")]

pub(crate) mod corpus;

use std::fs;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// Processor time of this process and of those it waited for, in seconds (proc(5): fields 14 to 17 of
/// `/proc/self/stat`, in ticks of 10 ms).
pub(crate) fn processor_time() -> f64 {
    let stat = fs::read_to_string("/proc/self/stat").unwrap_or_default();
    let fields = stat.rsplit_once(") ").map_or("", |(_, rest)| rest).split(' ');
    fields.skip(11).take(4).filter_map(|f| f.parse::<f64>().ok()).sum::<f64>() / 100.0
}

/// The most memory that a process has held so far, in KB.
fn most_memory(process: &str) -> u64 {
    let text = fs::read_to_string(format!("/proc/{process}/status")).unwrap_or_default();
    let peak = text.lines().find_map(|l| l.strip_prefix("VmHWM:"));
    peak.and_then(|p| p.split_whitespace().next()?.parse().ok()).unwrap_or(0)
}

/// Runs a program; its time and the most memory it held, in KB.
pub(crate) fn run(command: &mut Command) -> (Duration, u64) {
    let start = Instant::now();
    let mut child = command.stdout(Stdio::null()).spawn().unwrap();
    let id = child.id().to_string();
    let mut most = 0;
    let code = loop {
        if let Some(code) = child.try_wait().unwrap() {
            break code;
        }
        most = most.max(most_memory(&id));
        std::thread::sleep(Duration::from_millis(5));
    };
    let time = start.elapsed();
    assert!(code.success(), "{command:?} failed: {code}");
    (time, most)
}
