//! Reads an exercise.

use super::accept::read_accept;
use super::fields::{Fields, Notes, each, kind_of};
use super::opening::{IdSource, check_id, open};
use super::{Known, Origin, dose, fields, figure, prose};
use crate::model::dose::Dose;
use crate::model::exercise::{Applies, Caution, Change, Exercise, Instruction, Reviewed, Variation, Way};
use crate::model::finding::Finding;
use crate::model::nearest::shown;
use crate::model::source::{Span, Spanned};
use crate::model::vocabulary::{CautionLevel, Component, Position, Region, Surface, Vocabulary};

/// Reads an exercise; `None` when its block cannot be found.
pub(super) fn read(
    text: &str,
    origin: Origin<'_>,
    id: &str,
    known: &Known<'_>,
) -> (Option<Exercise>, Vec<Finding>) {
    let file = origin.file;
    let opened = match open(text, file) {
        Ok(opened) => opened,
        Err(finding) => return (None, vec![finding]),
    };
    let (table, mut notes) = fields::parse(&text[opened.fields.clone()], opened.fields.start, file);
    check_id(id, IdSource::File, opened.opening, &mut notes);
    let mut f = Fields::new(table.get_ref(), opened.opening, "the exercise", &notes);
    let n = &mut notes;

    let title = f.required_text("title", "\"Heel drop at the counter\"", id, n);
    let also_called = f.texts("also_called", n);
    let component = f.required_word("component", Component::Posture, n);
    let position = f.required_word("position", Position::Standing, n);
    let surface = f.word("surface", n);
    check_surface(surface.as_ref(), position.value, n);
    let support = f.words("support", n);
    let equipment = f.texts("equipment", n);
    if f.key_span("demands", n).is_none() {
        f.missing("demands", "[], with the demands it makes on the body", n);
    }
    let demands = f.demands("demands", known, n);
    let trains = f.words("trains", n);
    check_trains(&mut f, component.value, &trains, n);
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
    let prose = prose::read(text, opened.prose, origin, &known.sections, &mut n.findings);

    let exercise = Exercise {
        id: id.to_string(),
        file,
        standing,
        title,
        also_called,
        summary,
        component,
        position,
        surface,
        support,
        equipment,
        demands,
        trains,
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
    let title = f.required_text("title", "\"Seated heel press\"", "", n);
    let text = f.required_text("text", "\"The same on a chair, without a jolt.\"", "", n);
    let instruction = read_instruction(&mut f, n);
    let position = f.word::<Position>("position", n);
    let surface = f.word("surface", n);
    if let Some(position) = &position {
        check_surface(surface.as_ref(), position.value, n);
    }
    let support = f.key_span("support", n).map(|_| f.words("support", n));
    let equipment = f.key_span("equipment", n).map(|_| f.texts("equipment", n));
    // Asked for in any case, so that a slip in their names is told.
    f.value("support", n);
    f.value("equipment", n);
    let variation = Variation {
        span,
        title,
        text,
        instruction,
        position,
        surface,
        support,
        equipment,
        removes: f.demands("removes", known, n),
        adds: f.demands("adds", known, n),
        dose: f.table("dose", n).map(|(table, span)| dose::read(table, span, n)),
        figures: each(&mut f, "figure", n, figure::read),
    };
    f.finish(n);
    Some(variation)
}

/// The steps of a variation, or that it keeps those of the exercise.
fn read_instruction(f: &mut Fields<'_>, n: &mut Notes) -> Instruction {
    let steps = f.texts("steps", n);
    let keeps = f.truth("keeps_steps", n).unwrap_or(false);
    if let (Some(at), Some(_)) = (f.key_span("steps", n), f.key_span("keeps_steps", n)) {
        n.wrong(
            at,
            "expected `steps` or `keeps_steps = true`, found both",
            "keep `steps` where the variation has its own, `keeps_steps = true` where only `text` changes them",
        );
    }
    if let (Some((value, span)), true) = (f.value("steps", n), steps.is_empty())
        && value.as_array().is_some_and(|list| list.is_empty())
    {
        n.wrong(
            span,
            "expected at least one step, found an empty list",
            "write the steps, each in quotes, or `keeps_steps = true` in their place",
        );
    }
    match (steps.is_empty(), keeps) {
        (false, _) => Instruction::Steps(steps),
        (true, true) => Instruction::Kept,
        (true, false) => Instruction::Bare,
    }
}

/// Only what is done lying, kneeling or on hands and knees is done on a surface.
fn check_surface(surface: Option<&Spanned<Surface>>, position: Position, n: &mut Notes) {
    if let Some(surface) = surface.filter(|_| !position.is_on_floor()) {
        n.wrong(
            surface.span,
            format!(
                "expected no `surface` for what is done {}, found `{}`",
                position.word(),
                surface.value.word()
            ),
            "take the line out, or write the position that it is meant for",
        );
    }
}

/// Strength rests by region, so a strength exercise says which regions it trains.
fn check_trains(f: &mut Fields<'_>, component: Component, trains: &[Spanned<Region>], n: &mut Notes) {
    const EXAMPLE: &str = "[\"thighs\", \"hips\"]";
    if component != Component::Strength || !trains.is_empty() || !f.standing.knows("component") {
        return;
    }
    match f.value("trains", n) {
        None => f.missing(
            "trains",
            &format!("{EXAMPLE}` with the regions of the body that it trains: `{}", words_of::<Region>()),
            n,
        ),
        Some((value, span)) if value.as_array().is_some_and(|list| list.is_empty()) => n.wrong(
            span,
            "expected at least one region for strength, found an empty list",
            format!("name the regions of the body that it trains, such as `trains = {EXAMPLE}`"),
        ),
        Some(_) => {}
    }
}

/// Every word of a closed set, with commas.
fn words_of<V: Vocabulary>() -> String {
    V::ALL.iter().map(|v| v.word()).collect::<Vec<_>>().join("`, `")
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
    // Asked for first: a `form` is no slip for a `for` that is missing.
    let form = f.text("form", n);
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
        text: f.required_text("text", "\"Keep both hands on the counter.\"", "", n),
        about: f.key_span("about", n).map(|_| f.demands("about", known, n)),
        instead: f.text("use", n),
        dose: f.table("dose", n).map(|(table, span)| dose::read(table, span, n)),
        form,
    };
    // Asked for in any case, so that a slip in its name is told.
    f.value("about", n);
    check_for_everyone(&caution, n);
    f.finish(n);
    Some(caution)
}

/// A caution for everyone bars nobody: whom a form is not for, a caution names.
fn check_for_everyone(caution: &Caution, n: &mut Notes) {
    if caution.applies != Applies::Everyone {
        return;
    }
    if caution.level.value != CautionLevel::Adapt {
        n.wrong(
            caution.level.span,
            format!("expected `adapt` in a caution for everyone, found `{}`", caution.level.value.word()),
            "write `level = \"adapt\"`, or name the precautions of those who must stop or ask in `for`",
        );
    }
    if let Some(instead) = &caution.instead {
        n.wrong(
            instead.span,
            "expected no `use` in a caution for everyone, found one",
            "name the precautions of those who do the other form in `for`, or take `use` out",
        );
    }
}

fn read_reviewed(table: &toml::de::DeTable<'_>, span: Span, n: &mut Notes) -> Option<Reviewed> {
    let mut f = Fields::new(table, span, "the review note", n);
    let by = f.required_text("by", "\"A. Reviewer, PT\"", "", n);
    let on = f.required_date("on", n);
    let of = f.text("of", n);
    // Without its fingerprint, if it has one, a review would seem to hold whatever is changed.
    let standing = f.finish(n);
    standing.is_whole().then_some(Reviewed { span, by, on, of })
}
