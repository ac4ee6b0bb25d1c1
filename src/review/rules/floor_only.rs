//! `floor-only`: an exercise on the floor without a version off the floor.

use crate::model::finding::{Level, Subject};
use crate::model::form::Form;
use crate::model::vocabulary::{Surface, Vocabulary};
use crate::reckon::choice::is_answered;
use crate::reckon::safety::is_readable;
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "floor-only",
    level: Level::Error,
    safety: true,
    finds: "An exercise is done lying, kneeling or on hands and knees on the floor, and no form of it, or of an exercise\n\
            that a regression leads to, is safe for people who cannot get down there and up again (`no-floor`).",
    why: "Many older adults cannot get down to the floor, and some who can do not get up again. Everybody\n\
          needs a form on a bed, on a chair or standing.",
    bad: Example::whole(
        "content/exercises/floor-press.md",
        r#"
```toml
title = "Arms along the floor"
component = "posture"
position = "lying"
           ^^^^^^^ `Arms along the floor` is done `lying` on the floor, with no form off the floor
demands = ["floor-transfer", "lying-flat"]
summary = "Lie on your back and press your arms down."
reviewed = { by = "A. Reviewer, PT", on = 2026-01-05 }

[dose]
reps = 8
hold = "5 s"

[[regression]]
text = "Put a pillow under your head."

[[caution]]
for = "everyone"
level = "adapt"
text = "Keep breathing, and stop if anything hurts."
```
This trains your upper back.

## Set up
Lie on your back. Bend your knees.

## Move
1. Press both arms down.
2. Hold.
3. Let go.

## Finish
Roll to your side and rest.

## Feel
You should feel your upper back work. You should not feel pain.

## Watch for
- Your chin stays level.
"#,
    ),
    good: Example::whole(
        "content/exercises/floor-press.md",
        r#"
```toml
title = "Arms along the floor"
component = "posture"
position = "lying"
demands = ["floor-transfer", "lying-flat"]
summary = "Lie on your back and press your arms down."
reviewed = { by = "A. Reviewer, PT", on = 2026-01-05 }

[dose]
reps = 8
hold = "5 s"

[[variation]]
title = "In a chair"
position = "seated"
equipment = ["sturdy chair"]
removes = ["floor-transfer", "lying-flat"]
text = "The same on a chair."
steps = [
  "Sit tall on a sturdy chair, both feet flat.",
  "Press both arms back against the chair.",
  "Hold, and keep breathing.",
  "Let go and rest.",
]

[[caution]]
for = "everyone"
level = "adapt"
text = "Keep breathing, and stop if anything hurts."
```
This trains your upper back.

## Set up
Lie on your back. Bend your knees.

## Move
1. Press both arms down.
2. Hold.
3. Let go.

## Finish
Roll to your side and rest.

## Feel
You should feel your upper back work. You should not feel pain.

## Watch for
- Your chin stays level.
"#,
    ),
    check: Check::Model(check),
};

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for exercise in case.model.exercises.values() {
        let on_floor = Form::base(exercise).surface() == Some(Surface::Floor);
        if is_readable(exercise) && on_floor && !is_answered(exercise, None, "no-floor", case.model) {
            let title = Subject::Title(exercise.title.value.clone());
            sink.about([title, Subject::Position(exercise.position.value)]).add(
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

    /// The findings of a heel raise in a position, with a variation of these fields and cautions of these. The demands of
    /// the position are declared.
    fn with(position: &str, variation: &str, caution: &str) -> Vec<String> {
        let base = format!("component = \"power\"\nposition = \"{position}\"\n");
        let seat = format!("title = \"Seated heel raise\"\n{variation}");
        let text = undrawn(&edited(
            RAISE,
            &[
                ("component = \"power\"\nposition = \"standing\"\n", &base),
                ("title = \"Seated heel raise\"\nposition = \"seated\"\n", &seat),
                ("removes = [\"tiptoe\"]\n", ""),
                ("demands = [\"tiptoe\"]", "demands = []"),
                ("[[caution]]\n", &format!("{caution}[[caution]]\n")),
            ],
        ));
        found(&[(RAISE, &text)])
    }

    fn of_the_rule(found: &[String]) -> Vec<&str> {
        found.iter().map(String::as_str).filter(|f| f.starts_with("floor-only")).collect()
    }

    #[test]
    fn every_position_on_the_floor_needs_a_form_off_the_floor() {
        for position in Position::ALL.iter().filter(|p| p.is_on_floor()) {
            let word = position.word();
            let expected = format!(
                "floor-only 4:12 `Heel raise at the counter` is done `{word}` on the floor, with no form off the floor"
            );
            for none in [
                "",
                "position = \"kneeling\"\n",
                "removes = [\"floor-transfer\"]\n",
                "surface = \"floor\"\n",
                // The way to the floor stays until it is taken away.
                "position = \"seated\"\n",
            ] {
                assert_eq!(of_the_rule(&with(word, none, "")), [expected.as_str()], "{word}, {none}");
            }
            for answer in [
                "position = \"seated\"\n",
                "position = \"standing\"\n",
                "surface = \"bed\"\n",
                "position = \"prone\"\nsurface = \"bed\"\n",
            ] {
                let answer = format!("{answer}removes = [\"floor-transfer\"]\n");
                assert_eq!(of_the_rule(&with(word, &answer, "")), [""; 0], "{word}, {answer}");
            }
        }
        assert_eq!(of_the_rule(&with("seated", "", "")), [""; 0]);
        assert_eq!(of_the_rule(&with("standing", "", "")), [""; 0]);
    }

    #[test]
    fn a_form_that_a_caution_takes_away_is_no_answer() {
        let caution = |form: &str| {
            format!(
                "[[caution]]\nfor = [\"no-floor\"]\nlevel = \"stop\"\n{form}text = \"This is not for you.\"\n\n"
            )
        };
        let seated = "position = \"seated\"\nremoves = [\"floor-transfer\"]\n";
        assert_eq!(
            of_the_rule(&with("lying", seated, &caution(""))),
            [""; 0],
            "the exercise as it stands alone"
        );
        assert_eq!(of_the_rule(&with("lying", seated, &caution("form = \"Seated heel raise\"\n"))).len(), 1);
    }

    #[test]
    fn what_could_not_be_read_is_not_concluded_from() {
        let caution = "[[caution]]\nfor = 1\nlevel = \"stop\"\ntext = \"This is not for you.\"\n\n";
        for (position, variation, caution) in [
            ("upside-down", "", ""),
            ("lying", "position = 3\n", ""),
            ("lying", "surface = \"sea\"\n", ""),
            ("lying", "", caution),
        ] {
            let found = with(position, variation, caution);
            assert!(found.iter().any(|f| f.starts_with("wrong-value")), "{found:?}");
            assert_eq!(of_the_rule(&found), [""; 0], "{found:?}");
        }
    }
}
