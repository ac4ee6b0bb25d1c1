//! `unclear-caution`: a caution of which nobody can tell what it is about, or that names what is not there.

use crate::model::exercise::{Applies, Caution, Exercise};
use crate::model::finding::{Level, Subject};
use crate::model::form::Form;
use crate::model::nearest::{quoted, suggestion};
use crate::model::source::Spanned;
use crate::reckon::demands;
use crate::reckon::safety;
use crate::review::rule::{Check, Example, Rule};
use crate::review::subjects::of_caution;
use crate::review::{About, Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "unclear-caution",
    level: Level::Error,
    safety: true,
    finds: "A caution for a precaution that restricts two or more demands of the exercise (or of the variation that\n\
            it names in `form`) does not say with `about` which of them it is about; or its `about` names a demand\n\
            that no form of the exercise has; or its `form` is no variation of the exercise; or its `use` is neither a\n\
            variation nor an exercise that a regression leads to.",
    why: "A caution is an instruction to the program too. A word on the wrists answers nothing about the knees, and a\n\
          form that is not there is nobody's.",
    bad: Example::lines(
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
use = "Back at the chair"
      ^^^^^^^^^^^^^^^^^^^ `use` names `Back at the chair`, which is no form of this exercise
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
        let sound = |fields: &[&str]| fields.iter().all(|field| exercise.standing.is_sound(field));
        if !sound(&["caution", "variation"]) {
            continue;
        }
        // What the forms ask of the body is known only where all that says it could be read.
        let demands_known = sound(&["demands", "position", "surface", "figure", "dose", "component"]);
        for caution in &exercise.cautions {
            check_form(caution, exercise, sink);
            check_use(caution, exercise, case, sink);
            if demands_known {
                check_about(caution, exercise, case, sink);
            }
        }
    }
}

/// Takes a finding about a fault of a caution, and about the caution.
fn about_caution<'s>(
    caution: &Caution,
    fault: impl IntoIterator<Item = Subject>,
    sink: &'s mut Sink<'_>,
) -> About<'s> {
    sink.about(fault.into_iter().chain(of_caution(caution)))
}

fn check_form(caution: &Caution, exercise: &Exercise, sink: &mut Sink<'_>) {
    let Some(form) = caution.form.as_ref().filter(|form| exercise.variation(&form.value).is_none()) else {
        return;
    };
    let help = match exercise.title.value == form.value {
        true => "take `form` out: a caution without it belongs to the exercise as it stands".to_string(),
        false => suggestion(&form.value, exercise.variations.iter().map(|v| v.title.value.as_str())),
    };
    about_caution(caution, [Subject::Title(form.value.clone()), Subject::Field("form".into())], sink).add(
        form.span,
        format!("`form` names `{}`, which is no variation of this exercise", form.value),
        help,
    );
}

fn check_use(caution: &Caution, exercise: &Exercise, case: &Case<'_>, sink: &mut Sink<'_>) {
    let Some(other) =
        caution.instead.as_ref().filter(|_| safety::instead(caution, exercise, case.model).is_none())
    else {
        return;
    };
    // An exercise that could not be read is told of there, one that is not there at the regression.
    let led = exercise.regressions.iter().filter_map(|r| r.exercise());
    if !exercise.standing.is_sound("regression") || led.clone().any(|id| id.value == other.value) {
        return;
    }
    about_caution(caution, [Subject::Title(other.value.clone()), Subject::Field("use".into())], sink).add(
        other.span,
        format!("`use` names `{}`, which is no form of this exercise", other.value),
        help_for_use(other, exercise, case),
    );
}

fn help_for_use(other: &Spanned<String>, exercise: &Exercise, case: &Case<'_>) -> String {
    let name = &other.value;
    let led = exercise.regressions.iter().filter_map(|r| r.exercise()).map(|id| id.value.as_str());
    let title = |id: &str| case.model.exercises.get(id).map(|e| e.title.value.to_lowercase());
    if let Some(id) = led.clone().find(|id| title(id).is_some_and(|title| title == name.to_lowercase())) {
        return format!("write the id of that exercise: `use = \"{id}\"`");
    }
    if case.model.exercises.contains_key(name) {
        return format!(
            "add a [[regression]] with `exercise = \"{name}\"` if it is easier, or name a variation"
        );
    }
    suggestion(name, exercise.variations.iter().map(|v| v.title.value.as_str()).chain(led))
}

fn check_about(caution: &Caution, exercise: &Exercise, case: &Case<'_>, sink: &mut Sink<'_>) {
    let Some(about) = &caution.about else {
        return check_without_about(caution, exercise, case, sink);
    };
    if about.is_empty() {
        about_caution(caution, [Subject::Field("about".into())], sink).add(
            caution.text.span,
            "`about` of this caution names no demand",
            "name the demands that the text speaks of, or take `about` out",
        );
    }
    let site = &case.model.site;
    let lost = demands::lost(exercise, site).about;
    for demand in about.iter().filter(|demand| lost.iter().any(|lost| lost.span == demand.span)) {
        let mut all: Vec<&str> = Vec::new();
        let known: Vec<_> =
            Form::all(exercise).flat_map(|form| demands::of(&form, &form.dose(None), site)).collect();
        for known in &known {
            if !all.contains(&known.id) {
                all.push(known.id);
            }
        }
        let help = match all.is_empty() {
            true => format!("take `about` out, or add `{}` to `demands`", demand.value),
            false => format!("add `{}` to `demands`, or name one of {}", demand.value, quoted(&all)),
        };
        let named = [Subject::Demand(demand.value.clone()), Subject::Field("about".into())];
        about_caution(caution, named, sink).add(
            demand.span,
            format!("`about` names `{}`, which no form of this exercise has", demand.value),
            help,
        );
    }
}

fn check_without_about(caution: &Caution, exercise: &Exercise, case: &Case<'_>, sink: &mut Sink<'_>) {
    let Applies::Precautions(precautions) = &caution.applies else { return };
    for precaution in precautions {
        let restricted = safety::restricted(caution, exercise, &precaution.value, case.model);
        if restricted.len() < 2 {
            continue;
        }
        let named = quoted(&restricted).replacen(", ", " and ", usize::from(restricted.len() == 2));
        let demands = restricted.iter().map(|demand| Subject::Demand(demand.to_string()));
        let fault = [Subject::Precaution(precaution.value.clone())].into_iter().chain(demands);
        about_caution(caution, fault, sink).add(
            precaution.span,
            format!(
                "`{}` restricts {named}, and this caution does not say which of them it is about",
                precaution.value
            ),
            format!("add `about = {restricted:?}`, with those alone that the text speaks of"),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::review::testing::review_files;

    const STAND: &str = "content/exercises/wide-stand.md";

    /// What is found of an exercise with these demands and this caution, with the help behind an arrow.
    fn told_of(demands: &str, caution: &str) -> Vec<String> {
        let text = format!(
            "```toml\ntitle = \"Wide stand\"\ncomponent = \"balance\"\nposition = \"standing\"\ndemands = [{demands}]\n\
             summary = \"Stand.\"\ndose = {{ reps = 3 }}\n\
             [[variation]]\ntitle = \"Seated shift\"\nposition = \"seated\"\nremoves = [\"tiptoe\", \"step-back\"]\n\
             adds = [\"grip\"]\ntext = \"Sit.\"\nsteps = [\"Sit.\"]\n\
             [[variation]]\ntitle = \"Small steps\"\ntext = \"Step less far.\"\nkeeps_steps = true\n\
             [[regression]]\nexercise = \"heel-raise\"\n\
             [[caution]]\n{caution}\ntext = \"Mind.\"\n```\n"
        );
        let (review, _) = review_files(&[(STAND, &text)]);
        let found = review.findings.into_iter().filter(|f| f.rule == "unclear-caution");
        found.map(|f| format!("{} -> {}", f.message, f.help)).collect()
    }

    const BOTH: &str = "\"tiptoe\", \"step-back\"";

    #[test]
    fn without_about_a_precaution_may_restrict_one_demand_alone() {
        let caution = "for = [\"unsteady\", \"low-bone-density\"]\nlevel = \"adapt\"";
        assert_eq!(told_of("\"tiptoe\"", caution), [""; 0]);
        assert_eq!(
            told_of(BOTH, caution),
            [
                "`unsteady` restricts `tiptoe` and `step-back`, and this caution does not say which of them it is about \
              -> add `about = [\"tiptoe\", \"step-back\"]`, with those alone that the text speaks of"
            ]
        );
        assert_eq!(told_of(BOTH, &format!("{caution}\nabout = [\"tiptoe\"]")), [""; 0]);
        assert_eq!(told_of(BOTH, "for = \"everyone\"\nlevel = \"adapt\""), [""; 0], "who is everyone");
    }

    #[test]
    fn each_precaution_is_told_of_by_itself() {
        let found = told_of(BOTH, "for = [\"unsteady\", \"parkinsons\"]\nlevel = \"ask\"");
        assert_eq!(found.len(), 2, "{found:?}");
        assert!(found[1].starts_with("`parkinsons` restricts `tiptoe` and `step-back`"), "{found:?}");
    }

    #[test]
    fn a_caution_of_a_variation_without_these_demands_need_not_say() {
        let of = |form: &str| format!("for = [\"unsteady\"]\nlevel = \"adapt\"\nform = \"{form}\"");
        assert_eq!(told_of(BOTH, &of("Seated shift")), [""; 0]);
        assert_eq!(told_of(BOTH, &of("Small steps")).len(), 1, "it has both");
    }

    #[test]
    fn about_names_a_demand_of_some_form() {
        let about = |demands: &str| format!("for = [\"unsteady\"]\nlevel = \"adapt\"\nabout = [{demands}]");
        assert_eq!(
            told_of("\"tiptoe\"", &about("\"tiptoe\", \"grip\"")),
            [""; 0],
            "the seated form has the other"
        );
        assert_eq!(
            told_of("\"tiptoe\"", &about("\"look-up\"")),
            [
                "`about` names `look-up`, which no form of this exercise has -> add `look-up` to `demands`, or name one of \
              `tiptoe`, `grip`"
            ]
        );
        assert_eq!(
            told_of("\"tiptoe\"", &about("")),
            [
                "`about` of this caution names no demand -> name the demands that the text speaks of, or take `about` out"
            ]
        );
        assert_eq!(
            told_of("\"look-pu\"", &about("\"look-up\"")),
            [""; 0],
            "a slip in the demands is one finding"
        );
    }

    #[test]
    fn form_and_use_name_what_is_there() {
        let with = |field: &str| format!("for = [\"unsteady\"]\nlevel = \"adapt\"\n{field}");
        for field in [
            "use = \"Seated shift\"",
            "use = \"heel-raise\"",
            "form = \"Seated shift\"",
            "form = \"Small steps\"",
        ] {
            assert_eq!(told_of("", &with(field)), [""; 0], "{field}");
        }
        for (field, expected) in [
            (
                "form = \"Seated shit\"",
                "`form` names `Seated shit`, which is no variation of this exercise -> did you mean `Seated shift`?",
            ),
            (
                "form = \"Wide stand\"",
                "`form` names `Wide stand`, which is no variation of this exercise -> take `form` out: a caution without it \
                 belongs to the exercise as it stands",
            ),
            (
                "form = \"heel-raise\"",
                "`form` names `heel-raise`, which is no variation of this exercise -> use one of `Seated shift`, `Small steps`",
            ),
            (
                "use = \"seated shift\"",
                "`use` names `seated shift`, which is no form of this exercise -> did you mean `Seated shift`?",
            ),
            (
                "use = \"heel-rais\"",
                "`use` names `heel-rais`, which is no form of this exercise -> did you mean `heel-raise`?",
            ),
            (
                "use = \"Heel raise at the counter\"",
                "`use` names `Heel raise at the counter`, which is no form of this exercise -> write the id of that exercise: \
                 `use = \"heel-raise\"`",
            ),
            (
                "use = \"heel-drop\"",
                "`use` names `heel-drop`, which is no form of this exercise -> add a [[regression]] with `exercise = \"heel-drop\"` \
                 if it is easier, or name a variation",
            ),
        ] {
            assert_eq!(told_of("", &with(field)), [expected], "{field}");
        }
    }
}
