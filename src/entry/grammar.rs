//! Mistakes in the grammar of the fields: one finding for one slip, in words an author can act on.

use std::ops::Range;

use super::values::other_day;
use crate::model::nearest::shown;

/// A mistake as it is told to the author.
pub(super) struct Told {
    pub(super) at: Range<usize>,
    pub(super) message: String,
    pub(super) help: String,
}

/// Where the grammar was left, so that nothing else is concluded from those places.
#[derive(Default)]
pub(super) struct Mistakes {
    /// In order of their start.
    places: Vec<Range<usize>>,
    /// A list that never closes takes in all that follows it.
    lost_from: Option<usize>,
    /// A heading in brackets could not be read, so the fields below it stand in another group.
    lost_heading: bool,
}

impl Mistakes {
    /// The mistakes of a block, and those of them that are worth a finding of their own.
    pub(super) fn of(fields: &str, errors: &[toml::de::Error]) -> (Mistakes, Vec<Told>) {
        let mut found: Vec<(Range<usize>, String)> =
            errors.iter().map(|e| (e.span().unwrap_or(0..0), e.message().trim().to_lowercase())).collect();
        found.sort_by_key(|(at, _)| at.start);
        let mut mistakes = Mistakes::default();
        if found.iter().any(|(_, what)| what.starts_with("unclosed array,")) {
            let first =
                found.iter().find(|(_, what)| what.contains("array") && !what.contains("array table"));
            mistakes.lost_from = first.map(|(at, _)| at.start);
        }
        mistakes.lost_heading = found
            .iter()
            .any(|(_, what)| what.contains("unclosed array table") || what.contains("unclosed table"));
        let mut told: Vec<Told> = Vec::new();
        // The end of a heading that stands twice, and of the names below it that therefore do too.
        let mut twice: Option<usize> = None;
        let mut line_told: Option<usize> = None;
        for (at, what) in &found {
            if mistakes.lost_from.is_some_and(|lost| at.start > lost) {
                break;
            }
            let line = line_start(fields, at.start);
            let again = line_told.replace(line) == Some(line);
            if what == "duplicate key" {
                let below = twice.is_some_and(|end| !fields[end..at.start].contains("\n["));
                if below || fields[line..].trim_start().starts_with('[') {
                    twice = Some(at.end);
                }
                if below {
                    continue;
                }
            }
            // A text whose quote is missing takes the end of its list with it.
            let begun = told.last().filter(|t| mistakes.lost_from == Some(at.start) && t.at.end <= at.start);
            let swallowed = begun.is_some_and(|t| {
                t.message.contains("string") && fields[t.at.end..at.start].trim().is_empty()
            });
            if !again && !swallowed {
                told.push(tell(fields, at, what, mistakes.lost_from));
            }
        }
        mistakes.places = found.into_iter().map(|(at, _)| at).collect();
        (mistakes, told)
    }

    pub(super) fn any(&self) -> bool {
        !self.places.is_empty()
    }

    /// True when a mistake touches these bytes, or an unclosed list before them swallowed them.
    pub(super) fn touch(&self, at: Range<usize>) -> bool {
        if self.lost_from.is_some_and(|lost| at.end >= lost) {
            return true;
        }
        let after = self.places.partition_point(|place| place.start <= at.end);
        self.places[..after].last().is_some_and(|place| place.end >= at.start)
    }

    /// True when a field with its name here may only be in the wrong group, or be no name at all.
    pub(super) fn lost(&self, name: Range<usize>) -> bool {
        self.lost_heading || self.touch(name)
    }
}

fn tell(fields: &str, at: &Range<usize>, what: &str, lost_from: Option<usize>) -> Told {
    let name = |end: usize| fields[line_start(fields, end)..end].trim();
    let text = &fields[at.clone()];
    let told = |message: String, help: String| Told { at: at.clone(), message, help };
    if lost_from == Some(at.start) {
        return told(
            "the list before this place never closes".to_string(),
            "put `]` after the last value of the list".to_string(),
        );
    }
    if what == "duplicate key" {
        return told(format!("{} is written twice", shown(text)), "keep one of the two".to_string());
    }
    if text == ":" {
        return told(
            format!("expected `=` after {}, found `:`", shown(name(at.start))),
            "write `name = value`".to_string(),
        );
    }
    if what.starts_with("string values must be quoted") && text.is_empty() {
        let name = name(at.start).trim_end_matches('=').trim_end();
        return told(
            format!("expected a value after {}, found none", shown(name)),
            "write a value after `=`".to_string(),
        );
    }
    let message = format!("the fields cannot be read here: {what}");
    if let Some(help) = of_value(value_around(fields, at)) {
        return told(message, help);
    }
    let is_date =
        ["invalid date", "invalid time", "invalid local", "invalid offset", "expected day", "expected month"];
    let help = if is_date.iter().any(|d| what.contains(d)) {
        "write a day that the calendar has, as year, month and day, such as 2027-02-15"
    } else if what.starts_with("string values must be quoted") {
        "put straight quotes around the text, such as `pace = \"4 s\"`"
    } else {
        "a field is written `name = value`, with text in straight quotes and lists in square brackets"
    };
    told(message, help.to_string())
}

/// The value on whose line a mistake stands, and what follows it there.
fn value_around<'t>(fields: &'t str, at: &Range<usize>) -> &'t str {
    let line = line_start(fields, at.start);
    let start = fields[line..at.start].rfind('=').map_or(line, |sign| line + sign + 1);
    fields[start..].lines().next().unwrap_or_default().trim()
}

/// What to write for a value as others write it: a day with slashes, quotes as a word processor sets them.
fn of_value(value: &str) -> Option<String> {
    const CURLY: [char; 8] = ['“', '”', '„', '‟', '‘', '’', '«', '»'];
    if let Some(text) = value.strip_prefix(CURLY) {
        let text = text.split(CURLY).next().unwrap_or(text);
        let help = "these quotes are curly, as a word processor sets them; write straight ones";
        return Some(format!("{help}: `\"{text}\"`"));
    }
    other_day(value.split([',', '}', ']', '#']).next()?)
}

/// Where the line of a byte starts.
fn line_start(fields: &str, at: usize) -> usize {
    fields[..at.min(fields.len())].rfind('\n').map_or(0, |feed| feed + 1)
}
