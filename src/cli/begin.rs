//! `steadyleaf begin`: a new workspace with a small, complete sample series.

use std::path::PathBuf;

use clap::Args;

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
    let mut files = sample::files_begun(terminal.today);
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
