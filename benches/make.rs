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

use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::{Duration, Instant};

use measure::processor_time;
use rayon::prelude::*;
use serde_json::json;

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
    let first = first_exercise(s, w);
    let list: String = (0..4)
        .map(|k| format!("  {{ id = \"exercise-{:04}\", at = \"{}:05\" }},\n", first + k, k + 1))
        .collect();
    let date = jiff::civil::date(2026, 1, 5).saturating_add(jiff::ToSpan::days(7 * w as i64));
    format!(
        "```toml\nweek = {}\ntitle = \"Week of practice\"\ndate = {date}\nexercises = [\n{list}]\nquestion = \"What felt easier?\"\n```\nWelcome. Take your time this week.\n",
        w + 1
    )
}

/// The first of the four exercises of a week.
fn first_exercise(s: usize, w: usize) -> usize {
    (s * WEEKS + w) * 4 % EXERCISES
}
