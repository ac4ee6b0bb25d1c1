//! `steadyleaf handout`: sheets as PDF, for a week, for some exercises, or for a person.

use std::collections::BTreeMap;
use std::path::PathBuf;

use clap::Args;

use super::Common;
use super::load::{Loaded, load};
use super::outcome::{Failure, Outcome};
use super::terminal::Terminal;
use crate::model::vocabulary::{Paper, Vocabulary};
use crate::print::{Order, Press, Subject, Unprinted};

/// Print large-print handouts as PDF: of a week, of some exercises, or for a person
#[derive(Args)]
pub(super) struct Handout {
    /// A week, such as lantern-hill/7
    #[arg(long, value_name = "SERIES/WEEK")]
    week: Option<String>,
    /// Exercises by their ids, on one sheet
    #[arg(long, value_name = "ID", num_args = 1.., conflicts_with = "week")]
    exercise: Vec<String>,
    /// Points
    #[arg(long, default_value = "18")]
    size: u32,
    #[arg(long, default_value = "a4")]
    paper: String,
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,
}

pub(super) fn run(command: &Handout, common: &Common, terminal: &Terminal) -> Result<Outcome, Failure> {
    let loaded: Loaded = load(common)?;
    let photos = BTreeMap::new();
    let program = blake3::hash(b"");
    let press = Press::new(&loaded.model, &loaded.sources, &loaded.words, &loaded.theme, &photos, false, &program)
        .map_err(|e| Failure::Unreadable(e.to_string()))?;
    let subject = match &command.week {
        Some(name) => {
            let (series, number) = name.split_once('/').unwrap_or(("", name));
            let series = &loaded.model.series[series];
            let week = series.weeks.iter().find(|w| w.number.value.to_string() == number).expect("week");
            Subject::Week(series, week)
        }
        None => Subject::Exercises(command.exercise.iter().map(|id| &loaded.model.exercises[id]).collect()),
    };
    let order = Order { subject, size: command.size, paper: Paper::from_word(&command.paper).expect("paper"), made: Some(terminal.today) };
    let manuscript = press.handout(&order).map_err(|e| Failure::Unreadable(e.to_string()))?;
    match press.print(&manuscript) {
        Ok(printed) => {
            let out = command.out.clone().unwrap_or_default().join("sheet.pdf");
            #[allow(clippy::disallowed_methods)]
            std::fs::write(&out, &printed.pdf)?;
            terminal.say(&format!("{} pages", printed.pages))?;
        }
        Err(Unprinted::Findings(list)) => {
            for f in list { println!("{f:?}"); }
        }
        Err(Unprinted::Theme(e)) => return Err(Failure::Unreadable(e.to_string())),
    }
    Ok(Outcome::Done)
}
