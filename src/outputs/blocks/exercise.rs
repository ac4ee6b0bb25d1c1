//! An exercise as a reader meets it: what it needs, how much, the steps, the safe ways, the cautions. For a person it is the
//! form that was chosen for her, and nothing of another.

use serde::Serialize;

use super::caution::{CautionBlock, cautions};
use super::component::ComponentBlock;
use super::dose::DoseBlock;
use super::figure::FigureBlock;
use super::form::{equipment, holds, position};
use super::phrases::Phrases;
use super::used::UsedExercise;
use super::way::{WayBlock, easier, harder, variation};
use crate::model::Model;
use crate::model::exercise::{Exercise, Instruction};
use crate::model::prose::{Block, Section};
use crate::model::source::Spanned;
use crate::model::vocabulary::Vocabulary;
use crate::reckon::approval;

/// One exercise in the reader's words. What is serialized of it stands on pages and sheets alike, under the same names; of
/// the rest each makes its own: links, pictures, prose.
#[derive(Clone, Debug, Serialize)]
pub struct ExerciseBlock<'m> {
    #[serde(skip)]
    pub id: &'m str,
    /// A variation that was chosen for a person goes by its own.
    pub title: &'m Spanned<String>,
    /// "Also called: toe raise, heel lift", in the place of the first of them; a variation is called otherwise.
    pub also_called: Option<Spanned<String>>,
    pub component: ComponentBlock,
    /// "Exercise 2 of 4".
    pub number_line: Option<String>,
    /// "Your own way to do exercise 2 of this week".
    pub form_line: Option<String>,
    /// None for a variation that keeps the steps: what it is stands in `change`.
    pub summary: Option<&'m Spanned<String>>,
    /// The cue of the week, which is not for variations.
    pub focus: Option<&'m Spanned<String>>,
    /// The one change to the steps, in a variation that keeps them.
    pub change: Option<&'m Spanned<String>>,
    pub position_word: String,
    /// "A kitchen counter or a rail"; `None` when the hands hold nothing.
    pub support_text: Option<String>,
    pub equipment_text: String,
    pub dose: DoseBlock,
    /// "Take care"; to a person "For you".
    pub cautions_title: String,
    /// "Checked by … on ….", that it has changed since, or that nobody has checked it yet.
    pub reviewed: String,
    #[serde(skip)]
    pub cautions: Vec<CautionBlock<'m>>,
    #[serde(skip)]
    pub figures: Vec<FigureBlock<'m>>,
    /// The steps of a variation, in the place of the prose.
    #[serde(skip)]
    pub own_steps: Option<&'m [Spanned<String>]>,
    /// What opens the prose.
    #[serde(skip)]
    pub intro: &'m [Spanned<Block>],
    #[serde(skip)]
    pub sections: Vec<SectionBlock<'m>>,
    /// None of the ways is a person's: she does the form that was chosen for her.
    #[serde(skip)]
    pub easier: Vec<WayBlock<'m>>,
    #[serde(skip)]
    pub other_ways: Vec<WayBlock<'m>>,
    /// Each with the cautions of those for whom it is not.
    #[serde(skip)]
    pub harder: Vec<WayBlock<'m>>,
}

/// A section of the prose.
#[derive(Clone, Debug)]
pub struct SectionBlock<'m> {
    /// `set-up`, `move`, …; `other` for a section of the author's own.
    pub name: &'static str,
    /// Its title and its content.
    pub section: &'m Section,
}

/// The block of an exercise as it is used.
pub fn block<'m>(used: &UsedExercise<'_, 'm>, model: &'m Model, say: Phrases<'_>) -> ExerciseBlock<'m> {
    let exercise = used.exercise;
    let form = used.form();
    let ways = if used.chosen.is_some() { None } else { Some(exercise) };
    ExerciseBlock {
        id: &exercise.id,
        title: form.title(),
        also_called: also_called(exercise, say).filter(|_| form.variation.is_none()),
        component: ComponentBlock::of(exercise.component.value, say),
        number_line: used.number_line(say),
        form_line: used.form_line(say),
        summary: match form.variation {
            Some(_) if form.keeps_steps() => None,
            Some(variation) => Some(&variation.text),
            None => Some(&exercise.summary),
        },
        focus: used.in_week.filter(|_| form.variation.is_none()).and_then(|row| row.focus.as_ref()),
        change: form.variation.filter(|_| form.keeps_steps()).map(|variation| &variation.text),
        position_word: position(&form, say),
        support_text: holds(&form, say).map(|s| say.capital(&s)),
        equipment_text: equipment(&form, say),
        dose: used.dose_block(say),
        cautions_title: say.words.say(if used.chosen.is_some() { "for-you" } else { "take-care" }),
        reviewed: match &exercise.reviewed {
            Some(_) if approval::has_changed(exercise) => say.words.say("approval-changed"),
            Some(r) => say.words.say_with(
                "reviewed-line",
                &[("name", r.by.value.as_str().into()), ("date", say.day(r.on.value).into())],
            ),
            None => say.words.say("reviewed-not-yet"),
        },
        cautions: match used.chosen {
            Some(chosen) => chosen.cautions.iter().map(|caution| CautionBlock::hers(caution)).collect(),
            None => cautions(exercise, model, say),
        },
        figures: form.figures().iter().map(FigureBlock::of).collect(),
        own_steps: match form.variation.map(|variation| &variation.instruction) {
            Some(Instruction::Steps(steps)) => Some(steps.as_slice()),
            Some(Instruction::Bare) => Some(&[]),
            Some(Instruction::Kept) | None => None,
        },
        intro: &exercise.prose.opening,
        sections: exercise
            .prose
            .sections
            .iter()
            .map(|section| SectionBlock { name: section.name.map_or("other", |n| n.word()), section })
            .collect(),
        easier: ways.into_iter().flat_map(|e| &e.regressions).map(|r| easier(r, model, say)).collect(),
        other_ways: ways
            .iter()
            .flat_map(|e| &e.variations)
            .map(|v| variation(exercise, v, model, say))
            .collect(),
        harder: ways
            .into_iter()
            .flat_map(|e| &e.progressions)
            .map(|p| harder(exercise, p, model, say))
            .collect(),
    }
}

/// The other names of an exercise, in one line; `None` where it has none.
pub fn also_called(exercise: &Exercise, say: Phrases<'_>) -> Option<Spanned<String>> {
    let first = exercise.also_called.first()?;
    let names: Vec<&str> = exercise.names().skip(1).collect();
    let names = names.join(&say.words.say("list-separator"));
    Some(Spanned::new(say.words.say_with("also-called", &[("names", names.into())]), first.span))
}
