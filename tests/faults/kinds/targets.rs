//! Weeks with less or more than the published targets. The figures are those of the README's sources: 5 days of posture
//! (Sinaki 2002), 3 of balance (WHO 2020), 2 to 3 of strength (Kohrt 2004), 8 to 15 repetitions and at most 3 sets of a
//! strength exercise (Giangregorio 2015; Nelson 2007).

use crate::demonstration::{Demonstration, Entry};
use crate::draw::Draw;
use crate::edit::set_row_dose;
use crate::fault::Fault;
use crate::measure::doses;

pub(super) fn below(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let changes = |exercise: &Entry, draw: &mut Draw| match exercise.text_of("component") {
        "posture" => vec![("days", draw.within(1, 4))],
        "balance" => vec![("days", draw.within(1, 2))],
        "strength" if exercise.dose().contains_key("reps") => vec![("days", 1), ("reps", draw.within(2, 7))],
        "strength" => vec![("days", 1)],
        _ => Vec::new(),
    };
    changed(d, draw, changes)
}

pub(super) fn above(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let changes = |exercise: &Entry, draw: &mut Draw| match exercise.text_of("component") {
        "strength" if exercise.dose().contains_key("reps") => {
            vec![("days", draw.within(4, 7)), ("reps", draw.within(16, 30)), ("sets", draw.within(4, 6))]
        }
        "strength" => vec![("days", draw.within(4, 7)), ("sets", draw.within(4, 6))],
        _ => Vec::new(),
    };
    changed(d, draw, changes)
}

/// Where the week has one exercise of the component only: the days of several add up.
fn changed(
    d: &Demonstration,
    draw: &mut Draw,
    changes: impl Fn(&Entry, &mut Draw) -> Vec<(&'static str, i64)>,
) -> Vec<Fault> {
    let mut faults = Vec::new();
    for week in &d.weeks {
        let all = doses(d, week);
        for (exercise, _) in &all {
            let same = |(other, _): &&(&Entry, toml::Table)| {
                other.fields["component"] == exercise.fields["component"]
            };
            if all.iter().filter(same).count() > 1 {
                continue;
            }
            for (field, value) in changes(exercise, draw) {
                let text = set_row_dose(&week.text, &exercise.id, field, &value.to_string());
                faults.push(Fault::inside(&week.file, format!("{}: {field} = {value}", exercise.id), text));
            }
        }
    }
    faults
}
