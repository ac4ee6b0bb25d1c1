//! New entries as texts, every field explained in a comment, for an author to fill in.

mod sketch;
mod week;

use jiff::civil::Date;
use unicode_normalization::UnicodeNormalization;

pub use week::{blank_week, filled_week};

use crate::model::Model;
use crate::model::vocabulary::{Component, Position, SectionName, Vocabulary};
use crate::model::words::Words;

/// A new file.
#[derive(Debug)]
pub struct NewEntry {
    /// Where it stands below the workspace.
    pub name: String,
    pub text: String,
}

/// Why there can be no such entry.
#[derive(Debug, PartialEq, Eq)]
pub enum NotNew {
    /// No letter of its title can stand in the name of a file.
    NoName,
    /// An exercise has this id, but for letter case.
    Taken(String),
}

/// An exercise, with the figure of its position sketched.
///
/// # Errors
/// When its title gives no id, or one that another exercise has.
pub fn exercise(
    title: &str,
    component: Component,
    position: Option<Position>,
    model: &Model,
    words: &Words,
) -> Result<NewEntry, NotNew> {
    let id = id(title)?;
    if let Some(other) = model.exercises.keys().find(|other| other.eq_ignore_ascii_case(&id)) {
        return Err(NotNew::Taken(other.clone()));
    }
    let trains = match component {
        Component::Strength => "trains = [\"\"]",
        _ => "# trains = [\"calves\"]",
    };
    let text = include_str!("exercise.md")
        .replace("COMPONENT", component.word())
        .replace("TRAINS", trains)
        .replace("POSITION", position.map_or("", Position::word))
        .replace("FIGURE\n", &sketch::lines(position))
        .replace("SET-UP", &words.section(SectionName::SetUp))
        .replace("MOVE", &words.section(SectionName::Move))
        .replace("FINISH", &words.section(SectionName::Finish))
        .replace("FEEL", &words.section(SectionName::Feel))
        .replace("WATCH-FOR", &words.section(SectionName::WatchFor))
        // Last: a title may hold such a word itself.
        .replacen("TITLE", &quoted(title), 1);
    Ok(NewEntry { name: format!("content/exercises/{id}.md"), text })
}

/// A series without a week.
///
/// # Errors
/// When its title gives no id.
pub fn series(title: &str, start: Date) -> Result<NewEntry, NotNew> {
    let text = include_str!("series.toml").replace("START", &start.to_string());
    let text = text.replacen("TITLE", &quoted(title), 1);
    Ok(NewEntry { name: format!("content/series/{}/series.toml", id(title)?), text })
}

/// The id a title gives: small letters without accents, digits, hyphens.
fn id(title: &str) -> Result<String, NotNew> {
    let plain = title.nfd().filter(char::is_ascii).flat_map(char::to_lowercase);
    let words: String = plain.map(|c| if c.is_ascii_alphanumeric() { c } else { ' ' }).collect();
    let id = words.split_whitespace().collect::<Vec<_>>().join("-");
    if id.is_empty() { Err(NotNew::NoName) } else { Ok(id) }
}

/// A text as a TOML string, quotes included.
fn quoted(text: &str) -> String {
    toml::Value::String(text.to_string()).to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_title_gives_a_file_name_without_accents() {
        assert_eq!(id("Élévation des talons, 2e").unwrap(), "elevation-des-talons-2e");
        assert!(id("!?").is_err());
    }

    #[test]
    fn a_title_with_quotes_stays_one_text() {
        let text = format!("title = {}", quoted("Say \"ah\" \\ once"));
        let table: toml::Table = text.parse().unwrap();
        assert_eq!(table["title"].as_str(), Some("Say \"ah\" \\ once"));
    }
}
