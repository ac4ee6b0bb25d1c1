//! `bare-variation`: a variation that somebody is to do and that nobody can do from its words alone.

use crate::model::Model;
use crate::model::exercise::{Exercise, Instruction, Variation};
use crate::model::finding::{Level, Subject};
use crate::model::form::Form;
use crate::reckon::safety::{Offer, refusals};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "bare-variation",
    level: Level::Error,
    safety: true,
    finds: "A variation is safe for people for whom the exercise itself is not, or a caution names it with `use`, and\n\
            it has neither `steps` of its own nor `keeps_steps = true`.",
    why: "What is printed for her is that form alone. One sentence is no instruction, and the steps of the exercise\n\
          are what she must not do. The program gives a form without steps to nobody.",
    bad: Example::lines(
        "content/exercises/tall-sit.md",
        &[(
            "[dose]",
            r#"
[[variation]]
title = "Back on the chair"
        ^^^^^^^^^^^^^^^^^^^ `Back on the chair` is what a caution says to do, and has neither `steps` nor `keeps_steps`
text = "The same with the chair behind you."

[[caution]]
for = ["dizziness"]
level = "adapt"
use = "Back on the chair"
text = "Sit with your back on the chair, so that it holds you."

[dose]"#,
        )],
    ),
    good: Example::lines(
        "content/exercises/tall-sit.md",
        &[(
            "[dose]",
            r#"
[[variation]]
title = "Back on the chair"
text = "The same with the chair behind you."
steps = ["Sit with your back on the chair.", "Grow tall.", "Relax and rest."]

[[caution]]
for = ["dizziness"]
level = "adapt"
use = "Back on the chair"
text = "Sit with your back on the chair, so that it holds you."

[dose]"#,
        )],
    ),
    check: Check::Model(check),
};

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for exercise in case.model.exercises.values() {
        let sound = |field: &&str| exercise.standing.is_sound(field);
        if !["demands", "variation", "caution", "position", "surface", "figure", "dose"].iter().all(sound) {
            continue;
        }
        for variation in exercise.variations.iter().filter(|v| v.instruction == Instruction::Bare) {
            let Some((precaution, for_whom)) = for_whom(variation, exercise, case.model) else { continue };
            let title = Subject::Title(variation.title.value.clone());
            sink.about([title].into_iter().chain(precaution)).add(
                variation.title.span,
                format!("`{}` {for_whom}, and has neither `steps` nor `keeps_steps`", variation.title.value),
                "write `steps = [\"…\", \"…\"]`, all that she does from first to last, or `keeps_steps = true` if the steps of the \
                 exercise hold and `text` is the one change",
            );
        }
    }
}

/// Who is to do a variation in place of the exercise, by the precaution that says so and in words; `None` where nobody has to.
fn for_whom(variation: &Variation, exercise: &Exercise, model: &Model) -> Option<(Option<Subject>, String)> {
    let uses = |name: &str| name == variation.title.value;
    let caution = exercise.cautions.iter().find(|c| c.instead.as_ref().is_some_and(|form| uses(&form.value)));
    if caution.is_some() {
        return Some((None, "is what a caution says to do".to_string()));
    }
    let all: Vec<&str> = model.site.catalogue.precautions.keys().map(String::as_str).collect();
    let refused = |form| refusals(&Offer { form, link: None, changed: None }, &all, model);
    let (base, own) = (refused(Form::base(exercise)), refused(Form { exercise, variation: Some(variation) }));
    let first = base.keys().find(|precaution| !own.contains_key(*precaution))?;
    let subject = Subject::Precaution(first.to_string());
    Some((Some(subject), format!("is for people with `{first}`, for whom the exercise itself is not")))
}

#[cfg(test)]
mod tests {
    use crate::reckon::choice::{Need, choose};
    use crate::review::testing::{edited, found, with_sample};

    const SIT: &str = "content/exercises/tall-sit.md";

    /// The sample's tall sit with one more demand, a variation with these fields and these other tables.
    fn with(demand: &str, variation: &str, other: &str) -> String {
        let table = format!(
            "[[variation]]\ntitle = \"Easy sit\"\ntext = \"Lean back.\"\n{variation}\n{other}\n[dose]"
        );
        let text = edited(SIT, &[("[dose]", &table)]);
        let (before, behind) = text.split_once("\ndemands = [").expect("demands");
        let comma = if behind.starts_with(']') { "" } else { ", " };
        match demand {
            "" => text,
            _ => format!("{before}\ndemands = [\"{demand}\"{comma}{behind}"),
        }
    }

    fn bare(text: &str) -> Vec<String> {
        let found = found(&[(SIT, text)]).into_iter();
        let found =
            found.filter_map(|f| Some(f.strip_prefix("bare-variation ")?.split_once(' ')?.1.to_string()));
        found.collect()
    }

    #[test]
    fn a_variation_that_answers_something_needs_its_instruction() {
        let removes = "removes = [\"eyes-closed\"]\n";
        assert_eq!(
            bare(&with("eyes-closed", removes, "")),
            [
                "`Easy sit` is for people with `dizziness`, for whom the exercise itself is not, and has neither `steps` nor `keeps_steps`"
            ]
        );
        for instruction in ["keeps_steps = true", "steps = [\"Lean back.\"]"] {
            assert_eq!(
                bare(&with("eyes-closed", &format!("{removes}{instruction}"), "")),
                [""; 0],
                "{instruction}"
            );
        }
    }

    #[test]
    fn a_variation_that_answers_nothing_may_be_told_in_a_sentence() {
        assert_eq!(bare(&with("", "", "")), [""; 0]);
        assert_eq!(bare(&with("eyes-closed", "", "")), [""; 0], "it is for nobody else");
    }

    #[test]
    fn the_form_of_a_use_needs_its_instruction() {
        let caution = "[[caution]]\nfor = [\"dizziness\"]\nlevel = \"adapt\"\nuse = \"Easy sit\"\ntext = \"Do the easy sit.\"\n";
        assert_eq!(
            bare(&with("", "", caution)),
            ["`Easy sit` is what a caution says to do, and has neither `steps` nor `keeps_steps`"]
        );
        assert_eq!(bare(&with("", "keeps_steps = true", caution)), [""; 0]);
    }

    #[test]
    fn what_cannot_be_read_is_one_finding() {
        assert_eq!(bare(&with("eyes-closd", "removes = [\"eyes-closed\"]", "")), [""; 0]);
    }

    #[test]
    fn nobody_gets_a_variation_without_steps() {
        for (instruction, expected) in [("", None), ("keeps_steps = true", Some("Easy sit"))] {
            let text = with("eyes-closed", &format!("removes = [\"eyes-closed\"]\n{instruction}"), "");
            with_sample(&[(SIT, &text)], |model| {
                let choice = choose(&model.exercises["tall-sit"], None, &Need::only(&["dizziness"]), model);
                assert_eq!(choice.form().map(|form| form.title().value.as_str()), expected);
            });
        }
    }
}
