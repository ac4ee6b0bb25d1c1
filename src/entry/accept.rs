//! Reads the reasoned exceptions of an entry.

use super::fields::{Fields, Notes, each};
use crate::model::accept::Accept;

/// Reads the exceptions of any entry.
pub(super) fn read_accept(f: &mut Fields<'_>, n: &mut Notes) -> Vec<Accept> {
    each(f, "accept", n, |table, span, n| {
        let mut f = Fields::new(table, span, "an exception", n);
        let finding = f.required_text("finding", "\"repeated-exercise\"", "", n);
        let because = f.required_text("because", "\"the reason in a sentence\"", "", n);
        let by = f.text("by", n);
        let on = f.date("on", n);
        let standing = f.finish(n);
        // Without its reason an exception is none: the finding it names stands. So it is where a name or a day was
        // tried and cannot be read.
        standing.is_whole().then_some(Accept { span, finding, because, by, on })
    })
}
