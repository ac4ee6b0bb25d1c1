//! `steadyleaf plan`: the series at a glance.

mod columns;
mod json;
mod text;

use clap::{Args, ValueEnum};

use super::Common;
use super::load::load;
use super::outcome::{Failure, Outcome};
use super::terminal::Terminal;
use crate::model::finding::Level;
use crate::reckon::ladder::Ladders;
use crate::reckon::overview::Overview;

/// Show each series at a glance: coverage, minutes and landings, ladders, targets and limits
///
/// It goes on in spite of errors: what could not be read is left open, and said to be.
#[derive(Args)]
pub(super) struct PlanCommand {
    /// Show only this series
    #[arg(long, value_name = "SERIES")]
    series: Option<String>,
    /// How to show it
    #[arg(long, value_name = "FORMAT", default_value = "text")]
    format: Format,
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
    series: Vec<Overview<'m>>,
}

pub(super) fn run(command: &PlanCommand, common: &Common, terminal: &Terminal) -> Result<Outcome, Failure> {
    let loaded = load(common)?;
    let model = &loaded.model;
    let series = match &command.series {
        Some(id) => vec![loaded.series(id)?],
        None => model.series.values().collect(),
    };
    let ladders = Ladders::of(model);
    let overview = |series| Overview::of(model, &loaded.sources, &loaded.words, &ladders, series);
    let plan = Plan {
        errors: loaded.review(terminal.today).count(Level::Error),
        series: series.into_iter().map(overview).collect(),
    };
    terminal.print(&match command.format {
        Format::Text => text::render(&plan, terminal.look()),
        Format::Json => json::render(&plan),
    })?;
    Ok(Outcome::Done)
}
