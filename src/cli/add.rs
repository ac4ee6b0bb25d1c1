//! `steadyleaf add`: a new entry, every field explained in a comment. Never overwrites.

use std::path::{Path, PathBuf};

use clap::{Args, Subcommand};

use super::Common;
use super::load::load;
use super::outcome::{Failure, Outcome};
use super::terminal::Terminal;
use crate::edition::Edition;
use crate::entry::new::{self, NewEntry, NotNew};
use crate::model::nearest::suggestion;
use crate::model::vocabulary::{Component, Position, Vocabulary};
use crate::model::week::next_monday;
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

/// Writes a new entry; says where it is.
pub(super) fn write(new: &NewEntry, root: &Path) -> Result<PathBuf, Failure> {
    let path = new.name.split('/').fold(root.to_path_buf(), |path, part| path.join(part));
    publish::write_new(&path, new.text.as_bytes())?;
    Ok(path)
}

pub(super) fn run(command: &Add, common: &Common, terminal: &Terminal) -> Result<Outcome, Failure> {
    let edition = load(common)?;
    let (model, words) = (edition.model(), edition.words());
    let new = match &command.what {
        What::Exercise { title, component, position } => {
            new::exercise(title, *component, *position, model, words).map_err(|why| told(title, why))?
        }
        What::Week { series } => next_week(series, &edition)?,
        What::Series { title } => {
            new::series(title, next_monday(terminal.today)).map_err(|why| told(title, why))?
        }
    };
    let path = write(&new, edition.root())?;
    terminal.say(&format!(
        "Created {}. Fill in the empty quotes, then run `steadyleaf review`.",
        path.display()
    ))?;
    Ok(Outcome::Done)
}

/// Why there is no new entry of this title.
fn told(title: &str, why: NotNew) -> Failure {
    match why {
        NotNew::NoName => {
            Failure::Unreadable(format!("the title `{title}` has no letter a to z for a file name"))
        }
        NotNew::Taken(other) => Failure::Unwritable(format!(
            "there is an exercise `{other}` already; give the new one another title"
        )),
    }
}

fn next_week(series: &str, edition: &Edition) -> Result<NewEntry, Failure> {
    let Some(series) = edition.model().series.get(series) else {
        let known = edition.model().series.keys().map(String::as_str);
        let help = match edition.model().series.is_empty() {
            true => "add one first with `steadyleaf add series TITLE`".to_string(),
            false => suggestion(series, known),
        };
        return Err(Failure::Unreadable(format!("there is no series `{series}`; {help}")));
    };
    Ok(new::blank_week(series))
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
