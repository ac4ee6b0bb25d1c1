//! `missing-component`: a week without one of the four training components.

use crate::model::finding::{Level, Subject};
use crate::model::vocabulary::Vocabulary;
use crate::reckon::coverage;
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "missing-component",
    level: Level::Error,
    safety: false,
    finds: "A week has no exercise of one of the four components: posture, balance, strength, power.",
    why: "The series promises all four every week. A client who follows only the handout would not train the\n\
          one that is missing.",
    bad: Example::whole(
        "content/series/first-steps/week-01.md",
        r#"
```toml
week = 1
title = "Tall and steady"
date = 2026-01-12
exercises = [
^^^^^^^^^ week 1 has no `balance` exercise
  { id = "tall-sit" },
  { id = "sit-to-stand" },
  { id = "heel-raise" },
]
```
Welcome.
"#,
    ),
    good: Example::whole(
        "content/series/first-steps/week-01.md",
        r#"
```toml
week = 1
title = "Tall and steady"
date = 2026-01-12
exercises = [
  { id = "tall-sit" },
  { id = "feet-together-stand" },
  { id = "sit-to-stand" },
  { id = "heel-raise" },
]
```
Welcome.
"#,
    ),
    check: Check::Model(check),
};

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for (_, week) in case.model.weeks() {
        for cell in coverage::of_week(case.model, week).into_iter().filter(|cell| cell.is_gap()) {
            let component = cell.component;
            let some = case.model.exercises.values().find(|e| e.component.value == component);
            sink.about([Subject::Component(component)]).add(
                week.exercises_span,
                format!("week {} has no `{}` exercise", week.number.value, component.word()),
                match some {
                    Some(e) => format!("add one, such as `{{ id = \"{}\" }}`", e.id),
                    None => "add one; no exercise of that component exists yet".to_string(),
                },
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::review::testing::{edited, found};

    const WEEK: &str = "content/series/first-steps/week-01.md";

    #[test]
    fn a_week_without_any_exercise_lacks_all_four() {
        let text = "```toml\nweek = 1\ntitle = \"Tall\"\ndate = 2026-01-12\nexercises = []\n```\n";
        let expected = ["balance", "posture", "power", "strength"];
        assert_eq!(
            found(&[(WEEK, text)]),
            expected.map(|c| format!("missing-component 5:1 week 1 has no `{c}` exercise"))
        );
    }

    #[test]
    fn what_the_component_of_an_exercise_is_must_be_known() {
        let week = edited(WEEK, &[("  { id = \"feet-together-stand\" },\n", "  { id = \"toe-stand\" },\n")]);
        assert_eq!(found(&[(WEEK, &week)]).len(), 1, "a broken link alone");
        let stand = "content/exercises/feet-together-stand.md";
        let without = edited(stand, &[("component = \"balance\"\n", "")]);
        assert_eq!(found(&[(stand, &without)]), ["missing-field 1:1 the exercise has no `component`"]);
        let wrong = edited(stand, &[("component = \"balance\"", "component = \"yoga\"")]);
        let found = found(&[(stand, &wrong)]);
        assert_eq!(found.len(), 1, "{found:?}");
    }

    #[test]
    fn a_list_of_exercises_that_cannot_be_read_lacks_nothing() {
        let week =
            edited(WEEK, &[("{ id = \"feet-together-stand\" }", "{ name = \"feet-together-stand\" }")]);
        let found = found(&[(WEEK, &week)]);
        assert!(found.iter().all(|f| !f.starts_with("missing-component")), "{found:?}");
        assert!(!found.is_empty());
    }
}
