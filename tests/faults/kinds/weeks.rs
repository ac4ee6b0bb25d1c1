//! Faults of a series: what its weeks hold, and in which order.

use std::collections::{BTreeMap, BTreeSet};

use crate::demonstration::{Demonstration, Entry, below};
use crate::draw::Draw;
use crate::edit::{field_at, fields_at, insert, put, row_at, rows_at};
use crate::fault::{Edits, Fault};

/// Where a week has one exercise of a component only.
pub(super) fn component_dropped(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for week in &d.weeks {
        let ids = week.row_ids();
        for id in &ids {
            let of_it = ids.iter().filter(|other| d.component(other) == d.component(id)).count();
            if of_it == 1 {
                let text = put(&week.text, row_at(&week.text, id), "");
                faults.push(Fault::inside(&week.file, format!("without {id}"), text));
            }
        }
    }
    faults
}

/// Of two weeks that change places the earlier one now comes after a later one.
pub(super) fn dates_exchanged(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    exchanged(d, "date")
}

pub(super) fn numbers_exchanged(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    exchanged(d, "week")
}

fn exchanged(d: &Demonstration, field: &str) -> Vec<Fault> {
    let line =
        |week: &Entry| week.text[field_at(&week.text, fields_at(&week.text), field).unwrap()].to_string();
    let with = |week: &Entry, new: &str| {
        put(&week.text, field_at(&week.text, fields_at(&week.text), field).unwrap(), new)
    };
    let mut faults = Vec::new();
    for (at, one) in d.weeks.iter().enumerate() {
        for other in &d.weeks[at + 1..] {
            let edits =
                Edits::of(&one.file, with(one, &line(other))).and(&other.file, with(other, &line(one)));
            let what = format!("`{field}` of {} and {}", one.file, other.file);
            let files = vec![one.file.clone(), other.file.clone()];
            faults.push(Fault { what, ground: Edits::default(), edits, files });
        }
    }
    faults
}

/// Without the last week nothing is missing. The gap shows at the week behind it.
pub(super) fn lost(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let pairs = d.weeks.windows(2);
    pairs.map(|pair| Fault::new(&pair[0].file, Edits::without(&pair[0].file), &pair[1].file)).collect()
}

/// A number that another week has, or one beyond the last: found at that week, or at the one behind the gap.
pub(super) fn renumbered(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let count = d.weeks.len() as i64;
    let mut faults = Vec::new();
    for (at, week) in d.weeks.iter().enumerate() {
        let number = at as i64 + 1;
        let new = loop {
            let new = draw.within(1, count + 9);
            // The last week as the next but one is a gap too, and as the next is none.
            if new != number && !(number == count && new == count + 1) {
                break new;
            }
        };
        let line = field_at(&week.text, fields_at(&week.text), "week").unwrap();
        let edits = Edits::of(&week.file, put(&week.text, line, &format!("week = {new}\n")));
        let next = d.weeks.get(at + 1).unwrap_or(week);
        let twin = d.weeks.get(new as usize - 1).unwrap_or(week);
        let files = [week, next, twin].map(|w| w.file.clone()).to_vec();
        faults.push(Fault {
            what: format!("{} as week {new}", week.file),
            ground: Edits::default(),
            edits,
            files,
        });
    }
    faults
}

pub(super) fn twice_in_one(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for week in &d.weeks {
        let rows = rows_at(&week.text);
        for id in week.row_ids() {
            let row = week.text[row_at(&week.text, &id)].to_string();
            let at = draw.one(&rows).start;
            faults.push(Fault::inside(&week.file, format!("{id} twice"), insert(&week.text, at, &row)));
        }
    }
    faults
}

/// Where the next week does not have it in another dose.
pub(super) fn again_the_same(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for pair in d.weeks.windows(2) {
        let (week, next) = (&pair[0], &pair[1]);
        for id in week.row_ids().iter().filter(|id| !next.row_ids().contains(id)) {
            let row = &week.text[row_at(&week.text, id)];
            let text = insert(&next.text, rows_at(&next.text)[0].start, row);
            faults.push(Fault::inside(&next.file, format!("{id} again"), text));
        }
    }
    faults
}

/// In place of an exercise of the same component, in a week before which neither the exercise nor any rung below it was
/// used.
pub(super) fn rung_too_early(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let links = d.links();
    let mut faults = Vec::new();
    for (at, week) in d.weeks.iter().enumerate() {
        let before = d.used_before(at);
        for id in d.exercises.keys().filter(|id| is_too_early(&below(&links, id), id, &before)) {
            let same = |row: &&String| d.component(row) == d.component(id);
            if let Some(row) = week.row_ids().iter().find(same) {
                let text = put(&week.text, row_at(&week.text, row), &format!("  {{ id = \"{id}\" }},\n"));
                faults.push(Fault::inside(&week.file, format!("{id} in place of {row}"), text));
            }
        }
    }
    faults
}

fn is_too_early(below: &BTreeSet<String>, id: &str, before: &BTreeSet<String>) -> bool {
    !below.is_empty() && !before.contains(id) && below.is_disjoint(before)
}

/// Where the earlier of the two weeks gets an exercise too early.
pub(super) fn exercises_exchanged(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let links = d.links();
    let below: BTreeMap<&String, BTreeSet<String>> =
        d.exercises.keys().map(|id| (id, below(&links, id))).collect();
    let rows = |week: &Entry| {
        let rows = rows_at(&week.text);
        rows[0].start..rows[rows.len() - 1].end
    };
    let mut faults = Vec::new();
    for (at, one) in d.weeks.iter().enumerate() {
        let before = d.used_before(at);
        for other in &d.weeks[at + 1..] {
            if !other.row_ids().iter().any(|id| is_too_early(&below[id], id, &before)) {
                continue;
            }
            let with = |week: &Entry, from: &Entry| put(&week.text, rows(week), &from.text[rows(from)]);
            let edits = Edits::of(&one.file, with(one, other)).and(&other.file, with(other, one));
            faults.push(Fault::new(format!("{} and {}", one.file, other.file), edits, &one.file));
        }
    }
    faults
}
