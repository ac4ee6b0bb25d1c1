//! Reads a person's profile, `clients/NAME.toml`. Nothing in it is guessed: sheets are made by it.

use super::fields::{self, Fields, Notes};
use super::site::{NO_SIZE, size};
use crate::model::catalogue::Catalogue;
use crate::model::client::Client;
use crate::model::finding::Finding;
use crate::model::nearest::shown;
use crate::model::source::{FileId, Span, Spanned};
use crate::model::standing::Standing;

/// Reads a profile. `None` as soon as there is one finding, for what was misread might be the very
/// thing that keeps the person safe: where other entries take a near miss, a profile is refused.
pub fn read_client(text: &str, file: FileId, catalogue: &Catalogue) -> (Option<Client>, Vec<Finding>) {
    let (table, mut notes) = fields::parse(text, 0, file);
    let mut f = Fields::new(table.get_ref(), Span::start_of(file), "the profile", &notes);
    let n = &mut notes;

    let name = f.required_text("name", "\"A. B.\"", "", n);
    if f.key_span("precautions", n).is_none() {
        f.missing("precautions", "[\"unsteady\"]` with the person's own, or for none `precautions = []", n);
    }
    let precautions = f.ids("precautions", "precaution", catalogue.precautions.keys(), n);
    refuse_doubles(&precautions, n);
    let mut days = f.words("days", n);
    if let Some((value, span)) = f.value("days", n)
        && value.as_array().is_some_and(|list| list.is_empty())
    {
        n.wrong(
            span,
            "expected at least one day, found an empty list",
            "name the free days, such as `days = [\"monday\", \"thursday\"]`, or leave the field out for any day",
        );
    }
    days.sort_by_key(|day| day.value);
    days.dedup_by_key(|day| day.value);
    let minutes = f.number("minutes", (1, 180), n);
    let equipment = f.texts("equipment", n);
    let points = f.value("size", n).and_then(|(value, span)| {
        let points = size(value);
        if points.is_none() {
            n.wrong(span, NO_SIZE, "write `size = 24`, without quotes");
        }
        points
    });
    let paper = f.word("paper", n).map(|p| p.value);
    let language = f.text("language", n);
    let note = f.text("note", n);
    let standing = f.finish(n);
    let whole = notes.findings.is_empty() && standing == Standing::default();
    let client =
        Client { file, name, precautions, days, minutes, equipment, size: points, paper, language, note };
    (whole.then_some(client), notes.findings)
}

/// A precaution that stands twice may have been meant to be another.
fn refuse_doubles(precautions: &[Spanned<String>], n: &mut Notes) {
    for (at, precaution) in precautions.iter().enumerate() {
        if precautions[..at].iter().any(|before| before.value == precaution.value) {
            n.wrong(
                precaution.span,
                format!("expected each precaution once, found {} twice", shown(&precaution.value)),
                "keep one of the two, or write the precaution that was meant in its place",
            );
        }
    }
}
