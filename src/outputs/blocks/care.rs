//! For whom of all who read a sheet for everyone its exercises are not as their cards show them: named shortly, because nobody
//! can say on one side of paper how each of them does it. They are told to ask for a sheet of their own, which does.

use serde::Serialize;

use super::phrases::Phrases;
use super::used::UsedExercise;
use crate::model::Model;
use crate::model::exercise::Applies;
use crate::model::form::Form;
use crate::reckon::choice::{Need, choose};

/// Who does not do what a sheet for everyone shows.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct CareBlock {
    /// Those who get another form of an exercise, or none: "This exercise is not for you as it is shown if you have …".
    pub another: Option<String>,
    /// Those of the others who do one with a change: "It changes for you if you have numb feet."
    pub changed: Option<String>,
}

/// What people with a precaution do instead of what is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Instead {
    Changed,
    Another,
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
        let (mut another, mut changed) = (Vec::new(), Vec::new());
        for precaution in model.site.catalogue.precautions.keys().map(String::as_str) {
            if all_have.contains(&precaution) {
                continue;
            }
            let have: Vec<&str> = [precaution].into_iter().chain(all_have.iter().copied()).collect();
            let need = Need::only(&have);
            match exercises.iter().filter_map(|used| instead(used, precaution, &need, model)).max() {
                Some(Instead::Another) => another.push(precaution),
                Some(Instead::Changed) => changed.push(precaution),
                None => {}
            }
        }
        let named = |message: &str, list: &[&str]| {
            let who: Vec<String> = list.iter().map(|id| say.precaution(&model.site, id)).collect();
            let count = ("count", exercises.len().into());
            (!who.is_empty()).then(|| say.words.say_with(message, &[count, ("who", say.or(&who).into())]))
        };
        let care =
            CareBlock { another: named("care-another", &another), changed: named("care-changed", &changed) };
        (care != CareBlock::default()).then_some(care)
    }
}

/// `None` where they do the exercise as it is shown.
fn instead<'m>(
    used: &UsedExercise<'_, 'm>,
    precaution: &'m str,
    need: &Need<'m>,
    model: &'m Model,
) -> Option<Instead> {
    let is_shown = |form: Form<'_>| form.variation.is_none() && form.exercise.id == used.exercise.id;
    let chosen = choose(used.exercise, used.in_week, need, model).chosen;
    let Some(offer) = chosen.filter(|offer| is_shown(offer.form)) else { return Some(Instead::Another) };
    let cautions = offer.cautions(&[precaution], model);
    cautions.iter().any(|caution| caution.applies != Applies::Everyone).then_some(Instead::Changed)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::review::testing::{edited, with_case};

    const DROP: &str = "content/exercises/heel-drop.md";

    fn care(edits: &[(&str, &str)], all_have: &[&'static str]) -> CareBlock {
        let text = edited(DROP, edits);
        let mut care = None;
        with_case(&[(DROP, text.as_str())], |case| {
            let used = ["heel-drop", "sit-to-stand"].map(|id| UsedExercise::alone(&case.model.exercises[id]));
            let say = Phrases { words: case.words };
            let alone = CareBlock::of(&used[..1], all_have, case.model, say);
            let said = |care: &Option<CareBlock>| care.as_ref().and_then(|care| care.another.clone());
            // With another exercise they are no fewer.
            let both = CareBlock::of(&used, all_have, case.model, say);
            assert!(said(&both).map_or(0, |text| text.len()) >= said(&alone).map_or(0, |text| text.len()));
            care = alone;
        });
        care.unwrap_or_default()
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
