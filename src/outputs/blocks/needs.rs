//! What to have at hand for some exercises, each thing once.

use super::form::holds;
use super::phrases::{Phrases, one_line};
use crate::model::form::Form;
use crate::model::source::{Span, Spanned};

/// What these forms need, in their order: what each holds on to and what it is done with, in lower case as in the middle of
/// a sentence, with the place where it was written.
pub fn needs<'m>(forms: impl IntoIterator<Item = Form<'m>>, say: Phrases<'_>) -> Vec<Spanned<String>> {
    let mut needs = Vec::new();
    for form in forms {
        let place = form.support().first().map_or(form.exercise.place(), |support| support.span);
        if let Some(support) = holds(&form, say) {
            add(&mut needs, place, support);
        }
        form.equipment().iter().for_each(|thing| add(&mut needs, thing.span, one_line(&thing.value)));
    }
    needs
}

/// Adds a thing unless the list has it: "sturdy chair" is "a sturdy chair" in other words. Of two names the list keeps the
/// one that says more.
pub fn add(needs: &mut Vec<Spanned<String>>, span: Span, text: String) {
    // By whole words at the end, so that a can is no cane.
    let ends = |long: &str, short: &str| {
        long == short || long.strip_suffix(short).is_some_and(|rest| rest.ends_with(' '))
    };
    let caseless = text.to_lowercase();
    let same = |need: &&mut Spanned<String>| {
        let known = need.value.to_lowercase();
        ends(&known, &caseless) || ends(&caseless, &known)
    };
    match needs.iter_mut().find(same) {
        Some(need) if need.value.len() >= text.len() => {}
        Some(need) => need.value = text,
        None => needs.push(Spanned::new(text, span)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::source::FileId;
    use crate::review::testing::{edited, with_sample, words};

    #[test]
    fn a_thing_is_named_once_by_the_name_that_says_more() {
        let mut needs = Vec::new();
        for (at, thing) in
            ["sturdy chair", "a can", "a sturdy chair", "Sturdy chair", "cane"].iter().enumerate()
        {
            add(&mut needs, Span::new(FileId(0), at..at + 1), thing.to_string());
        }
        let told: Vec<_> = needs.iter().map(|need| (need.value.as_str(), need.span.start)).collect();
        assert_eq!(told, [("a sturdy chair", 0), ("a can", 1), ("cane", 4)]);
    }

    #[test]
    fn what_the_hands_hold_is_one_thing_of_which_one_is_enough() {
        const DROP: &str = "content/exercises/heel-drop.md";
        let held = "support = [\"counter\"]\ndemands";
        let both = edited(
            DROP,
            &[(held, "support = [\"wall\", \"rail\"]\nequipment = [\"firm\\nshoes\"]\ndemands")],
        );
        with_sample(&[(DROP, &both)], |model| {
            let forms = ["heel-drop", "heel-raise"].map(|id| Form::base(&model.exercises[id]));
            let needs = needs(forms, Phrases { words: words() });
            let told: Vec<&str> = needs.iter().map(|need| need.value.as_str()).collect();
            assert_eq!(told, ["a wall or a rail", "firm shoes", "a kitchen counter"]);
        });
    }
}
