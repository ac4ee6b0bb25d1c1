//! The safety findings that somebody has accepted, each with how long it has stood.

use serde::Serialize;

use super::super::Pages;
use crate::model::reads::{Read, note};
use crate::model::source::FileId;
use crate::review::Case;
use crate::review::accepted::{self, Accepted};
use crate::review::exceptions::Age;

/// One accepted finding.
#[derive(Serialize)]
pub(super) struct AcceptedRow {
    /// What the entry is called, or its file where it has no title.
    entry: String,
    /// Its name alone: what the review says of a finding may be nothing to publish, such as who is thanked unasked.
    rule: &'static str,
    /// "Accepted by …, 20 weeks ago: …".
    line: String,
}

pub(super) fn accepted(pages: &Pages<'_>) -> Vec<AcceptedRow> {
    let case = Case { model: pages.model, sources: pages.sources, words: pages.words, today: pages.today() };
    note(|| Read::Everything);
    accepted::accepted(&case).iter().map(|accepted| row(pages, accepted)).collect()
}

fn row(pages: &Pages<'_>, accepted: &Accepted) -> AcceptedRow {
    AcceptedRow {
        entry: title(pages, accepted.span.file),
        rule: accepted.rule,
        line: pages.words.say_with(
            "plan-accepted-line",
            &[
                ("by", accepted.by.as_str().into()),
                ("date", pages.say().day(accepted.on).into()),
                ("age", age(pages, accepted.age).into()),
                ("reason", accepted.because.as_str().into()),
            ],
        ),
    }
}

fn age(pages: &Pages<'_>, age: Age) -> String {
    let (id, count) = match age {
        Age::Days(0) => return pages.words.say("plan-accepted-today"),
        Age::Days(days) => ("plan-accepted-days", days),
        Age::Weeks(weeks) => ("plan-accepted-weeks", weeks),
    };
    pages.say().counted(id, count.to_string(), count.into())
}

fn title(pages: &Pages<'_>, file: FileId) -> String {
    let model = pages.model;
    let exercises = model.exercises.values().map(|e| (e.file, &e.title));
    let series = model.series.values().map(|s| (s.file, &s.title));
    let weeks = model.weeks().map(|(_, w)| (w.file, &w.title));
    let free = model.pages.values().map(|p| (p.file, &p.title));
    let title = exercises.chain(series).chain(weeks).chain(free).find(|(of, _)| *of == file);
    title.map_or_else(|| pages.sources.get(file).name.clone(), |(_, title)| title.value.clone())
}
