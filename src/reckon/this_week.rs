//! Which week of a series a reader is in, on any day: what holds from which day to which.

use jiff::ToSpan;
use jiff::civil::Date;

use crate::model::series::Series;

/// How long the last week of a series lasts; each other lasts until the next begins. Common practice, no source.
const DAYS_OF_A_WEEK: i64 = 7;

/// Where a day lies in a series.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Time {
    Before,
    During,
    /// The last week is over.
    After,
}

/// Some days, and the week that a reader should see on them.
#[derive(Clone, Copy, Debug)]
pub struct Stretch<'m> {
    /// The id of the week.
    pub week: &'m str,
    /// The day on which that week begins.
    pub begins: Date,
    pub time: Time,
    /// The first of the days; `None` before a series has begun.
    pub from: Option<Date>,
    /// The first day that is none of them; `None` when a series is over.
    pub until: Option<Date>,
}

impl Stretch<'_> {
    pub fn holds_on(&self, day: Date) -> bool {
        self.from.is_none_or(|from| from <= day) && self.until.is_none_or(|until| day < until)
    }
}

/// Every day there is, in order: before a series, each of its weeks, after it. Of two weeks that begin on one day the later
/// counts. None where a series has no week.
pub fn stretches(series: &Series) -> Vec<Stretch<'_>> {
    let mut weeks: Vec<(&str, Date)> = series.weeks.dates().collect();
    let Some(&(first, first_begins)) = weeks.first() else { return Vec::new() };
    weeks.sort_by_key(|(_, begins)| *begins);
    let mut all = Vec::new();
    for (at, &(week, begins)) in weeks.iter().enumerate() {
        let last = || begins.saturating_add(DAYS_OF_A_WEEK.days());
        let until = weeks.get(at + 1).map_or_else(last, |(_, next)| *next);
        if at == 0 {
            let time = Time::Before;
            all.push(Stretch { week: first, begins: first_begins, time, from: None, until: Some(begins) });
        }
        if begins < until {
            all.push(Stretch { week, begins, time: Time::During, from: Some(begins), until: Some(until) });
        }
        if at + 1 == weeks.len() {
            all.push(Stretch { week, begins, time: Time::After, from: Some(until), until: None });
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;
    use crate::review::testing::with_sample;

    #[test]
    fn every_day_lies_in_one_stretch_which_has_the_week_that_a_reader_should_see() {
        with_sample(&[], |model| {
            let series = model.series.values().next().unwrap();
            let all = stretches(series);
            let times: Vec<Time> = all.iter().map(|s| s.time).collect();
            assert_eq!((times[0], times[times.len() - 1]), (Time::Before, Time::After));
            assert!(times[1..times.len() - 1].iter().all(|time| *time == Time::During), "{times:?}");
            let start = date(2025, 12, 20);
            for number in 0..200 {
                let day = start.saturating_add(number.days());
                let there: Vec<&Stretch<'_>> = all.iter().filter(|s| s.holds_on(day)).collect();
                assert_eq!(there.len(), 1, "{day}");
                assert_eq!(there[0].week, series.week_on(day).unwrap().id, "{day}");
            }
        });
    }

    #[test]
    fn the_last_week_lasts_seven_days() {
        with_sample(&[], |model| {
            let series = model.series.values().next().unwrap();
            let all = stretches(series);
            let last = series.weeks.last().unwrap().date.value;
            let time = |day: Date| all.iter().find(|s| s.holds_on(day)).unwrap().time;
            assert_eq!(time(last.saturating_add(6.days())), Time::During);
            assert_eq!(time(last.saturating_add(7.days())), Time::After);
        });
    }
}
