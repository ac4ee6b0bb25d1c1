//! `missing-caution`: an exercise without a written safety note.

use crate::model::finding::{Level, Subject};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "missing-caution",
    level: Level::Error,
    safety: true,
    finds: "An exercise has no caution.",
    why: "Every movement has somebody for whom it is wrong, or a way to do it wrong. A client at home has\n\
          nobody beside her who says so; the page and the handout must.",
    bad: Example::lines(
        "content/exercises/heel-raise.md",
        &[
            (
                r#"title = "Heel raise at the counter""#,
                r#"
title = "Heel raise at the counter"
        ^^^^^^^^^^^^^^^^^^^^^^^^^^^ `Heel raise at the counter` has no caution"#,
            ),
            (
                r#"
[[caution]]
for = ["unsteady"]
level = "adapt"
text = "Hold the counter with both hands, so that you can catch yourself.""#,
                "",
            ),
        ],
    ),
    good: Example::lines(
        "content/exercises/heel-raise.md",
        &[(
            r#"
[[caution]]
for = ["unsteady"]
level = "adapt"
text = "Hold the counter with both hands, so that you can catch yourself.""#,
            r#"
[[caution]]
for = ["unsteady"]
level = "adapt"
text = "Hold the counter with both hands, so that you can catch yourself."

[[caution]]
for = "everyone"
level = "adapt"
text = "Stop if your calf cramps.""#,
        )],
    ),
    check: Check::Model(check),
};

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for exercise in case.model.exercises.values() {
        if exercise.cautions.is_empty() && exercise.standing.knows("caution") {
            sink.about([Subject::Title(exercise.title.value.clone())]).add(
                exercise.place(),
                format!("`{}` has no caution", exercise.title.value),
                "add a [[caution]] with `for`, `level` and `text`: who must take care, and how",
            );
        }
    }
}
