//! A run of weeks for one audience.

use jiff::ToSpan;
use jiff::civil::Date;

use super::accept::Accept;
use super::entries::Weeks;
use super::site::Targets;
use super::source::{FileId, Spanned};
use super::standing::Standing;
use super::week::Week;

/// One series with its weeks in order of number.
#[derive(Clone, Debug)]
pub struct Series {
    /// The folder's name.
    pub id: String,
    pub file: FileId,
    pub standing: Standing,
    pub title: Spanned<String>,
    pub summary: Spanned<String>,
    pub audience: Spanned<String>,
    pub start: Spanned<Date>,
    /// The precautions it must have an answer for.
    pub serves: Vec<Spanned<String>>,
    /// The precautions of everybody in the audience.
    pub all_have: Vec<Spanned<String>>,
    pub targets: Targets,
    pub accept: Vec<Accept>,
    pub weeks: Weeks,
}

impl Series {
    /// The precautions that everybody in its audience has.
    pub fn all_have_ids(&self) -> impl Iterator<Item = &str> {
        self.all_have.iter().map(|precaution| precaution.value.as_str())
    }

    /// The weeks from the first on, as far as none is missing and what each uses is known: a week that
    /// could not be read, or whose exercises could not all be, may hold what a later one builds on.
    pub fn known_weeks(&self) -> impl Iterator<Item = (usize, &Week)> {
        let known = |(at, week): &(usize, &Week)| {
            let counted = week.standing.knows("week") && week.number.value as usize == at + 1;
            counted && week.standing.is_sound("exercises")
        };
        self.weeks.iter().enumerate().take_while(known)
    }

    /// The week a reader should see on a day: the last that has begun, or the first before any has.
    pub fn week_on(&self, today: Date) -> Option<&Week> {
        self.weeks
            .iter()
            .filter(|w| w.date.value <= today)
            .max_by_key(|w| w.date.value)
            .or(self.weeks.first())
    }

    /// The number and the day of the week after the last, or of the first where there is none yet.
    pub fn next_week(&self) -> (u32, Date) {
        match self.weeks.last() {
            Some(last) => (last.number.value.saturating_add(1), last.date.value.saturating_add(7.days())),
            None => (1, self.start.value),
        }
    }

    /// The week of that number, or whose file has that name without its ending: `7` or `week-07`.
    pub fn week_called(&self, name: &str) -> Option<&Week> {
        self.weeks.iter().find(|week| week.id == name || week.number.value.to_string() == name)
    }
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use crate::model::NotOne;
    use crate::review::testing::{edited, with_sample};

    #[test]
    fn the_next_week_follows_the_last_by_number_and_seven_days_later() {
        with_sample(&[], |model| {
            let mut series = model.series.values().next().unwrap().clone();
            let last = series.weeks.last().unwrap();
            let (number, day) = (last.number.value, last.date.value);
            assert_eq!(series.next_week(), (number + 1, day.saturating_add(jiff::Span::new().days(7))));
            series.weeks = Default::default();
            series.start.value = date(2027, 2, 1);
            assert_eq!(series.next_week(), (1, date(2027, 2, 1)));
        });
    }

    #[test]
    fn the_only_series_is_meant_where_none_is_named() {
        let only = |files: &[(&str, &str)]| {
            let mut id = Err(NotOne::None);
            with_sample(files, |model| id = model.only_series().map(|series| series.id.clone()));
            id
        };
        assert_eq!(only(&[]), Ok("first-steps".to_string()));
        let second = edited("content/series/first-steps/series.toml", &[]);
        assert_eq!(only(&[("content/series/second/series.toml", &second)]), Err(NotOne::Several));
    }

    #[test]
    fn a_week_is_called_by_its_number_or_its_file() {
        with_sample(&[], |model| {
            let series = model.series.values().next().unwrap();
            for name in ["1", "week-01"] {
                assert_eq!(series.week_called(name).map(|week| week.number.value), Some(1), "{name}");
            }
            for name in ["01", "week-1", ""] {
                assert!(series.week_called(name).is_none(), "{name}");
            }
        });
    }
}
