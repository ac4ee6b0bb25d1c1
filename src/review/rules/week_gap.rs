//! `week-gap`: the weeks of a series do not follow one another.

use jiff::civil::Date;

use crate::model::finding::Level;
use crate::model::series::Series;
use crate::model::week::Week;
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "week-gap",
    level: Level::Warning,
    safety: false,
    finds: "A week of a series is missing or stands there twice, by its number or by its date; its date comes\n\
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
    for series in case.model.series.values() {
        for week in &series.weeks {
            check_start(series, week, sink);
        }
        // A number that could not be read may be the one that seems to be missing.
        if series.weeks.iter().all(|w| w.standing.knows("week")) {
            check_numbers(case, series, sink);
            check_dates(series, sink);
        }
    }
}

fn check_start(series: &Series, week: &Week, sink: &mut Sink<'_>) {
    let known = series.standing.knows("start") && week.standing.knows("date");
    let start = series.start.value;
    if known && week.date.value < start {
        sink.add(
            week.date.span,
            format!("week {} comes before the series starts on {start}", week.number.value),
            "change this date, or `start` in series.toml",
        );
    }
}

fn check_numbers(case: &Case<'_>, series: &Series, sink: &mut Sink<'_>) {
    let mut expected = 1;
    let mut before: Option<&Week> = None;
    for week in &series.weeks {
        let number = week.number.value;
        match before.filter(|b| b.number.value == number) {
            Some(twin) => sink.add(
                week.number.span,
                format!("week {number} is also in {}", case.sources.get(twin.file).name),
                "give one of the two another number",
            ),
            None if number > expected => sink.add(
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
    let dated: Vec<&Week> = series.weeks.iter().filter(|w| w.standing.knows("date")).collect();
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
        sink.add(week.date.span, message, "give each week the date of its own calendar week, one after the other");
    }
}

/// The number of the calendar week of a date, Monday first, counted from a Monday long ago.
fn calendar_week(date: Date) -> i32 {
    const MONDAY: Date = Date::constant(1900, 1, 1);
    date.since(MONDAY).map_or(0, |span| span.get_days()).div_euclid(7)
}
