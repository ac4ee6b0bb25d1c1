//! `above-target`: a week with more than its targets ask for.

use crate::model::finding::{Level, Subject};
use crate::model::targets::IMPACTS;
use crate::reckon::aims::Side;
use crate::review::aims::misses;
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "above-target",
    level: Level::Note,
    safety: false,
    finds: "A week has more than the weekly targets: more days of strength, more sets or repetitions of a strength\n\
            exercise, and whatever else the site or the series sets a target for. (More landings than the\n\
            target are what `impact-cap` finds.)",
    why: "More than about 15 repetitions mean that the load is too light, and more days or sets than people keep\n\
          up are more than they do. Each target can be set under [targets] of the site or the series.",
    bad: Example::lines(
        "content/series/first-steps/week-02.md",
        &[(
            r#"  { id = "sit-to-stand", dose = { reps = "10-12" } },"#,
            r#"
  { id = "sit-to-stand", dose = { reps = 20 } },
         ^^^^^^^^^^^^^^ week 2 has `sit-to-stand` in `20` repetitions, above the target `strength_reps` of `8-15`"#,
        )],
    ),
    good: Example::lines(
        "content/series/first-steps/week-02.md",
        &[(
            r#"  { id = "sit-to-stand", dose = { reps = "10-12" } },"#,
            r#"  { id = "sit-to-stand", dose = { reps = 10, sets = 2 } },"#,
        )],
    ),
    check: Check::Model(check),
};

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    let capped = Subject::Target(IMPACTS.name.into());
    for miss in misses(case, Side::Above).into_iter().filter(|miss| !miss.subjects.contains(&capped)) {
        sink.about(miss.subjects).add(
            miss.span,
            miss.message,
            "ask for less, make the movement harder instead, or set the target under [targets]",
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::review::testing::{edited, found};

    const WEEK: &str = "content/series/first-steps/week-02.md";

    /// 8 to 12 repetitions, 1 to 3 sets: Giangregorio et al. 2015, Osteoporos Int 26(3):891-910, Table 4; 15 for
    /// frail or older people: Nelson et al. 2007, Med Sci Sports Exerc 39(8):1435-1445 (from memory, not verified).
    #[test]
    fn the_published_ends_are_inside() {
        for (dose, count) in [
            ("reps = 15, sets = 3", 0),
            ("reps = \"15-20\"", 0),
            ("reps = 16", 1),
            ("reps = 8, sets = 4", 1),
            ("reps = 16, sets = 4", 2),
        ] {
            let text = edited(WEEK, &[("reps = \"10-12\"", dose)]);
            let found = found(&[(WEEK, &text)]);
            let above = found.iter().filter(|f| f.starts_with("above-target")).count();
            assert_eq!(above, count, "{dose}: {found:?}");
        }
    }

    #[test]
    fn more_landings_are_left_to_their_cap() {
        let text = edited(WEEK, &[("{ id = \"heel-drop\"", "{ id = \"heel-drop\", dose = { reps = 60 }")]);
        let found = found(&[(WEEK, &text)]);
        assert!(found.iter().any(|f| f.starts_with("impact-cap")), "{found:?}");
        assert!(found.iter().all(|f| !f.starts_with("above-target")), "{found:?}");
    }
}
