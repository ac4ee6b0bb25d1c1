//! An exercise as a reader meets it: what it needs, how much, the steps, the safe ways, the cautions.

use super::dose::{DoseBlock, glance};
use super::figure::FigureBlock;
use super::phrases::Phrases;
use crate::model::Model;
use crate::model::dose::Dose;
use crate::model::exercise::{Applies, Caution, Change, Exercise, Variation, Way};

use crate::model::source::Span;
use crate::model::vocabulary::{CautionLevel, Component, Support, Vocabulary};
use crate::model::week::WeekExercise;
use crate::reckon::dose::Practice;

/// One exercise in the reader's words.
#[derive(Clone, Debug)]
pub struct ExerciseBlock<'m> {
    pub id: &'m str,
    pub title: &'m str,
    pub component: Component,
    pub summary: &'m str,
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
    pub harder: Vec<WayBlock<'m>>,
    /// "Checked by … on ….", or that nobody has checked it yet.
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
#[derive(Clone, Debug)]
pub struct WayBlock<'m> {
    pub title: Option<String>,
    /// The exercise it leads to.
    pub exercise: Option<&'m str>,
    pub text: Option<&'m str>,
    /// What it changes about position and support.
    pub needs: Option<String>,
    pub dose: Option<String>,
}

/// The block of an exercise, as a week uses it or by itself.
pub fn block<'m>(
    exercise: &'m Exercise,
    used: Option<&'m WeekExercise>,
    model: &'m Model,
    say: Phrases<'_>,
) -> ExerciseBlock<'m> {
    let changes = used.and_then(|u| u.dose.as_ref());
    let dose = dose_of(exercise, used);
    let known = exercise.standing.is_sound("dose");
    let length = known.then(|| Practice::of(exercise, &dose).whole());
    let word = |prefix: &str, id: &str| say.words.say(&format!("{prefix}-{id}"));
    ExerciseBlock {
        id: &exercise.id,
        title: &exercise.title.value,
        component: exercise.component.value,
        summary: &exercise.summary.value,
        focus: used.and_then(|u| u.focus.as_ref()).map(|f| f.value.as_str()),
        position: word("position", exercise.position.value.word()),
        support: supports(exercise.support.iter().map(|s| s.value), say).map(|s| say.capital(&s)),
        equipment: match exercise.equipment.as_slice() {
            [] => say.words.say("need-nothing"),
            list => say.capital(&say.and(&list.iter().map(|e| e.value.clone()).collect::<Vec<_>>())),
        },
        dose: DoseBlock::of(&dose, length, changes.is_some(), say),
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
        other_ways: exercise.variations.iter().map(|v| variation(v, say)).collect(),
        harder: exercise.progressions.iter().map(|p| way(p, model, say)).collect(),
        reviewed: match &exercise.reviewed {
            Some(r) => say.words.say_with(
                "reviewed-line",
                &[("name", r.by.value.as_str().into()), ("date", say.day(r.on.value).into())],
            ),
            None => say.words.say("reviewed-not-yet"),
        },
    }
}

/// The dose of an exercise as a week uses it, or its own.
pub fn dose_of(exercise: &Exercise, used: Option<&WeekExercise>) -> Dose {
    match used.and_then(|u| u.dose.as_ref()) {
        Some(changes) => exercise.dose.overridden_by(changes),
        None => exercise.dose.clone(),
    }
}

/// What the hands hold in a variation: its own support, or that of the exercise where it stays in the
/// same position.
pub fn holds(exercise: &Exercise, variation: &Variation, say: Phrases<'_>) -> Option<String> {
    let moved = variation.position.as_ref().is_some_and(|p| p.value != exercise.position.value);
    match variation.support.as_slice() {
        [] if moved => None,
        [] => supports(exercise.support.iter().map(|s| s.value), say),
        own => supports(own.iter().map(|s| s.value), say),
    }
}

/// The strictest cautions first, those for everyone after those for somebody of the same strictness.
pub(super) fn cautions<'m>(exercise: &'m Exercise, model: &Model, say: Phrases<'_>) -> Vec<CautionBlock<'m>> {
    let mut list: Vec<&Caution> = exercise.cautions.iter().collect();
    list.sort_by_key(|c| c.strictness());
    let block = |caution: &'m Caution| CautionBlock {
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
    };
    list.into_iter().map(block).collect()
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
        Way::Text(text) => {
            WayBlock { title: None, exercise: None, text: Some(&text.value), needs: None, dose }
        }
        Way::Exercise { id, text } => {
            let other = model.exercises.get(&id.value);
            let title = other.map_or(id.value.clone(), |o| o.title.value.clone());
            let text = text.as_ref().map(|t| t.value.as_str());
            WayBlock {
                title: Some(say.words.say_with("try-exercise", &[("title", title.into())])),
                exercise: other.map(|o| o.id.as_str()),
                text: text.or(other.map(|o| o.summary.value.as_str())),
                needs: None,
                dose,
            }
        }
    }
}

fn variation<'m>(variation: &'m Variation, say: Phrases<'_>) -> WayBlock<'m> {
    let position =
        variation.position.as_ref().map(|p| say.words.say(&format!("position-{}", p.value.word())));
    let support = supports(variation.support.iter().map(|s| s.value), say);
    let support = support.map(|s| format!("{}: {s}", say.words.say("hold-on-to")));
    let needs: Vec<String> = position.into_iter().chain(support).collect();
    WayBlock {
        title: Some(variation.title.value.clone()),
        exercise: None,
        text: Some(&variation.text.value),
        needs: (!needs.is_empty()).then(|| format!("{}.", needs.join(". "))),
        dose: variation.dose.as_ref().map(|d| glance(d, say)),
    }
}

/// "a kitchen counter or a wall"; `None` when there is nothing to hold.
fn supports(list: impl Iterator<Item = Support>, say: Phrases<'_>) -> Option<String> {
    let list: Vec<String> = list.map(|s| say.support(s)).collect();
    (!list.is_empty()).then(|| say.or(&list))
}
