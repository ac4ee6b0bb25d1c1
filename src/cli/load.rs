//! What every command begins with: the workspace opened, and what the arguments name in it.
#![expect(clippy::disallowed_methods, reason = "the command line asks where it was started")]

use std::path::PathBuf;

use super::Common;
use super::outcome::Failure;
use crate::edition::Edition;
use crate::model::Model;
use crate::model::exercise::Exercise;
use crate::model::nearest::{nearest, shown, suggestion};
use crate::model::series::Series;
use crate::workspace;

/// Opens the workspace that the arguments mean.
pub(super) fn load(common: &Common) -> Result<Edition, Failure> {
    Ok(Edition::open(root(common)?)?)
}

/// The folder of the workspace that the arguments mean.
pub(super) fn root(common: &Common) -> Result<PathBuf, Failure> {
    match &common.workspace {
        Some(folder) => Ok(folder.clone()),
        None => {
            let here = std::env::current_dir()
                .map_err(|e| Failure::Unreadable(format!("the current folder cannot be read: {e}")))?;
            Ok(workspace::find(&here)?)
        }
    }
}

/// The folder of the workspace that the arguments mean; none where there is no workspace yet.
pub(super) fn root_or_none(common: &Common) -> Result<Option<PathBuf>, Failure> {
    match (&common.workspace, root(common)) {
        (Some(folder), Ok(_)) if !folder.join("site.toml").is_file() => Ok(None),
        (_, Ok(root)) => Ok(Some(root)),
        (None, Err(_)) => Ok(None),
        (Some(_), Err(failure)) => Err(failure),
    }
}

/// The series of that id, or a line that says what to name instead.
pub(super) fn series<'m>(model: &'m Model, id: &str) -> Result<&'m Series, Failure> {
    model.series.get(id).ok_or_else(|| {
        let known = suggestion(id, model.series.keys().map(String::as_str));
        Failure::Unreadable(format!("there is no series `{id}`; {known}"))
    })
}

/// The exercise of that id, or a line that says what to name instead.
pub(super) fn exercise<'m>(model: &'m Model, id: &str) -> Result<&'m Exercise, String> {
    model.exercises.get(id).ok_or_else(|| match nearest(id, model.exercises.keys().map(String::as_str)) {
        Some(near) => format!("there is no exercise {}; did you mean `{near}`?", shown(id)),
        None => format!(
            "there is no exercise {}; use the name of its file in content/exercises/ without .md",
            shown(id)
        ),
    })
}
