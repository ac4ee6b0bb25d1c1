//! `plan --write`: the choice as a new week for its author to finish.

use std::path::Path;

use super::super::add;
use super::super::outcome::Failure;
use super::text::chosen;
use crate::entry::new::filled_week;
use crate::model::series::Series;
use crate::reckon::proposal::{Proposal, Unknown};

/// Writes the week; says what is in it and what to do next. Nothing is written where nothing fits.
pub(super) fn write(
    series: &Series,
    proposal: &Result<Proposal<'_>, Unknown<'_>>,
    root: &Path,
) -> Result<String, Failure> {
    let proposal = proposal.as_ref().map_err(|unknown| {
        unwritten(&format!(
            "what came before is not known: {unknown}; run `steadyleaf review` and fix it first"
        ))
    })?;
    let session = proposal
        .choice
        .as_ref()
        .map_err(|unfit| unwritten(&format!("{unfit}; {}", unfit.help(&proposal.wish))))?;
    let exercises = session.practices.iter().map(|(exercise, _)| *exercise);
    let path = add::write(&filled_week(series, proposal.week, proposal.date, exercises), root)?;
    Ok(format!(
        "Created {} for the week from {}:\n{}These are proposals: judge them, and change what you would rather have. \
         Fill in the empty quotes, then run `steadyleaf review`.",
        path.display(),
        proposal.date,
        chosen(session)
    ))
}

fn unwritten(why: &str) -> Failure {
    Failure::Unwritable(format!("no week was written: {why}"))
}
