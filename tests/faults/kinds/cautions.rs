//! Faults of what a caution says to the program, and of the form that it sends to.

use std::ops::Range;

use toml::Table;

use super::answers::restricted;
use crate::demonstration::{Demonstration, Entry, texts_of};
use crate::draw::Draw;
use crate::edit::{blocks_at, cut, field_at, put};
use crate::fault::Fault;

/// The cautions of an exercise: where each stands, and its fields.
fn cautions(exercise: &Entry) -> Vec<(Range<usize>, &Table)> {
    let blocks = blocks_at(&exercise.text, "[[caution]]");
    blocks.into_iter().zip(exercise.tables("caution")).collect()
}

/// A caution for somebody with two demands of the exercise or more that matter to him.
pub(super) fn about_removed(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for exercise in d.exercises.values() {
        let demands = exercise.demands();
        let several =
            |p: &String| restricted(p).iter().filter(|(demand, _)| demands.contains(demand)).count() > 1;
        for (block, fields) in cautions(exercise) {
            let Some(at) = field_at(&exercise.text, block, "about") else { continue };
            if !fields.contains_key("form") && texts_of(fields, "for").iter().any(several) {
                let what = format!("without {}", exercise.text[at.clone()].trim_end());
                faults.push(Fault::inside(&exercise.file, what, cut(&exercise.text, vec![at])));
            }
        }
    }
    faults
}

pub(super) fn use_mistyped(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for exercise in d.exercises.values() {
        for (block, fields) in cautions(exercise) {
            let Some(at) = field_at(&exercise.text, block, "use") else { continue };
            let slipped = draw.slip(fields["use"].as_str().unwrap(), &[]);
            let text = put(&exercise.text, at, &format!("use = \"{slipped}\"\n"));
            faults.push(Fault::inside(&exercise.file, slipped, text));
        }
    }
    faults
}

/// The text says to do the form by its title.
pub(super) fn use_removed(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for exercise in d.exercises.values() {
        for (block, fields) in cautions(exercise) {
            let Some(at) = field_at(&exercise.text, block, "use") else { continue };
            let (title, text) = (fields["use"].as_str().unwrap(), fields["text"].as_str().unwrap());
            let is_title = exercise.tables("variation").iter().any(|v| v["title"].as_str() == Some(title));
            if is_title && text.to_lowercase().contains(&format!(" {}", title.to_lowercase())) {
                let what = format!("without use = {title}");
                faults.push(Fault::inside(&exercise.file, what, cut(&exercise.text, vec![at])));
            }
        }
    }
    faults
}

const SENT: [&str; 8] = [
    "Use the seated version.",
    "Use the other version until you feel steady.",
    "Do the first movement instead.",
    "Use the easier version instead.",
    "Do an easier exercise.",
    "Do another exercise in place of it.",
    "Until then do the lighter one.",
    "Do the version in which you sit.",
];

/// A sentence more in a caution that leaves the form as it is.
pub(super) fn sent_in_words(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for exercise in d.exercises.values() {
        for (block, fields) in cautions(exercise) {
            let at = field_at(&exercise.text, block, "text").unwrap();
            if !fields.contains_key("use") {
                let told = format!("{} {}", fields["text"].as_str().unwrap(), draw.one(&SENT));
                let text = put(&exercise.text, at, &format!("text = \"{told}\"\n"));
                faults.push(Fault::inside(&exercise.file, told, text));
            }
        }
    }
    faults
}

/// Its steps, or the word that it keeps those of the exercise.
pub(super) fn steps_removed(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for exercise in d.exercises.values() {
        let used = |title: &str| {
            exercise.tables("caution").iter().any(|c| c.get("use").and_then(|u| u.as_str()) == Some(title))
        };
        let blocks = blocks_at(&exercise.text, "[[variation]]");
        for (block, fields) in blocks.into_iter().zip(exercise.tables("variation")) {
            let title = fields["title"].as_str().unwrap();
            if !used(title) {
                continue;
            }
            let lines = match field_at(&exercise.text, block.clone(), "steps") {
                // Its items stand in the lines below.
                Some(at) if exercise.text[at.clone()].trim_end() == "steps = [" => {
                    at.start
                        ..at.start + exercise.text[at.start..block.end].find("\n]\n").unwrap() + "\n]\n".len()
                }
                Some(at) => at,
                None => field_at(&exercise.text, block, "keeps_steps").unwrap(),
            };
            faults.push(Fault::inside(
                &exercise.file,
                format!("{title} without steps"),
                cut(&exercise.text, vec![lines]),
            ));
        }
    }
    faults
}
