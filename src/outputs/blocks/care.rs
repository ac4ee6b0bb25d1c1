//! For whom of all who read a sheet for everyone its exercises are not as their cards show them: named shortly, because nobody
//! can say on one side of paper how each of them does it. They are told to ask for a sheet of their own, which does.

use serde::Serialize;

use super::phrases::Phrases;
use super::used::UsedExercise;
use crate::model::Model;
use crate::model::exercise::Applies;
use crate::model::form::Form;
use crate::reckon::choice::{Need, choose};

/// Who does not do what a sheet for everyone shows, or not as it shows it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CareBlock {
    /// "This exercise is not for you, or not as it is shown, if you have numb feet."
    pub who: String,
}

impl CareBlock {
    /// By the same choice as the sheet of a person, for people who have one precaution beside what everybody has, with every
    /// `ask` as not cleared. A precaution counts whether or not a caution names it; `None` where none does.
    pub fn of<'m>(
        exercises: &[UsedExercise<'_, 'm>],
        all_have: &[&'m str],
        model: &'m Model,
        say: Phrases<'_>,
    ) -> Option<CareBlock> {
        let is_shown_to = |precaution: &&'m str| {
            let have: Vec<&str> = [*precaution].into_iter().chain(all_have.iter().copied()).collect();
            let need = Need::only(&have);
            exercises.iter().all(|used| is_as_shown(used, precaution, &need, model))
        };
        let precautions = model.site.catalogue.precautions.keys().map(String::as_str);
        let open = precautions.filter(|precaution| !all_have.contains(precaution));
        let who: Vec<&str> = open.filter(|precaution| !is_shown_to(precaution)).collect();
        if who.is_empty() {
            return None;
        }
        let who: Vec<String> = who.iter().map(|id| say.precaution(&model.site, id)).collect();
        let count = ("count", exercises.len().into());
        Some(CareBlock { who: say.words.say_with("care-who", &[count, ("who", say.or(&who).into())]) })
    }
}

/// True where people with a precaution do the exercise as it is shown, without a change.
fn is_as_shown<'m>(
    used: &UsedExercise<'_, 'm>,
    precaution: &'m str,
    need: &Need<'m>,
    model: &'m Model,
) -> bool {
    let is_shown = |form: Form<'_>| form.variation.is_none() && form.exercise.id == used.exercise.id;
    let chosen = choose(used.exercise, used.in_week, need, model).chosen;
    let Some(offer) = chosen.filter(|offer| is_shown(offer.form)) else { return false };
    offer.cautions(&[precaution], model).iter().all(|caution| caution.applies == Applies::Everyone)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::review::testing::{edited, with_case};

    const DROP: &str = "content/exercises/heel-drop.md";

    fn who(edits: &[(&str, &str)], all_have: &[&'static str]) -> String {
        let text = edited(DROP, edits);
        let mut who = String::new();
        with_case(&[(DROP, text.as_str())], |case| {
            let used = ["heel-drop", "sit-to-stand"].map(|id| UsedExercise::alone(&case.model.exercises[id]));
            let say = Phrases { words: case.words };
            let said =
                |used| CareBlock::of(used, all_have, case.model, say).map_or(String::new(), |care| care.who);
            who = said(&used[..1]);
            // With another exercise they are no fewer.
            assert!(said(&used[..]).len() >= who.len());
        });
        who
    }

    #[test]
    fn whom_an_exercise_is_not_for_and_for_whom_it_changes_are_named() {
        let before = who(&[], &[]);
        assert!(before.contains("a break in the spine"), "{before}");
        const KNEE: &str = "[[caution]]
for = [\"knee-arthritis\"]
level = \"adapt\"
text = \"Lift your heels less high.\"

[[regression]]";
        let knees = "worn or sore knees (arthritis)";
        assert!(!before.contains(knees), "{before}");
        let after = who(&[("[[regression]]", KNEE)], &[]);
        assert!(after.contains(knees), "{after}");
        assert!(after.contains("a break in the spine"), "{after}");
    }

    #[test]
    fn what_everybody_has_is_not_something_to_look_for() {
        assert!(!who(&[], &["spine-fracture"]).contains("a break in the spine"));
    }
}
