//! `floor-only`: an exercise on the floor without a version off the floor.

use crate::model::finding::Level;
use crate::model::form::Form;
use crate::model::vocabulary::{Surface, Vocabulary};
use crate::reckon::choice::is_answered;
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "floor-only",
    level: Level::Error,
    safety: true,
    finds: "An exercise is done lying, kneeling or on hands and knees on the floor, and no form of it, or of an exercise\n\
            that a regression leads to, is safe for people who cannot get down there and up again (`no-floor`).",
    why: "Many older adults cannot get down to the floor, and some who can do not get up again. Everybody\n\
          needs a version on a bed, on a chair or standing.",
    bad: Example::lines(
        "content/exercises/tall-sit.md",
        &[
            (
                r#"position = "seated""#,
                r#"
position = "lying"
           ^^^^^^^ `Tall sit` is done `lying`, with no variation off the floor"#,
            ),
            (SEATED_FIGURE, ""),
        ],
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
            (SEATED_FIGURE, ""),
        ],
    ),
    check: Check::Model(check),
};

/// The sample's figure, which shows the exercise on its chair.
const SEATED_FIGURE: &str = r#"
[[figure]]
description = "She sits tall near the front of a chair, both feet flat, her shoulders back and down."
props = ["chair"]
labels = [{ at = "head", text = "Reach up" }]
[[figure.pose]]
base = "seated""#;

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for exercise in case.model.exercises.values() {
        let known = ["position", "surface", "variation"].iter().all(|field| exercise.standing.is_sound(field));
        let on_floor = Form::base(exercise).surface() == Some(Surface::Floor);
        if known && on_floor && !is_answered(exercise, None, "no-floor", case.model) {
            sink.add(
                exercise.position.span,
                format!(
                    "`{}` is done `{}` on the floor, with no form off the floor",
                    exercise.title.value,
                    exercise.position.value.word()
                ),
                "add a [[variation]] with `position = \"seated\"` or `\"standing\"`, or write `surface = \"bed\"`",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::model::vocabulary::{Position, Vocabulary};
    use crate::review::testing::{edited, found, undrawn};

    const RAISE: &str = "content/exercises/heel-raise.md";

    fn with(position: &str, variation: &str) -> Vec<String> {
        let position = format!("position = \"{position}\"\nsupport");
        let text = edited(
            RAISE,
            &[
                ("position = \"standing\"\nsupport", &position),
                ("position = \"seated\"\ntext", &format!("{variation}text")),
            ],
        );
        found(&[(RAISE, &undrawn(&text))])
    }

    #[test]
    fn every_position_on_the_floor_needs_a_variation_off_the_floor() {
        for position in Position::ALL.iter().filter(|p| p.is_on_floor()) {
            let word = position.word();
            let expected = format!(
                "floor-only 4:12 `Heel raise at the counter` is done `{word}`, with no variation off the floor"
            );
            assert_eq!(with(word, ""), [expected.as_str()]);
            assert_eq!(with(word, "position = \"kneeling\"\n"), [expected.as_str()]);
            for answer in
                ["position = \"seated\"\n", "position = \"standing\"\n", "removes = [\"floor-transfer\"]\n"]
            {
                assert_eq!(with(word, answer), [""; 0], "{word}, {answer}");
            }
        }
        assert_eq!(with("seated", ""), [""; 0]);
        assert_eq!(with("standing", ""), [""; 0]);
    }

    #[test]
    fn a_position_that_cannot_be_read_is_not_on_the_floor() {
        for (position, variation) in [("upside-down", ""), ("lying", "position = 3\n")] {
            let found = with(position, variation);
            assert_eq!(found.len(), 1, "{found:?}");
            assert!(found[0].starts_with("wrong-value"), "{found:?}");
        }
    }
}
