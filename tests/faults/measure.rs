//! How much a dose asks for, reckoned anew from what the fields say.

use toml::{Table, Value};

use crate::demonstration::{Demonstration, Entry};

/// From low to high: a count such as 8 or "8-12", or seconds such as "3-5 s".
pub(crate) fn range(value: &Value) -> (i64, i64) {
    if let Some(number) = value.as_integer() {
        return (number, number);
    }
    let text = value.as_str().unwrap();
    let (numbers, each) = match text.split_once(' ') {
        Some((numbers, "min")) => (numbers, 60),
        Some((numbers, _)) => (numbers, 1),
        None => (text, 1),
    };
    let number = |text: &str| text.parse::<i64>().unwrap() * each;
    let (low, high) = numbers.split_once('-').unwrap_or((numbers, numbers));
    (number(low), number(high))
}

/// What a field of a dose says, if anything.
pub(crate) fn amount(dose: &Table, field: &str) -> Option<(i64, i64)> {
    dose.get(field).map(range)
}

/// The repetitions of a session in all sets and on both sides.
pub(crate) fn reps(dose: &Table) -> (i64, i64) {
    let sides = if dose.get("sides").and_then(Value::as_str) == Some("each") { 2 } else { 1 };
    let (reps, sets) = (amount(dose, "reps").unwrap_or((1, 1)), amount(dose, "sets").unwrap_or((1, 1)));
    (reps.0 * sets.0 * sides, reps.1 * sets.1 * sides)
}

/// Seconds of work in a session; none where the dose does not say how long a repetition takes.
pub(crate) fn work(dose: &Table) -> Option<(i64, i64)> {
    if let Some(time) = amount(dose, "time") {
        let sets = amount(dose, "sets").unwrap_or((1, 1));
        return Some((time.0 * sets.0, time.1 * sets.1));
    }
    let (pace, hold) = (amount(dose, "pace"), amount(dose, "hold"));
    let one = pace.or(hold)?;
    let (one, reps) = (hold.map_or(one, |hold| (one.0.max(hold.0), one.1.max(hold.1))), reps(dose));
    Some((one.0 * reps.0, one.1 * reps.1))
}

/// The dose of an exercise as a row of a week changes it.
pub(crate) fn dose_in(exercise: &Entry, row: &Table) -> Table {
    let mut dose = exercise.dose().clone();
    if let Some(changes) = row.get("dose").and_then(Value::as_table) {
        dose.extend(changes.clone());
    }
    dose
}

/// The exercises of a week with their doses in that week.
pub(crate) fn doses<'d>(d: &'d Demonstration, week: &Entry) -> Vec<(&'d Entry, Table)> {
    let exercise = |row: &Table| &d.exercises[row["id"].as_str().unwrap()];
    week.rows().into_iter().map(|row| (exercise(row), dose_in(exercise(row), row))).collect()
}
