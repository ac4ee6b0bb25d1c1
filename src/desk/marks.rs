//! What the review found, at the fields of an entry.

use std::collections::BTreeMap;
use std::ops::Range;

use serde::Serialize;

use super::Room;
use super::form::Control;
use crate::entry::Parts;
use crate::model::finding::{Finding, Level};

/// A finding as a form shows it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub(super) struct Mark {
    pub(super) level: &'static str,
    pub(super) message: String,
    pub(super) help: String,
}

impl Mark {
    pub(super) fn of(finding: &Finding) -> Mark {
        Mark {
            level: finding.level.word(),
            message: sentence(&finding.message),
            help: sentence(&finding.help),
        }
    }

    /// Why something that she asked for was not done.
    pub(super) fn refusing(why: &str) -> Mark {
        Mark { level: "error", message: sentence(why), help: String::new() }
    }
}

/// A message begins in lower case and has no full stop, as reports have it; on the desk it is a sentence.
pub(super) fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(|c| c.to_uppercase().collect::<String>()).unwrap_or_default();
    let end = if text.ends_with(['.', '?', '!', ':']) { "" } else { "." };
    format!("{first}{}{end}", letters.as_str())
}

/// The findings of the last review in an entry that still says what was reviewed.
pub(super) fn findings<'r>(room: &Room<'r>, name: &str) -> Vec<&'r Finding> {
    let Some((review, sources)) = room.reviewed else { return Vec::new() };
    let Some(file) = sources.find(name) else { return Vec::new() };
    let now = room.edition.sources();
    if now.find(name).is_none_or(|id| now.get(id).text != sources.get(file).text) {
        return Vec::new();
    }
    review.findings.iter().filter(|finding| finding.span.file == file).collect()
}

/// Where each field and section of an entry stands.
fn spans(parts: &Parts) -> BTreeMap<String, Range<usize>> {
    let fields = parts.places.iter().cloned();
    let sections = parts.sections.iter().map(|section| (format!("## {}", section.title), section.at.clone()));
    fields.chain(sections).collect()
}

/// The place of the smallest field that a finding is in.
fn place_of(finding: &Finding, spans: &BTreeMap<String, Range<usize>>) -> Option<String> {
    let start = finding.span.start as usize;
    let around = spans.iter().filter(|(_, at)| at.contains(&start) || at.start == start);
    around.min_by_key(|(_, at)| at.len()).map(|(place, _)| place.clone())
}

/// Puts each finding at the control that it is about; those of no control are returned.
pub(super) fn put(controls: &mut [&mut Control], findings: &[&Finding], parts: &Parts) -> Vec<Mark> {
    let spans = spans(parts);
    let mut rest = Vec::new();
    for finding in findings {
        let place = place_of(finding, &spans);
        let near = |control: &&mut &mut Control| {
            place.as_deref().is_some_and(|place| {
                place == control.place
                    || place.strip_prefix(&control.place).is_some_and(|rest| rest.starts_with('.'))
            })
        };
        match controls.iter_mut().find(near) {
            Some(control) => control.found.push(Mark::of(finding)),
            None => rest.push(Mark::of(finding)),
        }
    }
    rest
}

/// How many findings of each level there are, in words.
pub(super) fn counted(findings: &[&Finding]) -> String {
    let of = |level: Level, one: &str, many: &str| match findings.iter().filter(|f| f.level == level).count()
    {
        0 => None,
        1 => Some(format!("1 {one}")),
        n => Some(format!("{n} {many}")),
    };
    let parts = [
        of(Level::Error, "thing to mend", "things to mend"),
        of(Level::Warning, "thing to look at", "things to look at"),
        of(Level::Note, "note", "notes"),
    ];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    if parts.is_empty() { "Nothing found".to_string() } else { parts.join(", ") }
}
