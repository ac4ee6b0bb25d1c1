//! Which form of an exercise a person can do safely, or why there is none.
//!
//! The forms are tried in one order: the exercise as it stands, its variations as written, then the
//! exercises that its regressions lead to with their variations, the nearest rung first. What could not
//! be read is never safe: only what the author wrote, and all of it, lets a form pass.

use std::collections::BTreeSet;
use std::fmt;

use crate::model::Model;
use crate::model::catalogue::Row;
use crate::model::dose::Dose;
use crate::model::exercise::{Applies, Caution, Change, Exercise, Variation};
use crate::model::source::Spanned;
use crate::model::vocabulary::{CautionLevel, Restriction};
use crate::model::week::WeekExercise;

/// The form of an exercise that a person can do safely, or why there is none.
#[derive(Clone, Debug)]
pub struct Choice<'m> {
    pub asked: &'m Exercise,
    /// The first safe form; `None` leaves the exercise out.
    pub form: Option<Form<'m>>,
    /// Every form tried before it, in order.
    pub refused: Vec<Refused<'m>>,
}

/// One way to do it: an exercise as it stands, or one of its variations.
///
/// A regression in words is none. Its words change the steps above it, and those were not safe.
#[derive(Clone, Copy, Debug)]
pub struct Form<'m> {
    pub exercise: &'m Exercise,
    pub variation: Option<&'m Variation>,
    /// The regression that leads to the exercise, with its own words and dose; `None` at the exercise
    /// that was asked for.
    pub link: Option<&'m Change>,
}

/// A form that is not for this person.
#[derive(Clone, Debug)]
pub struct Refused<'m> {
    pub form: Form<'m>,
    /// Never empty; the weightiest reason first.
    pub why: Vec<Why<'m>>,
}

/// One reason why a form is not for a person, the weightiest kinds first.
#[derive(Clone, Debug)]
pub enum Why<'m> {
    /// Nothing is known of one of the person's precautions.
    Unknown { precaution: &'m str },
    /// Something in this field of the exercise could not be read.
    Unread { field: &'static str },
    /// A caution says that people with the precaution must not do the exercise, in whatever variation.
    Stop { precaution: &'m str, caution: &'m Caution },
    /// The precaution says to avoid what the form asks of the body.
    Avoid { precaution: &'m str, demand: &'m str, row: &'m Row },
    /// The precaution says to modify it or to ask about it, and no caution of the exercise says how.
    NoCaution { precaution: &'m str, demand: &'m str, row: &'m Row },
}

/// The first form of an exercise that is safe for a person with these precautions: it asks nothing of
/// the body that one of them says to avoid, a caution of its exercise speaks to those that say to modify
/// or to ask, and no caution of its exercise tells one of them to stop. A caution for everyone names
/// nobody.
pub fn choose<'m>(asked: &'m Exercise, precautions: &[&'m str], model: &'m Model) -> Choice<'m> {
    let mut refused = Vec::new();
    for form in forms(asked, model) {
        let why = form.why_not(precautions, model);
        if why.is_empty() {
            return Choice { asked, form: Some(form), refused };
        }
        refused.push(Refused { form, why });
    }
    Choice { asked, form: None, refused }
}

/// The cautions that a sheet for a person shows, in the order they are read: those that name one of the
/// precautions, and those for everyone.
pub fn cautions_for<'m>(exercise: &'m Exercise, precautions: &[&str]) -> Vec<&'m Caution> {
    let concerns = |c: &&Caution| {
        c.applies == Applies::Everyone || precautions.iter().any(|precaution| c.names(precaution))
    };
    let mut cautions: Vec<&Caution> = exercise.cautions.iter().filter(concerns).collect();
    cautions.sort_by_key(|c| c.strictness());
    cautions
}

impl<'m> Choice<'m> {
    /// The weightiest reason why the exercise as it stands was refused, when no form of it is safe.
    pub fn left_out(&self) -> Option<&Why<'m>> {
        match self.form {
            Some(_) => None,
            None => self.refused.first()?.why.first(),
        }
    }
}

impl<'m> Form<'m> {
    /// What the form asks of the body, each demand once: those of the exercise, without what the
    /// variation removes and with what it adds. What a regression to the exercise adds counts too, and
    /// stays where the exercise does not say so itself: no variation was written against it. What the
    /// regression removes takes away nothing that the exercise says of itself.
    pub fn demands(&self) -> Vec<&'m str> {
        let (removes, adds): (&[Spanned<String>], &[Spanned<String>]) =
            self.variation.map_or((&[], &[]), |v| (&v.removes, &v.adds));
        let linked: &[Spanned<String>] = self.link.map_or(&[], |link| &link.adds);
        let removed = |demand: &Spanned<String>| removes.iter().any(|r| r.value == demand.value);
        let own = self.exercise.demands.iter().filter(|d| !removed(d));
        let linked = linked.iter().filter(|d| !self.exercise.asks(&d.value));
        let mut demands: Vec<&str> = Vec::new();
        for demand in own.chain(adds).chain(linked) {
            if !demands.contains(&demand.value.as_str()) {
                demands.push(&demand.value);
            }
        }
        demands
    }

    /// Its dose: that of its exercise as the week uses it, then what the regression that led to it and the
    /// variation change.
    pub fn dose(&self, used: Option<&WeekExercise>) -> Dose {
        let own = used.map_or_else(|| self.exercise.dose.clone(), |used| used.dose_of(self.exercise));
        let changes = self.link.and_then(|link| link.dose.as_ref());
        let changes = changes.into_iter().chain(self.variation.and_then(|v| v.dose.as_ref()));
        changes.fold(own, |dose, change| dose.overridden_by(change))
    }

    /// Every reason why the form is not for a person with these precautions, the weightiest first;
    /// empty when it is safe.
    fn why_not(&self, precautions: &[&'m str], model: &'m Model) -> Vec<Why<'m>> {
        let catalogue = &model.site.catalogue;
        let cautions = &self.exercise.cautions;
        let mut why = Vec::new();
        for field in ["demands", "variation", "caution"] {
            if !self.exercise.standing.is_sound(field) {
                why.push(Why::Unread { field });
            }
        }
        for &precaution in precautions {
            if !catalogue.precautions.contains_key(precaution) {
                why.push(Why::Unknown { precaution });
            }
            let stops = |c: &&Caution| c.level.value == CautionLevel::Stop && c.names(precaution);
            why.extend(cautions.iter().filter(stops).map(|caution| Why::Stop { precaution, caution }));
            for demand in self.demands() {
                match catalogue.row(precaution, demand) {
                    Some(row) if row.by == Restriction::Avoid => {
                        why.push(Why::Avoid { precaution, demand, row });
                    }
                    Some(row) if !cautions.iter().any(|c| c.names(precaution)) => {
                        why.push(Why::NoCaution { precaution, demand, row });
                    }
                    _ => {}
                }
            }
        }
        why.sort_by_key(Why::weight);
        why
    }
}

impl Why<'_> {
    fn weight(&self) -> u8 {
        match self {
            Why::Unknown { .. } => 0,
            Why::Unread { .. } => 1,
            Why::Stop { .. } => 2,
            Why::Avoid { .. } => 3,
            Why::NoCaution { .. } => 4,
        }
    }
}

/// Every form of an exercise, in the order in which they are tried.
fn forms<'m>(asked: &'m Exercise, model: &'m Model) -> impl Iterator<Item = Form<'m>> {
    rungs(asked, model).into_iter().flat_map(|(exercise, link)| {
        let variations = exercise.variations.iter().map(Some);
        std::iter::once(None).chain(variations).map(move |variation| Form { exercise, variation, link })
    })
}

/// The exercise and those that regressions lead to from it, the nearest first and in the order written,
/// each once and with the regression that led to it first. A regression to what is not there or cannot
/// be read leads nowhere; nor do the regressions of an exercise that could not all be read, for one of
/// them may have lost what it adds.
fn rungs<'m>(asked: &'m Exercise, model: &'m Model) -> Vec<(&'m Exercise, Option<&'m Change>)> {
    let mut rungs = vec![(asked, None)];
    let mut seen = BTreeSet::from([asked.id.as_str()]);
    let mut at = 0;
    while let Some(&(exercise, _)) = rungs.get(at) {
        at += 1;
        if !exercise.standing.is_sound("regression") {
            continue;
        }
        for link in &exercise.regressions {
            let easier = link.exercise().and_then(|id| model.exercises.get(&id.value));
            if let Some(easier) = easier
                && seen.insert(&easier.id)
            {
                rungs.push((easier, Some(link)));
            }
        }
    }
    rungs
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

/// As the educator is told it.
impl fmt::Display for Why<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Why::Unknown { precaution } => write!(f, "`{precaution}` is no precaution of this workspace"),
            Why::Unread { field } => write!(f, "its `{field}` could not be read"),
            Why::Stop { precaution, .. } => write!(f, "its caution for `{precaution}` says to stop"),
            Why::Avoid { precaution, demand, .. } => write!(f, "`{precaution}` says to avoid `{demand}`"),
            Why::NoCaution { precaution, demand, row } => write!(
                f,
                "`{precaution}` says {} `{demand}`, and no caution of it names `{precaution}`",
                match row.by {
                    Restriction::Avoid => "to avoid",
                    Restriction::Modify => "to modify",
                    Restriction::Ask => "to ask about",
                }
            ),
        }
    }
}

#[cfg(test)]
pub(crate) mod drawn;
#[cfg(test)]
mod properties;
#[cfg(test)]
mod tests;
