//! `repeated-exercise`: the same exercise in the same dose two weeks running, or twice in one week.

use std::collections::BTreeSet;

use crate::model::exercise::Exercise;
use crate::model::finding::{Level, Subject};
use crate::model::week::{Week, WeekExercise};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "repeated-exercise",
    level: Level::Warning,
    safety: false,
    finds: "Two weeks that follow one another use the same exercise in the same dose, or one week names an\n\
            exercise twice.",
    why: "The body adapts to what it gets. A little more, or a harder rung of the ladder, keeps the training\n\
          going; a client also likes to see that she moves on. What is in one week twice she does twice,\n\
          or wonders which dose holds. (Where a repetition is meant, accept it.)",
    bad: Example::lines(
        "content/series/first-steps/week-02.md",
        &[(
            r#"  { id = "tall-sit", dose = { reps = 8 } },"#,
            r#"
  { id = "tall-sit", dose = { reps = 5 } },
         ^^^^^^^^^^ `tall-sit` is in the same dose as in week 1"#,
        )],
    ),
    good: Example::lines(
        "content/series/first-steps/week-02.md",
        &[(
            r#"  { id = "tall-sit", dose = { reps = 8 } },"#,
            r#"  { id = "tall-sit", dose = { reps = 6, hold = "5 s" } },"#,
        )],
    ),
    check: Check::Model(check),
};

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for (_, week) in case.model.weeks() {
        check_week(week, sink);
    }
    for series in case.model.series.values() {
        for (before, week) in series.weeks.iter().zip(series.weeks.iter().skip(1)) {
            let known =
                [before, week].iter().all(|w| w.standing.is_sound("exercises") && w.standing.knows("week"));
            if known && week.number.value == before.number.value + 1 {
                check_pair(case, before, week, sink);
            }
        }
    }
}

fn check_week(week: &Week, sink: &mut Sink<'_>) {
    let mut seen = BTreeSet::new();
    for used in week.exercises.iter().filter(|used| !seen.insert(&used.id.value)) {
        sink.about([Subject::Exercise(used.id.value.clone())]).add(
            used.id.span,
            format!("`{}` is in this week twice", used.id.value),
            "keep one of the two, with the dose that is meant",
        );
    }
}

fn check_pair(case: &Case<'_>, before: &Week, week: &Week, sink: &mut Sink<'_>) {
    for (used, exercise) in case.model.exercises_of(week) {
        let dose = used.dose_of(exercise);
        let repeats = |(earlier, other): (&WeekExercise, &Exercise)| {
            other.id == exercise.id && earlier.dose_of(other).values() == dose.values()
        };
        if exercise.standing.is_sound("dose") && case.model.exercises_of(before).any(repeats) {
            let harder = exercise.progressions.iter().find_map(|p| p.exercise());
            let swap = harder.map(|id| format!(", or swap it for `{}`", id.value)).unwrap_or_default();
            let exercise = Subject::Exercise(exercise.id.clone());
            sink.about([exercise, Subject::Week(before.number.value)]).add(
                used.id.span,
                format!("`{}` is in the same dose as in week {}", used.id.value, before.number.value),
                format!("change the dose of this week, for instance `dose = {{ reps = 12 }}`{swap}"),
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::review::testing::{edited, found, review_files};
    use crate::workspace::sample;

    const SECOND: &str = "content/series/first-steps/week-02.md";

    fn with(used: &str) -> Vec<String> {
        found(&[(SECOND, &edited(SECOND, &[("{ id = \"tall-sit\", dose = { reps = 8 } }", used)]))])
    }

    #[test]
    fn the_dose_of_the_week_counts_not_whether_it_is_written() {
        let repeated = ["repeated-exercise 8:10 `tall-sit` is in the same dose as in week 1"];
        assert_eq!(with("{ id = \"tall-sit\" }"), repeated);
        assert_eq!(with("{ id = \"tall-sit\", dose = { reps = \"5\", rest = \"10 s\" } }"), repeated);
        assert_eq!(with("{ id = \"tall-sit\", dose = { rest = \"15 s\" } }"), [""; 0]);
    }

    #[test]
    fn a_minute_is_sixty_seconds() {
        let first = "content/series/first-steps/week-01.md";
        let in_minutes = edited(
            first,
            &[("{ id = \"sit-to-stand\" }", "{ id = \"sit-to-stand\", dose = { rest = \"1 min\" } }")],
        );
        let in_seconds = edited(SECOND, &[("reps = \"10-12\"", "rest = \"60 s\"")]);
        assert_eq!(
            found(&[(first, &in_minutes), (SECOND, &in_seconds)]),
            ["repeated-exercise 10:10 `sit-to-stand` is in the same dose as in week 1"]
        );
    }

    #[test]
    fn a_dose_that_cannot_be_read_is_no_repetition() {
        let found = with("{ id = \"tall-sit\", dose = { reps = \"many\" } }");
        assert_eq!(found.len(), 1, "{found:?}");
        assert!(found[0].starts_with("wrong-value"), "{found:?}");
    }

    #[test]
    fn a_week_in_between_is_no_repetition() {
        let text = edited(
            SECOND,
            &[("week = 2\n", "week = 3\n"), ("2026-01-19", "2026-01-26"), (", dose = { reps = 8 }", "")],
        );
        assert_eq!(found(&[(SECOND, &text)]), ["week-gap 2:8 week 2 is missing"]);
    }

    #[test]
    fn an_exercise_that_stands_twice_in_one_week_is_found_at_the_second() {
        let file = "content/series/first-steps/week-02.md";
        let row = r#"  { id = "tall-sit", dose = { reps = 8 } },"#;
        let text = sample::text(file)
            .unwrap()
            .replace(row, &format!("{row}\n  {{ id = \"tall-sit\", dose = {{ reps = 9 }} }},"));
        let (review, sources) = review_files(&[(file, &text)]);
        let found: Vec<(&str, &str)> = review.findings.iter().map(|f| (f.rule, f.message.as_str())).collect();
        assert_eq!(found, [("repeated-exercise", "`tall-sit` is in this week twice")]);
        let first = text.lines().position(|l| l == row).unwrap() + 1;
        assert_eq!(sources.positions(review.findings[0].span).0.line, first + 1);
    }
}
