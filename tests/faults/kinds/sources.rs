//! Faults of sources, and of the clinical review.

use std::ops::Range;

use jiff::ToSpan;

use crate::TODAY;
use crate::demonstration::Demonstration;
use crate::draw::Draw;
use crate::edit::{blocks_at, field_at, fields_at, insert, lines_at, prose_lines_at, put, row_at};
use crate::fault::{Edits, Fault};

/// Promises of a health effect, as an author in good spirits writes them.
const PROMISES: [&str; 24] = [
    "This builds stronger bones.",
    "It makes your bones denser.",
    "These thuds keep your bones strong.",
    "This slows bone loss.",
    "It lowers your blood pressure.",
    "This brings your blood pressure down.",
    "It prevents falls.",
    "Those who do this fall less often.",
    "It lowers your risk of falling.",
    "This cuts the risk of a hip fracture.",
    "It protects you from fractures.",
    "This reverses osteoporosis (bones that break easily).",
    "It eases back pain.",
    "This gets rid of stiffness and pain.",
    "It relieves knee pain.",
    "You will live longer with it.",
    "This keeps your memory sharp.",
    "It helps you sleep better.",
    "This improves your heart health.",
    "It cures a rounded back.",
    "This straightens your spine.",
    "It reduces your chance of a break in the spine.",
    "Your bones will grow with every stamp.",
    "This is proven to reduce falls.",
];

const CITED: &str = "[@brooke-wavell-2022]";

pub(super) fn key_mistyped(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let bib = &d.texts["content/references.bib"];
    let entry = |line: &str| line.starts_with('@');
    let keys =
        lines_at(bib, 0..bib.len(), entry).into_iter().map(|at| bib[at].split(['{', ',']).nth(1).unwrap());
    let keys: Vec<&str> = keys.collect();
    let mut faults = Vec::new();
    for entry in d.entries() {
        for (at, _) in entry.text.match_indices('@').filter(|(at, _)| entry.text[..*at].ends_with(['[', ' ']))
        {
            let key = entry.text[at + 1..].split([']', ';', ',']).next().unwrap();
            if keys.contains(&key) {
                let slipped = draw.slip(key, &keys);
                let text = put(&entry.text, at + 1..at + 1 + key.len(), &slipped);
                faults.push(Fault::inside(&entry.file, format!("{slipped} for {key}"), text));
            }
        }
    }
    faults
}

/// A paragraph that promises something and cites a source: the ground. Then the source goes.
pub(super) fn source_removed(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for entry in d.entries() {
        let promise = draw.one(&PROMISES);
        let lines = prose_lines_at(&entry.text);
        let plain = |line: &&Range<usize>| entry.text[(*line).clone()].starts_with(char::is_uppercase);
        let Some(line) = lines.iter().find(plain) else { continue };
        let with = |source: &str| insert(&entry.text, line.start, &format!("{promise}{source}\n\n"));
        let ground = Edits::of(&entry.file, with(&format!(" {CITED}")));
        faults.push(Fault::inside(&entry.file, format!("{promise} without a source"), with("")).on(ground));
    }
    faults
}

/// The sources of a paragraph go that tells what somebody found or advises.
pub(super) fn evidence_uncited(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    const WHO: [&str; 7] = ["expert", "experts", "trial", "trials", "guideline", "guidelines", "panel"];
    let mut faults = Vec::new();
    for entry in d.entries() {
        for line in prose_lines_at(&entry.text) {
            let paragraph = &entry.text[line.clone()];
            let words = paragraph.to_lowercase();
            let mut words = words.split(|c: char| !c.is_alphabetic());
            if paragraph.contains("[@") && words.any(|word| WHO.contains(&word)) {
                let bare: String = paragraph.split(" [@").enumerate().map(without_key).collect();
                faults.push(Fault::inside(&entry.file, bare.clone(), put(&entry.text, line, &bare)));
            }
        }
    }
    faults
}

fn without_key((number, part): (usize, &str)) -> String {
    if number == 0 { part.to_string() } else { part.split_once(']').unwrap().1.to_string() }
}

/// In a summary, a caution, another way, or a focus.
pub(super) fn promise_added(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for exercise in d.exercises.values() {
        let promise = draw.one(&PROMISES);
        let (table, field) =
            *draw.one(&[("", "summary"), ("[[caution]]", "text"), ("[[variation]]", "text")]);
        let table = match table {
            "" => fields_at(&exercise.text),
            heading => blocks_at(&exercise.text, heading).remove(0),
        };
        let line = field_at(&exercise.text, table, field).unwrap();
        let text = insert(&exercise.text, line.end - 2, &format!(" {promise}"));
        faults.push(Fault::inside(&exercise.file, format!("{field}: {promise}"), text));
    }
    for week in &d.weeks {
        let promise = draw.one(&PROMISES);
        let row = row_at(&week.text, &week.row_ids()[0]);
        let old = week.text[row.clone()].split(", focus = ").next().unwrap().trim_end_matches(" },\n");
        let text = put(&week.text, row.clone(), &format!("{old}, focus = \"{promise}\" }},\n"));
        faults.push(Fault::inside(&week.file, format!("focus: {promise}"), text));
    }
    faults
}

pub(super) fn review_too_old(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for exercise in d.exercises.values() {
        let line = field_at(&exercise.text, fields_at(&exercise.text), "reviewed").unwrap();
        let days = if draw.below(4) == 0 { draw.within(1, 400) } else { -draw.within(367, 1500) };
        let date = TODAY.checked_add(days.days()).unwrap();
        let (reviewed, _) = exercise.text[line.clone()].split_once("on = ").unwrap();
        let text = put(&exercise.text, line.clone(), &format!("{reviewed}on = {date} }}\n"));
        faults.push(Fault::inside(&exercise.file, format!("reviewed on {date}"), text));
    }
    faults
}
