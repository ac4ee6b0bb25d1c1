//! An exercise as a reader meets it: what it needs, how much, the steps, the safe ways, the cautions.

use std::collections::BTreeSet;

use super::dose::{DoseBlock, glance};
use super::figure::FigureBlock;
use super::part::Part;
use super::phrases::Phrases;
use crate::model::Model;
use crate::model::exercise::{Applies, Caution, Change, Exercise, Variation, Way};
use crate::model::form::Form;
use crate::model::source::{Span, Spanned};
use crate::model::vocabulary::{CautionLevel, Component, Restriction, Vocabulary};
use crate::reckon::{approval, demands};

/// One exercise in the reader's words.
#[derive(Clone, Debug)]
pub struct ExerciseBlock<'m> {
    pub id: &'m str,
    pub title: &'m str,
    /// "Also called: toe raise, heel lift".
    pub also_called: Option<String>,
    pub component: Component,
    pub summary: &'m str,
    /// "Exercise 2 of 4".
    pub number_line: Option<String>,
    /// The cue of the week.
    pub focus: Option<&'m str>,
    pub position: String,
    /// "A kitchen counter or a rail"; `None` when the hands hold nothing.
    pub support: Option<String>,
    pub equipment: String,
    pub dose: DoseBlock,
    pub cautions: Vec<CautionBlock<'m>>,
    pub figures: Vec<FigureBlock<'m>>,
    pub intro: Span,
    pub sections: Vec<SectionBlock<'m>>,
    pub easier: Vec<WayBlock<'m>>,
    pub other_ways: Vec<WayBlock<'m>>,
    /// Each with the cautions of those for whom it is not.
    pub harder: Vec<WayBlock<'m>>,
    /// "Checked by … on ….", that it has changed since, or that nobody has checked it yet.
    pub reviewed: String,
}

/// A section of the prose.
#[derive(Clone, Debug)]
pub struct SectionBlock<'m> {
    /// `set-up`, `move`, …; `other` for a section of the author's own.
    pub name: &'static str,
    pub title: &'m str,
    /// The fragment by which links reach it.
    pub anchor: &'m str,
    pub body: Span,
}

/// A caution with whom it is for.
#[derive(Clone, Debug)]
pub struct CautionBlock<'m> {
    /// Where it was written.
    pub span: Span,
    pub level: CautionLevel,
    pub who: String,
    pub strict: String,
    pub text: &'m str,
}

/// An easier, harder or other way.
#[derive(Clone, Debug, Default)]
pub struct WayBlock<'m> {
    pub title: Option<String>,
    /// The exercise it leads to.
    pub exercise: Option<&'m str>,
    pub text: Option<&'m str>,
    /// The steps of a variation that has its own.
    pub steps: Vec<&'m Spanned<String>>,
    pub figures: Vec<FigureBlock<'m>>,
    /// Its position, what to hold and what to have.
    pub needs: Option<String>,
    pub dose: Option<String>,
    /// Of a variation: those for it alone. Of a harder exercise: those to stop and to ask, for the people whom the series
    /// of the workspace serve.
    pub cautions: Vec<CautionBlock<'m>>,
    /// Whom of these a harder way is not for, where no caution above says so.
    pub not_for: Option<String>,
}

/// The block of an exercise, as a week uses it or by itself.
pub fn block<'m>(part: &Part<'_, 'm>, model: &'m Model, say: Phrases<'_>) -> ExerciseBlock<'m> {
    let exercise = part.exercise;
    let base = Form::base(exercise);
    ExerciseBlock {
        id: &exercise.id,
        title: &exercise.title.value,
        also_called: also_called(exercise, say),
        component: exercise.component.value,
        summary: &exercise.summary.value,
        number_line: part.number_line(say),
        focus: part.used.and_then(|u| u.focus.as_ref()).map(|f| f.value.as_str()),
        position: position(&base, say),
        support: holds(&base, say).map(|s| say.capital(&s)),
        equipment: equipment(&base, say),
        dose: part.dose_block(say),
        cautions: cautions(exercise, model, say),
        figures: exercise.figures.iter().map(FigureBlock::of).collect(),
        intro: exercise.prose.intro,
        sections: exercise
            .prose
            .sections
            .iter()
            .map(|s| SectionBlock {
                name: s.name.map_or("other", |n| n.word()),
                title: &s.title.value,
                anchor: &s.anchor,
                body: s.body,
            })
            .collect(),
        easier: exercise.regressions.iter().map(|r| way(r, model, say)).collect(),
        other_ways: exercise.variations.iter().map(|v| variation(exercise, v, model, say)).collect(),
        harder: exercise.progressions.iter().map(|p| harder(exercise, p, model, say)).collect(),
        reviewed: match &exercise.reviewed {
            Some(_) if approval::has_changed(exercise) => say.words.say("approval-changed"),
            Some(r) => say.words.say_with(
                "reviewed-line",
                &[("name", r.by.value.as_str().into()), ("date", say.day(r.on.value).into())],
            ),
            None => say.words.say("reviewed-not-yet"),
        },
    }
}

/// The other names of an exercise, in one line; `None` where it has none.
pub fn also_called(exercise: &Exercise, say: Phrases<'_>) -> Option<String> {
    let names: Vec<&str> = exercise.names().skip(1).collect();
    let names = names.join(&say.words.say("list-separator"));
    (!names.is_empty()).then(|| say.words.say_with("also-called", &[("names", names.into())]))
}

/// "Lying on your back, on a firm bed".
pub fn position(form: &Form<'_>, say: Phrases<'_>) -> String {
    let position = say.words.say(&format!("position-{}", form.position().value.word()));
    match form.surface() {
        None => position,
        Some(surface) => {
            let surface = say.words.say(&format!("surface-{}", surface.word()));
            say.words.say_with("position-on", &[("position", position.into()), ("surface", surface.into())])
        }
    }
}

/// What the hands hold in a form: "a kitchen counter or a wall"; `None` when there is nothing to hold.
pub fn holds(form: &Form<'_>, say: Phrases<'_>) -> Option<String> {
    let list: Vec<String> = form.support().iter().map(|s| say.support(s.value)).collect();
    (!list.is_empty()).then(|| say.or(&list))
}

/// What a form needs, or that it needs nothing.
pub fn equipment(form: &Form<'_>, say: Phrases<'_>) -> String {
    match form.equipment() {
        [] => say.words.say("need-nothing"),
        list => say.capital(&say.and(&list.iter().map(|e| e.value.clone()).collect::<Vec<_>>())),
    }
}

/// The cautions but for those of one variation alone, which stand with it. The strictest come first, those for everyone
/// after those for somebody of the same strictness.
pub(super) fn cautions<'m>(exercise: &'m Exercise, model: &Model, say: Phrases<'_>) -> Vec<CautionBlock<'m>> {
    let of_one = |c: &&Caution| c.form.as_ref().is_some_and(|form| exercise.variation(&form.value).is_some());
    in_order(exercise.cautions.iter().filter(|c| !of_one(c)), model, say)
}

/// The strictest first.
fn in_order<'m>(
    cautions: impl Iterator<Item = &'m Caution>,
    model: &Model,
    say: Phrases<'_>,
) -> Vec<CautionBlock<'m>> {
    let mut list: Vec<&Caution> = cautions.collect();
    list.sort_by_key(|c| c.strictness());
    list.into_iter().map(|caution| caution_block(caution, model, say)).collect()
}

fn caution_block<'m>(caution: &'m Caution, model: &Model, say: Phrases<'_>) -> CautionBlock<'m> {
    CautionBlock {
        span: caution.span,
        level: caution.level.value,
        who: match &caution.applies {
            Applies::Everyone => say.words.say("caution-everyone"),
            Applies::Precautions(who) => {
                let who: Vec<String> = who.iter().map(|p| say.precaution(&model.site, &p.value)).collect();
                say.words.say_with("caution-for", &[("who", say.or(&who).into())])
            }
        },
        strict: strictness(caution, say),
        text: &caution.text.value,
    }
}

/// A caution to stop says "do not do this one" to those it names; to everyone it can only say when to stop.
fn strictness(caution: &Caution, say: Phrases<'_>) -> String {
    match (&caution.applies, caution.level.value) {
        (Applies::Everyone, CautionLevel::Stop) => String::new(),
        (_, level) => say.words.say(&format!("level-{}", level.word())),
    }
}

fn way<'m>(change: &'m Change, model: &'m Model, say: Phrases<'_>) -> WayBlock<'m> {
    let dose = change.dose.as_ref().map(|d| glance(d, say));
    match &change.way {
        Way::Text(text) => WayBlock { text: Some(&text.value), dose, ..WayBlock::default() },
        Way::Exercise { id, text } => {
            let other = model.exercises.get(&id.value);
            let title = other.map_or(id.value.clone(), |o| o.title.value.clone());
            let text = text.as_ref().map(|t| t.value.as_str());
            WayBlock {
                title: Some(say.words.say_with("try-exercise", &[("title", title.into())])),
                exercise: other.map(|o| o.id.as_str()),
                text: text.or(other.map(|o| o.summary.value.as_str())),
                dose,
                ..WayBlock::default()
            }
        }
    }
}

fn variation<'m>(
    exercise: &'m Exercise,
    variation: &'m Variation,
    model: &Model,
    say: Phrases<'_>,
) -> WayBlock<'m> {
    let form = Form { exercise, variation: Some(variation) };
    let support = holds(&form, say).map(|s| format!("{}: {s}", say.words.say("hold-on-to")));
    let things = variation.equipment.as_ref().filter(|list| !list.is_empty());
    let things = things.map(|_| format!("{}: {}", say.words.say("what-you-need"), equipment(&form, say)));
    let needs: Vec<String> = [Some(position(&form, say)), support, things].into_iter().flatten().collect();
    WayBlock {
        title: Some(variation.title.value.clone()),
        text: Some(&variation.text.value),
        steps: variation.steps().iter().collect(),
        figures: variation.figures.iter().map(FigureBlock::of).collect(),
        needs: Some(format!("{}.", needs.join(". "))),
        dose: variation.dose.as_ref().map(|d| glance(d, say)),
        cautions: in_order(exercise.cautions.iter().filter(|c| form.is_named_by(c)), model, say),
        ..WayBlock::default()
    }
}

/// A harder way, with what keeps the people whom the series serve from it.
fn harder<'m>(
    exercise: &'m Exercise,
    change: &'m Change,
    model: &'m Model,
    say: Phrases<'_>,
) -> WayBlock<'m> {
    let mut block = way(change, model, say);
    let served = served(model);
    let target = change.exercise().and_then(|id| model.exercises.get(&id.value));
    let strict = |c: &&Caution| {
        matches!(c.level.value, CautionLevel::Stop | CautionLevel::Ask)
            && c.form.is_none()
            && served.iter().any(|p| c.names(p))
    };
    let cautions: Vec<&Caution> = target.iter().flat_map(|t| t.cautions.iter()).filter(strict).collect();
    let barred: Vec<&str> = served
        .iter()
        .copied()
        .filter(|p| !cautions.iter().any(|c| c.names(p)) && is_barred(exercise, target, change, p, model))
        .collect();
    block.cautions = cautions.into_iter().map(|c| caution_block(c, model, say)).collect();
    let who: Vec<String> = barred.iter().map(|p| say.precaution(&model.site, p)).collect();
    block.not_for =
        (!who.is_empty()).then(|| say.words.say_with("harder-not-for", &[("who", say.or(&who).into())]));
    block
}

/// True when a harder way asks something that people with a precaution avoid or ask about first.
fn is_barred(
    exercise: &Exercise,
    target: Option<&Exercise>,
    change: &Change,
    precaution: &str,
    model: &Model,
) -> bool {
    let strict = |demand: &str| {
        let row = model.site.catalogue.row(precaution, demand);
        row.is_some_and(|row| row.by != Restriction::Modify)
    };
    let of = |e: &Exercise| demands::of_base(e, &model.site).iter().any(|d| strict(d.id));
    match target {
        Some(target) => of(target),
        // What the exercise itself asks stands in its own cautions.
        None => change.adds.iter().any(|d| strict(&d.value) && !demands::asks(exercise, &d.value)),
    }
}

/// The precautions that some series of the workspace serves, each once.
fn served(model: &Model) -> BTreeSet<&str> {
    let lists = model.series.values().flat_map(|series| series.serves.iter().chain(&series.all_have));
    lists.map(|p| p.value.as_str()).collect()
}
