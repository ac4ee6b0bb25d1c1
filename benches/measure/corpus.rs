//! A large workspace: many exercises on ladders of five rungs, and the weeks that use them.

use std::fmt::Write as _;
use std::fs;
use std::path::Path;

pub(crate) const EXERCISES: usize = 5_000;
pub(crate) const SERIES: usize = 50;
pub(crate) const WEEKS: usize = 25;

/// A workspace of about 8 KB an exercise, every entry clean under the review.
pub(crate) fn generate(root: &Path) {
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
pub(crate) fn first_exercise(s: usize, w: usize) -> usize {
    (s * WEEKS + w) * 4 % EXERCISES
}
