//! Which form of an exercise a person can do safely, or why there is none.
//!
//! The forms are tried in one order: the educator's preference, the form that a caution for her names, the exercise as it
//! stands, its variations as written, then the exercises that its regressions lead to with their variations, the nearest
//! rung first and each in the same order. Where her cautions name several forms, those in which she sits or lies come
//! first, so that one precaution more never puts her on her feet. Whether a form is safe, [`super::safety`] decides.

pub mod lookup;

use std::collections::BTreeSet;

use jiff::civil::Date;

use super::safety::{self, Offer, Refusals, Why};
use crate::model::Model;
use crate::model::client::{Clearance, Client, Preference};
use crate::model::exercise::{Caution, Change, Exercise};
use crate::model::form::Form;
use crate::model::limits::RUNGS;
use crate::model::source::Spanned;
use crate::model::vocabulary::{CautionLevel, Position};
use crate::model::week::WeekExercise;
use crate::model::words::ThingWords;

/// For whom a form is chosen.
#[derive(Clone, Debug, Default)]
pub struct Need<'m> {
    /// Each once.
    pub precautions: Vec<&'m str>,
    /// Those that hold on the day.
    pub clearances: Vec<&'m Clearance>,
    pub preferences: &'m [Preference],
    /// What there is at home; `None` when nobody knows, and then nothing is lacking.
    pub equipment: Option<&'m [Spanned<String>]>,
}

/// The form of an exercise that a person can do safely, or why there is none.
#[derive(Clone, Debug)]
pub struct Choice<'m> {
    pub asked: &'m Exercise,
    /// The first safe form that can be done; `None` leaves the exercise out.
    pub chosen: Option<Offer<'m>>,
    pub because: Because<'m>,
    /// Every reason against the exercise as it stands, the weightiest first; empty when it is safe.
    pub against_base: Vec<Why<'m>>,
    /// Every unsafe form that was tried before it, in order.
    pub refused: Vec<Refused<'m>>,
    /// Every safe form that needs a thing she lacks, with the things.
    pub lacking: Vec<(Offer<'m>, Vec<&'m Spanned<String>>)>,
    /// The clearances that the chosen form rests on.
    pub cleared: Vec<&'m Clearance>,
    /// The educator's preferences for this exercise that name no form.
    pub unknown: Vec<&'m Preference>,
}

/// Why a form was tried when it was.
#[derive(Clone, Copy, Debug)]
pub enum Because<'m> {
    /// It is the first safe one in the order of forms.
    Order,
    Preference(&'m Preference),
    /// A caution for her names it.
    Caution,
}

/// A form that is not for this person.
#[derive(Clone, Debug)]
pub struct Refused<'m> {
    pub offer: Offer<'m>,
    /// Never empty; the weightiest reason first.
    pub why: Vec<Why<'m>>,
}

impl<'m> Need<'m> {
    /// People with these precautions and no more to go by.
    pub fn only(precautions: &[&'m str]) -> Need<'m> {
        Need { precautions: precautions.to_vec(), ..Need::default() }
    }

    /// A person on a day. What everybody has, she has too.
    pub fn of(client: &'m Client, all_have: &[&'m str], today: Date) -> Need<'m> {
        let mut precautions: Vec<&str> = Vec::new();
        for precaution in client.precautions().into_iter().chain(all_have.iter().copied()) {
            if !precautions.contains(&precaution) {
                precautions.push(precaution);
            }
        }
        Need {
            precautions,
            clearances: client.cleared.iter().filter(|c| c.holds_on(today)).collect(),
            preferences: &client.prefer,
            equipment: client.equipment.as_deref(),
        }
    }

    /// Every reason why a form is not for this person, and the clearances that lift others.
    fn judge(&self, offer: &Offer<'m>, model: &'m Model) -> (Vec<Why<'m>>, Vec<&'m Clearance>) {
        let refusals: Refusals<'m> = safety::refusals(offer, &self.precautions, model);
        let mut standing = safety::against_all(&offer.form, &model.site);
        let mut used: Vec<&'m Clearance> = Vec::new();
        // In the order of her precautions, which is the author's.
        let hers = self.precautions.iter().filter_map(|p| refusals.get(p));
        for why in hers.flatten() {
            let lifted = why.lifted_by(offer.form.exercise, &self.clearances);
            if lifted.is_empty() {
                standing.push(why.clone());
            }
            for clearance in lifted {
                if !used.iter().any(|known| known.span == clearance.span) {
                    used.push(clearance);
                }
            }
        }
        standing.sort_by_key(Why::weight);
        (standing, used)
    }

    /// True when a caution of the exercise that names another form names it for her, and nothing is cleared of what it says
    /// to ask about.
    fn is_sent_by(&self, caution: &'m Caution, of: &'m Exercise, model: &'m Model) -> bool {
        let mut hers = self.precautions.iter().filter(|p| caution.names(p));
        sends(caution)
            && hers.any(|precaution| {
                let about = safety::about(caution, of, precaution, model);
                let why = Why::AskFirst { precaution, caution, about };
                caution.level.value != CautionLevel::Ask || why.lifted_by(of, &self.clearances).is_empty()
            })
    }

    /// What a form needs and she lacks.
    fn lacks(&self, form: &Form<'m>, words: &ThingWords) -> Vec<&'m Spanned<String>> {
        let Some(at_home) = self.equipment else { return Vec::new() };
        form.equipment()
            .iter()
            .filter(|thing| !at_home.iter().any(|own| serves_as(&own.value, &thing.value, words)))
            .collect()
    }
}

/// The first form of an exercise, as a week uses it, that is safe for a person and that she can do with what she has.
pub fn choose<'m>(
    asked: &'m Exercise,
    used: Option<&'m WeekExercise>,
    need: &Need<'m>,
    model: &'m Model,
) -> Choice<'m> {
    let changed = used.and_then(|used| used.dose.as_ref());
    let (against_base, _) = need.judge(&Offer::base(asked, changed), model);
    let mut choice = Choice {
        asked,
        chosen: None,
        because: Because::Order,
        against_base,
        refused: Vec::new(),
        lacking: Vec::new(),
        cleared: Vec::new(),
        unknown: Vec::new(),
    };
    for (mut offer, because) in order(need, &mut choice, model) {
        offer.changed = changed.filter(|_| offer.form.exercise.id == asked.id);
        let (why, cleared) = need.judge(&offer, model);
        if !why.is_empty() {
            choice.refused.push(Refused { offer, why });
            continue;
        }
        let lacks = need.lacks(&offer.form, &model.things);
        if !lacks.is_empty() {
            choice.lacking.push((offer, lacks));
            continue;
        }
        return Choice { chosen: Some(offer), because, cleared, ..choice };
    }
    choice
}

/// True when some form of an exercise, as a week uses it, is safe for people with this precaution alone.
pub fn is_answered(asked: &Exercise, used: Option<&WeekExercise>, precaution: &str, model: &Model) -> bool {
    choose(asked, used, &Need::only(&[precaution]), model).chosen.is_some()
}

impl<'m> Choice<'m> {
    /// The form that was chosen.
    pub fn form(&self) -> Option<Form<'m>> {
        self.chosen.map(|offer| offer.form)
    }

    /// True when the exercise is done as it stands.
    pub fn is_base(&self) -> bool {
        self.form().is_some_and(|form| form.is(&Form::base(self.asked)))
    }
}

/// Every form to try, each once, with why it is tried there. Notes the preferences that name no form.
fn order<'m>(need: &Need<'m>, choice: &mut Choice<'m>, model: &'m Model) -> Vec<(Offer<'m>, Because<'m>)> {
    let asked = choice.asked;
    let rungs = rungs(asked, model);
    let mut all: Vec<(Offer<'m>, Because<'m>)> = Vec::new();
    for preference in need.preferences.iter().filter(|p| p.exercise.value == asked.id) {
        match preferred(preference, asked, &rungs) {
            Some(offer) => all.push((offer, Because::Preference(preference))),
            None => choice.unknown.push(preference),
        }
    }
    for &(exercise, link) in &rungs {
        // What she was cleared for sends her nowhere else.
        let cautions = exercise.cautions.iter().filter(|c| need.is_sent_by(c, exercise, model));
        let named = named(cautions, exercise, &rungs, model);
        all.extend(named.into_iter().map(|(_, offer)| (offer, Because::Caution)));
        all.extend(own(exercise, link).map(|offer| (offer, Because::Order)));
    }
    let mut tried: Vec<Form<'m>> = Vec::new();
    all.retain(|(offer, _)| {
        let new = !tried.iter().any(|form| form.is(&offer.form));
        tried.push(offer.form);
        new
    });
    all
}

/// The forms that cautions of an exercise on the way down name, each with its caution, those at rest first.
fn named<'m>(
    cautions: impl Iterator<Item = &'m Caution>,
    of: &'m Exercise,
    rungs: &[(&'m Exercise, Option<&'m Change>)],
    model: &'m Model,
) -> Vec<(&'m Caution, Offer<'m>)> {
    let named = cautions.filter_map(|caution| {
        let form = safety::instead(caution, of, model)?.form;
        let (_, link) = rungs.iter().find(|(rung, _)| rung.id == form.exercise.id)?;
        Some((caution, Offer { form, link: *link, changed: None }))
    });
    let mut named: Vec<_> = named.collect();
    named.sort_by_key(|(_, offer)| !is_at_rest(offer.form.position().value));
    named
}

/// The forms of an exercise on the way down, as written.
fn own<'m>(exercise: &'m Exercise, link: Option<&'m Change>) -> impl Iterator<Item = Offer<'m>> {
    Form::all(exercise).map(move |form| Offer { form, link, changed: None })
}

/// True for a caution that sends those it names to another form. One of a single variation sends nobody from the others.
fn sends(caution: &Caution) -> bool {
    caution.instead.is_some() && caution.form.is_none()
}

/// The form that a preference names: a variation of the exercise, or an exercise of its ladder as it stands.
fn preferred<'m>(
    preference: &'m Preference,
    asked: &'m Exercise,
    rungs: &[(&'m Exercise, Option<&'m Change>)],
) -> Option<Offer<'m>> {
    let name = &preference.form.value;
    if let Some(variation) = asked.variation(name) {
        let form = Form { exercise: asked, variation: Some(variation) };
        return Some(Offer { form, link: None, changed: None });
    }
    let (exercise, link) = rungs.iter().find(|(rung, _)| rung.id == *name)?;
    Some(Offer { form: Form::base(exercise), link: *link, changed: None })
}

/// True for what is done sitting or lying.
fn is_at_rest(position: Position) -> bool {
    matches!(position, Position::Seated | Position::Lying | Position::SideLying | Position::Prone)
}

/// True when a thing is what is needed. Things are written in words: "A sturdy chair with arms" is a "sturdy chair", and
/// "cushions" are there where a "cushion" is needed. What is said not to be there serves as nothing.
fn serves_as(own: &str, needed: &str, known: &ThingWords) -> bool {
    let own = telling(own, known);
    own.is_disjoint(&known.missing) && telling(needed, known).is_subset(&own)
}

/// The words that tell a thing from others, in the one form that counts.
fn telling(thing: &str, known: &ThingWords) -> BTreeSet<String> {
    let words = thing.split(|c: char| !c.is_alphanumeric()).map(str::to_lowercase);
    let words = words.filter(|word| !word.is_empty() && !known.left_out.contains(word));
    words.map(|word| word.trim_end_matches('s').to_string()).collect()
}

/// The exercise and those that regressions lead to from it, the nearest first and in the order written,
/// each once and with the regression that led to it first. A regression to what is not there or cannot
/// be read leads nowhere; nor do the regressions of an exercise that could not all be read, for one of
/// them may have lost what it adds. Down to as many rungs as a ladder may have.
pub(super) fn rungs<'m>(asked: &'m Exercise, model: &'m Model) -> Vec<(&'m Exercise, Option<&'m Change>)> {
    let mut rungs = vec![(asked, None)];
    let mut down = vec![0];
    let mut seen = BTreeSet::from([asked.id.as_str()]);
    let mut at = 0;
    while let Some(&(exercise, _)) = rungs.get(at) {
        let next = down[at] + 1;
        at += 1;
        if next >= RUNGS || !exercise.standing.is_sound("regression") {
            continue;
        }
        for link in &exercise.regressions {
            let easier = link.exercise().and_then(|id| model.exercises.get(&id.value));
            if let Some(easier) = easier
                && seen.insert(&easier.id)
            {
                rungs.push((easier, Some(link)));
                down.push(next);
            }
        }
    }
    rungs
}

#[cfg(test)]
pub(crate) mod drawn;
#[cfg(test)]
mod tests;
