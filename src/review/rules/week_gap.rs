//! `week-gap`: the weeks of a series do not follow one another.

use std::collections::BTreeMap;

use jiff::civil::Date;

use crate::entry::links::meant_by;
use crate::model::finding::{Level, Subject};
use crate::model::link::Target;
use crate::model::series::Series;
use crate::model::week::Week;
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "week-gap",
    level: Level::Warning,
    safety: false,
    finds: "A week of a series is missing or is there twice, by its number or by its date; its date comes\n\
            before that of the week before it; or it comes before the series starts.",
    why: "Clients follow the numbers and the calendar. A gap sends them to a page that is not there, or lets a\n\
          week of training fall out without a word. (If you take a week off, accept the finding.)",
    bad: Example::whole(
        "content/series/first-steps/week-02.md",
        r#"
```toml
week = 3
       ^ week 2 is missing
title = "A little more"
date = 2026-01-26
exercises = [
  { id = "tall-sit", dose = { reps = 8 } },
  { id = "feet-together-stand", dose = { hold = "15 s" } },
  { id = "sit-to-stand", dose = { reps = "10-12" } },
  { id = "heel-drop" },
]
```
Welcome back.
"#,
    ),
    good: Example::whole(
        "content/series/first-steps/week-02.md",
        r#"
```toml
week = 2
title = "A little more"
date = 2026-01-19
exercises = [
  { id = "tall-sit", dose = { reps = 8 } },
  { id = "feet-together-stand", dose = { hold = "15 s" } },
  { id = "sit-to-stand", dose = { reps = "10-12" } },
  { id = "heel-drop" },
]
```
Welcome back.
"#,
    ),
    check: Check::Model(check),
};

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    let written = written(case);
    for series in case.model.series.values() {
        for week in &series.weeks {
            check_start(series, week, sink);
        }
        // A number that could not be read may be the one that seems to be missing.
        let written = written.get(&series.id).copied().unwrap_or(0);
        if series.weeks.len() == written && series.weeks.iter().all(|w| w.standing.knows("week")) {
            check_numbers(case, series, sink);
            check_dates(series, sink);
        }
    }
}

/// How many weeks each series has by the names of the files, whether they could be read or not.
fn written(case: &Case<'_>) -> BTreeMap<String, usize> {
    let mut written = BTreeMap::new();
    for (_, source) in case.sources.iter() {
        if let Some(Target::Week { series, .. }) = meant_by(&source.name) {
            *written.entry(series).or_default() += 1;
        }
    }
    written
}

fn check_start(series: &Series, week: &Week, sink: &mut Sink<'_>) {
    if is_before_start(series, week) {
        sink.about([Subject::Week(week.number.value), Subject::number(series.start.value)]).add(
            week.date.span,
            format!("week {} comes before the series starts on {}", week.number.value, series.start.value),
            "change this date, or `start` in series.toml",
        );
    }
}

fn is_before_start(series: &Series, week: &Week) -> bool {
    let known = series.standing.knows("start") && week.standing.knows("date");
    known && week.date.value < series.start.value
}

/// How many of the weeks that are missing in one place an exception can name.
const MISSING: usize = 10;

fn check_numbers(case: &Case<'_>, series: &Series, sink: &mut Sink<'_>) {
    let mut expected = 1;
    let mut before: Option<&Week> = None;
    for week in &series.weeks {
        let number = week.number.value;
        match before.filter(|b| b.number.value == number) {
            Some(twin) => sink.about([Subject::Week(number)]).add(
                week.number.span,
                format!("week {number} is also in {}", case.sources.get(twin.file).name),
                "give one of the two another number",
            ),
            None if number > expected => sink.about((expected..number).take(MISSING).map(Subject::Week)).add(
                week.number.span,
                match number - expected {
                    1 => format!("week {expected} is missing"),
                    _ => format!("weeks {expected} to {} are missing", number - 1),
                },
                "add what is missing, or change this number",
            ),
            None => {}
        }
        expected = number + 1;
        before = Some(week);
    }
}

fn check_dates(series: &Series, sink: &mut Sink<'_>) {
    let sound = |w: &&Week| w.standing.knows("date") && !is_before_start(series, w);
    let dated: Vec<&Week> = series.weeks.iter().filter(sound).collect();
    for pair in dated.windows(2) {
        let [before, week] = pair else { continue };
        let (number, earlier) = (week.number.value, before.number.value);
        let (date, last) = (week.date.value, before.date.value);
        let apart = calendar_week(date) - calendar_week(last);
        let message = if number == earlier {
            continue;
        } else if date < last {
            format!("week {number} comes before week {earlier}, which is on {last}")
        } else if apart == 0 {
            format!("week {number} is in the same calendar week as week {earlier}, which is on {last}")
        } else if number == earlier + 1 && apart > 1 {
            format!("week {number} comes {apart} weeks after week {earlier}, which is on {last}")
        } else {
            continue;
        };
        sink.about([Subject::Week(number), Subject::Week(earlier)]).add(
            week.date.span,
            message,
            "give each week the date of its own calendar week, one after the other",
        );
    }
}

/// The number of the calendar week of a date, Monday first, counted from a Monday long ago.
fn calendar_week(date: Date) -> i32 {
    const MONDAY: Date = Date::constant(1900, 1, 1);
    date.since(MONDAY).map_or(0, |span| span.get_days()).div_euclid(7)
}

#[cfg(test)]
mod tests {
    use crate::review::testing::{edited, found};

    const SECOND: &str = "content/series/first-steps/week-02.md";

    fn with(number: &str, date: &str) -> Vec<String> {
        let replaced = [("week = 2", format!("week = {number}")), ("2026-01-19", date.to_string())];
        let replaced: Vec<(&str, &str)> = replaced.iter().map(|(a, b)| (*a, b.as_str())).collect();
        found(&[(SECOND, &edited(SECOND, &replaced))])
    }

    #[test]
    fn each_slip_of_a_number_or_a_date_is_told_once() {
        for (number, date, expected) in [
            ("2", "2026-01-19", None),
            ("2", "2026-01-21", None),
            ("3", "2026-01-26", Some("1:1 week 2 is missing")),
            ("5", "2026-02-09", Some("1:1 weeks 2 to 4 are missing")),
            ("2", "2026-01-26", Some("week 2 comes 2 weeks after week 1, which is on 2026-01-12")),
            (
                "2",
                "2026-01-12",
                Some("week 2 is in the same calendar week as week 1, which is on 2026-01-12"),
            ),
            (
                "2",
                "2026-01-18",
                Some("week 2 is in the same calendar week as week 1, which is on 2026-01-12"),
            ),
            ("1", "2026-01-19", Some("week 1 is also in content/series/first-steps/week-01.md")),
        ] {
            let found = with(number, date);
            let expected = expected.map(|e| e.trim_start_matches("1:1 ").to_string());
            assert_eq!(found.len(), usize::from(expected.is_some()), "{number} {date}: {found:?}");
            if let Some(expected) = expected {
                assert!(found[0].starts_with("week-gap ") && found[0].ends_with(&expected), "{found:?}");
            }
        }
    }

    #[test]
    fn a_week_before_the_series_is_told_once_though_it_is_before_the_first_week_too() {
        assert_eq!(
            with("2", "2026-01-05"),
            ["week-gap 4:8 week 2 comes before the series starts on 2026-01-12"]
        );
    }

    #[test]
    fn a_week_before_the_one_before_it_is_out_of_order() {
        let series = "content/series/first-steps/series.toml";
        let early = edited(series, &[("start = 2026-01-12", "start = 2026-01-05")]);
        let second = edited(SECOND, &[("2026-01-19", "2026-01-05")]);
        assert_eq!(
            found(&[(series, &early), (SECOND, &second)]),
            ["week-gap 4:8 week 2 comes before week 1, which is on 2026-01-12"]
        );
    }

    #[test]
    fn a_series_begins_with_week_1() {
        let first = "content/series/first-steps/week-01.md";
        let texts = [
            (first, edited(first, &[("week = 1\n", "week = 2\n")])),
            (SECOND, edited(SECOND, &[("week = 2\n", "week = 3\n")])),
        ];
        let files: Vec<(&str, &str)> = texts.iter().map(|(n, t)| (*n, t.as_str())).collect();
        assert_eq!(found(&files), ["week-gap 3:8 week 1 is missing"]);
    }

    #[test]
    fn a_number_that_cannot_be_read_makes_no_gap() {
        assert_eq!(
            with("\"two\"", "2026-01-19"),
            ["wrong-value 2:8 expected a whole number from 1 to 520, found `two`"]
        );
        assert_eq!(with("2", "\"soon\""), ["wrong-value 4:8 expected a date, found `soon`"]);
    }
}
