//! Easier, other and harder ways as a reader meets them, each with what keeps people from it.

use std::collections::BTreeSet;

use serde::Serialize;

use super::caution::{CautionBlock, caution_block, in_order};
use super::dose::glance;
use super::figure::FigureBlock;
use super::form::{equipment, holds, position};
use super::phrases::Phrases;
use crate::model::Model;
use crate::model::exercise::{Caution, Change, Exercise, Variation, Way};
use crate::model::form::Form;
use crate::model::source::{Span, Spanned};
use crate::model::vocabulary::{CautionLevel, Restriction};
use crate::reckon::demands;
use crate::reckon::safety::{self, Offer};

/// An easier, harder or other way.
#[derive(Clone, Debug, Serialize)]
pub struct WayBlock<'m> {
    /// Where it was written.
    #[serde(skip)]
    pub span: Span,
    pub title: Option<String>,
    /// The exercise it leads to.
    #[serde(skip)]
    pub exercise: Option<&'m str>,
    pub text: Option<&'m Spanned<String>>,
    /// The steps of a variation that has its own.
    pub steps: &'m [Spanned<String>],
    #[serde(skip)]
    pub figures: Vec<FigureBlock<'m>>,
    /// Its position, what to hold and what to have.
    pub needs: Option<String>,
    pub dose: Option<String>,
    /// Of a variation: those for it alone. Of a harder exercise: those to stop and to ask, for the people whom the series
    /// of the workspace serve.
    #[serde(skip)]
    pub cautions: Vec<CautionBlock<'m>>,
    /// Whom of these a harder way is not for, where no caution above says so.
    pub not_for: Option<String>,
}

impl<'m> WayBlock<'m> {
    /// A way that says nothing yet.
    fn at(span: Span) -> WayBlock<'m> {
        WayBlock {
            span,
            title: None,
            exercise: None,
            text: None,
            steps: &[],
            figures: Vec::new(),
            needs: None,
            dose: None,
            cautions: Vec::new(),
            not_for: None,
        }
    }
}

/// What is said of a variation for those who read of it without saying what is true for them.
#[derive(Clone, Debug, Default, Serialize)]
pub struct OfVariation {
    /// "It leaves out getting down to the floor."
    pub avoids: Option<String>,
    /// "Not for you if you have …".
    pub not_for: Option<String>,
}

impl OfVariation {
    pub fn of<'m>(form: &Form<'m>, model: &'m Model, say: Phrases<'_>) -> OfVariation {
        let left = demands::of(form, &form.dose(None), &model.site);
        let gone = demands::of_base(form.exercise, &model.site);
        let gone = gone.iter().filter(|demand| !demands::has(&left, demand.id));
        let what: Vec<String> = gone.map(|demand| say.demand(&model.site, demand.id)).collect();
        let avoids = || say.words.say_with("yours-avoids", &[("what", say.and(&what).into())]);
        let offer = Offer { form: *form, link: None, changed: None };
        OfVariation {
            avoids: (!what.is_empty()).then(avoids),
            not_for: not_for("harder-not-for", &offer, model, say),
        }
    }
}

/// Whom a form is not for, of all who have one thing or another.
pub fn not_for<'m>(words: &str, offer: &Offer<'m>, model: &'m Model, say: Phrases<'_>) -> Option<String> {
    let all: Vec<&str> = model.site.catalogue.precautions.keys().map(String::as_str).collect();
    let refused = safety::refusals(offer, &all, model);
    let who: Vec<String> = refused.keys().map(|id| say.precaution(&model.site, id)).collect();
    let arguments = [("count", 1_usize.into()), ("who", say.or(&who).into())];
    (!who.is_empty()).then(|| say.words.say_with(words, &arguments))
}

/// A way in words, or another exercise.
pub(super) fn easier<'m>(change: &'m Change, model: &'m Model, say: Phrases<'_>) -> WayBlock<'m> {
    let dose = change.dose.as_ref().map(|d| glance(d, say));
    match &change.way {
        Way::Text(text) => WayBlock { text: Some(text), dose, ..WayBlock::at(change.span) },
        Way::Exercise { id, text } => {
            let other = model.exercises.get(&id.value);
            let title = other.map_or(id.value.clone(), |o| o.title.value.clone());
            WayBlock {
                title: Some(say.words.say_with("try-exercise", &[("title", title.into())])),
                exercise: other.map(|o| o.id.as_str()),
                text: text.as_ref().or(other.map(|o| &o.summary)),
                dose,
                ..WayBlock::at(change.span)
            }
        }
    }
}

pub(super) fn variation<'m>(
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
        text: Some(&variation.text),
        steps: variation.steps(),
        figures: variation.figures.iter().map(FigureBlock::of).collect(),
        needs: Some(format!("{}.", needs.join(". "))),
        dose: variation.dose.as_ref().map(|d| glance(d, say)),
        cautions: in_order(exercise.cautions.iter().filter(|c| form.is_named_by(c)), model, say),
        ..WayBlock::at(variation.span)
    }
}

/// A harder way, with what keeps the people whom the series serve from it.
pub(super) fn harder<'m>(
    exercise: &'m Exercise,
    change: &'m Change,
    model: &'m Model,
    say: Phrases<'_>,
) -> WayBlock<'m> {
    let mut block = easier(change, model, say);
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
