//! `review-overdue`: nobody has approved an exercise clinically, or not for a year.

use jiff::ToSpan;
use jiff::civil::Date;

use crate::model::finding::Level;
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
        match &exercise.reviewed {
            None => sink.add(
                exercise.place(),
                format!("`{title}` has not been reviewed"),
                "when a clinician has approved it, add `reviewed = { by = \"…\", on = … }` with name and date",
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
                "have a clinician look at it again, and write the new day",
            ),
            Some(_) => {}
        }
    }
}

fn is_over(on: Date, today: Date) -> bool {
    on.checked_add(MONTHS.months()).is_ok_and(|until| until < today)
}
