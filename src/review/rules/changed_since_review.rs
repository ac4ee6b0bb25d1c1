//! `changed-since-review`: an exercise says something else than what was approved.

use crate::model::finding::{Level, Subject};
use crate::reckon::approval;
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

// The fingerprint of the better example is that of the sample's entry, which `steadyleaf approve tall-sit` writes.
pub(super) static RULE: Rule = Rule {
    name: "changed-since-review",
    level: Level::Warning,
    safety: false,
    finds: "An exercise was approved with `steadyleaf approve`, and its fields or its prose have changed since.",
    why: "What a clinician approved is what clients must get. Until somebody looks at it again, pages and\n\
          handouts say that it has changed since it was checked, and name nobody. The title, comments and\n\
          blank lines do not count. The rule sees only what changes after `steadyleaf approve ID --by NAME`\n\
          has written its fingerprint (`of`): it can say nothing of a `reviewed` without one.",
    bad: Example::lines(
        "content/exercises/tall-sit.md",
        &[(
            r#"reviewed = { by = "A. Reviewer, PT", on = 2026-01-05 }"#,
            r#"
reviewed = { by = "A. Reviewer, PT", on = 2026-01-05, of = "52c85c32e4e7b1a9" }
                                                           ^^^^^^^^^^^^^^^^^^ `Tall sit` has changed since A. Reviewer, PT checked it on 2026-01-05"#,
        )],
    ),
    good: Example::lines(
        "content/exercises/tall-sit.md",
        &[(
            r#"reviewed = { by = "A. Reviewer, PT", on = 2026-01-05 }"#,
            r#"reviewed = { by = "A. Reviewer, PT", on = 2026-01-05, of = "5893c8b2409b90e0" }"#,
        )],
    ),
    check: Check::Model(check),
};

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    // What could not be read has a finding of its own, and may be as it was.
    for exercise in case.model.exercises.values().filter(|e| e.standing.is_whole()) {
        let Some(reviewed) = exercise.reviewed.as_ref().filter(|_| approval::has_changed(exercise)) else {
            continue;
        };
        let of = reviewed.of.as_ref().map_or(reviewed.span, |of| of.span);
        sink.about([Subject::Title(exercise.title.value.clone())]).add(
            of,
            format!(
                "`{}` has changed since {} checked it on {}",
                exercise.title.value, reviewed.by.value, reviewed.on.value
            ),
            format!("look at it again and run `steadyleaf approve {} --by NAME`", exercise.id),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::reckon::approval::fingerprint;
    use crate::review::testing::{check, edited, found, with_sample};

    const SIT: &str = "content/exercises/tall-sit.md";
    const REVIEWED: &str = "reviewed = { by = \"A. Reviewer, PT\", on = 2026-01-05 }\n";
    const OTHER: &str =
        "reviewed = { by = \"A. Reviewer, PT\", on = 2026-01-05, of = \"52c85c32e4e7b1a9\" }\n";

    #[test]
    fn the_better_example_has_the_fingerprint_of_the_sample() {
        let mut of = String::new();
        with_sample(&[], |model| of = fingerprint(&model.exercises["tall-sit"]));
        assert!(RULE.good.drawn().contains(&format!("of = \"{of}\"")), "{of}");
        check(RULE.name, &RULE.bad);
        check(RULE.name, &RULE.good);
    }

    #[test]
    fn nothing_is_said_of_a_review_without_a_fingerprint() {
        let changed = edited(SIT, &[("Sit as tall as you can, hold", "Sit as tall as you like, hold")]);
        assert!(changed.contains(REVIEWED));
        assert_eq!(found(&[(SIT, &changed)]), [""; 0]);
    }

    #[test]
    fn what_could_not_be_read_is_told_by_its_own_mistake_alone() {
        let slip = edited(SIT, &[(REVIEWED, OTHER), ("sides = \"both-together\"", "sides = \"both\"")]);
        let found = found(&[(SIT, &slip)]);
        assert_eq!(found.len(), 1, "{found:?}");
        assert!(found[0].starts_with("wrong-value"), "{found:?}");
    }
}
