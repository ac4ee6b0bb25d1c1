//! Reads a dose: `[dose]` of an exercise, or the fields of it that a week or a variation changes.

use toml::de::DeTable;

use super::fields::{Fields, Notes};
use crate::model::dose::Dose;
use crate::model::finding::Finding;
use crate::model::nearest::nearest;
use crate::model::source::Span;

/// A dose of which any field may be absent.
pub(super) fn read(table: &DeTable<'_>, span: Span, notes: &mut Notes) -> Dose {
    let mut f = Fields::new(table, span, "a dose", notes);
    let dose = Dose {
        span,
        reps: f.amount("reps", (1, 500), notes),
        hold: f.time("hold", notes),
        time: f.time("time", notes),
        sets: f.amount("sets", (1, 20), notes),
        sides: f.word("sides", notes),
        rest: f.time("rest", notes),
        pace: f.time("pace", notes),
        days: f.amount("days", (1, 7), notes),
        rest_days: f.amount("rest_days", (0, 6), notes),
        effort: f.amount("effort", (0, 10), notes),
    };
    f.finish(notes);
    dose
}

/// The dose of an exercise, which must say how much.
pub(super) fn read_whole(table: &DeTable<'_>, span: Span, notes: &mut Notes) -> Dose {
    let mut names = table.keys().map(|key| key.get_ref().as_ref());
    let tried = names.any(|name| nearest(name, ["reps", "hold", "time"]).is_some());
    let dose = read(table, span, notes);
    if !tried {
        notes.findings.push(Finding::new(
            "missing-field",
            span,
            "the dose does not say how much: it has no `reps`, no `hold` and no `time`",
            "add `reps = 10`, `hold = \"20 s\"` or `time = \"5 min\"`",
        ));
    }
    dose
}
