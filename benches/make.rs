//! How fast `make` is on 5,000 exercises and 1,250 weeks, beside a bare loop of the same libraries
//! (read, toml, pulldown-cmark, tera, write) over the same files in the same run.
//!
//! `cargo bench` prints pages a second and ratios; ratios are what to compare, the machine is noisy.
#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "a benchmark may stop at the first surprise"
)]

mod measure;

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::{Duration, Instant};

use measure::corpus::{EXERCISES, SERIES, WEEKS, first_exercise, generate};
use measure::processor_time;
use rayon::prelude::*;
use serde_json::json;

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
    // Seconds of processor time: what is left to compare when other programs want the machine too.
    let mut work = [[f64::INFINITY; 2]; 4];
    let mut most_memory = 0;
    // The rounds are interleaved, so that a slow minute of the machine meets all rows alike.
    for round in 0..ROUNDS {
        for (column, threads) in [1, 2].into_iter().enumerate() {
            let _ = fs::remove_dir_all(&bare);
            let _ = fs::remove_dir_all(root.join("ready"));
            let mut note = |row: usize, run: &mut dyn FnMut() -> (Duration, u64)| {
                let before = processor_time();
                let (time, kb) = run();
                best[row][column] = f64::min(best[row][column], time.as_secs_f64());
                work[row][column] = f64::min(work[row][column], processor_time() - before);
                most_memory = most_memory.max(kb);
            };
            note(0, &mut || (bare_loop(&root, &bare, threads), 0));
            let day = |n: usize| format!("2026-06-{:02}", 1 + 4 * round + 2 * column + n);
            note(1, &mut || make(&root, threads, &day(0)));
            // Another day is another input: every page is rendered and compared, few differ.
            note(2, &mut || make(&root, threads, &day(1)));
            note(3, &mut || make(&root, threads, &day(1)));
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
    println!(
        "by processor time, one thread: make is {:.2} of the bare loop; nothing changed needs {:.2} of making all",
        work[0][0] / work[1][0],
        work[3][0] / work[1][0]
    );
    println!("most memory of a make: {} MB", most_memory / 1024);
}

/// What the libraries alone need for the same pages: each entry of a page is read, its fields parsed, its
/// prose turned into HTML, and the theme's own template filled with about as much as `make` fills it with.
/// Nothing is reviewed, linked, inspected, compared or staged.
fn bare_loop(root: &Path, out: &Path, threads: usize) -> Duration {
    let exercises: Vec<PathBuf> =
        (0..EXERCISES).map(|i| root.join(format!("content/exercises/exercise-{i:04}.md"))).collect();
    let weeks: Vec<(PathBuf, usize)> = (0..SERIES * WEEKS)
        .map(|n| {
            let (s, w) = (n / WEEKS, n % WEEKS);
            (root.join(format!("content/series/series-{s:02}/week-{:02}.md", w + 1)), first_exercise(s, w))
        })
        .collect();
    let tera = templates();
    fs::create_dir_all(out).unwrap();
    let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
    let start = Instant::now();
    pool.install(|| {
        exercises.par_iter().enumerate().for_each(|(i, path)| {
            let mut context = tera::Context::new();
            context.insert("page", &frame());
            context.insert(
                "exercise",
                &json!({ "block": bare_block(path), "ladder": [], "weeks": [], "references": [], "handouts": [] }),
            );
            let html = tera.render("exercise.html", &context).unwrap();
            fs::write(out.join(format!("exercise-{i}.html")), html).unwrap();
        });
        weeks.par_iter().enumerate().for_each(|(n, (path, first))| {
            let (_, welcome) = bare_entry(path);
            let blocks: Vec<_> = (0..4).map(|k| bare_block(&exercises[first + k])).collect();
            let glance: Vec<_> = (0..4)
                .map(|k| json!({ "component": component(), "title": k, "dose": "8 times", "href": "#x" }))
                .collect();
            let mut context = tera::Context::new();
            context.insert("page", &frame());
            context.insert(
                "week",
                &json!({
                    "number_line": "Week", "date_line": "Date", "welcome_html": welcome, "glance": glance, "video": null,
                    "handouts": [], "exercises": blocks, "question": "?", "previous": null, "next": null,
                }),
            );
            fs::write(out.join(format!("week-{n}.html")), tera.render("week.html", &context).unwrap()).unwrap();
        });
    });
    start.elapsed()
}

/// The title and the prose of an entry.
fn bare_entry(path: &Path) -> (String, String) {
    let text = fs::read_to_string(path).unwrap();
    let (fields, prose) = text["```toml\n".len()..].split_once("```\n").unwrap();
    let (table, _) = toml::de::DeTable::parse_recoverable(fields);
    let title = table.get_ref()["title"].get_ref().as_str().unwrap().to_string();
    let mut html = String::with_capacity(prose.len() * 2);
    let options = pulldown_cmark::Options::ENABLE_TABLES | pulldown_cmark::Options::ENABLE_FOOTNOTES;
    pulldown_cmark::html::push_html(&mut html, pulldown_cmark::Parser::new_ext(prose, options));
    (title, html)
}

fn bare_block(path: &Path) -> serde_json::Value {
    let (title, html) = bare_entry(path);
    let way = json!([{ "title": "A way", "href": null, "text": "Do it so.", "needs": null, "dose": null }]);
    let figure = json!({ "number": "8", "unit": "times" });
    let line = json!({ "label": "Rest", "text": "60 seconds" });
    json!({
        "id": "x", "title": title, "component": component(), "number_line": null, "summary": "Move.", "focus": null,
        "position_word": "Standing", "support_text": "A counter", "equipment_text": "A chair", "video": null,
        "dose": { "glance": "8 times", "figures": [figure, figure, figure], "lines": [line, line], "changed": false },
        "cautions": [{ "level": "stop", "who": "For everyone", "level_word": "", "text": "Stop." }], "figures": [],
        "intro_html": html, "sections": [], "easier": way, "other_ways": way, "harder": way, "reviewed": "Checked.",
    })
}

fn component() -> serde_json::Value {
    json!({ "id": "posture", "word": "Posture" })
}

fn frame() -> serde_json::Value {
    let nav: Vec<_> = (0..5).map(|n| json!({ "href": "x.html", "text": n, "current": false })).collect();
    json!({
        "title": "Bench", "head_title": "Bench", "description": null, "canonical": null, "policy": "x", "root": "../",
        "home": "x", "safety": "x", "library": "x", "nav": nav, "trail": null, "updated": null, "draft": false,
        "head_links": [], "structured_data": null,
    })
}

/// The built-in theme's templates with its words.
fn templates() -> tera::Tera {
    let theme = steadyleaf::workspace::theme::Theme::built_in();
    let words =
        steadyleaf::model::words::Words::read("en", theme.text("words/en.ftl").unwrap(), theme.lists("en"))
            .unwrap();
    let mut tera = tera::Tera::default();
    let templates = theme.below("templates/");
    tera.add_raw_templates(
        templates
            .map(|(name, text)| (name.trim_start_matches("templates/"), std::str::from_utf8(text).unwrap())),
    )
    .unwrap();
    let shape = theme.text("shapes/posture.svg").unwrap();
    let call = json!({ "text": "Call.", "href": null });
    let educator =
        json!({ "name": "A. Educator", "clinic": null, "place": [], "phone": null, "email": null });
    let global = tera.global_context();
    global.insert("w", &words.plain());
    global.insert("shapes", &json!({ "posture": shape }));
    global.insert(
        "site",
        &json!({ "title": "Bench", "language": "en", "emergency_call": call, "educator": educator }),
    );
    tera
}

/// Runs the program; its time and the most memory it held, in KB.
fn make(root: &Path, threads: usize, today: &str) -> (Duration, u64) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_steadyleaf"));
    command.args(["make", "--quiet", "--today", today, "--workspace"]).arg(root);
    measure::run(command.env("RAYON_NUM_THREADS", threads.to_string()))
}
