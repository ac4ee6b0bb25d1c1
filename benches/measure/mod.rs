//! What the benchmarks measure with: time by the clock and of the processor, and the memory of a program while it runs.
#![allow(clippy::disallowed_methods, reason = "a benchmark asks the clock and the system")]
#![allow(dead_code, reason = "each benchmark uses what it needs")]

pub(crate) mod corpus;
pub(crate) mod opened;
pub(crate) mod plain;

use std::fs;
use std::ops::{Add, AddAssign};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// True when Cargo runs it as a test: everything is done once and on little, so that it is seen to work.
pub(crate) fn is_small() -> bool {
    !std::env::args().any(|argument| argument == "--bench")
}

/// A number of the environment, or else this one.
pub(crate) fn number(name: &str, otherwise: usize) -> usize {
    std::env::var(name).ok().and_then(|value| value.parse().ok()).unwrap_or(otherwise)
}

/// How long something took, in seconds.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Took {
    pub(crate) clock: f64,
    /// Of all threads, and of the programs that were waited for. What is left to compare when other programs want the
    /// machine too.
    pub(crate) processor: f64,
}

impl Took {
    pub(crate) const NOTHING: Took = Took { clock: 0.0, processor: 0.0 };
    /// Longer than anything, for the least of several.
    pub(crate) const FOREVER: Took = Took { clock: f64::INFINITY, processor: f64::INFINITY };

    pub(crate) fn by<R>(work: impl FnOnce() -> R) -> (Took, R) {
        let (start, before) = (Instant::now(), processor_time());
        let result = work();
        (Took { clock: start.elapsed().as_secs_f64(), processor: processor_time() - before }, result)
    }

    pub(crate) fn least(self, other: Took) -> Took {
        Took { clock: self.clock.min(other.clock), processor: self.processor.min(other.processor) }
    }

    /// Its share of another, by the clock and by the processor.
    pub(crate) fn of(self, other: Took) -> [f64; 2] {
        // A tick of the processor's time is 10 ms; nothing is divided by less.
        [self.clock / other.clock, self.processor.max(0.01) / other.processor.max(0.01)]
    }
}

impl Add for Took {
    type Output = Took;

    fn add(self, other: Took) -> Took {
        Took { clock: self.clock + other.clock, processor: self.processor + other.processor }
    }
}

impl AddAssign for Took {
    fn add_assign(&mut self, other: Took) {
        *self = *self + other;
    }
}

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

/// Runs a program; what it took, and the most memory that it held, in KB.
pub(crate) fn run(command: &mut Command) -> (Took, u64) {
    let (took, (code, most)) = Took::by(|| {
        let mut child = command.stdout(Stdio::null()).spawn().unwrap();
        let id = child.id().to_string();
        let mut most = 0;
        loop {
            if let Some(code) = child.try_wait().unwrap() {
                break (code, most);
            }
            most = most.max(most_memory(&id));
            std::thread::sleep(Duration::from_millis(5));
        }
    });
    assert!(code.success(), "{command:?} failed: {code}");
    (took, most)
}

/// A folder for a workspace: in memory where the system has a place for that, since a disk varies tenfold from one minute
/// to the next.
pub(crate) fn folder() -> tempfile::TempDir {
    let memory = std::path::Path::new("/dev/shm");
    let folder = match std::env::var_os("STEADYLEAF_BENCH_FOLDER") {
        Some(folder) => tempfile::tempdir_in(folder),
        None if memory.is_dir() => tempfile::tempdir_in(memory),
        None => tempfile::tempdir(),
    };
    folder.unwrap()
}
