//! `unsteady-without-support`: a test of balance with nothing to hold.

use crate::model::exercise::Exercise;
use crate::model::finding::{Level, Subject};
use crate::model::form::Form;
use crate::model::source::Span;
use crate::model::vocabulary::Component;
use crate::reckon::demands;
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "unsteady-without-support",
    level: Level::Error,
    safety: true,
    finds: "An exercise trains balance, stands on one leg or stands with the feet close together, and neither\n\
            it nor any of its variations has something to hold.",
    why: "A fall during the exercise is the harm that the exercise is there to prevent. A fixed support within\n\
          reach is part of every balance exercise at home.",
    bad: Example::lines(
        "content/exercises/feet-together-stand.md",
        &[
            (
                r#"
support = ["counter"]
demands = ["narrow-stance"]"#,
                r#"
demands = ["narrow-stance"]
           ^^^^^^^^^^^^^^^ `Feet together stand` asks for `narrow-stance` with nothing to hold"#,
            ),
            (
                r#"
title = "Feet a little apart"
support = ["counter"]"#,
                r#"
title = "Feet a little apart""#,
            ),
        ],
    ),
    good: Example::lines(
        "content/exercises/feet-together-stand.md",
        &[(
            r#"
support = ["counter"]
demands = ["narrow-stance"]"#,
            r#"
demands = ["narrow-stance"]"#,
        )],
    ),
    check: Check::Model(check),
};

/// Demands that call for something to hold.
/// Giangregorio et al. 2015, Osteoporos Int 26(3):891-910, Table 4; Campbell and Robertson 2007, ACC1162: hold
/// something that cannot move.
const UNSTEADY: [&str; 2] = ["single-leg-stance", "narrow-stance"];

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for exercise in case.model.exercises.values() {
        let held = Form::all(exercise).any(|form| !form.support().is_empty());
        let known = exercise.standing.knows("support") && exercise.standing.is_sound("variation");
        if held || !known {
            continue;
        }
        if let Some((place, what, subject)) = reason(exercise) {
            sink.about([Subject::Title(exercise.title.value.clone()), subject]).add(
                place,
                format!("`{}` {what} with nothing to hold", exercise.title.value),
                "add `support = [\"counter\"]`, or a [[variation]] with `support`",
            );
        }
    }
}

/// What in the exercise calls for a support, and where.
fn reason(exercise: &Exercise) -> Option<(Span, String, Subject)> {
    let demands = demands::of_the_body(&Form::base(exercise));
    match demands.iter().find(|d| UNSTEADY.contains(&d.id)) {
        Some(demand) => {
            let subject = Subject::Demand(demand.id.into());
            Some((demand.place(), format!("asks for `{}`", demand.id), subject))
        }
        None if exercise.component.value == Component::Balance && exercise.standing.knows("component") => {
            let subject = Subject::Component(Component::Balance);
            Some((exercise.component.span, "trains `balance`".to_string(), subject))
        }
        None => None,
    }
}

#[cfg(test)]
mod tests {
    use crate::review::testing::{edited, found, undrawn};

    const RAISE: &str = "content/exercises/heel-raise.md";

    fn with(demands: &str, support: &str, variation: &str) -> Vec<String> {
        let text = edited(
            RAISE,
            &[
                ("demands = [\"tiptoe\"]", &format!("demands = [{demands}]")),
                ("support = [\"counter\"]\n", support),
                ("support = [\"chair\"]\nequipment = [\"sturdy chair\"]\n", variation),
            ],
        );
        let found = found(&[(RAISE, &text)]).into_iter();
        found.filter(|f| f.starts_with("unsteady-without-support")).collect()
    }

    #[test]
    fn one_leg_or_a_narrow_stance_needs_something_to_hold_in_some_version() {
        for demand in ["single-leg-stance", "narrow-stance"] {
            let expected = format!(
                "unsteady-without-support 5:12 `Heel raise at the counter` asks for `{demand}` with nothing to hold"
            );
            let demands = format!("\"{demand}\"");
            assert_eq!(with(&demands, "", ""), [expected.as_str()]);
            assert_eq!(with(&demands, "support = []\n", "").len(), 1);
            assert_eq!(with(&demands, "support = [\"wall\"]\n", ""), [""; 0]);
            assert_eq!(with(&demands, "", "support = [\"rail\"]\n"), [""; 0]);
        }
        assert_eq!(with("\"head-turn\"", "", ""), [""; 0], "another demand");
        assert_eq!(with("", "", ""), [""; 0]);
    }

    #[test]
    fn a_balance_exercise_needs_something_to_hold_whatever_it_asks() {
        let stand = "content/exercises/feet-together-stand.md";
        let text = edited(
            stand,
            &[
                ("support = [\"counter\"]\ndemands = [\"narrow-stance\"]", "demands = []"),
                ("apart\"\nsupport = [\"counter\"]\nremoves = [\"narrow-stance\"]", "apart\""),
            ],
        );
        let found = found(&[(stand, &undrawn(&text))]).into_iter();
        assert_eq!(
            found.filter(|f| f.starts_with("unsteady-without-support")).collect::<Vec<_>>(),
            ["unsteady-without-support 3:13 `Feet together stand` trains `balance` with nothing to hold"]
        );
    }

    #[test]
    fn a_support_that_cannot_be_read_may_be_one() {
        assert_eq!(with("\"narrow-stance\"", "support = [\"broomstick\"]\n", ""), [""; 0]);
    }
}
