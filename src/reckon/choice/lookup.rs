//! All that decides which form of an exercise somebody gets, laid out for looking up: whom each form refuses, in which order
//! forms are tried and for whom it is another, what each needs. A page carries it, and a few lines of script find in it what
//! [`choose`](super::choose) gives for any precautions and any things, with nothing cleared and no preference.
//!
//! Every part is asked of the choice and of [`safety`]; nothing is decided here. That a table is enough follows from
//! each precaution being judged by itself.

use std::collections::BTreeSet;

use super::safety::{self, Offer, Refusals, Why};
use super::{named, own, rungs, sends, telling};
use crate::model::Model;
use crate::model::exercise::{Applies, Exercise};
use crate::model::form::Form;
use crate::model::source::Spanned;
use crate::model::week::WeekExercise;

/// What is tried for an exercise.
#[derive(Clone, Debug)]
pub struct Lookup<'m> {
    /// The exercise as it stands first, then every other form that somebody may get.
    pub forms: Vec<Tried<'m>>,
    /// The exercise, then those below it, the nearest first. Of each, the forms that its cautions name for her are tried,
    /// then its own, and no form a second time.
    pub rungs: Vec<Rung<'m>>,
}

/// A form, and whom it is not for.
#[derive(Clone, Debug)]
pub struct Tried<'m> {
    pub offer: Offer<'m>,
    /// Why it is for nobody; empty when it is for somebody.
    pub against_all: Vec<Why<'m>>,
    /// Of every precaution that the workspace knows.
    pub refusals: Refusals<'m>,
}

/// The places among the forms of what is tried at one exercise.
#[derive(Clone, Debug, Default)]
pub struct Rung<'m> {
    /// Each with the precautions whose people a caution sends there.
    pub named: Vec<(Vec<&'m str>, usize)>,
    pub own: Vec<usize>,
}

impl<'m> Lookup<'m> {
    /// What is tried for an exercise as a week uses it, or by itself.
    pub fn of(asked: &'m Exercise, used: Option<&'m WeekExercise>, model: &'m Model) -> Lookup<'m> {
        let changed = used.and_then(|used| used.dose.as_ref());
        let precautions: Vec<&str> = model.site.catalogue.precautions.keys().map(String::as_str).collect();
        let way_down = rungs(asked, model);
        let mut lookup = Lookup { forms: Vec::new(), rungs: Vec::new() };
        for &(exercise, link) in &way_down {
            let first = lookup.forms.len();
            lookup.forms.extend(own(exercise, link).map(|mut offer| {
                offer.changed = changed.filter(|_| exercise.id == asked.id);
                Tried {
                    against_all: safety::against_all(&offer.form, &model.site),
                    refusals: safety::refusals(&offer, &precautions, model),
                    offer,
                }
            }));
            lookup.rungs.push(Rung { named: Vec::new(), own: (first..lookup.forms.len()).collect() });
        }
        for (rung, &(exercise, _)) in lookup.rungs.iter_mut().zip(&way_down) {
            let sending = exercise.cautions.iter().filter(|c| sends(c));
            rung.named = named(sending, exercise, &way_down, model)
                .into_iter()
                .filter_map(|(caution, offer)| {
                    let Applies::Precautions(who) = &caution.applies else { return None };
                    let at = lookup.forms.iter().position(|tried| tried.offer.form.is(&offer.form))?;
                    Some((who.iter().map(|p| p.value.as_str()).collect(), at))
                })
                .collect();
        }
        lookup.without_idle()
    }

    /// Leaves out the forms that nobody gets: those for nobody, and those before which another is always tried that
    /// refuses nobody else and needs nothing else. The exercise as it stands remains.
    fn without_idle(self) -> Lookup<'m> {
        let gets = |at: usize| at == 0 || self.may_be_given(at);
        let kept: Vec<usize> = (0..self.forms.len()).filter(|&at| gets(at)).collect();
        let place = |at: usize| kept.binary_search(&at).ok();
        let rungs = self.rungs.iter().map(|rung| Rung {
            named: rung.named.iter().filter_map(|(who, at)| Some((who.clone(), place(*at)?))).collect(),
            own: rung.own.iter().filter_map(|&at| place(at)).collect(),
        });
        let rungs = rungs.filter(|rung| !rung.own.is_empty() || !rung.named.is_empty()).collect();
        let forms = kept.iter().map(|&at| self.forms[at].clone()).collect();
        Lookup { forms, rungs }
    }

    fn may_be_given(&self, at: usize) -> bool {
        let one = &self.forms[at];
        // The earliest that it is tried: where a caution names it, or else in its own place. The places of forms are in the
        // order in which they are tried when no caution speaks.
        let named = self.rungs.iter().find(|rung| rung.named.iter().any(|(_, named)| *named == at));
        let earliest = named.and_then(|rung| rung.own.first()).map_or(at, |&first| first.min(at));
        let refuses_no_more = |other: &Tried<'m>| {
            other.against_all.is_empty()
                && other.refusals.keys().all(|p| one.refusals.contains_key(p))
                && other.needs().iter().all(|need| one.needs().iter().any(|n| n.value == need.value))
        };
        one.against_all.is_empty() && !self.forms[..earliest].iter().any(refuses_no_more)
    }
}

impl<'m> Tried<'m> {
    pub fn form(&self) -> Form<'m> {
        self.offer.form
    }

    /// The things that it needs.
    pub fn needs(&self) -> &'m [Spanned<String>] {
        self.offer.form.equipment()
    }
}

/// The words by which things are compared: one serves as another whose words are all among its own.
pub fn words_of(thing: &str, model: &Model) -> BTreeSet<String> {
    telling(thing, &model.things)
}

/// The same of a thing that somebody can have: none where they say that it is not there.
pub fn words_at_home(thing: &str, model: &Model) -> Option<BTreeSet<String>> {
    Some(words_of(thing, model)).filter(|words| words.is_disjoint(&model.things.missing))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::client::Clearance;
    use crate::reckon::choice::drawn::model;
    use crate::reckon::choice::{Need, choose};

    /// What a page's script does with the table.
    fn looked_up<'a, 'm>(
        lookup: &'a Lookup<'m>,
        hers: &[&str],
        things: Option<&[Spanned<String>]>,
        model: &Model,
    ) -> Option<&'a Tried<'m>> {
        let has = |need: &str| {
            let need = words_of(need, model);
            let own = |thing: &Spanned<String>| words_at_home(&thing.value, model);
            things.is_none_or(|all| all.iter().filter_map(own).any(|own| need.is_subset(&own)))
        };
        let in_order = lookup.rungs.iter().flat_map(|rung| {
            let named = rung.named.iter().filter(|(who, _)| who.iter().any(|p| hers.contains(p)));
            named.map(|(_, at)| *at).chain(rung.own.iter().copied()).collect::<Vec<_>>()
        });
        in_order.map(|at| &lookup.forms[at]).find(|form| {
            form.against_all.is_empty()
                && hers.iter().all(|p| !form.refusals.contains_key(p))
                && form.needs().iter().all(|need| has(&need.value))
        })
    }

    fn is_as_chosen(model: &Model, hers: &[&'static str], things: Option<&[Spanned<String>]>) {
        let precautions = hers.iter().map(|p| model.site.catalogue.precautions.get_key_value(*p).unwrap().0);
        let clearances: Vec<&Clearance> = Vec::new();
        let need = Need {
            precautions: precautions.map(String::as_str).collect(),
            clearances,
            preferences: &[],
            equipment: things,
        };
        for asked in model.exercises.values() {
            let lookup = Lookup::of(asked, None, model);
            let found = looked_up(&lookup, hers, things, model).map(|form| form.form().to_string());
            let chosen = choose(asked, None, &need, model).form().map(|form| form.to_string());
            assert_eq!(found, chosen, "{} for {hers:?} with {things:?}", asked.id);
        }
    }

    const LADDER: &str = "
top: impact-high
  =: equipment = [\"step\"]
  variation By the wall: -impact-high +impact-moderate
  variation Seated: -impact-high =equipment = [\"sturdy chair\"]
  variation Again: -impact-high =equipment = [\"sturdy chair\"]
  regression middle: +kneeling
  regression side:
  caution unsteady: adapt about:impact-high use:By_the_wall
  caution dizziness stroke: ask about:impact-high use:Seated
  caution no-floor: ask about:impact-high use:side
middle: impact-moderate
  variation Slower: -impact-moderate
side: impact-low
  caution spine-fracture: ask about:impact-low
  variation Bare: keep -impact-low
";

    #[test]
    fn what_is_looked_up_is_what_is_chosen() {
        let model = model(LADDER);
        let precautions = ["spine-fracture", "unsteady", "dizziness", "no-floor", "high-blood-pressure"];
        let things = |all: &[&str]| -> Vec<Spanned<String>> {
            let place = model.exercises.values().next().unwrap().place();
            all.iter().map(|thing| Spanned::new((*thing).to_string(), place)).collect()
        };
        let homes =
            [None, Some(things(&[])), Some(things(&["A sturdy chair with arms"])), Some(things(&["step"]))];
        for set in 0..1 << precautions.len() {
            let hers: Vec<&str> = precautions
                .iter()
                .enumerate()
                .filter(|(at, _)| set >> at & 1 == 1)
                .map(|(_, p)| *p)
                .collect();
            for home in &homes {
                is_as_chosen(&model, &hers, home.as_deref());
            }
        }
    }

    #[test]
    fn a_form_that_nobody_gets_is_left_out() {
        let model = model(LADDER);
        let forms = |id: &str| {
            let lookup = Lookup::of(&model.exercises[id], None, &model);
            lookup.forms.iter().map(|form| form.form().to_string()).collect::<Vec<_>>()
        };
        let top = forms("top");
        assert!(top.contains(&"`top` (Seated)".to_string()), "{top:?}");
        assert!(!top.contains(&"`top` (Again)".to_string()), "it is as Seated is, and after it: {top:?}");
    }
}
