//! What is said of the week that a reader is in, on which days: "This week", "The first week", "The last week".

use jiff::ToSpan;
use jiff::civil::Date;
use serde::Serialize;

use super::phrases::Phrases;
use crate::reckon::this_week::{Stretch, Time};

/// The week of some days. A page holds them all, and its script shows that of the reader's own day.
#[derive(Clone, Debug, Serialize)]
pub struct NowBlock {
    /// The first day, as in "2027-02-15"; empty before a series has begun.
    pub from: String,
    /// The first day after them; empty when a series is over.
    pub until: String,
    /// It holds on the day on which the page was made, so that it is what is seen without scripts.
    pub shown: bool,
    /// "This week".
    pub label: String,
    /// "Week of Monday, February 15, 2027".
    pub date_line: String,
    /// That the series is over.
    pub note: Option<String>,
}

impl NowBlock {
    /// The words of a stretch on a page that was made on a day.
    pub fn of(stretch: &Stretch<'_>, today: Date, say: Phrases<'_>) -> NowBlock {
        let day = |date: Date| [("date", say.date(date).into())];
        let words = say.words;
        let begins = day(stretch.begins);
        let (label, date_line, note) = match stretch.time {
            Time::Before => ("home-first-week", words.say_with("home-starts", &begins), None),
            Time::During => ("home-this-week", words.say_with("week-of", &begins), None),
            Time::After => {
                let last = stretch.from.map(|end| end.saturating_sub(1.days()));
                let ended = last.map(|last| words.say_with("now-ended", &day(last)));
                ("now-last-week", ended.unwrap_or_default(), Some(words.say("now-all-weeks")))
            }
        };
        NowBlock {
            from: written(stretch.from),
            until: written(stretch.until),
            shown: stretch.holds_on(today),
            label: words.say(label),
            date_line,
            note,
        }
    }
}

fn written(day: Option<Date>) -> String {
    day.map(|day| day.to_string()).unwrap_or_default()
}
