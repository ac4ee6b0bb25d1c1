//! A form: one way to do an exercise, as it stands or as one of its variations, with all that belongs to it.

use std::fmt;

use super::dose::Dose;
use super::exercise::{Caution, Exercise, Instruction, Variation};
use super::figure::Figure;
use super::source::Spanned;
use super::vocabulary::{Position, Support, Surface};

/// One way to do an exercise.
///
/// A change in words (a regression with `text`) is none: it changes steps and is no whole instruction.
#[derive(Clone, Copy, Debug)]
pub struct Form<'m> {
    pub exercise: &'m Exercise,
    /// `None` for the exercise as it stands, its base form.
    pub variation: Option<&'m Variation>,
}

impl<'m> Form<'m> {
    /// The base form.
    pub fn base(exercise: &'m Exercise) -> Form<'m> {
        Form { exercise, variation: None }
    }

    /// The base form, then each variation as written.
    pub fn all(exercise: &'m Exercise) -> impl Iterator<Item = Form<'m>> {
        let variations = exercise.variations.iter().map(Some);
        std::iter::once(None).chain(variations).map(move |variation| Form { exercise, variation })
    }

    /// What it is called: a variation by its own name.
    pub fn title(&self) -> &'m Spanned<String> {
        self.variation.map_or(&self.exercise.title, |v| &v.title)
    }

    pub fn position(&self) -> &'m Spanned<Position> {
        self.variation.and_then(|v| v.position.as_ref()).unwrap_or(&self.exercise.position)
    }

    /// What it is done on; `None` for what is done sitting or standing and does not say it. A variation that says its
    /// position is on the floor unless it says its surface too: that of the exercise was written for the position there.
    pub fn surface(&self) -> Option<Surface> {
        let position = self.position().value;
        let own = self.variation.and_then(|v| v.surface.as_ref());
        if !position.is_on_floor() {
            return own.map(|surface| surface.value);
        }
        let placed = self.variation.is_some_and(|v| v.position.is_some());
        let said = own.or(self.exercise.surface.as_ref().filter(|_| !placed));
        Some(said.map_or(Surface::Floor, |s| s.value))
    }

    pub fn support(&self) -> &'m [Spanned<Support>] {
        self.variation.and_then(|v| v.support.as_ref()).unwrap_or(&self.exercise.support)
    }

    pub fn equipment(&self) -> &'m [Spanned<String>] {
        self.variation.and_then(|v| v.equipment.as_ref()).unwrap_or(&self.exercise.equipment)
    }

    /// Its pictures: its own; those of the exercise for the base form, and for a variation without its own that
    /// keeps the steps.
    pub fn figures(&self) -> &'m [Figure] {
        match self.variation {
            None => &self.exercise.figures,
            Some(variation) if !variation.figures.is_empty() => &variation.figures,
            Some(variation) if variation.instruction == Instruction::Kept => &self.exercise.figures,
            Some(_) => &[],
        }
    }

    /// True when the steps of the exercise are done: in the base form and where a variation keeps them.
    pub fn keeps_steps(&self) -> bool {
        self.variation.is_none_or(|v| v.instruction == Instruction::Kept)
    }

    /// The demands that the author declares of it, each once.
    pub fn declared(&self) -> Vec<&'m Spanned<String>> {
        let (removes, adds): (&[Spanned<String>], &[Spanned<String>]) =
            self.variation.map_or((&[], &[]), |v| (&v.removes, &v.adds));
        let kept = self.exercise.demands.iter().filter(|d| removes.iter().all(|r| r.value != d.value));
        let mut all: Vec<&Spanned<String>> = Vec::new();
        for demand in kept.chain(adds) {
            if all.iter().all(|known| known.value != demand.value) {
                all.push(demand);
            }
        }
        all
    }

    /// Its dose where `changed` is what the week that uses the exercise changes of it.
    pub fn dose(&self, changed: Option<&Dose>) -> Dose {
        let own = &self.exercise.dose;
        let own = changed.map_or_else(|| own.clone(), |changed| own.overridden_by(changed));
        match self.variation.and_then(|v| v.dose.as_ref()) {
            Some(dose) => own.overridden_by(dose),
            None => own,
        }
    }

    /// True for two ways to say the same form.
    pub fn is(&self, other: &Form<'_>) -> bool {
        let place = |form: &Form<'_>| form.variation.map(|v| v.span);
        self.exercise.id == other.exercise.id && place(self) == place(other)
    }

    /// True when a caution of the exercise tells this form apart by its title.
    pub fn is_named_by(&self, caution: &Caution) -> bool {
        let title = self.variation.map(|v| v.title.value.as_str());
        caution.form.as_ref().is_some_and(|form| Some(form.value.as_str()) == title)
    }
}

/// As the educator knows it: the exercise's id, and the title of the variation.
impl fmt::Display for Form<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "`{}`", self.exercise.id)?;
        match self.variation {
            Some(variation) => write!(f, " ({})", variation.title.value),
            None => Ok(()),
        }
    }
}
