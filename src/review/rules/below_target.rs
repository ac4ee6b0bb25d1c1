//! `below-target`: a week with less than its targets ask for.

use crate::model::finding::Level;
use crate::reckon::aims::Side;
use crate::review::aims::misses;
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "below-target",
    level: Level::Note,
    safety: false,
    finds: "A week has less than the weekly targets: fewer days of posture, balance or strength, fewer minutes of\n\
            balance, fewer repetitions of a strength exercise, fewer landings or days with landings. What most\n\
            weeks of a series share is said once, at the series. The targets of landings are left out where a\n\
            series serves `spine-fracture`, unless the site or the series sets them.",
    why: "The targets are what studies and guidelines found to do something; they disagree with each other, and\n\
          so each can be set under [targets] of the site or the series. A week at home is often only a part\n\
          of what a client does: a note is not a mistake.",
    bad: Example::lines(
        "content/series/first-steps/week-02.md",
        &[
            (
                "exercises = [",
                "
exercises = [
^^^^^^^^^ week 2 has balance on `2` days, below the target `balance_days` of `3-7`",
            ),
            (
                r#"  { id = "feet-together-stand", dose = { hold = "15 s" } },"#,
                r#"  { id = "feet-together-stand", dose = { hold = "15 s", days = 2 } },"#,
            ),
        ],
    ),
    good: Example::lines(
        "content/series/first-steps/week-02.md",
        &[(
            r#"  { id = "feet-together-stand", dose = { hold = "15 s" } },"#,
            r#"  { id = "feet-together-stand", dose = { hold = "15 s", days = "2-4" } },"#,
        )],
    ),
    check: Check::Model(check),
};

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for miss in misses(case, Side::Below) {
        sink.about(miss.subjects).add(
            miss.span,
            miss.message,
            "ask for more, or set the target under [targets] to what this series is meant for",
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::review::testing::{edited, found};

    const SERIES: &str = "content/series/first-steps/series.toml";
    const STAND: &str = "content/exercises/feet-together-stand.md";

    fn series(targets: &str) -> Vec<String> {
        found(&[(SERIES, &edited(SERIES, &[("balance_minutes = \"2-120\"", targets)]))])
    }

    /// Two hours of balance a week: Sherrington et al. 2011, NSW Public Health Bull 22(3-4):78-83. Without a
    /// target of its own the sample, with one short exercise, is far below.
    #[test]
    fn what_most_weeks_share_is_said_once_at_the_series() {
        assert_eq!(
            series(""),
            [
                "below-target 3:9 2 of 2 weeks have balance for `3-5` minutes, below the target `balance_minutes` of `120-600`"
            ]
        );
        assert_eq!(series("balance_minutes = \"4-9\""), [""; 0]);
    }

    #[test]
    fn landings_are_no_aim_of_a_series_for_people_with_a_spine_fracture_unless_it_says_so() {
        let set = "balance_minutes = \"2-120\"\nimpacts = \"50-100\"";
        let expected =
            "below-target 7:1 week 2 has `20` landings a session, below the target `impacts` of `50-100`";
        assert_eq!(series(set), [expected]);
        let served = edited(SERIES, &[("  \"spine-fracture\",\n", "")]);
        assert_eq!(found(&[(SERIES, &served)]), [expected]);
    }

    #[test]
    fn a_dose_that_cannot_be_read_misses_nothing() {
        let broken = edited(STAND, &[("days = \"5-7\"", "days = \"often\"")]);
        let found = found(&[(STAND, &broken)]);
        assert!(found.iter().all(|f| f.starts_with("wrong-value")) && !found.is_empty(), "{found:?}");
    }

    #[test]
    fn nothing_is_concluded_from_what_a_series_does_not_tell() {
        let text = edited(SERIES, &[("\"2-120\"", "\"many\"")]);
        let found_here = found(&[(SERIES, &text)]);
        assert_eq!(found_here.len(), 1, "{found_here:?}");
        assert!(found_here[0].starts_with("wrong-value"), "{found_here:?}");
    }
}
