//! Reads a free page.

use super::accept::read_accept;
use super::fields::Fields;
use super::opening::{IdSource, check_id, open};
use super::{Known, Origin, fields, prose};
use crate::model::finding::Finding;
use crate::model::page::FreePage;

/// Reads a free page; `None` when its block cannot be found.
pub(super) fn read(
    text: &str,
    origin: Origin<'_>,
    id: &str,
    known: &Known<'_>,
) -> (Option<FreePage>, Vec<Finding>) {
    let file = origin.file;
    let opened = match open(text, file) {
        Ok(opened) => opened,
        Err(finding) => return (None, vec![finding]),
    };
    let (table, mut notes) = fields::parse(&text[opened.fields.clone()], opened.fields.start, file);
    check_id(id, IdSource::File, opened.opening, &mut notes);
    let mut f = Fields::new(table.get_ref(), opened.opening, "the page", &notes);
    let n = &mut notes;
    let title = f.required_text("title", "\"About us\"", id, n);
    let summary = f.text("summary", n);
    let order = f.number("order", (0, 1000), n);
    let accept = read_accept(&mut f, n);
    f.finish(n);
    let prose = prose::read(text, opened.prose, origin, &known.sections, &mut n.findings);
    let page = FreePage { id: id.to_string(), file, title, summary, order, accept, prose };
    (Some(page), notes.findings)
}
