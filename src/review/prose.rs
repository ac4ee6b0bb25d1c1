//! The prose of every entry, for rules that look at prose wherever it stands.

use crate::model::Model;
use crate::model::prose::Prose;
use crate::model::source::FileId;

/// The prose of every exercise, week and page, with its file.
pub(super) fn all(model: &Model) -> impl Iterator<Item = (FileId, &Prose)> {
    let exercises = model.exercises.values().map(|e| (e.file, &e.prose));
    let weeks = model.weeks().map(|(_, w)| (w.file, &w.prose));
    let pages = model.pages.values().map(|p| (p.file, &p.prose));
    exercises.chain(weeks).chain(pages)
}
