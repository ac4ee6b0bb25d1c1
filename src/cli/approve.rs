//! `steadyleaf approve`: writes who reviewed an exercise clinically, when, and a fingerprint of what was reviewed.

use std::collections::BTreeSet;

use clap::Args;

use super::Common;
use super::load::{exercise, load};
use super::outcome::{Failure, Outcome};
use super::terminal::Terminal;
use crate::edition::{Approval, Edition, Unapproved};
use crate::model::exercise::Exercise;
use crate::model::nearest::shown;
use crate::model::source::FileId;
use crate::publish::Replacement;
use crate::review::{Review, report};

/// Write down who approved exercises clinically, today, and what was approved
///
/// Each entry gets a line `reviewed` with the name, the day and a fingerprint of its fields and prose; nothing else in
/// it changes. When something does later, the review says so, and pages and handouts name nobody until it is
/// approved again. An exercise with errors cannot be approved, and nothing is written if one of several cannot.
#[derive(Args)]
pub(super) struct Approve {
    /// The exercises: the names of their files without .md
    #[arg(value_name = "ID", required = true)]
    ids: Vec<String>,
    /// Who approved them, with the profession, such as "A. Reviewer, PT"
    #[arg(long, value_name = "NAME", value_parser = name)]
    by: String,
}

pub(super) fn run(command: &Approve, common: &Common, terminal: &Terminal) -> Result<Outcome, Failure> {
    let mut edition = load(common)?;
    let ids: BTreeSet<&str> = command.ids.iter().map(String::as_str).collect();
    let exercises: Vec<&Exercise> =
        ids.into_iter().map(|id| known(&edition, id)).collect::<Result<_, Failure>>()?;
    let files: BTreeSet<FileId> = exercises.iter().map(|exercise| exercise.file).collect();
    // Fields that cannot be parsed cannot be changed either; what is wrong with them is told first.
    if exercises.iter().any(|exercise| exercise.standing.is_broken()) {
        return stopped(&edition.review(terminal.today).errors_in(&files), &edition, terminal);
    }
    let ids: Vec<String> = exercises.into_iter().map(|exercise| exercise.id.clone()).collect();
    let approvals: Vec<Approval> = ids
        .iter()
        .map(|id| edition.approve(id, &command.by, terminal.today).map_err(|why| told(&why)))
        .collect::<Result<_, Failure>>()?;
    let errors = edition.review(terminal.today).errors_in(&files);
    if errors.has_errors() {
        return stopped(&errors, &edition, terminal);
    }
    let staged: Vec<Replacement> = approvals
        .iter()
        .map(|e| Replacement::stage(edition.root(), &e.name, &e.before, &e.after))
        .collect::<Result<_, _>>()?;
    for (approval, staged) in approvals.iter().zip(staged) {
        staged.put()?;
        terminal.say(&format!(
            "{}: approved by {} on {}, fingerprint {}",
            approval.name, command.by, terminal.today, approval.fingerprint
        ))?;
    }
    Ok(Outcome::Done)
}

fn known<'m>(edition: &'m Edition, id: &str) -> Result<&'m Exercise, Failure> {
    if edition.model().unreadable.contains(id) {
        return Err(Failure::Unreadable(format!(
            "`{id}` could not be read; run `steadyleaf review` and fix it first"
        )));
    }
    exercise(edition.model(), id).map_err(Failure::Unreadable)
}

/// The errors, and that nothing was written.
fn stopped(errors: &Review, edition: &Edition, terminal: &Terminal) -> Result<Outcome, Failure> {
    terminal.print(&report::text::render(errors, edition.sources(), terminal.look()))?;
    terminal.print("Nothing was approved: an exercise with errors cannot be. Fix them, then run again.\n")?;
    Ok(Outcome::ErrorsFound)
}

/// What to do about an approval that cannot be written.
fn told(unapproved: &Unapproved) -> Failure {
    match unapproved {
        Unapproved::NotThere { .. } | Unapproved::Unread { .. } | Unapproved::Changed { .. } => {
            Failure::Unreadable(unapproved.to_string())
        }
        Unapproved::ByHand { .. } | Unapproved::Fixed { .. } => Failure::Unwritable(unapproved.to_string()),
    }
}

/// A name is a line of words.
fn name(text: &str) -> Result<String, String> {
    match text.trim() {
        "" => Err("expected who approved them, such as \"A. Reviewer, PT\"".to_string()),
        text if text.chars().any(char::is_control) => {
            Err(format!("expected a name on one line, found {}", shown(text)))
        }
        text => Ok(text.to_string()),
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn a_name_is_words_on_one_line() {
        assert_eq!(super::name(" A. Reviewer, PT ").as_deref(), Ok("A. Reviewer, PT"));
        for text in ["", "  ", "A.\nReviewer", "\u{7}a"] {
            assert!(super::name(text).unwrap_err().starts_with("expected"), "{text:?}");
        }
    }
}
