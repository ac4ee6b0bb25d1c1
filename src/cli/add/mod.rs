//! `steadyleaf add`: a new entry, every field explained in a comment. Never overwrites.

mod sketch;
pub(super) mod week;

use std::path::{Path, PathBuf};

use clap::{Args, Subcommand};
use unicode_normalization::UnicodeNormalization;

use super::Common;
use super::begin::next_monday;
use super::load::load;
use super::outcome::{Failure, Outcome};
use super::terminal::Terminal;
use crate::edition::Edition;
use crate::model::nearest::suggestion;
use crate::model::vocabulary::{Component, Position, SectionName, Vocabulary};
use crate::publish;

/// Add a new exercise, week or series, every field explained in a comment
#[derive(Args)]
pub(super) struct Add {
    #[command(subcommand)]
    what: What,
}

#[derive(Subcommand)]
enum What {
    /// Add an exercise
    Exercise {
        /// Its title, such as "Heel drop at the counter"
        title: String,
        /// The training component it belongs to: posture, balance, strength or power
        #[arg(long, value_name = "COMPONENT", value_parser = component)]
        component: Component,
        /// The position it is done in, for the sketch of its figure: standing, seated, lying and so on
        #[arg(long, value_name = "POSITION", value_parser = position)]
        position: Option<Position>,
    },
    /// Add the next week of a series
    Week {
        /// The series' folder name
        #[arg(long, value_name = "SERIES")]
        series: String,
    },
    /// Add a series
    Series {
        /// Its title, such as "Steady at Lantern Hill"
        title: String,
    },
}

/// A new file: where it stands below the workspace, and what is in it.
pub(super) struct New {
    pub(super) name: String,
    text: String,
}

impl New {
    /// Writes it; says where it is.
    pub(super) fn write(&self, root: &Path) -> Result<PathBuf, Failure> {
        let path = self.name.split('/').fold(root.to_path_buf(), |path, part| path.join(part));
        publish::write_new(&path, self.text.as_bytes())?;
        Ok(path)
    }
}

pub(super) fn run(command: &Add, common: &Common, terminal: &Terminal) -> Result<Outcome, Failure> {
    let edition = load(common)?;
    let new = match &command.what {
        What::Exercise { title, component, position } => exercise(title, *component, *position, &edition)?,
        What::Week { series } => next_week(series, &edition)?,
        What::Series { title } => {
            let start = next_monday(terminal.today).to_string();
            let text = include_str!("series.toml").replace("START", &start);
            let text = text.replacen("TITLE", &quoted(title), 1);
            New { name: format!("content/series/{}/series.toml", id(title)?), text }
        }
    };
    let path = new.write(edition.root())?;
    terminal.say(&format!(
        "Created {}. Fill in the empty quotes, then run `steadyleaf review`.",
        path.display()
    ))?;
    Ok(Outcome::Done)
}

fn exercise(
    title: &str,
    component: Component,
    position: Option<Position>,
    edition: &Edition,
) -> Result<New, Failure> {
    let id = id(title)?;
    if let Some(other) = edition.model().exercises.keys().find(|k| k.eq_ignore_ascii_case(&id)) {
        return Err(Failure::Unwritable(format!(
            "there is an exercise `{other}` already; give the new one another title"
        )));
    }
    let section = |name| edition.words().section(name);
    let text = include_str!("exercise.md")
        .replace("COMPONENT", component.word())
        .replace(
            "TRAINS",
            if component == Component::Strength { "trains = [\"\"]" } else { "# trains = [\"calves\"]" },
        )
        .replace("POSITION", position.map_or("", Position::word))
        .replace("FIGURE\n", &sketch::lines(position))
        .replace("SET-UP", &section(SectionName::SetUp))
        .replace("MOVE", &section(SectionName::Move))
        .replace("FINISH", &section(SectionName::Finish))
        .replace("FEEL", &section(SectionName::Feel))
        .replace("WATCH-FOR", &section(SectionName::WatchFor))
        // Last: a title may hold such a word itself.
        .replacen("TITLE", &quoted(title), 1);
    Ok(New { name: format!("content/exercises/{id}.md"), text })
}

fn next_week(series: &str, edition: &Edition) -> Result<New, Failure> {
    let Some(series) = edition.model().series.get(series) else {
        let known = edition.model().series.keys().map(String::as_str);
        let help = match edition.model().series.is_empty() {
            true => "add one first with `steadyleaf add series TITLE`".to_string(),
            false => suggestion(series, known),
        };
        return Err(Failure::Unreadable(format!("there is no series `{series}`; {help}")));
    };
    let (number, date) = series.next_week();
    Ok(week::blank(series, number, date))
}

fn component(word: &str) -> Result<Component, String> {
    chosen(word)
}

fn position(word: &str) -> Result<Position, String> {
    chosen(word)
}

fn chosen<V: Vocabulary>(word: &str) -> Result<V, String> {
    V::from_word(word).ok_or_else(|| suggestion(word, V::ALL.iter().map(|v| v.word())))
}

/// The id a title gives: small letters without accents, digits, hyphens.
fn id(title: &str) -> Result<String, Failure> {
    let plain = title.nfd().filter(char::is_ascii).flat_map(char::to_lowercase);
    let words: String = plain.map(|c| if c.is_ascii_alphanumeric() { c } else { ' ' }).collect();
    let id = words.split_whitespace().collect::<Vec<_>>().join("-");
    match id.is_empty() {
        true => Err(Failure::Unreadable(format!("the title `{title}` has no letter a to z for a file name"))),
        false => Ok(id),
    }
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
