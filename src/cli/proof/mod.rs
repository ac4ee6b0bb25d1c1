//! `steadyleaf proof`: a local preview that follows every saved change, made by the same code as `make`.

mod answer;
mod at_desk;
mod line;
pub(super) mod preview;
mod round;
mod snapshot;

use clap::Args;

use super::Common;
use super::load;
use super::outcome::{Failure, Outcome};
use super::terminal::Terminal;
use crate::proof::{self, Door};
use line::Save;
use preview::Preview;
use round::End;

/// Show the site in your browser while you write: every saved change appears in the open page
///
/// It listens on this computer alone and makes nothing in ready/. Ctrl-C ends it.
#[derive(Args)]
pub(super) struct Proof {
    /// The port to listen on; if it is taken, the next free one
    #[arg(long, value_name = "N", default_value_t = 5323, value_parser = port)]
    port: u16,
}

pub(super) fn run(command: &Proof, common: &Common, terminal: &Terminal) -> Result<Outcome, Failure> {
    let mut preview = Preview::load(load::root(common)?, terminal.today)?;
    let door = proof::open(command.port).map_err(|e| listened(command.port, &e))?;
    terminal.say(&format!(
        "Open http://{}/ in your browser. It follows what you save. Ctrl-C ends it.",
        door.address
    ))?;
    follow(&mut preview, &door, terminal)
}

/// Why the server cannot listen.
pub(super) fn listened(port: u16, why: &std::io::Error) -> Failure {
    Failure::Unreadable(format!("no port from {port} on is free to listen on: {why}"))
}

/// Answers browsers and follows what is saved, until the person at the terminal has seen enough.
pub(super) fn follow(preview: &mut Preview, door: &Door, terminal: &Terminal) -> Result<Outcome, Failure> {
    let mut watching = door
        .watch(preview.root())
        .map_err(|e| Failure::Unreadable(format!("saved changes cannot be followed: {e}")))?;
    let mut change = None;
    loop {
        match preview.round(door, change.take(), terminal)? {
            End::Stopped => return Ok(Outcome::Done),
            End::Saved(names) => {
                let start = terminal.clock();
                watching.follow_new_folders(&names);
                change = preview.follow(&names).map(|files| Save { files, start });
            }
        }
    }
}

pub(super) fn port(text: &str) -> Result<u16, String> {
    text.parse().map_err(|_| "expected the number of a port from 0 to 65535, such as 5323".to_string())
}
