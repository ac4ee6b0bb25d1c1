//! `steadyleaf desk`: the desk in the browser, on the local server that shows the site while it changes.
#![expect(clippy::disallowed_methods, reason = "the command line asks where it was started")]

use clap::Args;

use super::Common;
use super::load;
use super::outcome::{Failure, Outcome};
use super::proof::{follow, listened, port, preview};
use super::terminal::Terminal;
use crate::desk::{self, Request, Response};
use crate::proof::{self, Door, Event, Reply, Wanted};
use crate::publish::{self, Keeper};
use crate::workspace::sample;

/// Write exercises and plan weeks in your browser
///
/// It listens on this computer alone, for the browser that comes to the address it shows. Without a workspace it asks where to
/// begin one. What you change is written into your files at once; what they were is kept. Ctrl-C ends it.
#[derive(Args)]
pub(super) struct Desk {
    /// The port to listen on; if it is taken, the next free one [default: any that is free]
    #[arg(long, value_name = "N", default_value_t = 0, value_parser = port, hide_default_value = true)]
    port: u16,
    /// Do not open the browser; the address is shown all the same
    #[arg(long)]
    no_browser: bool,
}

pub(super) fn run(command: &Desk, common: &Common, terminal: &Terminal) -> Result<Outcome, Failure> {
    let root = load::root_or_none(common)?;
    let door = proof::open_desk(command.port).map_err(|e| listened(command.port, &e))?;
    let address = format!("http://{}{}", door.address, door.first);
    terminal.say(&format!(
        "Your desk is at {address}\nOpen that address if your browser does not open it by itself, and show it to nobody. Ctrl-C ends it."
    ))?;
    if !command.no_browser {
        // Whoever has no browser that can be opened reads the address.
        let _ = open::that_detached(&address);
    }
    let root = match root {
        Some(root) => root,
        None => match begun(&door, common, terminal)? {
            Some(root) => root,
            None => return Ok(Outcome::Done),
        },
    };
    let keeper = Keeper::open(&root)?;
    let mut preview = preview::Preview::load(root, terminal.today)?;
    preview.keeps(keeper);
    follow(&mut preview, &door, terminal)
}

/// Asks in the browser where a workspace is to begin, and begins it; none where she has seen enough.
fn begun(door: &Door, common: &Common, terminal: &Terminal) -> Result<Option<std::path::PathBuf>, Failure> {
    let here = match &common.workspace {
        Some(folder) => folder.clone(),
        None => std::env::current_dir().unwrap_or_default().join("home-exercises"),
    };
    let here = here.display().to_string();
    while let Ok(event) = door.events.recv() {
        let (wanted, asker) = match event {
            Event::Wanted(wanted, asker) => (wanted, asker),
            Event::Stop => return Ok(None),
            Event::Saved(_) | Event::Reviewed { .. } => continue,
        };
        let Wanted::Desk(request) = wanted else {
            // Whoever asked may be gone again.
            let _ = asker.send(Reply::Desk(Response::Go(String::new())));
            continue;
        };
        let (response, root) = answered(&request, &here, terminal);
        // Whoever asked may be gone again.
        let _ = asker.send(Reply::Desk(response));
        if root.is_some() {
            return Ok(root);
        }
    }
    Ok(None)
}

fn answered(request: &Request, here: &str, terminal: &Terminal) -> (Response, Option<std::path::PathBuf>) {
    let ask = |why: Option<&str>| desk::opening(request, here, sample::files_begun(terminal.today), why);
    let begun = match ask(None) {
        Ok(begun) => begun,
        Err(response) => return (response, None),
    };
    let mut files = begun.files;
    // The first file appears last: a folder with a site.toml is a whole workspace.
    files.sort_by_key(|(name, _)| name != "site.toml");
    match publish::create_new_folder_tree(&begun.folder, &files) {
        Ok(()) => (Response::Go(String::new()), Some(begun.folder)),
        Err(why) => match ask(Some(&why.to_string())) {
            Err(response) => (response, None),
            Ok(_) => (desk::unsaved(request, &why.to_string()), None),
        },
    }
}
