//! Runs killed at any moment leave the old site or the new one, whole, and the next run goes on from there.

use std::fs;
use std::os::unix::fs::MetadataExt;
use std::path::Path;
use std::process::{Child, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

use crate::workspace::{Tree, Workspace};

const EXERCISES: usize = 150;
const KILLS: u32 = 52;
const SEED: u64 = 0x5EED_1EAF;
const TITLES: [&str; 2] = ["A site of old", "A site anew"];

#[test]
fn a_make_killed_at_any_moment_leaves_one_whole_site() {
    let workspace = Workspace::begun();
    // One sheet an exercise is enough for a site of many files.
    workspace.edit(
        "site.toml",
        "sizes = [18, 24]\npapers = [\"a4\", \"letter\"]",
        "sizes = [18]\npapers = [\"a4\"]",
    );
    workspace.grow(EXERCISES);
    let begun = title_line(&workspace);
    workspace.edit("site.toml", &begun, &format!("title = \"{}\"", TITLES[0]));
    let first = workspace.make();
    set_title(&workspace, 1);
    let (second, mut whole_run) = timed(&workspace);
    let sites: [&Tree; 2] = [&first, &second];
    assert!(first.len() > EXERCISES && sites[0] != sites[1]);

    // The list of the site's files is the last that is written before the swap.
    let list = workspace.path("ready/steadyleaf-made.json");
    let staged_list = workspace.path(".ready-new/steadyleaf-made.json");
    let mut random = Random(SEED);
    let mut seen = Seen::default();
    let mut round = 0;
    let mut goal = 1;
    while round < KILLS {
        goal = 1 - goal;
        set_title(&workspace, goal);
        let old_list = inode(&list);
        let mut child =
            workspace.command(&["make"]).stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap();
        match round % 4 {
            2 => wait_until(&mut child, || staged_list.exists()),
            3 => wait_until(&mut child, || inode(&list) != old_list),
            _ => {
                // Each round has its own part of the span, so that the whole of it is covered.
                let part = f64::from(round) + random.below(1000) as f64 / 1000.0;
                sleep(whole_run.mul_f64(part / f64::from(KILLS)));
            }
        }
        if round % 4 >= 2 {
            sleep(Duration::from_micros(random.below(10_000) * u64::from(round % 8 / 4)));
        }
        let was_over = child.try_wait().unwrap().is_some();
        child.kill().unwrap();
        child.wait().unwrap();

        let found = workspace.ready();
        let site = sites.iter().position(|site| **site == found);
        let site = site.unwrap_or_else(|| panic!("seed {SEED:#x}, round {round}: neither site is whole"));
        let staged = workspace.path(".ready-new").exists();
        match (was_over, site == goal, staged) {
            // Not killed, so it does not count.
            (true, _, _) => seen.over += 1,
            (false, false, false) => seen.before_staging += 1,
            (false, false, true) => seen.staging += 1,
            (false, true, _) => seen.after_swap += 1,
        }
        assert!(seen.over < KILLS, "too many runs were over before they were killed: {seen:?}");
        round += u32::from(!was_over);

        let (next, took) = timed(&workspace);
        assert!(next == *sites[goal], "seed {SEED:#x}, round {round}: the next run makes another site");
        // How long a run takes depends on what else the machine does; one with nothing to do says nothing.
        if was_over {
            whole_run = whole_run.mul_f64(0.9);
        } else if site != goal {
            whole_run = took;
        }
        let left = workspace.names();
        assert!(!left.iter().any(|n| n == ".ready-new" || n == ".ready-old"), "round {round}: {left:?}");
    }
    println!("{KILLS} kills: {seen:?}");
    assert!(seen.staging >= 10, "too few kills while the site was staged: {seen:?}");
    assert!(seen.before_staging >= 1 && seen.after_swap >= 3, "not the whole span: {seen:?}");
}

/// The next site, and how long it took.
fn timed(workspace: &Workspace) -> (Tree, Duration) {
    let start = Instant::now();
    let site = workspace.make();
    (site, start.elapsed())
}

/// How far runs were when they were killed.
#[derive(Debug, Default)]
struct Seen {
    before_staging: u32,
    staging: u32,
    after_swap: u32,
    over: u32,
}

fn title_line(workspace: &Workspace) -> String {
    let site = fs::read_to_string(workspace.path("site.toml")).unwrap();
    site.lines().find(|line| line.starts_with("title = ")).unwrap().to_owned()
}

fn set_title(workspace: &Workspace, goal: usize) {
    workspace.edit("site.toml", TITLES[1 - goal], TITLES[goal]);
}

fn inode(file: &Path) -> Option<u64> {
    fs::metadata(file).ok().map(|found| found.ino())
}

/// Waits for a moment of a run, or for its end.
fn wait_until(child: &mut Child, moment: impl Fn() -> bool) {
    while !moment() && child.try_wait().unwrap().is_none() {
        sleep(Duration::from_micros(50));
    }
}

/// Marsaglia's xorshift with 64 bits (Journal of Statistical Software 8(14), 2003; from memory, not verified), so that
/// a failure can be had again.
struct Random(u64);

impl Random {
    fn below(&mut self, end: u64) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0 % end
    }
}
