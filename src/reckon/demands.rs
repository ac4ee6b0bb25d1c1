//! What a form asks of the body: the demands that its author declares, and those that its fields say already. The one
//! place where the demands of a form are worked out.

use super::figure::Scene;
use crate::model::amount::Time;
use crate::model::dose::Dose;
use crate::model::exercise::Exercise;
use crate::model::figure::{Drawing, Figure};
use crate::model::form::Form;
use crate::model::site::Site;
use crate::model::source::{Span, Spanned};
use crate::model::targets::LONG_HOLD;
use crate::model::vocabulary::{CautionLevel, Component, Position, Surface};

/// A demand of a form, and what says so.
#[derive(Clone, Copy, Debug)]
pub struct Demand<'m> {
    pub id: &'m str,
    pub from: Origin<'m>,
}

/// Where a demand comes from.
#[derive(Clone, Copy, Debug)]
pub enum Origin<'m> {
    /// The author declares it.
    Declared(&'m Spanned<String>),
    /// It is done on the floor, in this position.
    Surface(&'m Spanned<Position>),
    /// The position itself.
    Position(&'m Spanned<Position>),
    /// A hold that is long.
    Hold(Spanned<Time>),
    /// A drawn pose shows it.
    Figure(&'m Figure, usize),
}

impl Demand<'_> {
    /// Where it is said.
    pub fn place(&self) -> Span {
        match self.from {
            Origin::Declared(declared) => declared.span,
            Origin::Surface(position) | Origin::Position(position) => position.span,
            Origin::Hold(hold) => hold.span,
            Origin::Figure(figure, pose) => figure
                .drawing()
                .and_then(|drawing| drawing.poses.get(pose))
                .map_or(figure.span, |pose| pose.span),
        }
    }
}

/// The demands of a form in a dose, each once: the declared ones as written, then the derived ones. Nothing takes away
/// what the form's own fields say.
pub fn of<'m>(form: &Form<'m>, dose: &Dose, site: &Site) -> Vec<Demand<'m>> {
    let mut all = of_the_body(form);
    if let Some(hold) = dose.hold.as_ref().filter(|hold| is_long(form.exercise, hold.value, site)) {
        add(&mut all, "long-hold", Origin::Hold(*hold));
    }
    // The dose of a caution for somebody is the dose of whoever does the form as it says.
    let longer =
        form.exercise.cautions.iter().filter(|c| c.level.value == CautionLevel::Adapt && c.instead.is_none());
    for hold in longer.filter_map(|c| c.dose.as_ref()?.hold.as_ref()) {
        if is_long(form.exercise, hold.value, site) {
            add(&mut all, "long-hold", Origin::Hold(*hold));
        }
    }
    all
}

/// The demands of a form in whatever dose.
pub fn of_the_body<'m>(form: &Form<'m>) -> Vec<Demand<'m>> {
    let mut all: Vec<Demand<'m>> = Vec::new();
    for declared in form.declared() {
        add(&mut all, &declared.value, Origin::Declared(declared));
    }
    if let Some(variation) = form.variation {
        // What the exercise's fields say stays until the variation takes it away, as what it declares does.
        let base = of_the_body(&Form::base(form.exercise));
        for demand in base.into_iter().filter(|d| variation.removes.iter().all(|r| r.value != d.id)) {
            add(&mut all, demand.id, demand.from);
        }
    }
    let position = form.position();
    for demand in of_position(position.value) {
        add(&mut all, demand, Origin::Position(position));
    }
    if form.surface() == Some(Surface::Floor) {
        add(&mut all, "floor-transfer", Origin::Surface(position));
    }
    for figure in form.figures() {
        for (pose, demands) in figure.drawing().map(shown).unwrap_or_default() {
            // A picture that shows one of several is answered by whichever the author declares.
            if let Some(first) = demands.first().filter(|_| !demands.iter().any(|d| has(&all, d))) {
                add(&mut all, first, Origin::Figure(figure, *pose));
            }
        }
    }
    all
}

/// The demands of an exercise as it stands, in its own dose.
pub fn of_base<'m>(exercise: &'m Exercise, site: &Site) -> Vec<Demand<'m>> {
    of(&Form::base(exercise), &exercise.dose, site)
}

/// What an exercise speaks of and does not ask: of each demand that a variation, an easier or a harder way takes away,
/// whether the exercise as it stands has it; of each that a caution is about, whether any form has it. The list of its
/// demands may have lost these, and then nobody knows for whom it is.
pub fn lost<'m>(exercise: &'m Exercise, site: &Site) -> Lost<'m> {
    let changes =
        exercise.regressions.iter().chain(&exercise.progressions).flat_map(|change| &change.removes);
    let removed = exercise.variations.iter().flat_map(|v| &v.removes).chain(changes);
    let about = exercise.cautions.iter().filter_map(|c| c.about.as_ref()).flatten();
    // Nearly all are declared, and the rest need not be worked out.
    let is_added = |id: &str| exercise.variations.iter().flat_map(|v| &v.adds).any(|added| added.value == id);
    let mut lost = Lost {
        removed: removed.filter(|d| !exercise.declares(&d.value)).collect(),
        about: about.filter(|d| !exercise.declares(&d.value) && !is_added(&d.value)).collect(),
    };
    if !lost.removed.is_empty() || !lost.about.is_empty() {
        let forms: Vec<_> = Form::all(exercise).map(|form| of(&form, &form.dose(None), site)).collect();
        lost.removed.retain(|d| !forms.first().is_some_and(|base| has(base, &d.value)));
        lost.about.retain(|d| !forms.iter().any(|form| has(form, &d.value)));
    }
    lost
}

/// Demands that an exercise speaks of and does not ask.
#[derive(Clone, Debug)]
pub struct Lost<'m> {
    /// By `removes`.
    pub removed: Vec<&'m Spanned<String>>,
    /// By `about`.
    pub about: Vec<&'m Spanned<String>>,
}

/// True when an exercise asks this of the body as it stands, in whatever dose.
pub fn asks(exercise: &Exercise, id: &str) -> bool {
    has(&of_the_body(&Form::base(exercise)), id)
}

/// True when one of these is that demand.
pub fn has(all: &[Demand<'_>], id: &str) -> bool {
    all.iter().any(|demand| demand.id == id)
}

/// What a position asks by itself.
fn of_position(position: Position) -> &'static [&'static str] {
    match position {
        Position::Lying => &["lying-flat"],
        Position::Prone => &["lying-prone"],
        Position::Kneeling => &["kneeling"],
        Position::HandsAndKnees => &["kneeling", "wrist-load"],
        Position::SideLying | Position::Seated | Position::Standing => &[],
    }
}

/// True for a hold of more seconds than the site allows before it is long, in the components whose holds are effort.
fn is_long(exercise: &Exercise, hold: Time, site: &Site) -> bool {
    let effort = matches!(exercise.component.value, Component::Strength | Component::Posture);
    effort && hold.high > LONG_HOLD.of(None, site).high * 1000
}

/// The demands that the poses of a drawing show, each with its pose.
fn shown(drawing: &Drawing) -> &[(usize, &'static [&'static str])] {
    drawing.asked.get_or_reckon(|| asked(&Scene::of(drawing)))
}

/// Works out the demands that a drawing shows, for one whose bodies in space are at hand, before they are asked for.
pub fn keep_shown(scene: &Scene<'_>) {
    scene.drawing.asked.get_or_reckon(|| asked(scene));
}

fn asked(scene: &Scene<'_>) -> Vec<(usize, &'static [&'static str])> {
    let of_pose = |pose| scene.asks(pose).into_iter().map(move |ask| (pose, ask.demands));
    (0..scene.poses.len()).flat_map(of_pose).collect()
}

fn add<'m>(all: &mut Vec<Demand<'m>>, id: &'m str, from: Origin<'m>) {
    if !has(all, id) {
        all.push(Demand { id, from });
    }
}
