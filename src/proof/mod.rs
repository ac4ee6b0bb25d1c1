//! The live preview and the way to the desk: door 3, the only one that listens. It serves what `cli` makes from memory, to this machine
//! alone, and tells open pages what has changed. Never makes a page itself, and opens no file of the disk: a video that
//! it sends was opened by `workspace`.

pub mod excerpt;
pub mod panel;

mod admission;
mod dress;
mod guard;
mod server;
mod shown;
mod watch;

use std::collections::BTreeSet;
use std::io;
use std::net::SocketAddr;
use std::path::Path;
use std::sync::Arc;
use std::sync::mpsc::{self, Receiver, Sender};

use tokio::sync::oneshot;

use crate::desk;
use crate::review::Review;
use admission::Admission;
pub use server::Reply;
pub use shown::{Refresh, Shown};
pub use watch::Watching;

/// What the preview has to answer.
pub enum Event {
    /// A browser asks for something that is not in memory.
    Wanted(Wanted, Asker),
    /// The review of that number has ended; without a review where it was given up or failed.
    Reviewed { number: u64, review: Option<Review> },
    /// These files were saved, made or removed; names are relative to the workspace. An empty name stands for
    /// any file: the system lost count.
    Saved(BTreeSet<String>),
    /// The person at the terminal has seen enough.
    Stop,
}

/// Who waits for an answer.
pub type Asker = oneshot::Sender<Reply>;

/// What a browser asks for.
#[derive(Debug, PartialEq, Eq)]
pub enum Wanted {
    /// A file of the site by its path.
    File { path: String },
    /// The findings, those of this page first.
    Panel { page: String },
    /// The lines that a finding is about.
    Excerpt { review: u64, finding: usize },
    /// A page of the desk, or a change that was made there.
    Desk(desk::Request),
}

/// The open door.
pub struct Door {
    pub address: SocketAddr,
    /// The path to begin with: the only way to the desk, where there is one.
    pub first: String,
    pub shown: Arc<Shown>,
    pub events: Receiver<Event>,
    sender: Sender<Event>,
}

impl Door {
    /// By which whoever works beside the answering tells what came of it.
    pub fn sender(&self) -> Sender<Event> {
        self.sender.clone()
    }

    /// Watches the workspace from now on, as long as what is returned lives.
    ///
    /// # Errors
    /// When the system watches no files, or no more of them.
    pub fn watch(&self, root: &Path) -> io::Result<Watching> {
        watch::watch(root, self.sender.clone())
    }
}

/// Listens on this machine's own address, at the first free port from `port` on, and serves on a thread of
/// its own.
///
/// # Errors
/// When no port is free.
pub fn open(port: u16) -> io::Result<Door> {
    opened(port, None)
}

/// The same with the desk behind it: nobody is served who has not come to the door's first address.
///
/// # Errors
/// When no port is free, or the system has no randomness to give.
pub fn open_desk(port: u16) -> io::Result<Door> {
    opened(port, Some(Admission::draw()?))
}

fn opened(port: u16, admission: Option<Admission>) -> io::Result<Door> {
    let (sender, events) = mpsc::channel();
    let shown = Arc::new(Shown::default());
    let first = admission.as_ref().map_or("/".to_string(), Admission::first);
    let address = server::start(port, Arc::clone(&shown), sender.clone(), admission)?;
    Ok(Door { address, first, shown, events, sender })
}
