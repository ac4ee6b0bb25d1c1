//! `review-overdue`: nobody has approved an exercise clinically, or not for a year.

use jiff::ToSpan;
use jiff::civil::Date;

use crate::model::finding::{Level, Subject};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "review-overdue",
    level: Level::Warning,
    safety: false,
    finds: "An exercise has no `reviewed`, or its date is more than 12 months ago or yet to come.",
    why: "Guidelines change, and a second pair of eyes finds what its author does not. The page says who\n\
          checked the exercise and when.",
    bad: Example::lines(
        "content/exercises/heel-drop.md",
        &[(
            r#"reviewed = { by = "A. Reviewer, PT", on = 2026-01-05 }"#,
            r#"
reviewed = { by = "A. Reviewer, PT", on = 2024-11-20 }
                                          ^^^^^^^^^^ `Heel drop at the counter` was last reviewed on 2024-11-20, more than 12 months ago"#,
        )],
    ),
    good: Example::lines(
        "content/exercises/heel-drop.md",
        &[(
            r#"reviewed = { by = "A. Reviewer, PT", on = 2026-01-05 }"#,
            r#"reviewed = { by = "A. Reviewer, PT", on = 2025-03-02 }"#,
        )],
    ),
    check: Check::Model(check),
};

/// How long a clinical review holds. Common practice, no source.
const MONTHS: i32 = 12;

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for exercise in case.model.exercises.values().filter(|e| e.standing.knows("reviewed")) {
        let title = &exercise.title.value;
        let sink = sink.about([Subject::Title(title.clone())]);
        match &exercise.reviewed {
            None => sink.add(
                exercise.place(),
                format!("`{title}` has not been reviewed"),
                format!(
                    "when a clinician has approved it, run `steadyleaf approve {} --by NAME`",
                    exercise.id
                ),
            ),
            Some(reviewed) if reviewed.on.value > case.today => sink.add(
                reviewed.on.span,
                format!("`{title}` is said to be reviewed on {}, a day yet to come", reviewed.on.value),
                "write the day of the review",
            ),
            Some(reviewed) if is_over(reviewed.on.value, case.today) => sink.add(
                reviewed.on.span,
                format!(
                    "`{title}` was last reviewed on {}, more than {MONTHS} months ago",
                    reviewed.on.value
                ),
                format!(
                    "have a clinician look at it again, then run `steadyleaf approve {} --by NAME`",
                    exercise.id
                ),
            ),
            Some(_) => {}
        }
    }
}

fn is_over(on: Date, today: Date) -> bool {
    on.checked_add(MONTHS.months()).is_ok_and(|until| until < today)
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use crate::review::testing::{edited, found, lines, review_bytes};

    const RAISE: &str = "content/exercises/heel-raise.md";
    const REVIEWED: &str = "reviewed = { by = \"A. Reviewer, PT\", on = 2026-01-05 }\n";

    #[test]
    fn a_review_holds_to_the_day_a_year_later() {
        let on = |day| lines(&review_bytes(Vec::new(), day)).len();
        assert_eq!(on(date(2027, 1, 5)), 0);
        assert_eq!(on(date(2027, 1, 6)), 5, "each of the five exercises");
        assert_eq!(on(date(2026, 1, 5)), 0);
        assert_eq!(on(date(2026, 1, 4)), 5, "a day yet to come");
    }

    #[test]
    fn no_review_is_told_at_the_title_and_a_broken_one_by_its_own_mistake_alone() {
        let none = edited(RAISE, &[(REVIEWED, "")]);
        assert_eq!(
            found(&[(RAISE, &none)]),
            ["review-overdue 2:9 `Heel raise at the counter` has not been reviewed"]
        );
        for (new, rule) in [
            ("reviewed = { by = \"A. Reviewer, PT\" }\n", "missing-field"),
            ("reviewed = { by = \"A. Reviewer, PT\", on = \"May\" }\n", "wrong-value"),
            ("reviewed = \"yes\"\n", "wrong-value"),
            ("review = { by = \"A. Reviewer, PT\", on = 2026-01-05 }\n", "unknown-field"),
        ] {
            let found = found(&[(RAISE, &edited(RAISE, &[(REVIEWED, new)]))]);
            assert_eq!(found.len(), 1, "{new}: {found:?}");
            assert!(found[0].starts_with(rule), "{new}: {found:?}");
        }
    }
}
