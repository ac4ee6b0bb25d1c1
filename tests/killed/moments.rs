//! When a run is killed: at moments drawn over its whole span, as it begins to write, as all is written; and by the
//! system, at the first byte that it writes and at a later one.

use std::os::unix::process::ExitStatusExt;
use std::process::{Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

use crate::case::Case;
use crate::draw::Draw;

const KILLS: u32 = 30;

/// How often the moment of a round is tried before an earlier one.
const TRIES: i32 = 5;

const SIGKILL: i32 = 9;

/// A file grows beyond what is allowed; the same number on Linux and macOS.
const SIGXFSZ: i32 = 25;

/// Runs a program whose files may be of so many blocks and no longer. No picture of its memory is kept.
const LIMITED: &str = "ulimit -c 0 && ulimit -f \"$1\" && shift && exec \"$@\"";

/// Kills the command at each of these moments; looks at what is left, and at the next run.
pub(crate) fn kill(case: &Case) {
    kill_while_writing(case);
    let name = case.name;
    let mut draw = Draw::seeded(name);
    let mut span = case.took;
    let mut seen = Seen::default();
    for round in 0..KILLS {
        let chance = draw.below(1000) as f64 / 1000.0;
        let mut tries = 0;
        while !killed(case, round, chance, tries, &mut span) {
            case.assert_whole();
            seen.over += 1;
            tries += 1;
            assert!(tries < 60, "{name}, round {round}: runs are over before they are killed");
        }
        let left = case.look(round);
        seen.litter += left.litter;
        match (left.done, left.litter) {
            (true, _) => seen.written += 1,
            (false, 0) => seen.before += 1,
            (false, _) => seen.writing += 1,
        }
        if left.litter > 0 || round % 10 == 0 {
            case.next(round);
        }
    }
    let Seen { before, writing, written, litter, over } = seen;
    let counts = format!("{before} before it wrote, {writing} while it wrote, {written} with all written");
    println!("{name}: {KILLS} kills, {counts}; {litter} things left, {over} runs over before");
    assert!(before >= 1 && writing + written >= 1, "{name}: not the whole span: {counts}");
}

/// How far runs were when they were killed.
#[derive(Default)]
struct Seen {
    before: u32,
    writing: u32,
    written: u32,
    /// What they left behind, in all.
    litter: usize,
    /// Not killed, so they do not count.
    over: u32,
}

/// Starts the command and kills it at the moment of this round. False when it was over before.
fn killed(case: &Case, round: u32, chance: f64, tries: i32, span: &mut Duration) -> bool {
    case.reset(round);
    let mark = case.mark();
    let start = Instant::now();
    let mut child = case.command().spawn().unwrap();
    let waits = !round.is_multiple_of(3) && tries < TRIES;
    if waits {
        let for_all = round % 3 == 2;
        while child.try_wait().unwrap().is_none() && case.mark() == mark && (for_all || !case.is_begun()) {
            sleep(Duration::from_micros(20));
        }
        if round % 6 == 1 {
            sleep(Duration::from_millis(2).mul_f64(chance));
        }
    } else {
        // Each round has its own part of the span. After runs that were over, the moment is ever earlier.
        let part = (f64::from(round) + chance) / f64::from(KILLS);
        sleep(span.mul_f64(part * 0.5_f64.powi(tries)));
    }
    let until = start.elapsed();
    child.kill().unwrap();
    let killed = child.wait().unwrap().signal() == Some(SIGKILL);
    // How long a run takes depends on what else the machine does.
    if waits && killed {
        *span = until;
    }
    killed
}

/// The system kills the run at the first byte that it writes, then where a file grows beyond half of the longest one
/// or beyond all but its end: a block is 512 or 1024 bytes, as the shell has it.
fn kill_while_writing(case: &Case) {
    for blocks in [0, (case.longest() - 1) / 1024] {
        case.reset(0);
        let review = case.review();
        let whole = case.command();
        let mut limited = Command::new("sh");
        limited.args(["-c", LIMITED, "sh", &blocks.to_string()]);
        limited.arg(whole.get_program()).args(whole.get_args()).stdin(Stdio::null());
        let output = limited.output().unwrap();
        let told = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.signal(), Some(SIGXFSZ), "{}, {blocks} blocks: {told}", case.name);
        let left = case.look(0);
        assert_eq!((left.done, left.litter), (false, 1), "{}, {blocks} blocks", case.name);
        assert_eq!(case.review(), review, "{}: the review tells of what a killed run has left", case.name);
        case.next(0);
    }
}
