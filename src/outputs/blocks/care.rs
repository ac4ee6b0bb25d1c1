//! For whom of all who read a sheet for everyone an exercise is not as its card shows it: named shortly, because nobody can
//! say on one side of paper how each of them does it. They are told to ask for a sheet of their own, which does.

use serde::Serialize;

use super::phrases::Phrases;
use super::used::UsedExercise;
use crate::model::Model;
use crate::model::exercise::Applies;
use crate::model::form::Form;
use crate::reckon::choice::{Need, choose};

/// Who does not do an exercise from a sheet for everyone.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct CareBlock {
    /// Those who get another form of it, or none: "Not this way if you have a break in the spine."
    pub another: Option<String>,
    /// Those who do it with a change: "Changed if you have numb feet."
    pub changed: Option<String>,
}

impl CareBlock {
    /// By the same choice as the sheet of a person, for people who have one precaution beside what everybody has, with every
    /// `ask` as not cleared. A precaution counts whether or not a caution names it.
    pub fn of<'m>(
        used: &UsedExercise<'_, 'm>,
        all_have: &[&'m str],
        model: &'m Model,
        say: Phrases<'_>,
    ) -> CareBlock {
        let (mut another, mut changed) = (Vec::new(), Vec::new());
        for precaution in model.site.catalogue.precautions.keys().map(String::as_str) {
            if all_have.contains(&precaution) {
                continue;
            }
            let have: Vec<&str> = [precaution].into_iter().chain(all_have.iter().copied()).collect();
            let chosen = choose(used.exercise, used.in_week, &Need::only(&have), model).chosen;
            let is_base = |form: Form<'_>| form.variation.is_none() && form.exercise.id == used.exercise.id;
            match chosen.filter(|offer| is_base(offer.form)) {
                None => another.push(precaution),
                Some(offer) => {
                    let cautions = offer.cautions(&[precaution], model);
                    if cautions.iter().any(|caution| caution.applies != Applies::Everyone) {
                        changed.push(precaution);
                    }
                }
            }
        }
        let named = |message: &str, list: Vec<&str>| {
            let who: Vec<String> = list.iter().map(|id| say.precaution(&model.site, id)).collect();
            (!who.is_empty()).then(|| say.words.say_with(message, &[("who", say.or(&who).into())]))
        };
        CareBlock { another: named("care-another", another), changed: named("care-changed", changed) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::review::testing::{edited, with_case};

    const DROP: &str = "content/exercises/heel-drop.md";

    fn care(edits: &[(&str, &str)], all_have: &[&'static str]) -> CareBlock {
        let text = edited(DROP, edits);
        let mut care = CareBlock::default();
        with_case(&[(DROP, text.as_str())], |case| {
            let used = UsedExercise::alone(&case.model.exercises["heel-drop"]);
            care = CareBlock::of(&used, all_have, case.model, Phrases { words: case.words });
        });
        care
    }

    #[test]
    fn whom_a_caution_sends_to_another_form_is_not_told_to_do_this_one_with_a_change() {
        let before = care(&[], &[]);
        let another = before.another.unwrap();
        assert!(another.contains("a break in the spine"), "{another}");
        const KNEE: &str = "[[caution]]
for = [\"knee-arthritis\"]
level = \"adapt\"
text = \"Lift your heels less high.\"

[[regression]]";
        let after = care(&[("[[regression]]", KNEE)], &[]);
        let knees = "worn or sore knees (arthritis)";
        assert!(!before.changed.unwrap_or_default().contains(knees));
        let changed = after.changed.unwrap();
        assert!(changed.contains(knees), "{changed}");
        assert!(!after.another.unwrap().contains(knees));
        assert!(!changed.contains("a break in the spine"), "{changed}");
    }

    #[test]
    fn what_everybody_has_is_not_something_to_look_for() {
        let another = care(&[], &["spine-fracture"]).another;
        assert!(!another.unwrap_or_default().contains("a break in the spine"));
    }
}
