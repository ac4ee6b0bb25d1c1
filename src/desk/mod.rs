//! The desk: pages of this machine alone in which the educator writes exercises and plans weeks. It turns what a form sent
//! into the new text of an entry and says which files are to be written; `cli` has `publish` write them. It makes no page
//! of the site and touches no disk.
//!
//! ```text
//!  Request ──▶ answer ──▶ Shown                      a page of the desk
//!                │  ╰───▶ Save ──publish──▶ Go        the page to go to when the files are written
//!                ╰─ form: fields that she has changed ──entry::edit──▶ text ──edition──▶ what would be found
//! ```

mod earlier;
mod entry;
mod exercise;
mod exercises;
mod form;
mod lists;
mod marks;
mod opening;
mod raw;
mod request;
mod settings;
mod today;
mod view;
mod week;

use jiff::civil::Date;

pub use opening::{Begun, opening};
pub use request::{Fields, KEY, MOST, Request, Response};

use crate::edition::Edition;
use crate::model::source::Sources;
use crate::publish::Earlier;
use crate::review::Review;

/// What the desk answers from: one state of the workspace, and what is known beside it.
pub struct Room<'r> {
    pub edition: &'r Edition,
    pub today: Date,
    /// The last review that was finished, and the texts that it looked at.
    pub reviewed: Option<(&'r Review, &'r Sources)>,
    /// The states that an entry had, the latest first.
    pub earlier: &'r dyn Fn(&str) -> Vec<Earlier>,
    /// What an entry said then.
    pub then: &'r dyn Fn(&str, u64) -> Option<Vec<u8>>,
    /// The entries that were deleted here.
    pub gone: &'r dyn Fn() -> Vec<String>,
}

/// What becomes of a request.
pub enum Answer {
    Shown(Response),
    Save(Save),
    /// An entry is no longer what was read of it: to be asked again when it has been read.
    Stale(String),
}

/// Files to write, all or none where it can be helped, and where to go then.
pub struct Save {
    pub files: Vec<FileChange>,
    pub then: String,
}

/// One entry before and after; without a before it is new, without an after it goes.
pub struct FileChange {
    pub name: String,
    pub before: Option<Vec<u8>>,
    pub after: Option<Vec<u8>>,
}

/// Answers a page of the desk or takes a change.
pub fn answer(room: &Room<'_>, request: &Request) -> Answer {
    let parts: Vec<&str> = request.path.split('/').filter(|part| !part.is_empty()).collect();
    let shown = |found: Option<Answer>| found.unwrap_or_else(|| Answer::Shown(view::not_there(request)));
    match parts.as_slice() {
        [] => today::answer(room, request),
        ["exercises"] => exercises::answer(room, request),
        ["exercise", id] => shown(exercise::answer(room, request, id)),
        ["week", series, id] => shown(week::answer(room, request, series, id)),
        ["series"] => lists::answer(room, request),
        ["series", id] => shown(settings::series(room, request, id)),
        ["settings"] => shown(settings::site(room, request)),
        ["text", name @ ..] => shown(raw::answer(room, request, &name.join("/"))),
        ["earlier", name @ ..] => shown(earlier::answer(room, request, &name.join("/"))),
        _ => shown(view::asset(request).map(Answer::Shown)),
    }
}

/// What could not be written, and that nothing was lost: shown in the place of the page that was sent.
pub fn unsaved(request: &Request, why: &str) -> Response {
    view::unsaved(request, why)
}
