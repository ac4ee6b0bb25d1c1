//! An entry's text in its parts, for whoever shows and changes them: its fields, where each stands, and its sections.

use std::ops::Range;

use toml_edit::{Document, Item, Table, Value};

use super::block::{self, Block};
use super::prose::read_alone;

/// The parts of an entry that can be read as such.
#[derive(Debug)]
pub struct Parts {
    pub fields: toml::Table,
    /// Every field and table by its place, such as `variation.0.title`, and where it is written.
    pub places: Vec<(String, Range<usize>)>,
    /// The prose before the first section.
    pub opening: String,
    pub sections: Vec<SectionText>,
}

/// A level-2 section of the prose.
#[derive(Debug)]
pub struct SectionText {
    pub title: String,
    /// With its heading.
    pub at: Range<usize>,
    /// What is below the heading.
    pub text: String,
}

/// Takes an entry apart; `None` where its fields cannot be read. A file of fields alone has no prose.
pub fn parts(text: &str, is_whole_toml: bool) -> Option<Parts> {
    let (fields, prose) = match block::find(text) {
        _ if is_whole_toml => (0..text.len(), text.len()..text.len()),
        Block::Found { fields, prose, .. } => (fields, prose),
        Block::Unclosed { .. } | Block::Missing { .. } => return None,
    };
    let document = Document::parse(&text[fields.clone()]).ok()?;
    let mut places = Vec::new();
    in_table(document.as_table(), "", &mut places);
    for (_, at) in &mut places {
        *at = at.start + fields.start..at.end + fields.start;
    }
    let words = &text[prose.clone()];
    let read = read_alone(words);
    let mut sections: Vec<SectionText> = Vec::new();
    for section in &read.sections {
        let start = section.heading.span.range().start;
        let body = section.body.range();
        sections.push(SectionText {
            title: section.title.value.clone(),
            at: start + prose.start..body.end.max(start) + prose.start,
            text: words[body].trim_matches(['\r', '\n']).replace("\r\n", "\n"),
        });
    }
    let end = sections.first().map_or(text.len(), |first| first.at.start);
    let opening = text[prose.start..end].trim_matches(['\r', '\n']).replace("\r\n", "\n");
    Some(Parts { fields: text[fields].parse().ok()?, places, opening, sections })
}

fn in_table(table: &Table, at: &str, places: &mut Vec<(String, Range<usize>)>) {
    for (name, item) in table {
        let place = if at.is_empty() { name.to_string() } else { format!("{at}.{name}") };
        // A header is not the table: what belongs to it stands in its fields.
        if let Some(span) = item.span() {
            places.push((place.clone(), span));
        }
        match item {
            Item::Table(table) => in_table(table, &place, places),
            Item::ArrayOfTables(tables) => {
                for (number, table) in tables.iter().enumerate() {
                    let place = format!("{place}.{number}");
                    places.extend(table.span().map(|span| (place.clone(), span)));
                    in_table(table, &place, places);
                }
            }
            Item::Value(value) => in_value(value, &place, places),
            Item::None => {}
        }
    }
}

fn in_value(value: &Value, at: &str, places: &mut Vec<(String, Range<usize>)>) {
    match value {
        Value::Array(items) => {
            for (number, item) in items.iter().enumerate() {
                let place = format!("{at}.{number}");
                places.extend(item.span().map(|span| (place.clone(), span)));
                in_value(item, &place, places);
            }
        }
        Value::InlineTable(table) => {
            for (name, item) in table {
                let place = format!("{at}.{name}");
                places.extend(item.span().map(|span| (place.clone(), span)));
                in_value(item, &place, places);
            }
        }
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = "```toml\ntitle = \"A\"\nexercises = [\n  { id = \"b\", dose = { reps = 5 } },\n]\n[dose]\nreps = 9\n[[caution]]\ntext = \"Hold.\"\n```\nWhy.\n\n## Move\n1. Rise.\n\n## Feel\nWarm.\n";

    #[test]
    fn each_field_is_found_where_it_is_written() {
        let parts = parts(TEXT, false).unwrap();
        let at = |place: &str| {
            let (_, at) =
                parts.places.iter().find(|(known, _)| known == place).unwrap_or_else(|| panic!("{place}"));
            &TEXT[at.clone()]
        };
        assert_eq!(at("title"), "\"A\"");
        assert_eq!(at("exercises.0.dose.reps"), "5");
        assert_eq!(at("dose.reps"), "9");
        assert_eq!(at("caution.0.text"), "\"Hold.\"");
        assert_eq!(parts.fields["title"].as_str(), Some("A"));
    }

    #[test]
    fn the_prose_is_its_opening_and_its_sections() {
        let parts = parts(TEXT, false).unwrap();
        assert_eq!(parts.opening, "Why.");
        let sections: Vec<_> = parts.sections.iter().map(|s| (s.title.as_str(), s.text.as_str())).collect();
        assert_eq!(sections, [("Move", "1. Rise."), ("Feel", "Warm.")]);
        assert!(TEXT[parts.sections[0].at.clone()].starts_with("## Move\n1. Rise."));
    }

    #[test]
    fn what_cannot_be_read_has_no_parts() {
        for text in ["", "Prose.", "```toml\ntitle = \"A\"\n", "```toml\ntitle = \n```\n"] {
            assert!(parts(text, false).is_none(), "{text}");
        }
        assert!(parts("title = \"A\"\n", true).is_some_and(|parts| parts.sections.is_empty()));
    }
}
