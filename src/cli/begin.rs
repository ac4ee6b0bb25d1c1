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
    terminal.say(&format!("Created a workspace with a sample series of two weeks in {folder}."))?;
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
    let days = [
        (sample::START, start),
        (sample::SECOND_WEEK, start.saturating_add(7.days())),
        (sample::REVIEWED, today),
    ];
    // Each day once: what is put in the place of one may look like another.
    let mut dated = String::with_capacity(text.len());
    let mut rest = text.as_str();
    while let Some((at, (old, new))) =
        days.iter().filter_map(|day| Some((rest.find(day.0)?, day))).min_by_key(|(at, _)| *at)
    {
        dated.push_str(&rest[..at]);
        dated.push_str(&new.to_string());
        rest = &rest[at + old.len()..];
    }
    dated.push_str(rest);
    dated.into_bytes()
}

/// The first Monday after a day.
pub(super) fn next_monday(today: Date) -> Date {
    today.nth_weekday(1, Weekday::Monday).unwrap_or(today)
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;

    #[test]
    fn weeks_stay_a_week_apart_whatever_day_it_is() {
        let days = format!("{} {} {}", sample::REVIEWED, sample::START, sample::SECOND_WEEK);
        for (today, expected) in [
            (date(2026, 1, 12), "2026-01-12 2026-01-19 2026-01-26"),
            (date(2026, 1, 5), "2026-01-05 2026-01-12 2026-01-19"),
            (date(2027, 3, 3), "2027-03-03 2027-03-08 2027-03-15"),
        ] {
            assert_eq!(String::from_utf8(dated(days.clone().into_bytes(), today)).unwrap(), expected);
        }
    }
}
