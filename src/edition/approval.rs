//! The approval of an exercise: a line in its entry, which says what it said before in every other word.

use std::fmt;

use jiff::civil::Date;

use super::Edition;
use crate::entry::edit::{Approved, with_reviewed};
use crate::reckon::approval::fingerprint;
use crate::workspace::{self, BYTE_ORDER_MARK};

/// An entry with the approval in it, to be written in the place of what it was.
#[derive(Debug, PartialEq, Eq)]
pub struct Approval {
    /// The entry's file, relative to the workspace.
    pub name: String,
    /// Of what was approved.
    pub fingerprint: String,
    pub before: Vec<u8>,
    pub after: Vec<u8>,
}

/// Why an approval cannot be written.
#[derive(Debug, PartialEq, Eq)]
pub enum Unapproved {
    NotThere {
        id: String,
    },
    Unread {
        name: String,
        why: String,
    },
    /// Another program has changed the file since the workspace was opened.
    Changed {
        name: String,
    },
    /// Its fields are so written that they can only be changed by hand.
    ByHand {
        name: String,
        fingerprint: String,
    },
    /// It does not say what it should with its `reviewed` changed.
    Fixed {
        name: String,
    },
}

impl fmt::Display for Unapproved {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Unapproved::NotThere { id } => write!(f, "there is no exercise `{id}`"),
            Unapproved::Unread { name, why } => write!(f, "{name} cannot be read: {why}"),
            Unapproved::Changed { name } => {
                write!(f, "{name} has just been changed by another program; run again")
            }
            Unapproved::ByHand { name, fingerprint } => write!(
                f,
                "{name} was not approved: its fields cannot be changed safely; run `steadyleaf review` and fix them, or write `by`, `on` and `of = \"{fingerprint}\"` into its `reviewed` by hand"
            ),
            Unapproved::Fixed { name } => write!(
                f,
                "{name} was not approved: its `reviewed` cannot be changed; take it out, then run again"
            ),
        }
    }
}

impl std::error::Error for Unapproved {}

impl Edition {
    /// Approves an exercise, in memory alone: the edition then says what the file will say.
    ///
    /// # Errors
    /// Why its entry cannot be changed. The edition may be left with a change that nobody may write.
    pub fn approve(&mut self, id: &str, by: &str, on: Date) -> Result<Approval, Unapproved> {
        let exercise = self.model.exercises.get(id);
        let exercise = exercise.ok_or_else(|| Unapproved::NotThere { id: id.to_string() })?;
        let (file, fingerprint_before) = (exercise.file, fingerprint(exercise));
        let source = self.sources.get(file);
        let name = source.name.clone();
        let before = workspace::bytes_of(&self.root, &name, &source.text)
            .map_err(|why| Unapproved::Unread { name: name.clone(), why: why.to_string() })?
            .ok_or_else(|| Unapproved::Changed { name: name.clone() })?;
        let approved = Approved { by, on, of: &fingerprint_before };
        let Some(text) = with_reviewed(&source.text, approved) else {
            return Err(Unapproved::ByHand { name, fingerprint: fingerprint_before });
        };
        let mark = if before.starts_with(BYTE_ORDER_MARK) { BYTE_ORDER_MARK } else { b"" };
        let after = [mark, text.as_bytes()].concat();
        let read = self.put(file, text);
        let exercise = self.model.exercises.get(id).filter(|_| read.is_some());
        match exercise.is_some_and(|exercise| fingerprint(exercise) == fingerprint_before) {
            true => Ok(Approval { name, fingerprint: fingerprint_before, before, after }),
            false => Err(Unapproved::Fixed { name }),
        }
    }
}

#[cfg(test)]
#[expect(clippy::disallowed_methods, reason = "tests write the workspace that they read")]
mod tests {
    use jiff::civil::date;

    use super::*;
    use crate::workspace::sample;

    const DROP: &str = "content/exercises/heel-drop.md";

    #[test]
    fn what_is_approved_says_what_it_said_and_who_approved_it() {
        let root = tempfile::tempdir().unwrap();
        for (name, bytes) in sample::files() {
            let path = root.path().join(name);
            std::fs::create_dir_all(path.parent().unwrap()).unwrap();
            std::fs::write(path, bytes).unwrap();
        }
        let bytes = std::fs::read(root.path().join(DROP)).unwrap();
        let marked = [BYTE_ORDER_MARK, &bytes].concat();
        std::fs::write(root.path().join(DROP), &marked).unwrap();
        let mut edition = Edition::open(root.path().to_path_buf()).unwrap();
        let (by, on) = ("B. Reviewer, PT", date(2027, 2, 1));
        let approval = edition.approve("heel-drop", by, on).unwrap();
        assert_eq!((approval.name.as_str(), &approval.before), (DROP, &marked));
        assert!(approval.after.starts_with(BYTE_ORDER_MARK), "the mark is kept");
        let exercise = &edition.model().exercises["heel-drop"];
        let reviewed = exercise.reviewed.as_ref().unwrap();
        assert_eq!((reviewed.by.value.as_str(), reviewed.on.value), (by, on));
        assert_eq!(fingerprint(exercise), approval.fingerprint);
        assert_eq!(std::fs::read(root.path().join(DROP)).unwrap(), marked, "nothing is written");
        // The text in memory is no longer that of the file.
        assert_eq!(edition.approve("heel-drop", by, on), Err(Unapproved::Changed { name: DROP.into() }));
        assert_eq!(edition.approve("no", by, on), Err(Unapproved::NotThere { id: "no".into() }));
    }
}
