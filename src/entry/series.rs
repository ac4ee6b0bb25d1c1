//! Reads `series.toml`. Its weeks are entries of their own.

use super::accept::read_accept;
use super::fields::Fields;
use super::opening::{IdSource, check_id};
use super::site::read_targets;
use super::{Known, fields};
use crate::model::entries::Weeks;
use crate::model::finding::Finding;
use crate::model::series::Series;
use crate::model::source::{FileId, Span};

pub(super) fn read(text: &str, file: FileId, id: &str, known: &Known<'_>) -> (Series, Vec<Finding>) {
    let (table, mut notes) = fields::parse(text, 0, file);
    let whole = Span::start_of(file);
    check_id(id, IdSource::Folder, whole, &mut notes);
    let mut f = Fields::new(table.get_ref(), whole, "the series", &notes);
    let n = &mut notes;
    let title = f.required_text("title", "\"Steady at Lantern Hill\"", id, n);
    let summary = f.required_text("summary", "\"One sentence on what it is.\"", "", n);
    let audience = f.required_text("audience", "\"Whom it is for.\"", "", n);
    let start = f.required_date("start", n);
    if f.key_span("serves", n).is_none() {
        f.missing("serves", "[\"low-bone-density\"]", n);
    }
    if let Some((value, span)) = f.value("serves", n)
        && value.as_array().is_some_and(|list| list.is_empty())
    {
        f.standing.mark_stand_in("serves");
        n.wrong(
            span,
            "expected at least one precaution, found an empty list",
            "name the conditions of those who come, such as `serves = [\"low-bone-density\"]`",
        );
    }
    let serves = f.precautions("serves", known, n);
    let all_have = f.precautions("all_have", known, n);
    let targets = read_targets(&mut f, n);
    let accept = read_accept(&mut f, n);
    let standing = f.finish(n);
    let series = Series {
        id: id.to_string(),
        file,
        standing,
        title,
        summary,
        audience,
        start,
        serves,
        all_have,
        targets,
        accept,
        weeks: Weeks::of(id),
    };
    (series, notes.findings)
}
