//! Reads a person's profile, `clients/NAME.toml`. Nothing in it is guessed: sheets are made by it.

use jiff::civil::Date;
use toml::de::DeTable;

use super::fields::{self, Fields, Notes, checked_id, each};
use super::site::{NO_SIZE, size};
use crate::model::catalogue::Catalogue;
use crate::model::client::{Clearance, Cleared, Client, Hold, Preference};
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
    let equipment = f.key_span("equipment", n).map(|_| f.texts("equipment", n));
    f.value("equipment", n);
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
    let hold = f.table("hold", n).map(|(table, span)| read_hold(table, span, n));
    let cleared = each(&mut f, "cleared", n, |table, span, n| read_clearance(table, span, catalogue, n));
    let prefer = each(&mut f, "prefer", n, read_preference);
    let standing = f.finish(n);
    let whole = notes.findings.is_empty() && standing == Standing::default();
    let client = Client {
        file,
        name,
        precautions,
        days,
        minutes,
        equipment,
        size: points,
        paper,
        language,
        note,
        hold,
        cleared,
        prefer,
    };
    (whole.then_some(client), notes.findings)
}

fn read_hold(table: &DeTable<'_>, span: Span, n: &mut Notes) -> Hold {
    let mut f = Fields::new(table, span, "the hold", n);
    let hold = Hold {
        span,
        because: f.required_text("because", "\"Waits for a letter about her heart.\"", "", n),
        by: f.required_text("by", "\"A. Reviewer, PT\"", "", n),
        on: f.required_date("on", n),
    };
    f.finish(n);
    hold
}

fn read_clearance(
    table: &DeTable<'_>,
    span: Span,
    catalogue: &Catalogue,
    n: &mut Notes,
) -> Option<Clearance> {
    let mut f = Fields::new(table, span, "a clearance", n);
    let exercise = f.text("exercise", n);
    let demand = f.text("demand", n).and_then(|d| checked_id(d, "demand", catalogue.demands.keys(), n));
    let what = match (exercise, demand) {
        (Some(exercise), None) => Some(Cleared::Exercise(exercise)),
        (None, Some(demand)) => Some(Cleared::Demand(demand)),
        (Some(_), Some(demand)) => {
            n.wrong(
                demand.span,
                "expected `exercise` or `demand`, found both",
                "write one `[[cleared]]` for the exercise and one for the demand",
            );
            None
        }
        (None, None) => {
            if f.key_span("exercise", n).is_none() && f.key_span("demand", n).is_none() {
                f.missing("exercise", "\"heel-drop\"` or `demand = \"impact-low\"", n);
            }
            None
        }
    };
    if f.key_span("of", n).is_none() {
        f.missing("of", "[\"spine-fracture\"]", n);
    }
    if let Some((value, at)) = f.value("of", n)
        && value.as_array().is_some_and(|list| list.is_empty())
    {
        n.wrong(
            at,
            "expected at least one precaution, found an empty list",
            "name the precautions that the clinician has looked at, such as `of = [\"spine-fracture\"]`",
        );
    }
    let of = f.ids("of", "precaution", catalogue.precautions.keys(), n);
    let by = f.required_text("by", "\"Dr. A. Reviewer\"", "", n);
    let on = f.required_date("on", n);
    let said = f.date("until", n);
    if let Some(until) = said.as_ref().filter(|until| until.value < on.value) {
        n.wrong(
            until.span,
            format!("expected a day after {}, found {}", on.value, until.value),
            "write the last day on which the clearance holds",
        );
    }
    let until = said.map_or_else(|| a_year_after(on.value), |until| until.value);
    f.finish(n);
    Some(Clearance { span, what: what?, of, by, on, until })
}

/// A clearance without an end holds for 12 months: common practice, no source.
fn a_year_after(on: Date) -> Date {
    on.checked_add(jiff::Span::new().months(12)).unwrap_or(Date::MAX)
}

fn read_preference(table: &DeTable<'_>, span: Span, n: &mut Notes) -> Option<Preference> {
    let mut f = Fields::new(table, span, "a preference", n);
    let preference = Preference {
        span,
        exercise: f.required_text("exercise", "\"heel-drop\"", "", n),
        form: f.required_text("form", "\"Seated heel press\"", "", n),
        because: f.required_text("because", "\"the reason in a sentence\"", "", n),
    };
    f.finish(n);
    Some(preference)
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
