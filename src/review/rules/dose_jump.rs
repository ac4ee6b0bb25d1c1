//! `dose-jump`: a week that asks for much more work than any week before it.

use std::collections::BTreeMap;

use crate::model::finding::{Level, Subject};
use crate::model::targets::WORK_STEP;
use crate::model::vocabulary::{Component, Vocabulary};
use crate::model::week::Week;
use crate::reckon::aims::is_known;
use crate::reckon::dose::{Practice, Session};
use crate::reckon::preparation::is_jump;
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "dose-jump",
    level: Level::Warning,
    safety: false,
    finds: "A week has more work in one component (repetitions and holds on all their days, at the high end of the\n\
            dose, without rests) than any earlier week of the series, by more than the step `work_step` in\n\
            [targets], in percent, and by more than 5 minutes. The step is 100 unless the site or the series\n\
            says otherwise.",
    why: "Muscles learn fast, tendons and joints slowly. Anyone who does twice as much from one week to the\n\
          next gets sore, or hurt, and stops. (Published steps of 2 to 10 percent are for the load of one\n\
          lift; weeks of different movements differ by more than that.)",
    bad: Example::lines(
        "content/series/first-steps/week-02.md",
        &[(
            r#"  { id = "sit-to-stand", dose = { reps = "10-12" } },"#,
            r#"
  { id = "sit-to-stand", dose = { reps = 12, sets = 3 } },
         ^^^^^^^^^^^^^^ `strength` has `11` minutes of work in week 2, after at most `2` in the weeks before"#,
        )],
    ),
    good: Example::lines(
        "content/series/first-steps/week-02.md",
        &[(
            r#"  { id = "sit-to-stand", dose = { reps = "10-12" } },"#,
            r#"  { id = "sit-to-stand", dose = { reps = 8, sets = 2 } },"#,
        )],
    ),
    check: Check::Model(check),
};

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for series in case.model.series.values() {
        let step = u64::from(WORK_STEP.of(Some(series), &case.model.site).high);
        let mut most: BTreeMap<&str, u64> = BTreeMap::new();
        // A week that could not be read may have had as much.
        let weeks = series.known_weeks().map(|(_, week)| week);
        for week in weeks.take_while(|week| is_known(case.model, week)) {
            let session = Session::of(case.model, week);
            for &component in Component::ALL {
                let now = session.component(component).a_week(|practice| practice.work).high;
                let before = most.entry(component.word()).or_default();
                if is_jump(*before, now, step) {
                    report(case, week, component, (*before, now), sink);
                }
                *before = now.max(*before);
            }
        }
    }
}

fn report(
    case: &Case<'_>,
    week: &Week,
    component: Component,
    (before, now): (u64, u64),
    sink: &mut Sink<'_>,
) {
    let of_it = case.model.exercises_of(week).filter(|(_, e)| e.component.value == component);
    let heaviest = of_it.max_by_key(|(used, exercise)| {
        let practice = Practice::of(exercise, &used.dose_of(exercise));
        practice.a_week(practice.work).high
    });
    let minutes = |ms: u64| (ms + 30_000) / 60_000;
    sink.about([
        Subject::Component(component),
        Subject::number(minutes(now)),
        Subject::number(minutes(before)),
        Subject::Week(week.number.value),
    ])
    .add(
        heaviest.map_or(week.exercises_span, |(used, _)| used.id.span),
        format!(
            "`{}` has `{}` minutes of work in week {}, after at most `{}` in the weeks before",
            component.word(),
            minutes(now),
            week.number.value,
            minutes(before)
        ),
        "take off a set or some repetitions, spread the rise over more weeks, or set `work_step` under [targets]",
    );
}

#[cfg(test)]
mod tests {
    use crate::review::testing::{edited, found};
    use crate::workspace::sample;

    const FIRST: &str = "content/series/first-steps/week-01.md";
    const SECOND: &str = "content/series/first-steps/week-02.md";
    const SERIES: &str = "content/series/first-steps/series.toml";

    /// The sample's first week has 8 x 6 s on up to 3 days, 144 s; here 3 sets of it, 432 s.
    fn found_in(dose: &str, step: &str) -> Vec<String> {
        let first =
            edited(FIRST, &[("{ id = \"sit-to-stand\" }", "{ id = \"sit-to-stand\", dose = { sets = 3 } }")]);
        let second = edited(SECOND, &[("reps = \"10-12\"", dose)]);
        let series = edited(SERIES, &[("[targets]\n", &format!("[targets]\n{step}"))]);
        let found = found(&[(FIRST, &first), (SECOND, &second), (SERIES, &series)]);
        found.into_iter().filter(|f| f.starts_with("dose-jump")).collect()
    }

    #[test]
    fn the_step_is_what_the_week_may_rise_by_and_can_be_set() {
        assert_eq!(found_in("reps = 16, sets = 3", ""), [""; 0], "twice as much");
        assert_eq!(
            found_in("reps = 17, sets = 3", ""),
            [
                "dose-jump 10:10 `strength` has `15` minutes of work in week 2, after at most `7` in the weeks before"
            ]
        );
        assert_eq!(found_in("reps = 17, sets = 3", "work_step = 150\n"), [""; 0]);
        assert_eq!(found_in("reps = 15, sets = 3", "work_step = 80\n").len(), 1);
        assert_eq!(
            found_in("reps = 13, sets = 3", "work_step = 10\n"),
            [""; 0],
            "less than five minutes more"
        );
    }

    #[test]
    fn a_week_that_cannot_be_read_makes_no_jump_of_the_next() {
        let third = sample::text(SECOND).unwrap();
        let third = third.replace("week = 2\n", "week = 3\n").replace("2026-01-19", "2026-01-26");
        let third = third.replace("reps = \"10-12\"", "reps = 16, sets = 3");
        let file = "content/series/first-steps/week-03.md";
        let with = |second: &[(&str, &str)]| {
            let found = found(&[(SECOND, &edited(SECOND, second)), (file, &third)]);
            found.iter().filter(|f| f.starts_with("dose-jump")).count()
        };
        assert_eq!(with(&[]), 1);
        for slip in [("2026-01-19", "2026-01-39"), ("reps = \"10-12\"", "reps = \"many\""), ("```toml\n", "")]
        {
            assert_eq!(with(&[slip]), 0, "{slip:?}");
        }
    }

    #[test]
    fn a_light_week_in_between_does_not_make_the_next_one_a_jump() {
        let heavy =
            edited(FIRST, &[("{ id = \"sit-to-stand\" }", "{ id = \"sit-to-stand\", dose = { sets = 3 } }")]);
        let third = sample::text(SECOND).unwrap();
        let third = third.replace("week = 2\n", "week = 3\n").replace("2026-01-19", "2026-01-26");
        let third = third.replace("reps = \"10-12\"", "reps = 16, sets = 3");
        let file = "content/series/first-steps/week-03.md";
        let jumps = |first: &str| {
            let found = found(&[(FIRST, first), (file, &third)]);
            found.iter().filter(|f| f.starts_with("dose-jump")).count()
        };
        assert_eq!(jumps(&heavy), 0);
        assert_eq!(jumps(sample::text(FIRST).unwrap()), 1);
    }
}
