//! Faults of doses: texts that contradict them, days without rest, holds without breath, and jumps.

use toml::{Table, Value};

use crate::demonstration::{Demonstration, Entry};
use crate::draw::Draw;
use crate::edit::{
    blocks_at, field_at, fields_at, insert, lines_at, prose_lines_at, put, row_at, section_at, set_dose,
    set_row_dose,
};
use crate::fault::{Edits, Fault};
use crate::measure::{amount, doses, work};

/// Ways to say a field of a dose in a text; `#` is its number.
const SAYINGS: [(&str, &[&str]); 5] = [
    (
        "reps",
        &["Do # repetitions.", "Repeat this # times.", "Do it # times.", "Do # slow repetitions, and rest."],
    ),
    ("sets", &["Do # sets.", "Do # sets with a rest between.", "In all this makes # sets."]),
    ("hold", &["Hold for # seconds.", "Stay there for # seconds.", "Hold it # seconds, and breathe."]),
    ("rest", &["Rest for # seconds.", "Then rest # seconds.", "Sit and rest for # seconds."]),
    ("days", &["Do this on # days a week.", "Practice # times a week.", "Do it # days each week."]),
];

const NUMBERS: [&str; 13] =
    ["", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];

/// A field of a dose as a sentence may say it.
struct Saying {
    field: &'static str,
    sentence: &'static str,
    spelled: bool,
}

impl Saying {
    fn drawn(draw: &mut Draw) -> Saying {
        let (field, sentences) = *draw.one(&SAYINGS);
        Saying { field, sentence: draw.one::<&'static str>(sentences), spelled: draw.below(2) == 0 }
    }

    fn of(&self, (low, high): (i64, i64)) -> String {
        let one = |n: i64| match NUMBERS.get(n as usize).filter(|_| self.spelled) {
            Some(word) => word.to_string(),
            None => n.to_string(),
        };
        let number = match (low == high, self.spelled) {
            (true, _) => one(low),
            (false, true) => format!("{} to {}", one(low), one(high)),
            (false, false) => format!("{low}-{high}"),
        };
        let sentence = self.sentence.replace('#', &number);
        if (low, high) == (1, 1) {
            sentence.replace("sets", "set").replace("times", "time")
        } else {
            sentence
        }
    }
}

/// An exercise whose text says a field of its dose, which no week changes.
struct Said<'d> {
    exercise: &'d Entry,
    saying: Saying,
    says: (i64, i64),
    text: String,
}

/// The ground: each exercise says a field of its dose, as it is, in some place of its prose or in its summary.
fn said<'d>(d: &'d Demonstration, draw: &mut Draw) -> Vec<Said<'d>> {
    let mut all = Vec::new();
    for exercise in d.exercises.values() {
        let saying = Saying::drawn(draw);
        let Some(says) = amount(exercise.dose(), saying.field) else { continue };
        let changed = |week: &Entry| {
            let row = week.rows().into_iter().find(|row| row["id"].as_str() == Some(&exercise.id));
            row.and_then(|row| row.get("dose"))
                .and_then(Value::as_table)
                .is_some_and(|dose| dose.contains_key(saying.field))
        };
        // "1 times" is no way to say it.
        if d.weeks.iter().any(changed) || (saying.field == "reps" || saying.field == "days") && says == (1, 1)
        {
            continue;
        }
        let text = say(&exercise.text, draw.below(3), &saying.of(says));
        all.push(Said { exercise, saying, says, text });
    }
    all
}

/// Puts a sentence at the end of a section of the prose or of the summary.
fn say(text: &str, place: usize, sentence: &str) -> String {
    let end = match ["Set up", "Finish"].get(place) {
        Some(section) => section_at(text, section).unwrap().start,
        None => {
            let summary = field_at(text, fields_at(text), "summary").unwrap();
            return insert(text, summary.end - 2, &format!(" {sentence}"));
        }
    };
    insert(text, end + text[end..].find('\n').unwrap(), &format!(" {sentence}"))
}

/// Another amount of a field, neither of the two inside the other.
fn other(field: &str, (low, high): (i64, i64), draw: &mut Draw) -> (i64, i64) {
    let most = if field == "days" { 7 } else { 1_000 };
    match draw.below(3) {
        0 if low > 2 => (low - 1, low - 1),
        1 if high + 2 <= most => (high + 1, high + 2),
        _ if high < most => (high + 1, high + 1),
        _ => (low - 1, low - 1),
    }
}

fn written(field: &str, (low, high): (i64, i64)) -> String {
    let number = if low == high { low.to_string() } else { format!("{low}-{high}") };
    match field {
        "hold" | "rest" => format!("\"{number} s\""),
        _ if low == high => number,
        _ => format!("\"{number}\""),
    }
}

pub(super) fn prose_only(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for Said { exercise, saying, says, text } in said(d, draw) {
        let new = saying.of(other(saying.field, says, draw));
        let changed = text.replace(&saying.of(says), &new);
        let ground = Edits::of(&exercise.file, text);
        faults.push(
            Fault::inside(&exercise.file, format!("{new} for {}", saying.of(says)), changed).on(ground),
        );
    }
    faults
}

pub(super) fn fields_only(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for Said { exercise, saying, says, text } in said(d, draw) {
        let value = written(saying.field, other(saying.field, says, draw));
        let changed = set_dose(&text, saying.field, &value);
        let what = format!("{} = {value}, in words {}", saying.field, saying.of(says));
        faults.push(Fault::inside(&exercise.file, what, changed).on(Edits::of(&exercise.file, text)));
    }
    faults
}

/// The week's dose no longer fits what the exercise says of itself.
pub(super) fn row_only(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for Said { exercise, saying, says, text } in said(d, draw) {
        let Some(week) = d.first_week(&exercise.id).map(|at| &d.weeks[at]) else { continue };
        let value = written(saying.field, other(saying.field, says, draw));
        let changed = set_row_dose(&week.text, &exercise.id, saying.field, &value);
        let ground = Edits::of(&exercise.file, text);
        let edits = ground.clone().and(&week.file, changed);
        let what = format!("{}: {} = {value}, in words {}", week.file, saying.field, saying.of(says));
        faults.push(Fault::new(what, edits, &week.file).on(ground));
    }
    faults
}

/// The week's text says a field of the dose of one of its exercises: the ground. Then the row says another number, whatever
/// the other exercises of the week do.
pub(super) fn week_text_only(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    const SAYINGS: [(&str, &str); 5] = [
        ("reps", "Do the @ # times."),
        ("sets", "Do # sets of the @."),
        ("hold", "In the @, hold for # seconds."),
        ("rest", "In the @, rest for # seconds."),
        ("days", "Do the @ on # days a week."),
    ];
    let mut faults = Vec::new();
    for week in &d.weeks {
        for (exercise, dose) in doses(d, week) {
            let (field, sentence) = *draw.one(&SAYINGS);
            let Some(says) = amount(&dose, field).filter(|says| *says != (1, 1)) else { continue };
            let saying = Saying { field, sentence, spelled: draw.below(2) == 0 };
            let sentence = saying.of(says).replace('@', &exercise.text_of("title").to_lowercase());
            let end = prose_lines_at(&week.text).last().unwrap().end;
            let ground = insert(&week.text, end, &format!(" {sentence}"));
            let value = written(field, other(field, says, draw));
            let text = set_row_dose(&ground, &exercise.id, field, &value);
            let what = format!("{}: {field} = {value}, in words: {sentence}", exercise.id);
            faults.push(Fault::inside(&week.file, what, text).on(Edits::of(&week.file, ground)));
        }
    }
    // And where the demonstration itself says so.
    for week in d.weeks.iter().filter(|week| week.text.contains("one set of it")) {
        for id in week.row_ids() {
            if week.text[row_at(&week.text, &id)].contains("dose = { sets = 1 }") {
                let text = set_row_dose(&week.text, &id, "sets", "2");
                faults.push(Fault::inside(&week.file, format!("{id} in 2 sets"), text));
            }
        }
    }
    faults
}

/// The focus of the week says a field of the dose of that week: the ground. Then the focus says another number.
pub(super) fn focus_only(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for week in &d.weeks {
        for (exercise, dose) in doses(d, week) {
            let saying = Saying::drawn(draw);
            let Some(says) = amount(&dose, saying.field).filter(|says| *says != (1, 1)) else { continue };
            let row = row_at(&week.text, &exercise.id);
            let with = |sentence: &str| {
                let old = &week.text[row.clone()];
                let bare = old.split(", focus = ").next().unwrap().trim_end_matches(" },\n");
                put(&week.text, row.clone(), &format!("{bare}, focus = \"{sentence}\" }},\n"))
            };
            let new = saying.of(other(saying.field, says, draw));
            let what = format!("{}: {new} for {}", exercise.id, saying.of(says));
            let ground = Edits::of(&week.file, with(&saying.of(says)));
            faults.push(Fault::inside(&week.file, what, with(&new)).on(ground));
        }
    }
    faults
}

/// What leaves no clear day between days of strength work.
const NO_REST: [&[(&str, &str)]; 4] =
    [&[("rest_days", "0")], &[("days", "7"), ("rest_days", "0")], &[("days", "\"3-5\"")], &[("days", "4")]];

pub(super) fn no_rest_day(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for exercise in d.exercises.values().filter(|e| e.text_of("component") == "strength") {
        let changes = *draw.one(&NO_REST);
        let changed = |text: String, (field, value): &(&str, &str)| set_dose(&text, field, value);
        let text = changes.iter().fold(exercise.text.clone(), changed);
        faults.push(Fault::inside(&exercise.file, format!("{changes:?}"), text));
        let dose = blocks_at(&exercise.text, "[dose]").remove(0);
        let line = field_at(&exercise.text, dose, "rest_days").unwrap();
        faults.push(Fault::inside(&exercise.file, "no rest_days", put(&exercise.text, line, "")));
    }
    faults
}

pub(super) fn no_rest_day_in_a_week(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for week in &d.weeks {
        for id in week.row_ids().iter().filter(|id| d.component(id) == "strength") {
            let changes = *draw.one(&NO_REST);
            let changed = |text: String, (field, value): &(&str, &str)| set_row_dose(&text, id, field, value);
            let text = changes.iter().fold(week.text.clone(), changed);
            faults.push(Fault::inside(&week.file, format!("{id}: {changes:?}"), text));
        }
    }
    faults
}

/// Every sentence with a word on breathing in the fields and the prose, replaced by one without.
fn breathless(text: &str) -> String {
    const WORDS: [&str; 5] = ["breath", "exhal", "inhal", "out loud", "to talk"];
    let calm = |passage: &str| {
        let sentences = passage.split_inclusive(". ").map(|sentence| {
            let small = sentence.to_lowercase();
            if !WORDS.iter().any(|word| small.contains(word)) {
                return sentence.to_string();
            }
            let end = if sentence.ends_with(". ") { ". " } else { "." };
            format!("Stay calm{end}")
        });
        sentences.collect::<String>()
    };
    let mut places = prose_lines_at(text);
    for line in lines_at(text, fields_at(text), |l| l.starts_with("text = ") || l.starts_with("summary = ")) {
        let from = line.start + text[line.clone()].find('"').unwrap() + 1;
        places.push(from..line.start + text[line].rfind('"').unwrap());
    }
    places.sort_by_key(|place| place.start);
    places.into_iter().rev().fold(text.to_string(), |new, at| {
        // The number of a step stands apart from its words.
        let from = at.start + text[at.clone()].find(". ").filter(|n| *n < 3).map_or(0, |n| n + 2);
        let calm = calm(&text[from..at.end]);
        put(&new, from..at.end, &calm)
    })
}

fn longest_hold(dose: &Table) -> i64 {
    amount(dose, "hold").map_or(0, |(_, high)| high)
}

pub(super) fn breath_removed(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let long = d.exercises.values().filter(|e| longest_hold(e.dose()) >= 10);
    long.map(|e| Fault::inside(&e.file, "breathless", breathless(&e.text))).collect()
}

/// A short hold needs no word on breathing: the ground. Then it is made long, in the exercise or in a week.
pub(super) fn hold_lengthened(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for exercise in d.exercises.values().filter(|e| (1..10).contains(&longest_hold(e.dose()))) {
        let text = breathless(&exercise.text);
        let hold = written("hold", (draw.within(3, 10), draw.within(11, 25)));
        let ground = Edits::of(&exercise.file, text.clone());
        let long = set_dose(&text, "hold", &hold);
        faults.push(Fault::inside(&exercise.file, format!("a hold of {hold}"), long).on(ground.clone()));
        if let Some(week) = d.first_week(&exercise.id).map(|at| &d.weeks[at]) {
            let edits = ground.clone().and(&week.file, set_row_dose(&week.text, &exercise.id, "hold", &hold));
            faults.push(
                Fault::new(format!("{}: {} held {hold}", week.file, exercise.id), edits, &week.file)
                    .on(ground),
            );
        }
    }
    faults
}

/// More than twice as much as in any week before, and more than 5 minutes more. A week with an exercise whose dose does not
/// say how long a repetition takes is left alone, and so are the weeks behind it.
pub(super) fn jump(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for component in ["posture", "balance", "strength", "power"] {
        let mut most = 0;
        for week in &d.weeks {
            let of_it: Vec<(&Entry, Table)> =
                doses(d, week).into_iter().filter(|(e, _)| e.text_of("component") == component).collect();
            let a_week = |dose: &Table| Some(work(dose)?.1 * amount(dose, "days")?.1);
            let Some(weekly) = of_it.iter().map(|(_, dose)| a_week(dose)).collect::<Option<Vec<i64>>>()
            else {
                break;
            };
            let now: i64 = weekly.iter().sum();
            for ((exercise, dose), its) in of_it.iter().zip(&weekly).filter(|_| most > 0) {
                let sets = amount(dose, "sets").map_or(1, |(_, high)| high);
                let total = |new: &i64| now - its + its * new / sets;
                if let Some(new) = (1..=20).find(|new| total(new) > 2 * most + 60 && total(new) > most + 360)
                {
                    let text = set_row_dose(&week.text, &exercise.id, "sets", &new.to_string());
                    faults.push(Fault::inside(&week.file, format!("{} in {new} sets", exercise.id), text));
                }
            }
            most = most.max(now);
        }
    }
    faults
}
