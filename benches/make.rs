//! How fast `make` is on 5,000 exercises and 1,250 weeks, beside a bare loop of the same libraries
//! (read, toml, pulldown-cmark, tera, write) over the same files in the same run.
//!
//! `cargo bench` prints pages a second and ratios; ratios are what to compare, the machine is noisy.
#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "a benchmark may stop at the first surprise"
)]

use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use rayon::prelude::*;

const EXERCISES: usize = 5_000;
const SERIES: usize = 50;
const WEEKS: usize = 25;
const ROUNDS: usize = 3;

/// What is measured, in the order of the table.
const ROWS: [&str; 4] =
    ["bare loop, new files", "make, no site yet", "make, all rendered again", "make, nothing changed"];

fn main() {
    // In memory where the system has a folder for that: a disk varies tenfold from one minute to the next.
    let memory_folder = Path::new("/dev/shm");
    let folder = match std::env::var_os("STEADYLEAF_BENCH_FOLDER") {
        Some(folder) => tempfile::tempdir_in(folder),
        None if memory_folder.is_dir() => tempfile::tempdir_in(memory_folder),
        None => tempfile::tempdir(),
    };
    let folder = folder.unwrap();
    let root = folder.path().join("workspace");
    let bare = folder.path().join("bare");
    generate(&root);
    let pages = EXERCISES + SERIES * WEEKS;
    println!(
        "{EXERCISES} exercises and {} weeks in {}, best of {ROUNDS} rounds",
        SERIES * WEEKS,
        folder.path().display()
    );
    let mut best = [[f64::INFINITY; 2]; 4];
    let mut most_memory = 0;
    // The rounds are interleaved, so that a slow minute of the machine meets all rows alike.
    for round in 0..ROUNDS {
        for (column, threads) in [1, 2].into_iter().enumerate() {
            let _ = fs::remove_dir_all(&bare);
            let _ = fs::remove_dir_all(root.join("ready"));
            let mut note = |row: usize, (time, kb): (Duration, u64)| {
                best[row][column] = f64::min(best[row][column], time.as_secs_f64());
                most_memory = most_memory.max(kb);
            };
            note(0, (bare_loop(&root, &bare, threads), 0));
            let day = |n: usize| format!("2026-06-{:02}", 1 + 4 * round + 2 * column + n);
            note(1, make(&root, threads, &day(0)));
            // Another day is another input: every page is rendered and compared, few differ.
            note(2, make(&root, threads, &day(1)));
            note(3, make(&root, threads, &day(1)));
        }
    }
    println!("{:<28} {:>16} {:>16}", "pages a second", "1 thread", "2 threads");
    for (row, times) in ROWS.iter().zip(best) {
        println!("{row:<28} {:>16.0} {:>16.0}", pages as f64 / times[0], pages as f64 / times[1]);
    }
    for (column, threads) in [1, 2].into_iter().enumerate() {
        let time = |row: usize| best[row][column];
        println!(
            "{threads} thread(s): make is {:.2} of the bare loop; nothing changed is {:.1} times as fast as making all",
            time(0) / time(1),
            time(1) / time(3)
        );
    }
    println!("most memory of a make: {} MB", most_memory / 1024);
}

/// What the libraries alone need for one page for each entry: nothing is checked, linked or compared.
fn bare_loop(root: &Path, out: &Path, threads: usize) -> Duration {
    let mut entries: Vec<PathBuf> = walkdir::WalkDir::new(root.join("content"))
        .into_iter()
        .map(|e| e.unwrap().into_path())
        .filter(|p| p.extension().is_some_and(|e| e == "md"))
        .collect();
    entries.sort();
    let mut tera = tera::Tera::default();
    tera.add_raw_template("page.html", include_str!("bare.html")).unwrap();
    tera.global_context().insert("site", &serde_json::json!({ "title": "Bench", "language": "en" }));
    fs::create_dir_all(out).unwrap();
    let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
    let start = Instant::now();
    pool.install(|| {
        entries.par_iter().enumerate().for_each(|(i, path)| {
            let text = fs::read_to_string(path).unwrap();
            let (fields, prose) = text["```toml\n".len()..].split_once("```\n").unwrap();
            let (table, _) = toml::de::DeTable::parse_recoverable(fields);
            let title = table.get_ref()["title"].get_ref().as_str().unwrap();
            let mut html = String::with_capacity(prose.len() * 2);
            let options = pulldown_cmark::Options::ENABLE_TABLES | pulldown_cmark::Options::ENABLE_FOOTNOTES;
            pulldown_cmark::html::push_html(&mut html, pulldown_cmark::Parser::new_ext(prose, options));
            let mut context = tera::Context::new();
            context.insert("title", title);
            context.insert("html", &html);
            fs::write(out.join(format!("{i}.html")), tera.render("page.html", &context).unwrap()).unwrap();
        });
    });
    start.elapsed()
}

/// Runs the program; its time and the most memory it held, in KB.
fn make(root: &Path, threads: usize, today: &str) -> (Duration, u64) {
    let start = Instant::now();
    let mut child = Command::new(env!("CARGO_BIN_EXE_steadyleaf"))
        .args(["make", "--quiet", "--today", today, "--workspace"])
        .arg(root)
        .env("RAYON_NUM_THREADS", threads.to_string())
        .stdout(Stdio::null())
        .spawn()
        .unwrap();
    let status = format!("/proc/{}/status", child.id());
    let mut most = 0;
    let code = loop {
        if let Some(code) = child.try_wait().unwrap() {
            break code;
        }
        let text = fs::read_to_string(&status).unwrap_or_default();
        let peak = text.lines().find_map(|l| l.strip_prefix("VmHWM:"));
        let kb = peak.and_then(|p| p.split_whitespace().next()?.parse().ok());
        most = most.max(kb.unwrap_or(0));
        std::thread::sleep(Duration::from_millis(5));
    };
    let time = start.elapsed();
    assert!(code.success(), "make failed: {code}");
    (time, most)
}

/// A workspace of about 8 KB an exercise, every entry clean under the review.
fn generate(root: &Path) {
    let write = |name: String, text: String| {
        let path = root.join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    };
    write("site.toml".into(), "title = \"Bench\"\nlanguage = \"en\"\naddress = \"https://bench.example/\"\n[educator]\nname = \"A. Educator\"\n".into());
    for i in 0..EXERCISES {
        write(format!("content/exercises/exercise-{i:04}.md"), exercise(i));
    }
    for s in 0..SERIES {
        let folder = format!("content/series/series-{s:02}");
        write(
            format!("{folder}/series.toml"),
            format!(
                "title = \"Series {s}\"\nsummary = \"A series.\"\naudience = \"Everybody.\"\nstart = 2026-01-05\nserves = [\"low-bone-density\", \"unsteady\"]\n"
            ),
        );
        for w in 0..WEEKS {
            write(format!("{folder}/week-{:02}.md", w + 1), week(s, w));
        }
    }
}

fn exercise(i: usize) -> String {
    let component = ["posture", "balance", "strength", "power"][i % 4];
    // Ladders of five rungs: exercises of one component, four apart.
    let rung = i / 4 % 5;
    let harder = match rung {
        4 => String::new(),
        _ => format!("[[progression]]\nexercise = \"exercise-{:04}\"\n\n", i + 4),
    };
    let easier = match rung {
        0 => "[[regression]]\ntext = \"Hold the counter with both hands.\"\n".to_string(),
        _ => format!("[[regression]]\nexercise = \"exercise-{:04}\"\n", i - 4),
    };
    let mut text = format!(
        "```toml\ntitle = \"Exercise {i}\"\ncomponent = \"{component}\"\nposition = \"standing\"\nsupport = [\"counter\"]\n\
         equipment = [\"sturdy chair\"]\ndemands = [\"narrow-stance\"]\nsummary = \"Stand tall and move slowly.\"\n\
         reviewed = {{ by = \"A. Reviewer, PT\", on = 2026-01-05 }}\n\n[dose]\nreps = \"8-12\"\nsets = 2\nsides = \"each\"\nrest = \"60 s\"\ndays = 3\n\n\
         [[variation]]\ntitle = \"Seated\"\nposition = \"seated\"\nremoves = [\"narrow-stance\"]\ntext = \"Sit tall and move slowly.\"\n\n\
         {easier}\n{harder}[[caution]]\nfor = \"everyone\"\nlevel = \"stop\"\ntext = \"Stop if you feel dizzy.\"\n```\n\
         This trains you for daily life.\n\n## Set up\n"
    );
    for n in 0..12 {
        let _ = writeln!(
            text,
            "Stand with your feet apart and hold the counter. Look straight ahead, and **breathe** out slowly. Part {n} of the preparation takes its time, and nothing hurries you.\n"
        );
    }
    text.push_str("## Move\n");
    for n in 0..20 {
        let _ = writeln!(
            text,
            "{}. Press both feet into the floor and grow tall, then let go a little. Count to {n} in your own time.",
            n + 1
        );
    }
    text.push_str("\n## Finish\nStand still.\n\n## Feel\n");
    for n in 0..12 {
        let _ = writeln!(
            text,
            "You should feel your legs work, and your back stay long and easy. See [the next one](exercise-{:04}.md) when {n} feels light.\n",
            (i + n) % EXERCISES
        );
    }
    text.push_str("## Watch for\n");
    for n in 0..10 {
        let _ = writeln!(
            text,
            "- Your knees stay soft and your weight stays over the middle of your feet, time {n}."
        );
    }
    text
}

fn week(s: usize, w: usize) -> String {
    let first = (s * WEEKS + w) * 4 % EXERCISES;
    let list: String = (0..4)
        .map(|k| format!("  {{ id = \"exercise-{:04}\", at = \"{}:05\" }},\n", first + k, k + 1))
        .collect();
    let date = jiff::civil::date(2026, 1, 5).saturating_add(jiff::ToSpan::days(7 * w as i64));
    format!(
        "```toml\nweek = {}\ntitle = \"Week of practice\"\ndate = {date}\nexercises = [\n{list}]\nquestion = \"What felt easier?\"\n```\nWelcome. Take your time this week.\n",
        w + 1
    )
}
