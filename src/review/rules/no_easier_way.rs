//! `no-easier-way`: an exercise for which there is nothing easier.

use crate::model::finding::{Level, Subject};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "no-easier-way",
    level: Level::Error,
    safety: true,
    finds: "An exercise has no regression and no variation.",
    why: "A client who cannot do it as it stands has only two choices then: to leave it out, or to do it\n\
          badly. On a bad day everybody is that client.",
    bad: Example::lines(
        "content/exercises/tall-sit.md",
        &[
            (
                r#"title = "Tall sit""#,
                r#"
title = "Tall sit"
        ^^^^^^^^^^ `Tall sit` has no easier way"#,
            ),
            (
                r#"
# An easier way, in words or as another exercise.
[[regression]]
text = "Lean on the back of the chair, and rest after each one.""#,
                "",
            ),
        ],
    ),
    good: Example::lines(
        "content/exercises/tall-sit.md",
        &[(
            r#"
[[regression]]
text = "Lean on the back of the chair, and rest after each one.""#,
            r#"
[[regression]]
text = "Lean on the back of the chair. Hold for a shorter time.""#,
        )],
    ),
    check: Check::Model(check),
};

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for exercise in case.model.exercises.values() {
        let known = exercise.standing.knows("regression") && exercise.standing.knows("variation");
        if known && exercise.regressions.is_empty() && exercise.variations.is_empty() {
            sink.about([Subject::Title(exercise.title.value.clone())]).add(
                exercise.place(),
                format!("`{}` has no easier way", exercise.title.value),
                "add a [[regression]] with a `text` or the `exercise` that comes before, or a [[variation]]",
            );
        }
    }
}
