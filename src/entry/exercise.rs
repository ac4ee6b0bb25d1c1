//! Reads an exercise.

use super::accept::read_accept;
use super::fields::{Fields, Notes, each, kind_of};
use super::opening::{Named, check_id, open};
use super::{Known, dose, fields, figure, prose};
use crate::model::dose::Dose;
use crate::model::exercise::{Applies, Caution, Change, Exercise, Reviewed, Variation, Way};
use crate::model::finding::Finding;
use crate::model::nearest::shown;
use crate::model::source::{FileId, Span, Spanned};
use crate::model::vocabulary::{CautionLevel, Component, Position};

/// Reads an exercise; `None` when its block cannot be found.
pub(super) fn read(
    text: &str,
    file: FileId,
    id: &str,
    known: &Known<'_>,
) -> (Option<Exercise>, Vec<Finding>) {
    let opened = match open(text, file) {
        Ok(opened) => opened,
        Err(finding) => return (None, vec![finding]),
    };
    let (table, mut notes) = fields::parse(&text[opened.fields.clone()], opened.fields.start, file);
    check_id(id, Named::File, opened.opening, &mut notes);
    let mut f = Fields::new(table.get_ref(), opened.opening, "the exercise", &notes);
    let n = &mut notes;

    let title = f.required_text("title", "\"Heel drop at the counter\"", id, n);
    let component = f.required_word("component", Component::Posture, n);
    let position = f.required_word("position", Position::Standing, n);
    let support = f.words("support", n);
    let equipment = f.texts("equipment", n);
    if f.key_span("demands", n).is_none() {
        f.missing("demands", "[], with the demands it makes on the body", n);
    }
    let demands = f.demands("demands", known, n);
    let summary = f.required_text("summary", "\"One sentence that says what she does.\"", "", n);
    let reviewed = f.table("reviewed", n).and_then(|(table, span)| {
        let reviewed = read_reviewed(table, span, n);
        if reviewed.is_none() {
            f.standing.mark_stand_in("reviewed");
        }
        reviewed
    });
    let dose = match f.table("dose", n) {
        Some((table, span)) => {
            let before = n.findings.len();
            let dose = dose::read_whole(table, span, n);
            if n.findings.len() > before {
                f.standing.mark_unsound("dose");
            }
            dose
        }
        None => {
            if f.standing.knows("dose") {
                f.missing("dose", "{ reps = 10, sets = 2, days = 3 }", n);
            }
            Dose::empty(f.whole)
        }
    };
    let variations = each(&mut f, "variation", n, |t, s, n| read_variation(t, s, known, n));
    let regressions = each(&mut f, "regression", n, |t, s, n| read_change(t, s, "a regression", known, n));
    let progressions = each(&mut f, "progression", n, |t, s, n| read_change(t, s, "a progression", known, n));
    let cautions = each(&mut f, "caution", n, |t, s, n| read_caution(t, s, known, n));
    let figures = each(&mut f, "figure", n, figure::read);
    let accept = read_accept(&mut f, n);
    let standing = f.finish(n);
    let prose = prose::read(text, opened.prose, file, known);

    let exercise = Exercise {
        id: id.to_string(),
        file,
        standing,
        title,
        summary,
        component,
        position,
        support,
        equipment,
        demands,
        dose,
        variations,
        regressions,
        progressions,
        cautions,
        figures,
        reviewed,
        accept,
        prose,
    };
    (Some(exercise), notes.findings)
}

fn read_variation(
    table: &toml::de::DeTable<'_>,
    span: Span,
    known: &Known<'_>,
    n: &mut Notes,
) -> Option<Variation> {
    let mut f = Fields::new(table, span, "a variation", n);
    let variation = Variation {
        span,
        title: f.required_text("title", "\"Seated heel stamp\"", "", n),
        text: f.required_text("text", "\"Sit tall. Lift both heels.\"", "", n),
        position: f.word("position", n),
        support: f.words("support", n),
        removes: f.demands("removes", known, n),
        adds: f.demands("adds", known, n),
        dose: f.table("dose", n).map(|(table, span)| dose::read(table, span, n)),
    };
    f.finish(n);
    Some(variation)
}

fn read_change(
    table: &toml::de::DeTable<'_>,
    span: Span,
    what: &'static str,
    known: &Known<'_>,
    n: &mut Notes,
) -> Option<Change> {
    let mut f = Fields::new(table, span, what, n);
    let exercise = f.text("exercise", n);
    let text = f.text("text", n);
    let tried = f.key_span("exercise", n).is_some() || f.key_span("text", n).is_some();
    if !tried {
        f.missing("text", "\"…\"` or `exercise = \"id-of-another\"", n);
    }
    let way = match (exercise, text) {
        (Some(id), text) => Some(Way::Exercise { id, text }),
        (None, Some(text)) => Some(Way::Text(text)),
        (None, None) => None,
    };
    let removes = f.demands("removes", known, n);
    let adds = f.demands("adds", known, n);
    let dose = f.table("dose", n).map(|(table, span)| dose::read(table, span, n));
    f.finish(n);
    Some(Change { span, way: way?, removes, adds, dose })
}

fn read_caution(
    table: &toml::de::DeTable<'_>,
    span: Span,
    known: &Known<'_>,
    n: &mut Notes,
) -> Option<Caution> {
    let mut f = Fields::new(table, span, "a caution", n);
    let applies = match f.value("for", n) {
        None => {
            f.missing("for", "\"everyone\"` or `for = [\"spine-fracture\"]", n);
            Applies::Precautions(Vec::new())
        }
        Some((value, _)) if value.as_str() == Some("everyone") => Applies::Everyone,
        Some((value, span)) if value.as_array().is_some_and(|list| list.is_empty()) => {
            n.wrong(
                span,
                "expected `everyone` or at least one precaution, found an empty list",
                "say who must take care: write `for = \"everyone\"` or `for = [\"spine-fracture\"]`",
            );
            Applies::Precautions(Vec::new())
        }
        Some((value, _)) if value.is_array() => Applies::Precautions(f.precautions("for", known, n)),
        Some((value, span)) => {
            let found = value.as_str().map_or(kind_of(value).to_string(), shown);
            n.wrong(
                span,
                format!("expected `everyone` or a list of precautions, found {found}"),
                "write `for = \"everyone\"` or `for = [\"spine-fracture\"]`",
            );
            let meant = value.as_str().filter(|t| known.catalogue.precautions.contains_key(*t));
            let meant = meant.map(|t| Spanned::new(t.to_string(), span));
            Applies::Precautions(meant.into_iter().collect())
        }
    };
    let caution = Caution {
        span,
        applies,
        level: f.required_word("level", CautionLevel::Ask, n),
        text: f.required_text("text", "\"Use the seated version until your clinician agrees.\"", "", n),
    };
    f.finish(n);
    Some(caution)
}

fn read_reviewed(table: &toml::de::DeTable<'_>, span: Span, n: &mut Notes) -> Option<Reviewed> {
    let mut f = Fields::new(table, span, "the review note", n);
    let by = f.required_text("by", "\"A. Reviewer, PT\"", "", n);
    let on = f.required_date("on", n);
    let standing = f.finish(n);
    (standing.knows("by") && standing.knows("on")).then_some(Reviewed { span, by, on })
}
