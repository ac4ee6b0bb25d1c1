//! Cautions as a reader meets them: whom each is for, how strict it is, its words.

use serde::Serialize;

use super::phrases::Phrases;
use super::word;
use crate::model::Model;
use crate::model::exercise::{Applies, Caution, Exercise};
use crate::model::source::{Span, Spanned};
use crate::model::vocabulary::{CautionLevel, Vocabulary};

/// A caution with whom it is for.
#[derive(Clone, Debug, Serialize)]
pub struct CautionBlock<'m> {
    /// Where it was written.
    #[serde(skip)]
    pub span: Span,
    #[serde(serialize_with = "word")]
    pub level: CautionLevel,
    /// "If you have a break in the spine"; empty on a person's sheet, which speaks to her.
    pub who: String,
    /// "Do not do this one."; empty there too, and where it is for everyone to know when to stop.
    pub level_word: String,
    pub text: &'m Spanned<String>,
    /// It is for everyone, or for her who reads her own sheet.
    #[serde(skip)]
    pub everyone: bool,
}

impl<'m> CautionBlock<'m> {
    /// It says to stop or to ask first, or is for everyone: who reads little reads this.
    pub fn comes_first(&self) -> bool {
        self.everyone || self.level != CautionLevel::Adapt
    }

    /// A caution of the form that she does, said to her alone.
    pub fn hers(caution: &'m Caution) -> CautionBlock<'m> {
        CautionBlock {
            span: caution.span,
            level: caution.level.value,
            who: String::new(),
            level_word: String::new(),
            text: &caution.text,
            everyone: true,
        }
    }
}

/// The cautions but for those of one variation alone, which stand with it. The strictest come first, those for everyone
/// after those for somebody of the same strictness.
pub(super) fn cautions<'m>(exercise: &'m Exercise, model: &Model, say: Phrases<'_>) -> Vec<CautionBlock<'m>> {
    in_order(exercise.cautions.iter().filter(|c| !is_of_one(exercise, c)), model, say)
}

/// The strictest first.
pub(super) fn in_order<'m>(
    cautions: impl Iterator<Item = &'m Caution>,
    model: &Model,
    say: Phrases<'_>,
) -> Vec<CautionBlock<'m>> {
    let mut list: Vec<&Caution> = cautions.collect();
    list.sort_by_key(|c| c.strictness());
    list.into_iter().map(|caution| caution_block(caution, model, say)).collect()
}

pub(super) fn caution_block<'m>(caution: &'m Caution, model: &Model, say: Phrases<'_>) -> CautionBlock<'m> {
    CautionBlock {
        span: caution.span,
        level: caution.level.value,
        who: who(caution, model, say),
        level_word: strictness(caution, say),
        text: &caution.text,
        everyone: matches!(caution.applies, Applies::Everyone),
    }
}

/// Cautions of one level, with everybody whom they are for.
#[derive(Clone, Debug, Serialize)]
pub struct CautionsTogether<'m> {
    #[serde(serialize_with = "word")]
    pub level: CautionLevel,
    /// "If you have a break in the spine, or dizzy spells".
    pub who: String,
    /// "Ask your clinician first."
    pub level_word: String,
    pub cautions: Vec<CautionBlock<'m>>,
}

/// Those of an exercise that say to stop or to ask first, but for those of one variation alone: one for each level.
pub fn to_stop_and_to_ask<'m>(
    exercise: &'m Exercise,
    model: &Model,
    say: Phrases<'_>,
) -> Vec<CautionsTogether<'m>> {
    let of_level = |level: CautionLevel| {
        let of_it = |c: &&Caution| c.level.value == level && !matches!(c.applies, Applies::Everyone);
        let cautions: Vec<&Caution> =
            exercise.cautions.iter().filter(|c| !is_of_one(exercise, c)).filter(of_it).collect();
        let mut who: Vec<String> = Vec::new();
        for caution in &cautions {
            let Applies::Precautions(ids) = &caution.applies else { continue };
            let words = ids.iter().map(|id| say.precaution(&model.site, &id.value));
            words.for_each(|word| {
                if !who.contains(&word) {
                    who.push(word)
                }
            });
        }
        let level_word = strictness(cautions.first()?, say);
        let cautions = cautions.into_iter().map(|caution| caution_block(caution, model, say)).collect();
        let who = say.words.say_with("caution-for", &[("who", say.or(&who).into())]);
        Some(CautionsTogether { level, who, level_word, cautions })
    };
    [CautionLevel::Stop, CautionLevel::Ask].into_iter().filter_map(of_level).collect()
}

/// It is for one variation alone.
fn is_of_one(exercise: &Exercise, caution: &Caution) -> bool {
    caution.form.as_ref().is_some_and(|form| exercise.variation(&form.value).is_some())
}

/// Whom a caution is for: "If you have a break in the spine".
pub fn who(caution: &Caution, model: &Model, say: Phrases<'_>) -> String {
    match &caution.applies {
        Applies::Everyone => say.words.say("caution-everyone"),
        Applies::Precautions(who) => {
            let who: Vec<String> = who.iter().map(|p| say.precaution(&model.site, &p.value)).collect();
            say.words.say_with("caution-for", &[("who", say.or(&who).into())])
        }
    }
}

/// A caution to stop says "do not do this one" to those it names; to everyone it can only say when to stop.
fn strictness(caution: &Caution, say: Phrases<'_>) -> String {
    match (&caution.applies, caution.level.value) {
        (Applies::Everyone, CautionLevel::Stop) => String::new(),
        (_, level) => say.words.say(&format!("level-{}", level.word())),
    }
}
