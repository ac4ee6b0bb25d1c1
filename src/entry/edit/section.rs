//! The prose of an entry with another text in one of its parts.

use std::ops::Range;

use super::Unchanged;
use crate::entry::prose::read_alone;

/// The parts of a prose: what stands before the first section, then each section with its title, where its heading begins,
/// and where what is below it stands.
type Parts = (Range<usize>, Vec<(String, usize, Range<usize>)>);

fn parts(prose: &str) -> Parts {
    let read = read_alone(prose);
    let sections: Vec<_> = read
        .sections
        .iter()
        .map(|section| {
            (section.title.value.clone(), section.heading.span.range().start, section.body.range())
        })
        .collect();
    let end = sections.first().map_or(prose.len(), |(_, start, _)| *start);
    (0..end, sections)
}

/// Of prose beyond the limits nothing is read, and none of it may be taken for a part.
fn refuse_unread(prose: &str) -> Result<(), Unchanged> {
    const LONG: usize = 5_000;
    let read = read_alone(prose);
    let is_unread = prose.len() > LONG && read.opening.is_empty() && read.sections.is_empty();
    if is_unread { Err(Unchanged::Unread) } else { Ok(()) }
}

/// What each part says, its blank lines at both ends left out.
fn said(prose: &str) -> Vec<(String, String)> {
    let (opening, sections) = parts(prose);
    let inner = |at: Range<usize>| prose[at].trim_matches('\n').to_string();
    let sections = sections.into_iter().map(|(title, _, body)| (title, inner(body)));
    std::iter::once((String::new(), inner(opening))).chain(sections).collect()
}

/// The prose with another text below the heading of a section, or without the section.
///
/// # Errors
/// When the text would be read as something else.
pub(super) fn with_section(prose: &str, title: &str, text: Option<&str>) -> Result<String, Unchanged> {
    refuse_unread(prose)?;
    let (_, sections) = parts(prose);
    let before = said(prose);
    let mut meant = before.clone();
    // As the reader does: in letters of either case.
    let place = sections.iter().position(|(known, ..)| known.to_lowercase() == title.to_lowercase());
    let words = text.map(|text| text.trim_matches('\n'));
    let new = match (place, words) {
        (None, None) => return Ok(prose.to_string()),
        (None, Some(words)) => {
            meant.push((title.to_string(), words.to_string()));
            let end = if prose.is_empty() || prose.ends_with('\n') { "" } else { "\n" };
            format!("{prose}{end}\n## {title}\n{words}\n")
        }
        (Some(place), None) => {
            meant.remove(place + 1);
            let (_, start, body) = &sections[place];
            format!("{}{}", &prose[..*start], &prose[body.end..])
        }
        (Some(place), Some(words)) => {
            meant[place + 1].1 = words.to_string();
            put(prose, sections[place].2.clone(), words, place + 1 < sections.len())
        }
    };
    if said(&new) == meant { Ok(new) } else { Err(Unchanged::OtherProse) }
}

/// The prose with another text before its first section.
///
/// # Errors
/// When the text would be read as something else.
pub(super) fn with_opening(prose: &str, text: &str) -> Result<String, Unchanged> {
    refuse_unread(prose)?;
    let (opening, sections) = parts(prose);
    let words = text.trim_matches('\n');
    let mut meant = said(prose);
    meant[0].1 = words.to_string();
    let new = put(prose, opening, words, !sections.is_empty());
    if said(&new) == meant { Ok(new) } else { Err(Unchanged::OtherProse) }
}

/// Puts words in the place of a part; the blank lines around it stay.
fn put(prose: &str, part: Range<usize>, words: &str, goes_on: bool) -> String {
    let old = &prose[part.clone()];
    let inner = old.trim_matches('\n');
    if inner.is_empty() {
        let start = if part.start > 0 && !prose[..part.start].ends_with('\n') { "\n" } else { "" };
        let (end, gap) = if words.is_empty() { ("", "") } else { ("\n", if goes_on { "\n" } else { "" }) };
        return match words {
            "" => prose.to_string(),
            _ => format!("{}{start}{words}{end}{gap}{}", &prose[..part.start], &prose[part.end..]),
        };
    }
    let start = part.start + (old.len() - old.trim_start_matches('\n').len());
    let end = start + inner.len();
    format!("{}{words}{}", &prose[..start], &prose[end..])
}
