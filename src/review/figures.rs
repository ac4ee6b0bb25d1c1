//! The rules on drawn figures: each figure is placed in space once, and then shown to every rule. And what these rules share:
//! the clinician's words for what is in a figure.

use rayon::prelude::*;

use super::cache::ByEntry;
use super::rule::{FigureCheck, Rule};
use super::{Awaited, Case, Sink, rules};
use crate::model::exercise::Exercise;
use crate::model::figure::{Drawing, Joint, Motion, Pose, Side, Thing};
use crate::model::finding::{Finding, Subject};
use crate::model::form::Form;
use crate::model::source::Span;
use crate::model::vocabulary::Vocabulary;
use crate::reckon::demands;
use crate::reckon::figure::{STATURE_CM, Scene};

/// A drawn figure of an exercise whose figures could all be read.
pub struct Drawn<'m> {
    /// The form that it shows: the exercise as it stands, or the variation that it is written for.
    pub(super) form: Form<'m>,
    pub(super) drawing: &'m Drawing,
    pub(super) scene: Scene<'m>,
    description: &'m str,
}

impl Drawn<'_> {
    /// What a finding about one of its poses is about, behind what is wrong with it: of two figures or two poses that have
    /// the same fault each can be accepted by itself.
    pub(super) fn about(&self, pose: usize, fault: impl IntoIterator<Item = Subject>) -> Vec<Subject> {
        self.about_all(fault.into_iter().chain([Subject::Pose(pose + 1)]))
    }

    /// The same of a finding about the whole figure.
    pub(super) fn about_all(&self, fault: impl IntoIterator<Item = Subject>) -> Vec<Subject> {
        let mut subjects: Vec<Subject> = fault.into_iter().collect();
        subjects.extend([
            Subject::Figure(self.description.into()),
            Subject::Title(self.form.title().value.clone()),
        ]);
        subjects
    }
}

/// What the rules on figures find in the exercises that are not kept; all that are looked at while somebody waits for it
/// are kept then. Each figure is placed once, and what it asks of the body is told from the same bodies.
pub(super) fn review(case: &Case<'_>, kept: &mut ByEntry, awaited: Awaited<'_>) -> Vec<Finding> {
    let on_figures = |rule: &&'static Rule| Some((*rule, rule.check.of_figures()?));
    let rules: Vec<(&Rule, FigureCheck)> = rules::ALL.iter().filter_map(on_figures).collect();
    let exercises: Vec<&Exercise> =
        case.model.exercises.values().filter(|e| !kept.contains_key(&e.file)).collect();
    let look = |exercise: &&Exercise| {
        let mut findings = Vec::new();
        for figure in drawn(exercise) {
            demands::keep_shown(&figure.scene);
            for (rule, check) in &rules {
                let mut sink = Sink { rule, findings };
                check(&figure, &mut sink);
                findings = sink.findings;
            }
        }
        (exercise.file, findings)
    };
    let found: Vec<_> = exercises.par_iter().filter(|_| awaited()).map(look).collect();
    kept.extend(found);
    kept.values().flatten().cloned().collect()
}

/// The drawn figures of an exercise in space, one after the other.
fn drawn(exercise: &Exercise) -> impl Iterator<Item = Drawn<'_>> {
    let sound = exercise.standing.is_sound("figure") && exercise.standing.is_sound("variation");
    let forms = sound.then(|| Form::all(exercise)).into_iter().flatten();
    forms.flat_map(|form| {
        let own = form.variation.map_or(&form.exercise.figures, |variation| &variation.figures);
        let drawings = own.iter().filter_map(|figure| Some((figure.drawing()?, &*figure.description.value)));
        drawings.map(move |(drawing, description)| Drawn {
            form,
            drawing,
            scene: Scene::of(drawing),
            description,
        })
    })
}

/// Where the author turns a joint; else where the pose begins.
pub(super) fn turn_place(pose: &Pose, joint: Joint, side: Option<Side>, motion: Motion) -> Span {
    let said = pose.turns.iter().rfind(|t| t.joint == joint && t.side == side && t.motion == motion);
    said.map_or(pose.span, |turn| turn.degrees.span)
}

/// Such as `flexion of both knees`.
pub(super) fn movement(joint: Joint, sides: &[Option<Side>], motion: Motion) -> String {
    let word = joint.word().replace('_', " ");
    let motion = match motion {
        Motion::LateralFlexionLeft => "lateral flexion to the left".to_string(),
        Motion::LateralFlexionRight => "lateral flexion to the right".to_string(),
        Motion::RotationLeft => "rotation to the left".to_string(),
        Motion::RotationRight => "rotation to the right".to_string(),
        other => other.word().replace('_', " "),
    };
    match sides {
        [Some(side)] => format!("{motion} of the {} {word}", side.word()),
        [Some(_), ..] => format!("{motion} of both {word}s"),
        _ => format!("{motion} of the {word}"),
    }
}

/// Fractions of stature as centimeters of the person drawn.
pub(super) fn centimeters(length: f64) -> i64 {
    (length * STATURE_CM).round() as i64
}

/// A thing as a sentence says it.
pub(super) fn the(thing: Thing) -> String {
    format!("the {}", thing.word())
}

/// The fields of an exercise as [`testing::edited`](super::testing::edited) wants them, with a figure put before its first
/// caution.
#[cfg(test)]
pub(super) fn with_figure(file: &str, figure: &str) -> String {
    let text = super::testing::undrawn(&super::testing::edited(file, &[]));
    let at = text.find("[[caution]]").expect("a caution");
    let comment = text[..at].rfind("\n\n").map_or(at, |end| end + 2);
    format!("{}[[figure]]\ndescription = \"She moves.\"\n{figure}\n{}", &text[..comment], &text[comment..])
}
