//! `no-rest-day`: strength work or long holds on two days running, or rest days that no week holds.

use crate::model::dose::Dose;
use crate::model::exercise::Exercise;
use crate::model::finding::{Level, Subject};
use crate::model::source::Span;
use crate::model::vocabulary::Component;
use crate::reckon::practice::needs_rest;
use crate::review::doses::given;
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "no-rest-day",
    level: Level::Warning,
    safety: false,
    finds: "The dose of a strength exercise, or of a hold of 30 seconds or more, lets it fall on two days running:\n\
            it names no rest day, or more days than a week holds with a clear day between them. The week goes\n\
            round: Sunday and Monday are two days running. It also finds more rest days, in any exercise, than\n\
            fit between the days of a week. (A balance exercise may be held for long every day. Two exercises that\n\
            train the same region rest as one: the practice week puts them on the same day or leaves a clear day\n\
            between them. Doses that fit a week one by one always leave room for that.)",
    why: "Muscles get stronger in the time between. Two days running on the same muscles bring soreness, and\n\
          soreness makes people stop. What cannot be fitted into a week, a client cannot do.",
    bad: Example::lines(
        "content/exercises/sit-to-stand.md",
        &[(
            r#"days = "2-3""#,
            r#"
days = "2-4"
       ^^^^^ `2-4` days a week leave no clear day between them"#,
        )],
    ),
    good: Example::lines(
        "content/exercises/sit-to-stand.md",
        &[(r#"days = "2-3""#, "days = 2"), ("rest_days = 1", "rest_days = \"1-2\"")],
    ),
    check: Check::Model(check),
};

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for given in given(case.model).filter(|given| given.exercise.standing.knows("component")) {
        let known = given.changes.is_some_and(|own| problem(given.exercise, own).is_some());
        if !known && let Some(Problem { span, numbers, message, help }) = problem(given.exercise, &given.dose)
        {
            let exercise = Subject::Exercise(given.exercise.id.clone());
            sink.about([exercise].into_iter().chain(numbers)).add(span, message, help);
        }
    }
}

/// What is wrong with the days of a dose, where, and what to do.
struct Problem {
    span: Span,
    numbers: Vec<Subject>,
    message: String,
    help: &'static str,
}

fn problem(exercise: &Exercise, dose: &Dose) -> Option<Problem> {
    let apart = needs_rest(exercise, dose);
    let days = dose.days.as_ref();
    let rest = dose.rest_days.as_ref();
    let rest_days = rest.map_or(0, |rest| rest.value.low);
    let fits = |rest: u32| days.is_none_or(|d| d.value.high * (rest + 1) <= 7 || d.value.high == 1);
    if apart && !fits(1) {
        let days = days?;
        return Some(Problem {
            span: days.span,
            numbers: vec![Subject::number(days.value)],
            message: format!("`{}` days a week leave no clear day between them", days.value),
            help: "write at most `days = 3` with `rest_days = 1`",
        });
    }
    if apart && rest_days == 0 && days.is_none_or(|d| d.value.high > 1) {
        let place = rest.map_or(dose.span, |rest| rest.span);
        let what = match exercise.component.value {
            Component::Strength => "strength exercise",
            _ => "long hold",
        };
        return Some(Problem {
            span: place,
            numbers: Vec::new(),
            message: format!("this {what} names no rest day between its days"),
            help: "add `rest_days = 1`",
        });
    }
    if !fits(rest_days) {
        let (days, rest) = (days?, rest?);
        return Some(Problem {
            span: rest.span,
            numbers: vec![Subject::number(days.value), Subject::number(rest.value)],
            message: format!(
                "`{}` days a week with `{}` clear days between do not fit into a week",
                days.value, rest.value
            ),
            help: "write fewer `days` or fewer `rest_days`; the week goes round from Sunday to Monday",
        });
    }
    None
}

#[cfg(test)]
mod tests {
    use crate::review::testing::{edited, found};

    const STAND: &str = "content/exercises/sit-to-stand.md";
    const SIT: &str = "content/exercises/tall-sit.md";
    const WEEK: &str = "content/series/first-steps/week-02.md";

    /// The spacing of strength: NIH MedlinePlus Magazine, Spring 2012; Nelson et al. 2007, Med Sci
    /// Sports Exerc 39(8):1435-1445. Seven days hold three with a clear day between any two of them.
    #[test]
    fn strength_has_at_most_three_days_and_a_clear_day_between_them() {
        for (days, rest, expected) in [
            ("3", "1", None),
            ("2", "2", None),
            ("1", "0", None),
            ("1", "6", None),
            ("7", "1", Some("`7` days a week leave no clear day between them")),
            ("2", "0", Some("this strength exercise names no rest day between its days")),
            ("3", "2", Some("`3` days a week with `2` clear days between do not fit into a week")),
        ] {
            let text = edited(
                STAND,
                &[
                    ("days = \"2-3\"", &format!("days = {days}")),
                    ("rest_days = 1", &format!("rest_days = {rest}")),
                ],
            );
            let found = found(&[(STAND, &text)]);
            let of_the_rule = found.iter().filter(|f| f.starts_with("no-rest-day"));
            let messages: Vec<&str> = of_the_rule.filter_map(|f| f.splitn(3, ' ').nth(2)).collect();
            assert_eq!(messages, expected.into_iter().collect::<Vec<_>>(), "{days} days, rest {rest}");
        }
        let without = edited(STAND, &[("rest_days = 1\n", "")]);
        assert_eq!(
            found(&[(STAND, &without)]),
            ["no-rest-day 13:2 this strength exercise names no rest day between its days"]
        );
    }

    #[test]
    fn a_hold_of_thirty_seconds_needs_a_rest_day_and_a_balance_exercise_does_not() {
        let held = |hold: &str| {
            found(&[(SIT, &edited(SIT, &[("hold = \"3-5 s\"", &format!("hold = \"{hold}\""))]))])
        };
        let found_at = held("10-30 s");
        assert!(
            found_at
                .iter()
                .any(|f| f.starts_with("no-rest-day") && f.ends_with("leave no clear day between them")),
            "{found_at:?}"
        );
        assert!(held("25-29 s").iter().all(|f| !f.starts_with("no-rest-day")));
        let stand = "content/exercises/feet-together-stand.md";
        let long = edited(stand, &[("hold = \"10 s\"", "hold = \"60 s\"")]);
        assert!(found(&[(stand, &long)]).iter().all(|f| !f.starts_with("no-rest-day")));
    }

    /// That there is always room for it is shown beside the practice week.
    #[test]
    fn two_exercises_for_the_same_region_are_no_finding_where_each_of_them_rests() {
        let raise = "content/exercises/heel-raise.md";
        let strong = edited(
            raise,
            &[
                ("component = \"power\"", "component = \"strength\"\ntrains = [\"thighs\"]"),
                ("days = \"3-4\"", "days = 3\nrest_days = 1"),
            ],
        );
        let week =
            edited(WEEK, &[("{ id = \"heel-drop\"", "{ id = \"heel-raise\" },\n  { id = \"heel-drop\"")]);
        let found = found(&[(raise, &strong), (WEEK, &week)]);
        assert!(found.iter().all(|f| !f.starts_with("no-rest-day")), "{found:?}");
    }

    #[test]
    fn the_dose_of_a_week_is_looked_at_where_the_week_changes_it() {
        let week = |dose: &str| {
            let text = edited(WEEK, &[("dose = { reps = \"10-12\" }", &format!("dose = {{ {dose} }}"))]);
            found(&[(WEEK, &text)])
        };
        assert_eq!(
            week("reps = 10, days = \"3-5\""),
            ["no-rest-day 10:53 `3-5` days a week leave no clear day between them"]
        );
        assert_eq!(
            week("rest_days = 0"),
            ["no-rest-day 10:47 this strength exercise names no rest day between its days"]
        );
        let own = edited(STAND, &[("rest_days = 1", "rest_days = 0")]);
        assert_eq!(found(&[(STAND, &own)]).len(), 1, "once, where it stands, and not in each week");
    }
}
