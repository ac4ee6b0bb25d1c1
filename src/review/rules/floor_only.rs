//! `floor-only`: an exercise on the floor without a version off the floor.

use crate::model::exercise::Variation;
use crate::model::finding::Level;
use crate::model::vocabulary::Vocabulary;
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "floor-only",
    level: Level::Error,
    safety: true,
    finds: "An exercise is done lying, kneeling or on hands and knees, and none of its variations is off the\n\
            floor: seated, standing, or with `floor-transfer` among what it removes.",
    why: "Many older adults cannot get down to the floor, and some who can do not get up again. Everybody\n\
          needs a version on a bed, on a chair or standing.",
    bad: Example::lines(
        "content/exercises/tall-sit.md",
        &[(
            r#"position = "seated""#,
            r#"
position = "lying"
           ^^^^^^^ `Tall sit` is done `lying`, with no variation off the floor"#,
        )],
    ),
    good: Example::lines(
        "content/exercises/tall-sit.md",
        &[
            (r#"position = "seated""#, r#"position = "lying""#),
            (
                r#"[[regression]]
text = "Lean on the back of the chair, and rest after each one.""#,
                r#"[[variation]]
title = "In a chair"
position = "seated"
text = "Sit tall on a sturdy chair, and grow tall from there.""#,
            ),
        ],
    ),
    check: Check::Model(check),
};

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for exercise in case.model.exercises.values() {
        let known = exercise.standing.knows("position") && exercise.standing.is_sound("variation");
        let position = exercise.position.value;
        if known && position.is_on_floor() && !exercise.variations.iter().any(is_off_floor) {
            sink.add(
                exercise.position.span,
                format!(
                    "`{}` is done `{}`, with no variation off the floor",
                    exercise.title.value,
                    position.word()
                ),
                "add a [[variation]] with `position = \"seated\"` or `\"standing\"`, or on a firm bed with `removes = [\"floor-transfer\"]`",
            );
        }
    }
}

fn is_off_floor(variation: &Variation) -> bool {
    variation.position.as_ref().is_some_and(|p| !p.value.is_on_floor())
        || variation.removes.iter().any(|d| d.value == "floor-transfer")
}
