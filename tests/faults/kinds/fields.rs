//! Slips in the fields.

use std::ops::Range;

use crate::demonstration::{Demonstration, SERIES};
use crate::draw::Draw;
use crate::edit::{field_at, fields_at, insert, lines_at, put};
use crate::fault::{Edits, Fault};

/// Every name of a field that the README lists.
const NAMES: [&str; 62] = [
    "title",
    "summary",
    "component",
    "position",
    "support",
    "equipment",
    "demands",
    "dose",
    "variation",
    "regression",
    "progression",
    "caution",
    "figure",
    "reviewed",
    "accept",
    "by",
    "on",
    "text",
    "removes",
    "adds",
    "exercise",
    "for",
    "level",
    "file",
    "description",
    "caption",
    "finding",
    "because",
    "reps",
    "hold",
    "time",
    "sets",
    "sides",
    "rest",
    "pace",
    "days",
    "rest_days",
    "effort",
    "week",
    "date",
    "exercises",
    "question",
    "video",
    "id",
    "at",
    "focus",
    "address",
    "length",
    "captions",
    "audience",
    "start",
    "serves",
    "targets",
    "order",
    "language",
    "theme",
    "educator",
    "print",
    "rules",
    "demand",
    "precaution",
    "name",
];

/// Where the names of fields and tables stand, in the lines that open with one and inside rows.
fn names_at(text: &str, fields: Range<usize>) -> Vec<Range<usize>> {
    let mut found = Vec::new();
    for line in lines_at(text, fields, |line| !line.is_empty() && !line.starts_with('#')) {
        let inside = &text[line.clone()];
        if inside.starts_with('[') {
            let name = inside.trim_matches(['[', ']', '\n']);
            let start = line.start + inside.find(name).unwrap();
            found.push(start..start + name.len());
            continue;
        }
        // Not within quotes: every second part between quotes is a text.
        let mut at = line.start;
        for (number, part) in inside.split('"').enumerate() {
            for (equals, _) in part.match_indices(" = ").filter(|_| number % 2 == 0) {
                let name = part[..equals].rsplit([' ', '{', ',']).next().unwrap();
                found.push(at + equals - name.len()..at + equals);
            }
            at += part.len() + 1;
        }
    }
    found
}

/// Every file with fields, and where they stand.
fn with_fields(d: &Demonstration) -> Vec<(&str, &str, Range<usize>)> {
    let entries = d.entries().map(|e| (e.file.as_str(), e.text.as_str(), fields_at(&e.text)));
    let whole = ["site.toml", SERIES].map(|file| (file, d.texts[file].as_str(), 0..d.texts[file].len()));
    entries.chain(whole).collect()
}

pub(super) fn name_mistyped(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (file, text, fields) in with_fields(d) {
        for at in names_at(text, fields) {
            let name = &text[at.clone()];
            let slipped = draw.slip(name, &NAMES);
            faults.push(Fault::inside(file, format!("{slipped} for {name}"), put(text, at, &slipped)));
        }
    }
    faults
}

/// Words of the closed lists, as the README has them.
const WORDS: [&str; 66] = [
    "posture",
    "balance",
    "strength",
    "power",
    "lying",
    "side-lying",
    "prone",
    "kneeling",
    "hands-and-knees",
    "seated",
    "standing",
    "counter",
    "wall",
    "chair",
    "doorway",
    "rail",
    "partner",
    "both-together",
    "each",
    "alternating",
    "everyone",
    "stop",
    "adapt",
    "ask",
    "floor-transfer",
    "lying-flat",
    "lying-prone",
    "end-range-flexion",
    "loaded-flexion",
    "end-range-twist",
    "end-range-extension",
    "overhead-reach",
    "overhead-load",
    "wrist-load",
    "deep-knee-bend",
    "deep-hip-bend",
    "crossing-midline",
    "single-leg-stance",
    "narrow-stance",
    "eyes-closed",
    "head-turn",
    "head-below-heart",
    "quick-rise",
    "long-hold",
    "breath-strain",
    "heavy-load",
    "impact-low",
    "impact-moderate",
    "impact-high",
    "low-bone-density",
    "spine-fracture",
    "rounded-upper-back",
    "high-blood-pressure",
    "dizzy-on-standing",
    "unsteady",
    "no-floor",
    "hip-replacement",
    "knee-replacement",
    "knee-arthritis",
    "wrist-fracture",
    "shoulder-pain",
    "pelvic-floor-symptoms",
    "dizziness",
    "glaucoma",
    "spinal-stenosis",
    "foot-numbness",
];

pub(super) fn word_mistyped(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (file, text, fields) in with_fields(d) {
        let closed = [
            "component",
            "position",
            "support",
            "sides",
            "demands",
            "removes",
            "adds",
            "for",
            "level",
            "serves",
            "extents",
            "papers",
        ];
        for line in
            lines_at(text, fields, |line| closed.iter().any(|name| line.starts_with(&format!("{name} = "))))
        {
            let mut at = line.start;
            for (number, part) in text[line].split('"').enumerate() {
                if number % 2 == 1 {
                    let slipped = draw.slip(part, &WORDS);
                    faults.push(Fault::inside(
                        file,
                        format!("{slipped} for {part}"),
                        put(text, at..at + part.len(), &slipped),
                    ));
                }
                at += part.len() + 1;
            }
        }
    }
    faults
}

/// Values of another kind than their fields hold.
const MISWRITTEN: [(&str, &[&str]); 9] = [
    ("reps", &["\"12-8\"", "\"ten\"", "0", "\"8 to 12\"", "-3", "8.5"]),
    ("sets", &["0", "\"two\"", "21", "\"2 sets\""]),
    ("hold", &["20", "\"20\"", "\"20 sec\"", "\"5-3 s\"", "\"s\""]),
    ("rest", &["60", "\"1 minute\"", "\"60s.\""]),
    ("days", &["8", "\"daily\"", "\"4-3\"", "0"]),
    ("effort", &["11", "\"hard\"", "\"6-5\""]),
    ("date", &["\"2027-02-15\"", "20270215", "\"Monday\""]),
    ("week", &["\"seven\"", "0", "\"7\"", "7.5"]),
    ("start", &["\"2027-01-04\"", "\"soon\""]),
];

pub(super) fn value_miswritten(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (file, text, fields) in with_fields(d) {
        for (name, values) in MISWRITTEN {
            let Some(line) = field_at(text, fields.clone(), name) else { continue };
            let value = draw.one(values);
            let new = format!("{name} = {value}\n");
            faults.push(Fault::inside(file, new.trim_end(), put(text, line, &new)));
        }
    }
    faults
}

/// Fields that the README calls required, without titles.
const REQUIRED: [(&str, &[&str]); 3] = [
    ("content/exercises/", &["summary", "component", "position", "demands"]),
    ("content/series/lantern-hill/week-", &["week", "date"]),
    (SERIES, &["summary", "audience", "start", "serves"]),
];

pub(super) fn required_removed(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (file, text, fields) in with_fields(d) {
        let Some((_, required)) = REQUIRED.iter().find(|(start, _)| file.starts_with(start)) else {
            continue;
        };
        let name = draw.one(required);
        let line = field_at(text, fields, name).unwrap();
        faults.push(Fault::inside(file, format!("no {name}"), put(text, line, "")));
    }
    // The text and the level of a caution, the title and the text of a variation.
    for exercise in d.exercises.values() {
        let inside = lines_at(&exercise.text, fields_at(&exercise.text), |line| line.starts_with("level = "));
        let line = draw.one(&inside).clone();
        faults.push(Fault::inside(&exercise.file, "a caution without level", put(&exercise.text, line, "")));
    }
    faults
}

pub(super) fn title_removed(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let without = |(file, text, fields): (&str, &str, Range<usize>)| {
        Fault::inside(file, "no title", put(text, field_at(text, fields, "title").unwrap(), ""))
    };
    with_fields(d).into_iter().map(without).collect()
}

/// Without the line that opens the fields, empty, or with a quote lost.
pub(super) fn unreadable(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for entry in d.entries() {
        let (what, text) = match draw.below(3) {
            0 => ("without its opening", entry.text.replacen("```toml\n", "", 1)),
            1 => ("empty", "\n".to_string()),
            _ => ("without its closing", entry.text.replacen("\n```\n", "\n", 1)),
        };
        faults.push(Fault::inside(&entry.file, what, text));
    }
    faults
}

/// With a capital letter, or in a folder of its own. Told at one of the two.
pub(super) fn copied(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for entry in d.exercises.values().chain(&d.pages) {
        let (folder, name) = entry.file.rsplit_once('/').unwrap();
        let copy = match draw.below(2) {
            0 => format!("{folder}/{}{}", name[..1].to_uppercase(), &name[1..]),
            _ => format!("{folder}/old/{name}"),
        };
        let edits = Edits::of(&copy, entry.text.clone());
        let files = vec![entry.file.clone(), copy.clone()];
        faults.push(Fault { what: copy, ground: Edits::default(), edits, files });
    }
    faults
}

/// An exception in an entry that has nothing to accept.
pub(super) fn needless_exception(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    const FINDINGS: [&str; 9] = [
        "missing-caution",
        "dose-mismatch",
        "long-sentence",
        "broken-link",
        "unanswered-demand impact-low",
        "review-overdue",
        "week-gap",
        "below-target",
        "hard-to-read",
    ];
    let mut faults = Vec::new();
    for (file, text, fields) in with_fields(d).into_iter().filter(|(file, ..)| *file != "site.toml") {
        let finding = draw.one(&FINDINGS);
        let row = format!("accept = [{{ finding = \"{finding}\", because = \"It is meant so.\" }}]\n");
        let end = field_at(text, fields, "title").unwrap().end;
        faults.push(Fault::inside(file, format!("accepts {finding}"), insert(text, end, &row)));
    }
    faults
}
