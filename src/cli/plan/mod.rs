//! `steadyleaf plan`: the series at a glance, and what can come next.

mod columns;
mod json;
mod text;
mod write;

use std::collections::BTreeSet;

use clap::{Args, ValueEnum};

use super::Common;
use super::load::{exercise, load, series};
use super::outcome::{Failure, Outcome};
use super::terminal::Terminal;
use crate::edition::Edition;
use crate::model::NotOne;
use crate::model::finding::Level;
use crate::model::series::Series;
use crate::reckon::answer::Answers;
use crate::reckon::ladder::Ladders;
use crate::reckon::overview::Overview;
use crate::reckon::proposal::{Proposal, Unknown, Wish};
use crate::review::accepted::{self, Accepted};

/// Show each series at a glance, and propose its next week
///
/// Coverage, minutes and landings, ladders, targets and limits; then, for each component, the exercises that could
/// come next, with reasons, and a choice of them that fits the time. It goes on in spite of errors: what could not be
/// read is left open, and said to be.
#[derive(Args)]
pub(super) struct PlanCommand {
    /// Show only this series
    #[arg(long, value_name = "SERIES")]
    series: Option<String>,
    /// How to show it
    #[arg(long, value_name = "FORMAT", default_value = "text")]
    format: Format,
    /// The most minutes that a session of the next week may take [default: the target `session_minutes`]
    #[arg(long, value_name = "MINUTES", value_parser = minutes)]
    minutes: Option<u32>,
    /// Have this exercise in the next week on purpose, however lately it was used; may be given several times
    #[arg(long, value_name = "ID")]
    keep: Vec<String>,
    /// Do not propose this exercise; may be given several times
    #[arg(long, value_name = "ID")]
    leave_out: Vec<String>,
    /// Write the proposed choice into a new week file instead, for you to finish; never overwrites
    #[arg(long, conflicts_with = "format")]
    write: bool,
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    Text,
    Json,
}

/// What is shown.
struct Plan<'m> {
    /// How many errors the review of the workspace has.
    errors: usize,
    /// Of what is shown.
    accepted: Vec<Accepted>,
    series: Vec<SeriesPlan<'m>>,
}

/// One series, and what can come next in it.
struct SeriesPlan<'m> {
    overview: Overview<'m>,
    proposal: Result<Proposal<'m>, Unknown<'m>>,
}

pub(super) fn run(command: &PlanCommand, common: &Common, terminal: &Terminal) -> Result<Outcome, Failure> {
    let edition = load(common)?;
    let model = edition.model();
    let keep = known(&command.keep, &edition)?;
    let leave_out = known(&command.leave_out, &edition)?;
    let ladders = Ladders::of(model);
    let answers = Answers::default();
    let propose = |series| {
        let mut wish = Wish::of(series, &model.site);
        wish.minutes = command.minutes.unwrap_or(wish.minutes);
        wish.keep = keep.clone();
        wish.leave_out = leave_out.clone();
        Proposal::of(model, &ladders, &answers, series, &wish)
    };
    if command.write {
        let series = the_series(command, &edition)?;
        terminal.say(&write::write(series, &propose(series), edition.root())?)?;
        return Ok(Outcome::Done);
    }
    let series = match &command.series {
        Some(id) => vec![series(edition.model(), id)?],
        None => model.series.values().collect(),
    };
    let plan = |series| SeriesPlan {
        overview: Overview::of(model, edition.sources(), edition.words(), &ladders, series),
        proposal: propose(series),
    };
    let mut review = edition.review(terminal.today);
    let errors = review.count(Level::Error);
    if command.series.is_some() {
        let case = edition.case(terminal.today);
        series.iter().for_each(|series| review.keep_series(&case, series));
    }
    let plan = Plan {
        errors,
        accepted: accepted::among(review.exceptions, edition.sources(), terminal.today),
        series: series.into_iter().map(plan).collect(),
    };
    terminal.print(&match command.format {
        Format::Text => text::render(&plan, terminal.look()),
        Format::Json => json::render(&plan),
    })?;
    Ok(Outcome::Done)
}

/// The series that a week is to be written for: the one that is named, or else the only one.
fn the_series<'m>(command: &PlanCommand, edition: &'m Edition) -> Result<&'m Series, Failure> {
    if let Some(id) = &command.series {
        return series(edition.model(), id);
    }
    edition.model().only_series().map_err(|why| {
        Failure::Unreadable(match why {
            NotOne::None => {
                "there is no series yet; add one first with `steadyleaf add series TITLE`".to_string()
            }
            NotOne::Several => format!(
                "there are several series; say for which one the week is, such as `--series {}`",
                edition.model().series.keys().next().map_or("ID", String::as_str)
            ),
        })
    })
}

/// These exercises, all of which must be there, and read so far that they can be weighed.
fn known(ids: &[String], edition: &Edition) -> Result<BTreeSet<String>, Failure> {
    for id in ids {
        let exercise = exercise(edition.model(), id).map_err(Failure::Unreadable)?;
        if !exercise.standing.knows("component") {
            return Err(Failure::Unreadable(format!(
                "the component of `{id}` could not be read; run `steadyleaf review` and fix it first"
            )));
        }
    }
    Ok(ids.iter().cloned().collect())
}

fn minutes(text: &str) -> Result<u32, String> {
    let number = text.parse().ok().filter(|n| (1..=600).contains(n));
    number.ok_or_else(|| "expected a whole number of minutes from 1 to 600, such as 25".to_string())
}

#[cfg(test)]
mod tests {
    #[test]
    fn minutes_that_are_none_are_told_with_an_example() {
        assert_eq!(super::minutes("25"), Ok(25));
        for text in ["x", "0", "601", "2.5", ""] {
            let message = super::minutes(text).unwrap_err();
            assert_eq!(message, "expected a whole number of minutes from 1 to 600, such as 25", "{text}");
        }
    }
}
