//! What a form changes of an entry: its new text, looked at before anybody may write it.

use super::form::{self, Clash, Control};
use super::marks::Mark;
use super::request::{Fields, Response};
use super::{Answer, FileChange, Room, Save};
use crate::edition::Unwritten;
use crate::entry::edit::{Change, changed};

/// Nothing is written, and why.
#[derive(Default)]
pub(super) struct Refused {
    /// Fields that she and somebody else have changed.
    pub(super) clashes: Vec<Clash>,
    pub(super) why: Vec<Mark>,
}

impl Refused {
    fn because(why: &str) -> Refused {
        Refused { clashes: Vec::new(), why: vec![Mark::refusing(why)] }
    }
}

/// Writes what a form has changed of these fields and what a button does beside that.
///
/// # Errors
/// Why nothing can be written.
pub(super) fn take(
    room: &Room<'_>,
    name: &str,
    controls: &[Control],
    form: &Fields,
    more: Vec<Change>,
    then: &str,
) -> Result<Answer, Refused> {
    let mut changes =
        form::changes(controls, form).map_err(|clashes| Refused { clashes, why: Vec::new() })?;
    changes.extend(more);
    let sources = room.edition.sources();
    let file = sources.find(name).ok_or_else(|| Refused::because(&format!("there is no file {name}")))?;
    let text = &sources.get(file).text;
    let is_whole_toml = name.ends_with(".toml");
    let new = changed(text, is_whole_toml, &changes).map_err(|why| Refused::because(&why.to_string()))?;
    put(room, name, &new, then)
}

/// Writes an entry anew, if the program can read all of it that it could read before.
///
/// # Errors
/// Why nothing can be written.
pub(super) fn put(room: &Room<'_>, name: &str, text: &str, then: &str) -> Result<Answer, Refused> {
    put_text(room, name, text, then, false)
}

/// The same; `anyway` where she has seen what cannot be read and wants it written all the same.
///
/// # Errors
/// Why nothing can be written.
pub(super) fn put_text(
    room: &Room<'_>,
    name: &str,
    text: &str,
    then: &str,
    anyway: bool,
) -> Result<Answer, Refused> {
    match room.edition.rewritten(name, text) {
        Ok(new) if new.before == new.after => Ok(Answer::Shown(Response::Go(then.to_string()))),
        Ok(new) if !new.found.is_empty() && !anyway => {
            Err(Refused { clashes: Vec::new(), why: new.found.iter().map(Mark::of).collect() })
        }
        Ok(new) => {
            let change = FileChange { name: new.name, before: Some(new.before), after: Some(new.after) };
            Ok(Answer::Save(Save { files: vec![change], then: then.to_string() }))
        }
        Err(Unwritten::Changed { name }) => Ok(Answer::Stale(name)),
        Err(why) => Err(Refused::because(&why.to_string())),
    }
}
