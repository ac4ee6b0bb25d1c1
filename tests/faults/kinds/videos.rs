//! Faults of a week's video: its parts, its captions, and who is named beside it.

use std::ops::Range;

use crate::demonstration::{Demonstration, Entry};
use crate::draw::Draw;
use crate::edit::{blocks_at, field_at, fields_at, insert, lines_at, put, rows_at, set};
use crate::fault::{Edits, Fault};

/// The value of `at` in each row of a week, in seconds, with its place.
fn places_of(week: &Entry) -> Vec<(u32, Range<usize>)> {
    let place = |row: Range<usize>| {
        let at = row.start + week.text[row.clone()].find("at = \"")? + "at = \"".len();
        let end = at + week.text[at..].find('"')?;
        Some((seconds(&week.text[at..end]), at..end))
    };
    rows_at(&week.text).into_iter().filter_map(place).collect()
}

fn seconds(clock: &str) -> u32 {
    clock.split(':').fold(0, |sum, part| sum * 60 + part.parse::<u32>().unwrap())
}

fn clock(seconds: u32) -> String {
    format!("{}:{:02}", seconds / 60, seconds % 60)
}

fn length_of(week: &Entry) -> u32 {
    seconds(week.fields["video"]["length"].as_str().unwrap())
}

/// An exercise at a moment before the one above it, or at the same.
pub(super) fn out_of_order(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for week in &d.weeks {
        for pair in places_of(week).windows(2) {
            let [(above, _), (_, place)] = pair else { continue };
            let new = clock(draw.within(0, i64::from(*above)) as u32);
            let text = put(&week.text, place.clone(), &new);
            faults.push(Fault::inside(&week.file, format!("one at {new}"), text));
        }
    }
    faults
}

pub(super) fn after_the_end(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for week in &d.weeks {
        let (_, place) = places_of(week).pop().unwrap();
        let new = clock(length_of(week) + draw.below(600) as u32);
        faults.push(Fault::inside(&week.file, format!("the last at {new}"), put(&week.text, place, &new)));
    }
    faults
}

pub(super) fn without_a_place(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for week in &d.weeks {
        for (at, place) in places_of(week) {
            let whole = place.start - ", at = \"".len()..place.end + 1;
            let text = put(&week.text, whole, "");
            faults.push(Fault::inside(&week.file, format!("the one at {}", clock(at)), text));
        }
    }
    faults
}

/// The exercise before the last, where a fifth of its chapter is less than half of its repetitions and holds alone.
pub(super) fn short_chapter(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for week in &d.weeks {
        let ids = week.row_ids();
        for (row, id) in week.rows().into_iter().zip(&ids) {
            let own = d.exercises[id].dose();
            let of_week = row.get("dose").and_then(toml::Value::as_table);
            let field = |name: &str| of_week.and_then(|dose| dose.get(name)).or_else(|| own.get(name));
            let low = |name: &str| field(name).map_or(1, |value| first_number(&value.to_string()));
            let held = low("hold") * u32::from(field("hold").is_some());
            let one = held.max(low("pace") * u32::from(field("pace").is_some()));
            let sides = if field("sides").and_then(toml::Value::as_str) == Some("each") { 2 } else { 1 };
            let work = one * low("reps") * low("sets") * sides;
            let at = ids.iter().position(|other| other == id).unwrap();
            let places = places_of(week);
            if let (Some((start, _)), Some((_, next))) = (places.get(at), places.get(at + 1))
                && work >= 20
            {
                let new = clock(start + work / 2 - 5);
                let text = put(&week.text, next.clone(), &new);
                faults.push(Fault::inside(&week.file, format!("{id} up to {new}"), text));
            }
        }
    }
    faults
}

fn first_number(text: &str) -> u32 {
    let digits: String =
        text.chars().skip_while(|c| !c.is_ascii_digit()).take_while(char::is_ascii_digit).collect();
    digits.parse().unwrap()
}

pub(super) fn captions_unnamed(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let unnamed = |week: &Entry| {
        let line = field_at(&week.text, fields_at(&week.text), "captions").unwrap();
        Fault::inside(&week.file, "without captions", put(&week.text, line, ""))
    };
    d.weeks.iter().map(unnamed).collect()
}

/// A video of the site's own in the place of one elsewhere, as a camera left it.
pub(super) fn filmed_somewhere(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let filmed = |week: &Entry| {
        let name = format!("media/{}.mp4", week.id);
        let line = field_at(&week.text, fields_at(&week.text), "address").unwrap();
        let text = put(&week.text, line, &format!("file = \"{name}\"\n"));
        let media = [name.clone()].into();
        let ground = Edits { media, ..Edits::of(&week.file, text) };
        let edits = Edits { positions: [name.clone()].into(), ..ground.clone() };
        Fault::new(format!("{}: {name}", week.file), edits, &week.file).on(ground)
    };
    d.weeks.iter().map(filmed).collect()
}

/// A line of times with its two ends in milliseconds.
type Timed = (Range<usize>, u64, u64);

/// Of every week its captions: the file, its text, and the lines of times.
fn captions(d: &Demonstration) -> Vec<(&String, &String, Vec<Timed>)> {
    let files = d.texts.iter().filter(|(name, _)| name.ends_with(".vtt"));
    let timed = |text: &String| {
        let lines = lines_at(text, 0..text.len(), |line| line.contains(" --> "));
        let ends = |at: Range<usize>| {
            let (start, end) = text[at.clone()].trim_end().split_once(" --> ").unwrap();
            (at, milliseconds(start), milliseconds(end))
        };
        lines.into_iter().map(ends).collect()
    };
    files.map(|(file, text)| (file, text, timed(text))).collect()
}

fn milliseconds(time: &str) -> u64 {
    let (clock, rest) = time.split_once('.').unwrap();
    u64::from(seconds(clock)) * 1000 + rest.parse::<u64>().unwrap()
}

fn times(start: u64, end: u64) -> String {
    let time = |at: u64| format!("{:02}:{:02}.{:03}", at / 60_000, at / 1000 % 60, at % 1000);
    format!("{} --> {}\n", time(start), time(end))
}

pub(super) fn captions_overlap(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (file, text, cues) in captions(d) {
        for pair in cues.windows(2) {
            let [(line, start, _), (_, next, next_end)] = pair else { continue };
            let end = draw.within(*next as i64 + 1, *next_end as i64) as u64;
            let new = put(text, line.clone(), &times(*start, end));
            faults.push(Fault::inside(file, times(*start, end).trim(), new));
        }
    }
    faults
}

/// Captions of more than a few words that stand for a third of a second a word or less.
pub(super) fn captions_too_fast(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (file, text, cues) in captions(d) {
        for (line, start, _) in cues {
            let words = text[line.end..].split("\n\n").next().unwrap().split_whitespace().count() as u64;
            if words >= 5 {
                let new = put(text, line, &times(start, start + words * 300));
                faults.push(Fault::inside(file, format!("{words} words in {} ms", words * 300), new));
            }
        }
    }
    faults
}

/// Two lines of captions written as one, where that is longer than 37 letters.
pub(super) fn captions_too_long(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (file, text, cues) in captions(d) {
        for (line, ..) in cues {
            let words = text[line.end..].split("\n\n").next().unwrap().trim_end();
            if let Some(at) = words.find('\n').filter(|_| words.len() > 50) {
                let at = line.end + at;
                faults.push(Fault::inside(file, words.replace('\n', " "), put(text, at..at + 1, " ")));
            }
        }
    }
    faults
}

/// A video that is said to end before its last captions do. An exercise that is then outside as well is not drawn.
pub(super) fn captions_outside(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (file, _, cues) in captions(d) {
        let week = d.weeks.iter().find(|week| file.contains(&format!("/{}.", week.id))).unwrap();
        let (_, _, end) = cues.last().unwrap();
        let length = format!("\"{}\"", clock((*end / 1000) as u32 - 3));
        let video = blocks_at(&week.text, "[video]").remove(0);
        let edits = Edits::of(&week.file, set(&week.text, video, "length", &length));
        faults.push(Fault::new(format!("{}: {length}", week.file), edits, file));
    }
    faults
}

pub(super) fn thanks_unasked(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let thanked = |week: &Entry| {
        let consent = *draw.one(&["", "consent = false\n"]);
        let block = format!("\n[[thanks]]\nname = \"Ida\"\n{consent}");
        let text = insert(&week.text, fields_at(&week.text).end, &block);
        Fault::inside(&week.file, "Ida thanked", text)
    };
    d.weeks.iter().map(thanked).collect()
}
