//! `steadyleaf review`: every finding with the line it is about.

use clap::{Args, ValueEnum};

use super::Common;
use super::load::{self, load};
use super::outcome::{Failure, Outcome};
use super::terminal::Terminal;
use crate::model::nearest::suggestion;
use crate::review::{report, rule, rules};

/// Review the workspace and show every finding
#[derive(Args)]
pub(super) struct ReviewCommand {
    /// How to show the findings
    #[arg(long, value_name = "FORMAT", default_value = "text")]
    format: Format,
    /// Show a rule's manual instead: what it finds, why, an example, a better one
    #[arg(long, value_name = "RULE", conflicts_with_all = ["format", "series"])]
    explain: Option<String>,
    /// Show only findings about one series, its weeks and their exercises
    #[arg(long, value_name = "SERIES")]
    series: Option<String>,
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    Text,
    Json,
    Sarif,
}

pub(super) fn run(command: &ReviewCommand, common: &Common, terminal: &Terminal) -> Result<Outcome, Failure> {
    if let Some(name) = &command.explain {
        return explain(name, terminal);
    }
    let edition = load(common)?;
    let mut review = edition.review(terminal.today);
    if let Some(series) = &command.series {
        let series = load::series(edition.model(), series)?;
        review.keep_series(&edition.case(terminal.today), series);
    }
    let text = match command.format {
        Format::Json => report::json::render(&review, edition.sources()),
        Format::Sarif => report::sarif::render(&review, edition.sources()),
        Format::Text => report::text::render(&review, edition.sources(), terminal.look()),
    };
    match command.format == Format::Text && review.findings.is_empty() && review.exceptions.is_empty() {
        true => terminal.say(text.trim_end())?,
        false => terminal.print(&text)?,
    }
    Ok(if review.has_errors() { Outcome::ErrorsFound } else { Outcome::Done })
}

fn explain(name: &str, terminal: &Terminal) -> Result<Outcome, Failure> {
    let Some(rule) = rules::find(name) else {
        let known = suggestion(name, rules::ALL.iter().map(|r| r.name));
        return Err(Failure::Unreadable(format!("there is no rule `{name}`; {known}")));
    };
    terminal.print(&rule::manual(rule))?;
    Ok(Outcome::Done)
}
