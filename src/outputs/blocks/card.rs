//! What of an exercise stands on its card, beside its title, its picture, its dose and its steps.
//!
//! A card for everyone never names a form that is not on it. So those whom a caution sends to another form, or to their
//! clinician, are named and told to ask for a sheet of their own; what a caution only changes is said in its own words.

use serde::Serialize;

use super::caution::{CautionBlock, caution_block, in_order};
use super::phrases::Phrases;
use super::used::UsedExercise;
use super::word;
use crate::model::Model;
use crate::model::exercise::{Applies, Caution, Change, Exercise, Way};
use crate::model::source::{Span, Spanned};
use crate::model::vocabulary::CautionLevel;

/// The card of an exercise.
#[derive(Clone, Debug)]
pub struct CardBlock<'m> {
    /// Who must not do it, then who asks first: two at most. None on a person's card.
    pub barred: Vec<BarredBlock>,
    /// The cautions for everyone; on a person's card all of hers.
    pub cautions: Vec<CautionBlock<'m>>,
    /// The cautions for some that say how to do it. They stand with the others where there is room for all.
    pub more: Vec<CautionBlock<'m>>,
    /// The first easier way. None on a person's card.
    pub easier: Option<EasierBlock<'m>>,
}

/// Those for whom an exercise is not as it stands, in one line.
#[derive(Clone, Debug, Serialize)]
pub struct BarredBlock {
    /// Of the first of the cautions that it stands for.
    #[serde(skip)]
    pub span: Span,
    #[serde(serialize_with = "word")]
    pub level: CautionLevel,
    /// "If you have a break in the spine or pain in the shoulder".
    pub who: String,
    /// What they are told.
    pub text: String,
}

/// An easier way in a line.
#[derive(Clone, Debug)]
pub struct EasierBlock<'m> {
    pub text: &'m Spanned<String>,
    /// The exercise that it is, where it is one: its id and its title.
    pub exercise: Option<(&'m str, &'m str)>,
}

impl<'m> CardBlock<'m> {
    pub fn of(used: &UsedExercise<'_, 'm>, model: &'m Model, say: Phrases<'_>) -> CardBlock<'m> {
        if let Some(chosen) = used.chosen {
            let cautions = chosen.cautions.iter().map(|caution| CautionBlock::hers(caution)).collect();
            return CardBlock { barred: Vec::new(), cautions, more: Vec::new(), easier: None };
        }
        let exercise = used.exercise;
        // Those of one variation alone are not for this form.
        let of_base = |c: &&Caution| c.form.as_ref().is_none_or(|f| exercise.variation(&f.value).is_none());
        let (all, some): (Vec<&Caution>, Vec<&Caution>) =
            exercise.cautions.iter().filter(of_base).partition(|c| c.applies == Applies::Everyone);
        let is_barred = |c: &&Caution| c.level.value != CautionLevel::Adapt || c.instead.is_some();
        let (barred, more): (Vec<&Caution>, Vec<&Caution>) = some.into_iter().partition(is_barred);
        let (stop, ask): (Vec<&Caution>, Vec<&Caution>) =
            barred.into_iter().partition(|c| c.level.value == CautionLevel::Stop);
        let named = |level, list: &[&Caution]| named(level, list, model, say);
        CardBlock {
            barred: [named(CautionLevel::Stop, &stop), named(CautionLevel::Ask, &ask)]
                .into_iter()
                .flatten()
                .collect(),
            cautions: all.into_iter().map(|c| caution_block(c, model, say)).collect(),
            more: in_order(more.into_iter(), model, say),
            easier: easier(exercise, model),
        }
    }
}

/// Those whom cautions name, each once, in the order of the cautions.
fn named(level: CautionLevel, cautions: &[&Caution], model: &Model, say: Phrases<'_>) -> Option<BarredBlock> {
    let mut who: Vec<&str> = Vec::new();
    for caution in cautions {
        let Applies::Precautions(list) = &caution.applies else { continue };
        for id in list {
            if !who.contains(&id.value.as_str()) {
                who.push(&id.value);
            }
        }
    }
    let who: Vec<String> = who.iter().map(|id| say.precaution(&model.site, id)).collect();
    let told = if level == CautionLevel::Stop { "level-stop" } else { "card-ask" };
    Some(BarredBlock {
        span: cautions.first()?.span,
        level,
        who: say.words.say_with("caution-for", &[("who", say.or(&who).into())]),
        text: say.words.say(told),
    })
}

/// The first easier way: a regression, else a variation.
fn easier<'m>(exercise: &'m Exercise, model: &'m Model) -> Option<EasierBlock<'m>> {
    let regression = |change: &'m Change| match &change.way {
        Way::Text(text) => Some(EasierBlock { text, exercise: None }),
        Way::Exercise { id, text } => {
            let other = model.exercises.get(&id.value)?;
            let text = text.as_ref().unwrap_or(&other.summary);
            Some(EasierBlock { text, exercise: Some((&other.id, &other.title.value)) })
        }
    };
    let variations = exercise.variations.iter().map(|v| EasierBlock { text: &v.text, exercise: None });
    exercise.regressions.iter().filter_map(regression).chain(variations).next()
}

#[cfg(test)]
mod tests;
