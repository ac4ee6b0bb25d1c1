//! Mistakes in the grammar of the fields: one finding for one slip, in words an author can act on.

use std::ops::Range;

use super::messages::Slip;
use super::values::other_day;
use crate::model::nearest::shown;

/// A mistake as it is told to the author.
pub(super) struct SyntaxMistake {
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
    pub(super) fn of(fields: &str, errors: &[toml::de::Error]) -> (Mistakes, Vec<SyntaxMistake>) {
        let mut found: Vec<Mistake> = errors.iter().map(Mistake::of).collect();
        found.sort_by_key(|mistake| mistake.at.start);
        let mut mistakes = Mistakes::default();
        if found.iter().any(|mistake| mistake.slip == Slip::UnclosedList) {
            let first = found.iter().find(|m| matches!(m.slip, Slip::UnclosedList | Slip::InList));
            mistakes.lost_from = first.map(|mistake| mistake.at.start);
        }
        mistakes.lost_heading = found.iter().any(|mistake| mistake.slip == Slip::Heading);
        let mut told: Vec<SyntaxMistake> = Vec::new();
        let mut last_told: Option<&Mistake> = None;
        // The end of a heading that stands twice, and of the names below it that therefore do too.
        let mut twice: Option<usize> = None;
        let mut line_told: Option<usize> = None;
        for mistake in &found {
            let at = &mistake.at;
            if mistakes.lost_from.is_some_and(|lost| at.start > lost) {
                break;
            }
            let line = line_start(fields, at.start);
            let again = line_told.replace(line) == Some(line);
            if mistake.slip == Slip::Twice {
                let below = twice.is_some_and(|end| !fields[end..at.start].contains("\n["));
                if below || fields[line..].trim_start().starts_with('[') {
                    twice = Some(at.end);
                }
                if below {
                    continue;
                }
            }
            // A text whose quote is missing takes the end of its list with it.
            let begun = last_told.filter(|m| mistakes.lost_from == Some(at.start) && m.at.end <= at.start);
            let swallowed = begun.is_some_and(|m| {
                matches!(m.slip, Slip::Text | Slip::Unquoted) && fields[m.at.end..at.start].trim().is_empty()
            });
            if !again && !swallowed {
                told.push(tell(fields, mistake, mistakes.lost_from));
                last_told = Some(mistake);
            }
        }
        mistakes.places = found.into_iter().map(|mistake| mistake.at).collect();
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

/// A mistake as the library tells it.
struct Mistake {
    at: Range<usize>,
    slip: Slip,
    /// In the library's words, which an author reads and nothing else does.
    what: String,
}

impl Mistake {
    fn of(error: &toml::de::Error) -> Mistake {
        let what = error.message().trim();
        Mistake { at: error.span().unwrap_or(0..0), slip: Slip::of(what), what: what.to_lowercase() }
    }
}

fn tell(fields: &str, Mistake { at, slip, what }: &Mistake, lost_from: Option<usize>) -> SyntaxMistake {
    let name = |end: usize| fields[line_start(fields, end)..end].trim();
    let text = &fields[at.clone()];
    let told = |message: String, help: String| SyntaxMistake { at: at.clone(), message, help };
    if lost_from == Some(at.start) {
        return told(
            "the list before this place never closes".to_string(),
            "put `]` after the last value of the list".to_string(),
        );
    }
    if *slip == Slip::Twice {
        return told(format!("{} is written twice", shown(text)), "keep one of the two".to_string());
    }
    if text == ":" {
        return told(
            format!("expected `=` after {}, found `:`", shown(name(at.start))),
            "write `name = value`".to_string(),
        );
    }
    if let Some(name) = name(at.start).strip_suffix('=').filter(|_| text.is_empty()) {
        let name = name.trim_end();
        return told(
            format!("expected a value after {}, found none", shown(name)),
            "write a value after `=`".to_string(),
        );
    }
    let message = format!("the fields cannot be read here: {what}");
    if let Some(help) = of_value(value_around(fields, at)) {
        return told(message, help);
    }
    let help = match slip {
        Slip::Date => "write a day that the calendar has, as year, month and day, such as 2027-02-15",
        Slip::Unquoted => "put straight quotes around the text, such as `pace = \"4 s\"`",
        _ => "a field is written `name = value`, with text in straight quotes and lists in square brackets",
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
