//! Numbers, times, dates and lists in the reader's language.

use fluent_bundle::FluentValue;
use jiff::civil::Date;

use crate::model::amount::{Amount, Time, TimeUnit};
use crate::model::site::Site;
use crate::model::vocabulary::{Support, Vocabulary};
use crate::model::words::Words;

/// Phrases of one language.
#[derive(Clone, Copy)]
pub struct Phrases<'a> {
    pub words: &'a Words,
}

impl Phrases<'_> {
    /// "10" or "8 to 12".
    pub fn amount(&self, amount: Amount) -> String {
        self.range(f64::from(amount.low), f64::from(amount.high))
    }

    /// "20 seconds" or "10 to 20 seconds".
    pub fn time(&self, time: Time) -> String {
        let id = match time.unit {
            TimeUnit::Second => "dose-seconds",
            TimeUnit::Minute => "dose-minutes",
        };
        let (low, high) = time.in_unit();
        self.counted(id, self.range(low, high), high)
    }

    /// A length such as that of a video: "11 minutes 20 seconds".
    pub fn length(&self, seconds: u32) -> String {
        let part = |id, n: u32| self.counted(id, n.to_string(), f64::from(n));
        let (minutes, rest) = (seconds / 60, seconds % 60);
        match (minutes, rest) {
            (0, rest) => part("dose-seconds", rest),
            (minutes, 0) => part("dose-minutes", minutes),
            (minutes, rest) => self.words.say_with(
                "dose-minutes-and-seconds",
                &[
                    ("minutes", part("dose-minutes", minutes).into()),
                    ("seconds", part("dose-seconds", rest).into()),
                ],
            ),
        }
    }

    /// A phrase that depends on a number: `$amount` is how it reads, `$count` decides between one and many.
    pub fn counted(&self, id: &str, amount: String, count: f64) -> String {
        self.words.say_with(id, &[("amount", amount.into()), ("count", FluentValue::from(count))])
    }

    /// "10" or "8 to 12", for numbers with a decimal part too.
    pub fn range(&self, low: f64, high: f64) -> String {
        if low == high {
            return self.number(low);
        }
        let ends = [("low", self.number(low).into()), ("high", self.number(high).into())];
        self.words.say_with("dose-range", &ends)
    }

    /// "5.7", with one decimal.
    pub fn decimal(&self, n: f64) -> String {
        self.number((n * 10.0).round() / 10.0)
    }

    fn number(&self, n: f64) -> String {
        let text = format!("{n}");
        if self.words.language.starts_with("en") { text } else { text.replace('.', ",") }
    }

    /// "Monday, February 15, 2027".
    pub fn date(&self, date: Date) -> String {
        self.say_date("date-long", date)
    }

    /// "February 15, 2027".
    pub fn day(&self, date: Date) -> String {
        self.say_date("date-day", date)
    }

    fn say_date(&self, id: &str, date: Date) -> String {
        let weekday = self.words.say(&format!("weekday-{}", date.weekday().to_monday_one_offset()));
        let month = self.words.say(&format!("month-{}", date.month()));
        self.words.say_with(
            id,
            &[
                ("weekday", weekday.into()),
                ("month", month.into()),
                ("day", date.day().to_string().into()),
                ("year", date.year().to_string().into()),
            ],
        )
    }

    /// "a, b, and c".
    pub fn and(&self, items: &[String]) -> String {
        self.list(items, "list-two", "list-many")
    }

    /// "a, b, or c".
    pub fn or(&self, items: &[String]) -> String {
        self.list(items, "list-or-two", "list-or-many")
    }

    fn list(&self, items: &[String], two: &str, many: &str) -> String {
        let [first @ .., last] = items else { return String::new() };
        let say = |id, first: String| {
            self.words.say_with(id, &[("first", first.into()), ("last", last.clone().into())])
        };
        match first {
            [] => last.clone(),
            [one] => say(two, one.clone()),
            several => say(many, several.join(&self.words.say("list-separator"))),
        }
    }

    /// The same words with a capital at their start.
    pub fn capital(&self, words: &str) -> String {
        let mut chars = words.chars();
        chars.next().map(|first| first.to_uppercase().chain(chars).collect()).unwrap_or_default()
    }

    /// "a kitchen counter".
    pub fn support(&self, support: Support) -> String {
        self.words.say(&format!("support-{}", support.word()))
    }

    /// "Call 911.", with the number that the educator gives.
    pub fn emergency_call(&self, site: &Site) -> String {
        match &site.educator.emergency {
            Some(number) => {
                self.words.say_with("safety-emergency-call", &[("number", number.as_str().into())])
            }
            None => self.words.say("safety-emergency-call-any"),
        }
    }

    /// What a client calls a precaution: the workspace's own words, else the theme's.
    pub fn precaution(&self, site: &Site, id: &str) -> String {
        let own = site.catalogue.precautions.get(id).and_then(|p| p.label.clone());
        own.unwrap_or_else(|| self.words.say(&format!("precaution-{id}")))
    }

    /// What a client calls a demand: the workspace's own words, else the theme's.
    pub fn demand(&self, site: &Site, id: &str) -> String {
        let own = site.catalogue.demands.get(id).cloned().flatten();
        own.unwrap_or_else(|| self.words.say(&format!("demand-{id}")))
    }
}

/// The language of the entries, where these words are of another.
pub fn texts_language<'m>(site: &'m Site, words: &Words) -> Option<&'m str> {
    fn base(language: &str) -> Option<&str> {
        language.split('-').next()
    }
    let texts = site.language.value.as_str();
    (base(texts) != base(&words.language)).then_some(texts)
}

/// Whether a language such as `ar` or `fa-IR` is written from right to left.
pub fn runs_from_right(language: &str) -> bool {
    let base = language.split('-').next().unwrap_or(language);
    ["ar", "dv", "fa", "he", "ps", "sd", "ug", "ur", "yi"].contains(&base)
}

/// What the mark of a clinic says: its name, or that of whoever prepares the exercises.
pub fn clinic(site: &Site) -> String {
    site.educator.clinic.as_ref().unwrap_or(&site.educator.name).clone()
}

/// What a phone dials for a number as it is printed: `tel:5550142` for "555 0142".
pub fn dialed(number: &str) -> String {
    let digits: String = number.chars().filter(|c| c.is_ascii_digit() || *c == '+').collect();
    format!("tel:{digits}")
}

/// A text without its line ends.
pub fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
