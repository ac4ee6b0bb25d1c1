//! Changes of an entry's text: of its fields, its tables, its lists and its prose.

use std::ops::Range;

use toml::Table;

const OPENING: &str = "```toml\n";
const CLOSING: &str = "\n```\n";

/// The fields that an entry opens with.
pub(crate) fn fields_of(text: &str) -> Table {
    text[fields_at(text)].parse().unwrap()
}

/// Where the fields stand.
pub(crate) fn fields_at(text: &str) -> Range<usize> {
    assert!(text.starts_with(OPENING), "{text}");
    OPENING.len()..text.find(CLOSING).unwrap() + 1
}

/// The text with something else in that place.
pub(crate) fn put(text: &str, at: Range<usize>, new: &str) -> String {
    format!("{}{new}{}", &text[..at.start], &text[at.end..])
}

/// The text with something put in between.
pub(crate) fn insert(text: &str, at: usize, new: &str) -> String {
    put(text, at..at, new)
}

/// Where the lines stand that satisfy a condition, line ends included.
pub(crate) fn lines_at(text: &str, of: Range<usize>, is: impl Fn(&str) -> bool) -> Vec<Range<usize>> {
    let mut found = Vec::new();
    let mut at = of.start;
    for line in text[of].split_inclusive('\n') {
        if is(line.trim_end()) {
            found.push(at..at + line.len());
        }
        at += line.len();
    }
    found
}

/// Where the tables under a heading such as `[[caution]]` stand, with their own tables, up to the next heading.
pub(crate) fn blocks_at(text: &str, heading: &str) -> Vec<Range<usize>> {
    let fields = fields_at(text);
    let own = format!("{}.", heading.trim_end_matches(']'));
    let headings = lines_at(text, fields.clone(), |line| line.starts_with('[') && !line.starts_with(&own));
    let end = |start: usize| headings.iter().map(|h| h.start).find(|at| *at > start).unwrap_or(fields.end);
    headings
        .iter()
        .filter(|at| text[(*at).clone()].trim_end() == heading)
        .map(|at| at.start..end(at.start))
        .collect()
}

/// The text without these places.
pub(crate) fn cut(text: &str, mut places: Vec<Range<usize>>) -> String {
    places.sort_by_key(|place| place.start);
    places.into_iter().rev().fold(text.to_string(), |text, place| put(&text, place, ""))
}

/// Where the first line of a field stands within the fields.
pub(crate) fn field_at(text: &str, of: Range<usize>, field: &str) -> Option<Range<usize>> {
    let start = format!("{field} = ");
    lines_at(text, of, |line| line.starts_with(&start)).into_iter().next()
}

/// The text with another value for a field of a table; the field is added where it is not there.
pub(crate) fn set(text: &str, table: Range<usize>, field: &str, value: &str) -> String {
    let line = format!("{field} = {value}\n");
    match field_at(text, table.clone(), field) {
        Some(at) => put(text, at, &line),
        None => {
            let first = table.start + text[table].find('\n').unwrap() + 1;
            insert(text, first, &line)
        }
    }
}

/// The text with another value for a field of the exercise's dose.
pub(crate) fn set_dose(text: &str, field: &str, value: &str) -> String {
    let dose = blocks_at(text, "[dose]").remove(0);
    set(text, dose, field, value)
}

/// The text with an item taken out of the lists `field = [...]` that stand in these places; a list that would be
/// empty goes whole.
pub(crate) fn take_out(text: &str, places: &[Range<usize>], field: &str, item: &str) -> String {
    let mut new = text.to_string();
    let mut places = places.to_vec();
    places.sort_by_key(|place| place.start);
    for place in places.into_iter().rev() {
        let Some(at) = field_at(&new, place, field) else { continue };
        let line: Table = new[at.clone()].parse().unwrap();
        let items: Vec<String> = line[field].as_array().unwrap().iter().map(|i| i.to_string()).collect();
        let kept: Vec<&String> = items.iter().filter(|i| i.trim_matches('"') != item).collect();
        if kept.len() == items.len() {
            continue;
        }
        let list = kept.iter().map(|i| i.as_str()).collect::<Vec<_>>().join(", ");
        let line = if kept.is_empty() { String::new() } else { format!("{field} = [{list}]\n") };
        new = put(&new, at, &line);
    }
    new
}

/// Where the rows of a week's exercises stand, a line each.
pub(crate) fn rows_at(text: &str) -> Vec<Range<usize>> {
    lines_at(text, fields_at(text), |line| line.starts_with("  { id = "))
}

/// Where the row of an exercise stands.
pub(crate) fn row_at(text: &str, id: &str) -> Range<usize> {
    let start = format!("  {{ id = \"{id}\"");
    rows_at(text).into_iter().find(|at| text[at.clone()].starts_with(&start)).unwrap()
}

/// A week's text with another value for a field of the dose that it gives an exercise.
pub(crate) fn set_row_dose(text: &str, id: &str, field: &str, value: &str) -> String {
    let at = row_at(text, id);
    let row = &text[at.clone()];
    let new = match row.find("dose = { ") {
        Some(dose) => {
            let start = dose + "dose = { ".len();
            let end = start + row[start..].find(" }").unwrap();
            let others = row[start..end].split(", ").filter(|f| !f.starts_with(&format!("{field} = ")));
            let fields: Vec<String> =
                others.map(str::to_string).chain([format!("{field} = {value}")]).collect();
            put(row, start..end, &fields.join(", "))
        }
        None => {
            let end = row.find('"').unwrap() + 1 + id.len() + 1;
            insert(row, end, &format!(", dose = {{ {field} = {value} }}"))
        }
    };
    put(text, at, &new)
}

/// Where a section of the prose stands, without its heading.
pub(crate) fn section_at(text: &str, name: &str) -> Option<Range<usize>> {
    let heading = format!("\n## {name}\n");
    let start = text.find(&heading)? + heading.len();
    let end = text[start..].find("\n## ").map_or(text.len(), |at| start + at + 1);
    Some(start..end)
}

/// Where the lines of the prose stand, line ends left out.
pub(crate) fn prose_lines_at(text: &str) -> Vec<Range<usize>> {
    let start = text.find(CLOSING).unwrap() + CLOSING.len();
    let lines = lines_at(text, start..text.len(), |line| !line.is_empty() && !line.starts_with('#'));
    lines.into_iter().map(|at| at.start..at.start + text[at.clone()].trim_end().len()).collect()
}

/// Where the numbered steps of an exercise stand, without their numbers and line ends.
pub(crate) fn steps_at(text: &str) -> Vec<Range<usize>> {
    let Some(section) = section_at(text, "Move") else { return Vec::new() };
    let steps = lines_at(text, section, |line| line.starts_with(|c: char| c.is_ascii_digit()));
    let words = |at: Range<usize>| {
        let start = at.start + text[at.clone()].find(". ").unwrap() + 2;
        start..at.start + text[at.clone()].trim_end().len()
    };
    steps.into_iter().map(words).collect()
}
