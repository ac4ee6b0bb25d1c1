//! `steadyleaf begin`: a new workspace with a small, complete sample series.

use std::path::PathBuf;

use clap::Args;
use jiff::ToSpan;
use jiff::civil::{Date, Weekday};

use super::outcome::{Failure, Outcome};
use super::terminal::Terminal;
use crate::publish;
use crate::workspace::sample;

/// Start a new workspace with a small, complete sample series
#[derive(Args)]
pub(super) struct Begin {
    /// The folder to make; an empty folder will do
    #[arg(value_name = "DIR")]
    folder: PathBuf,
}

pub(super) fn run(command: &Begin, terminal: &Terminal) -> Result<Outcome, Failure> {
    let mut files: Vec<(String, Vec<u8>)> =
        sample::files().into_iter().map(|(name, bytes)| (name, dated(bytes, terminal.today))).collect();
    // The first file appears last: a folder with a site.toml is a whole workspace.
    files.sort_by_key(|(name, _)| name != "site.toml");
    publish::create_new_folder_tree(&command.folder, &files)?;
    let folder = command.folder.display();
    terminal.say(&format!("A workspace with a sample series of two weeks stands in {folder}."))?;
    terminal.say(&format!(
        "Go there and see it: cd {folder}, then `steadyleaf make`, then open ready/index.html."
    ))?;
    terminal
        .say("Write over the sample, or start a series of your own with `steadyleaf add series TITLE`.")?;
    Ok(Outcome::Done)
}

/// The sample with its series starting on the Monday after today.
fn dated(bytes: Vec<u8>, today: Date) -> Vec<u8> {
    let Ok(text) = String::from_utf8(bytes.clone()) else { return bytes };
    let start = next_monday(today);
    text.replace(sample::START, &start.to_string())
        .replace(sample::SECOND_WEEK, &start.saturating_add(7.days()).to_string())
        .replace(sample::REVIEWED, &today.to_string())
        .into_bytes()
}

/// The first Monday after a day.
pub(super) fn next_monday(today: Date) -> Date {
    today.nth_weekday(1, Weekday::Monday).unwrap_or(today)
}
