//! The desk in a round: its pages are answered from what is previewed, and what it changes is written and read at once.

use std::collections::BTreeSet;

use jiff::Timestamp;

use super::round::Round;
use crate::desk::{self, Answer, Request, Response, Room, Save};
use crate::proof::{Asker, Reply};
use crate::publish::{Keeper, Problem, PublishError};

/// A request that waits until an entry has been read again.
pub(super) struct Waiting {
    pub(super) request: Request,
    pub(super) asker: Asker,
}

impl Round<'_> {
    /// Answers a request of the desk. The names of the files that it has written, or that have to be read before it can be
    /// answered; `is_last` when it has waited already.
    pub(super) fn at_desk(
        &mut self,
        request: Request,
        asker: Asker,
        is_last: bool,
    ) -> Option<BTreeSet<String>> {
        let Some(keeper) = self.keeper else {
            let _ = asker.send(Reply::Missing(String::new()));
            return None;
        };
        let room = Room {
            edition: self.now.edition,
            today: self.now.today,
            reviewed: self.reviewed.as_ref().map(|reviewed| (&reviewed.review, &reviewed.sources)),
            earlier: &|name| keeper.earlier(name).unwrap_or_default(),
            then: &|name, number| keeper.bytes(name, number).ok(),
            gone: &|| keeper.gone().unwrap_or_default(),
        };
        let mut read = None;
        let response = match desk::answer(&room, &request) {
            Answer::Shown(response) => response,
            Answer::Save(save) => match written(keeper, &save) {
                Ok(()) => {
                    read = Some(save.files.into_iter().map(|file| file.name).collect());
                    Response::Go(save.then)
                }
                Err(why) if is_changed(&why) && !is_last => {
                    let names = save.files.into_iter().map(|file| file.name).collect();
                    self.waiting.push(Waiting { request, asker });
                    return Some(names);
                }
                Err(why) => desk::unsaved(&request, &why.to_string()),
            },
            Answer::Stale(name) if !is_last => {
                self.waiting.push(Waiting { request, asker });
                return Some(BTreeSet::from([name]));
            }
            Answer::Stale(name) => {
                desk::unsaved(&request, &format!("{name} is being changed by another program"))
            }
        };
        // Whoever asked may be gone again.
        let _ = asker.send(Reply::Desk(response));
        read
    }
}

fn is_changed(error: &PublishError) -> bool {
    matches!(error.problem, Problem::Changed)
}

#[expect(clippy::disallowed_methods, reason = "this is where the clock is asked when something was written")]
fn written(keeper: &Keeper, save: &Save) -> Result<(), PublishError> {
    let now = Timestamp::now();
    save.files.iter().try_for_each(|file| match (&file.before, &file.after) {
        (Some(before), Some(after)) => keeper.replace(&file.name, before, after, now),
        (None, Some(bytes)) => keeper.create(&file.name, bytes),
        (Some(before), None) => keeper.remove(&file.name, before, now),
        (None, None) => Ok(()),
    })
}
