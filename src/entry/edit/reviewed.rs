//! Changes one field of an entry's text and leaves every other byte as it was: comments, order, blank lines, line ends.
//!
//! The fields are parsed to find the places, and the text is put together from its own pieces: writing the parsed
//! fields anew would lose what their grammar does not know, such as the kind of line ends.

use std::ops::Range;

use jiff::civil::Date;
use toml_edit::{Document, Item, TableLike, Value};

use super::super::block::{self, Block};

/// Who approved an exercise, when, and the fingerprint of what was approved.
#[derive(Clone, Copy, Debug)]
pub struct Approved<'a> {
    pub by: &'a str,
    pub on: Date,
    pub of: &'a str,
}

/// The text of an exercise with another `reviewed`. What is there is given other values, in a line or in a table of its
/// own, with the comments it has; else a line is put after `summary`. `None` where the fields cannot be read, or where
/// `reviewed` is so written that it can only be changed by hand.
pub fn with_reviewed(text: &str, approved: Approved<'_>) -> Option<String> {
    let Block::Found { fields: at, .. } = block::find(text) else { return None };
    let fields = &text[at.clone()];
    let changes = changes(fields, approved)?;
    let new = put(fields, changes)?;
    is_meant(fields, &new, approved).then(|| format!("{}{new}{}", &text[..at.start], &text[at.end..]))
}

/// Something to stand at a place of the fields; of an empty place, in between.
struct TextEdit {
    at: Range<usize>,
    new: String,
}

/// The name of a field, and its value as it is written.
type FieldValue = (&'static str, String);
/// `by`, `on` and `of`, each with its value.
type Values = [FieldValue; 3];

fn changes(fields: &str, approved: Approved<'_>) -> Option<Vec<TextEdit>> {
    let values = [
        ("by", toml::Value::String(approved.by.to_string()).to_string()),
        ("on", approved.on.to_string()),
        ("of", toml::Value::String(approved.of.to_string()).to_string()),
    ];
    let document = Document::parse(fields).ok()?;
    let table = document.as_table();
    let Some(item) = table.get("reviewed") else {
        let after = line_of(fields, table.get("summary")?.span()?);
        let line = format!("reviewed = {}", in_line(&values));
        return Some(vec![new_line(fields, after, &line)]);
    };
    match item {
        Item::Value(Value::InlineTable(inline)) if inline.is_empty() => whole(item, &values),
        Item::Value(Value::InlineTable(inline)) => behind_commas(inline, &values),
        // A text or a number that somebody wrote there.
        Item::Value(_) => whole(item, &values),
        Item::Table(table) if table.is_dotted() => lines_below("reviewed.", fields, table, &values),
        Item::Table(table) if table.is_empty() => {
            let lines: Vec<String> = values.iter().map(|(name, value)| format!("{name} = {value}")).collect();
            let header = line_of(fields, table.span()?);
            let end = line_end(fields, &header);
            Some(vec![new_line(fields, header, &lines.join(end))])
        }
        Item::Table(table) => lines_below("", fields, table, &values),
        Item::ArrayOfTables(_) | Item::None => None,
    }
}

/// `{ by = "A. Reviewer, PT", on = 2026-10-01, of = "…" }`.
fn in_line(values: &Values) -> String {
    let values: Vec<String> = values.iter().map(|(name, value)| format!("{name} = {value}")).collect();
    format!("{{ {} }}", values.join(", "))
}

fn whole(item: &Item, values: &Values) -> Option<Vec<TextEdit>> {
    Some(vec![TextEdit { at: item.span()?, new: in_line(values) }])
}

/// Other values for what a table has in one line; what it lacks comes after its last value.
fn behind_commas(table: &dyn TableLike, values: &Values) -> Option<Vec<TextEdit>> {
    let (mut changes, lacking) = other_values(table, values)?;
    let end = last_value(table)?.end;
    let lacking: String = lacking.iter().map(|(name, value)| format!(", {name} = {value}")).collect();
    changes.push(TextEdit { at: end..end, new: lacking });
    Some(changes)
}

/// The same for a table that has a line for each value; each name has `prefix` before it.
fn lines_below(prefix: &str, fields: &str, table: &dyn TableLike, values: &Values) -> Option<Vec<TextEdit>> {
    let (mut changes, lacking) = other_values(table, values)?;
    let last = line_of(fields, last_value(table)?);
    let indent: String = fields[last.clone()].chars().take_while(|c| matches!(c, ' ' | '\t')).collect();
    let lines: Vec<String> =
        lacking.iter().map(|(name, value)| format!("{indent}{prefix}{name} = {value}")).collect();
    if !lines.is_empty() {
        let end = line_end(fields, &last);
        changes.push(new_line(fields, last, &lines.join(end)));
    }
    Some(changes)
}

/// The new values of what is there, and what is not.
fn other_values<'v>(
    table: &dyn TableLike,
    values: &'v Values,
) -> Option<(Vec<TextEdit>, Vec<&'v FieldValue>)> {
    let mut changes = Vec::new();
    let mut lacking = Vec::new();
    for value in values {
        match table.get(value.0) {
            Some(item) => changes.push(TextEdit { at: item.span()?, new: value.1.clone() }),
            None => lacking.push(value),
        }
    }
    Some((changes, lacking))
}

fn last_value(table: &dyn TableLike) -> Option<Range<usize>> {
    table.iter().filter_map(|(_, item)| item.span()).max_by_key(|at| at.end)
}

/// The lines that hold a place, with their last line end.
fn line_of(fields: &str, at: Range<usize>) -> Range<usize> {
    let start = fields[..at.start].rfind('\n').map_or(0, |end| end + 1);
    // A place may end with its line.
    let inside = at.end.saturating_sub(1).max(at.start);
    let end = fields[inside..].find('\n').map_or(fields.len(), |end| inside + end + 1);
    start..end
}

/// How a line ends.
fn line_end(fields: &str, line: &Range<usize>) -> &'static str {
    if fields[line.clone()].ends_with("\r\n") { "\r\n" } else { "\n" }
}

fn new_line(fields: &str, after: Range<usize>, line: &str) -> TextEdit {
    let end = line_end(fields, &after);
    TextEdit { at: after.end..after.end, new: format!("{line}{end}") }
}

/// The text with all changes; `None` where two are in each other's way.
fn put(fields: &str, mut changes: Vec<TextEdit>) -> Option<String> {
    changes.sort_by_key(|change| (change.at.start, change.at.end));
    let mut new = String::new();
    let mut from = 0;
    for TextEdit { at, new: words } in changes {
        new.push_str(fields.get(from..at.start)?);
        new.push_str(&words);
        from = at.end;
    }
    new.push_str(fields.get(from..)?);
    Some(new)
}

/// True when the new fields say the same as the old ones but for what was approved.
fn is_meant(old: &str, new: &str, approved: Approved<'_>) -> bool {
    let (Ok(mut old), Ok(mut new)) = (old.parse::<toml::Table>(), new.parse::<toml::Table>()) else {
        return false;
    };
    old.remove("reviewed");
    let reviewed = new.remove("reviewed");
    let said = |name: &str| reviewed.as_ref().and_then(|table| table.get(name));
    let day = said("on").and_then(toml::Value::as_datetime).map(|day| day.to_string());
    old == new
        && said("by").and_then(toml::Value::as_str) == Some(approved.by)
        && day == Some(approved.on.to_string())
        && said("of").and_then(toml::Value::as_str) == Some(approved.of)
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;

    const APPROVED: Approved<'static> =
        Approved { by: "B. Second, PT", on: date(2026, 10, 1), of: "0123456789abcdef" };
    const LINE: &str = "reviewed = { by = \"B. Second, PT\", on = 2026-10-01, of = \"0123456789abcdef\" }";

    /// An entry with these lines around its summary.
    fn entry(before: &str, after: &str) -> String {
        format!(
            "```toml\n# What it is called.\ntitle = \"Tall sit\"\n{before}summary = \"Sit.\" # in short\n{after}```\nProse.\n"
        )
    }

    #[test]
    fn a_field_that_is_not_there_is_put_after_the_summary() {
        let text = entry("demands = [ ] # none\n\n", "\n[dose]\nreps = 5\n");
        let new = with_reviewed(&text, APPROVED).unwrap();
        assert_eq!(new, entry("demands = [ ] # none\n\n", &format!("{LINE}\n\n[dose]\nreps = 5\n")));
        let long = entry("", "").replace("\"Sit.\"", "\"\"\"\nSit.\nRest.\"\"\"");
        let new = with_reviewed(&long, APPROVED).unwrap();
        assert_eq!(new, long.replace("# in short\n", &format!("# in short\n{LINE}\n")));
    }

    #[test]
    fn what_is_there_keeps_its_place_its_comments_and_its_shape() {
        for (old, new) in [
            (
                "reviewed = { by = \"A. Reviewer, PT\", on = 2026-01-05 } # first\n",
                "reviewed = { by = \"B. Second, PT\", on = 2026-10-01, of = \"0123456789abcdef\" } # first\n",
            ),
            (
                "reviewed={of=\"52c85c32e4e7b1a9\",on=2026-01-05,by='A'}\n",
                "reviewed={of=\"0123456789abcdef\",on=2026-10-01,by=\"B. Second, PT\"}\n",
            ),
            ("reviewed = {}\n", &format!("{LINE}\n")),
            ("reviewed = \"yes\" # who?\n", &format!("{LINE} # who?\n")),
            (
                "reviewed.by = \"A\" # hers\n  reviewed.on = 2026-01-05 # then\nequipment = []\n",
                "reviewed.by = \"B. Second, PT\" # hers\n  reviewed.on = 2026-10-01 # then\n  reviewed.of = \"0123456789abcdef\"\nequipment = []\n",
            ),
            (
                "\n# who\n[reviewed] # it was\nby = \"A\" # hers\n\n# when\non = 2026-01-05 # then\n\n# how much\n[dose]\nreps = 5\n",
                "\n# who\n[reviewed] # it was\nby = \"B. Second, PT\" # hers\n\n# when\non = 2026-10-01 # then\nof = \"0123456789abcdef\"\n\n# how much\n[dose]\nreps = 5\n",
            ),
            (
                "[reviewed] # soon\n[dose]\nreps = 5\n",
                "[reviewed] # soon\nby = \"B. Second, PT\"\non = 2026-10-01\nof = \"0123456789abcdef\"\n[dose]\nreps = 5\n",
            ),
        ] {
            let found = with_reviewed(&entry("", old), APPROVED).unwrap_or_else(|| panic!("{old}"));
            assert_eq!(found, entry("", new), "{old}");
            assert_eq!(with_reviewed(&found, APPROVED).as_deref(), Some(found.as_str()), "again: {old}");
            let (old, new) = (entry("", old).replace('\n', "\r\n"), entry("", new).replace('\n', "\r\n"));
            assert_eq!(with_reviewed(&old, APPROVED), Some(new));
        }
    }

    #[test]
    fn a_name_with_quotes_stays_one_name() {
        let approved = Approved { by: "J. \"Jo\" \\ Smith's", ..APPROVED };
        let new = with_reviewed(&entry("", ""), approved).unwrap();
        let fields: toml::Table =
            new.split("```").nth(1).unwrap().strip_prefix("toml\n").unwrap().parse().unwrap();
        assert_eq!(fields["reviewed"]["by"].as_str(), Some("J. \"Jo\" \\ Smith's"));
    }

    #[test]
    fn what_cannot_be_changed_safely_is_left_alone() {
        for text in [
            "Prose without fields.\n".to_string(),
            entry("title = \"twice\"\n", ""),
            entry("", "").replace("summary", "summery"),
            entry("", "[[reviewed]]\nby = \"A\"\n"),
            entry("", "[reviewed.by]\nname = \"A\"\n"),
            entry("", "").replace("```\n", ""),
        ] {
            assert_eq!(with_reviewed(&text, APPROVED), None, "{text}");
        }
    }
}
