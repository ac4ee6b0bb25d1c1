//! Which forms of an exercise may be anybody's, so that a page need not carry those that nobody gets.

use std::collections::BTreeSet;

use super::rungs;
use crate::model::Model;
use crate::model::exercise::Exercise;
use crate::model::form::Form;
use crate::model::week::WeekExercise;
use crate::reckon::safety::{self, Offer};

/// The forms of an exercise, as a week uses it, in their order: as it stands, and each that [`super::choose`] could give to
/// people with some precautions and things at home, whatever these are.
///
/// Reasons are found for each precaution by itself, so a form is for those at most who have every precaution but its own
/// reasons. One that comes before it is passed over by some of these only for a reason which the form has not, or for a
/// thing which it does not need.
pub fn possible<'m>(asked: &'m Exercise, used: Option<&'m WeekExercise>, model: &'m Model) -> Vec<Offer<'m>> {
    let precautions: Vec<&str> = model.site.catalogue.precautions.keys().map(String::as_str).collect();
    let changed = used.and_then(|used| used.dose.as_ref());
    let rungs = rungs(asked, model);
    let named: Vec<Form<'m>> = rungs
        .iter()
        .flat_map(|&(rung, _)| rung.cautions.iter().filter_map(move |c| safety::instead(c, rung, model)))
        .map(|offer| offer.form)
        .collect();
    let mut before: Vec<Barrier<'m>> = Vec::new();
    let mut possible = Vec::new();
    for (exercise, link) in rungs {
        let changed = changed.filter(|_| exercise.id == asked.id);
        for form in Form::all(exercise) {
            let offer = Offer { form, link, changed };
            let base = form.is(&Form::base(asked));
            let sound = safety::against_all(&form, &model.site).is_empty();
            let refused = safety::refusals(&offer, &precautions, model).into_keys().collect();
            let here = Barrier { form, refused };
            let reached = || before.iter().all(|earlier| earlier.lets_pass_to(&here));
            if base || sound && (named.iter().any(|n| n.is(&form)) || reached()) {
                possible.push(offer);
            }
            if sound {
                before.push(here);
            }
        }
    }
    possible
}

/// A form with all whom it is not for.
struct Barrier<'m> {
    form: Form<'m>,
    refused: BTreeSet<&'m str>,
}

impl Barrier<'_> {
    /// True when somebody for whom the other form is passes this one over.
    fn lets_pass_to(&self, other: &Barrier<'_>) -> bool {
        let needed = other.form.equipment();
        !self.refused.is_subset(&other.refused)
            || self.form.equipment().iter().any(|thing| needed.iter().all(|own| own.value != thing.value))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reckon::choice::{Need, choose};
    use crate::review::testing::demonstration;

    /// A small generator with a fixed seed, so that each run asks the same.
    fn drawn(state: &mut u64, below: usize) -> usize {
        *state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (*state >> 33) as usize % below
    }

    #[test]
    fn whatever_form_anybody_gets_is_among_the_possible_ones() {
        let edition = demonstration();
        let model = edition.model();
        let all: Vec<&str> = model.site.catalogue.precautions.keys().map(String::as_str).collect();
        let mut state = 7;
        let (mut others, mut given) = (0, 0);
        for exercise in model.exercises.values() {
            let possible = possible(exercise, None, model);
            assert!(possible[0].form.is(&Form::base(exercise)));
            for _ in 0..300 {
                let count = drawn(&mut state, 6);
                let hers: Vec<&str> = (0..count).map(|_| all[drawn(&mut state, all.len())]).collect();
                let things = model.exercises.values().nth(drawn(&mut state, model.exercises.len()));
                let mut need = Need::only(&hers);
                need.equipment = things.filter(|_| drawn(&mut state, 2) == 0).map(|e| e.equipment.as_slice());
                let Some(form) = choose(exercise, None, &need, model).form() else { continue };
                assert!(possible.iter().any(|offer| offer.form.is(&form)), "{form} for {hers:?}");
                given += 1;
                others += usize::from(!form.is(&Form::base(exercise)));
            }
        }
        assert!(given > 5_000 && others > 1_000, "{others} of {given}");
        // And fewer are carried than there are.
        let count = |list: &dyn Fn(&Exercise) -> usize| model.exercises.values().map(list).sum::<usize>();
        let carried = count(&|e| possible(&model.exercises[e.id.as_str()], None, model).len());
        let there = count(&|e| {
            rungs(&model.exercises[e.id.as_str()], model).iter().map(|(e, _)| 1 + e.variations.len()).sum()
        });
        assert!(carried * 4 < there * 3, "{carried} of {there}");
    }
}
