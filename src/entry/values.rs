//! Values with a grammar of their own: counts and ranges, lengths of time, dates, video times.

use std::ops::RangeInclusive;

use jiff::civil::Date;
use toml::de::DeValue;

use super::fields::{Fields, Notes, kind_of};
use crate::model::amount::{Amount, Time, TimeUnit};
use crate::model::nearest;
use crate::model::source::{Span, Spanned};

impl Fields<'_> {
    /// A count such as `10` or `"8-12"`, within `from..=to`.
    pub(super) fn amount(
        &mut self,
        key: &'static str,
        (from, to): (u32, u32),
        notes: &mut Notes,
    ) -> Option<Spanned<Amount>> {
        let (value, span) = self.value(key, notes)?;
        let read = amount(value, span, (from, to));
        self.note(key, read, notes)
    }

    /// A length of time such as `"20 s"`, `"10-20 s"` or `"5 min"`.
    pub(super) fn time(&mut self, key: &'static str, notes: &mut Notes) -> Option<Spanned<Time>> {
        let (value, span) = self.value(key, notes)?;
        let read = time(value, span);
        self.note(key, read, notes)
    }

    /// A date such as `2027-02-15`, without quotes.
    pub(super) fn date(&mut self, key: &'static str, notes: &mut Notes) -> Option<Spanned<Date>> {
        let (value, span) = self.value(key, notes)?;
        let read = date(value, span);
        self.note(key, read, notes)
    }

    pub(super) fn required_date(&mut self, key: &'static str, notes: &mut Notes) -> Spanned<Date> {
        if self.key_span(key, notes).is_none() {
            self.missing(key, "2027-02-15", notes);
        }
        self.date(key, notes).unwrap_or(Spanned::new(Date::constant(1970, 1, 1), self.whole))
    }

    /// A time in a video, such as `"8:55"` or `"1:02:30"`, in seconds.
    pub(super) fn clock(&mut self, key: &'static str, notes: &mut Notes) -> Option<Spanned<u32>> {
        let (value, span) = self.value(key, notes)?;
        let read = clock(value, span);
        self.note(key, read, notes)
    }

    /// True or false.
    pub(super) fn truth(&mut self, key: &'static str, notes: &mut Notes) -> Option<bool> {
        let (value, span) = self.value(key, notes)?;
        let read = value.as_bool();
        if read.is_none() {
            self.standing.mark_stand_in(key);
            notes.wrong(
                span,
                format!("expected `true` or `false`, found {}", kind_of(value)),
                "write `true` or `false`, without quotes",
            );
        }
        read
    }

    /// A whole number from `from` to `to`.
    pub(super) fn number(
        &mut self,
        key: &'static str,
        (from, to): (u32, u32),
        notes: &mut Notes,
    ) -> Option<Spanned<u32>> {
        let (value, span) = self.value(key, notes)?;
        let read = match integer(value) {
            Some(n) if (from..=to).contains(&n) => Ok(Spanned::new(n, span)),
            _ => Err(Wrong {
                span,
                message: format!("expected a whole number from {from} to {to}, found {}", shown(value)),
                help: format!("write a number such as {from}, without quotes"),
            }),
        };
        self.note(key, read, notes)
    }

    fn note<T>(&mut self, key: &'static str, read: Result<T, Wrong>, notes: &mut Notes) -> Option<T> {
        match read {
            Ok(value) => Some(value),
            Err(wrong) => {
                self.standing.mark_stand_in(key);
                notes.wrong(wrong.span, wrong.message, wrong.help);
                None
            }
        }
    }
}

/// A value that is not what was expected.
pub(super) struct Wrong {
    span: Span,
    message: String,
    help: String,
}

fn amount(value: &DeValue<'_>, span: Span, (from, to): (u32, u32)) -> Result<Spanned<Amount>, Wrong> {
    let wrong = |found: String| Wrong {
        span,
        message: format!("expected a whole number or a range from {from} to {to}, found {found}"),
        help: "write a number such as 10, or a range such as \"8-12\", low before high".to_string(),
    };
    let read = match (integer(value), value.as_str()) {
        (Some(n), _) => Some(Amount::exactly(n)),
        (None, Some(text)) => range(text, |n| n.parse::<u32>().ok()).map(|(low, high)| Amount { low, high }),
        _ => None,
    };
    match read {
        Some(a) if a.low >= from && a.high <= to && a.low <= a.high => Ok(Spanned::new(a, span)),
        _ => Err(wrong(shown(value))),
    }
}

/// The longest time that a dose may name: two hours.
const MOST_TIME: f64 = 2.0 * 60.0 * 60_000.0;

fn time(value: &DeValue<'_>, span: Span) -> Result<Spanned<Time>, Wrong> {
    let wrong = |help: &str| Wrong {
        span,
        message: format!("expected a number and `s` or `min`, found {}", shown(value)),
        help: help.to_string(),
    };
    const HOW: &str = "write a time such as \"20 s\", \"10-20 s\" or \"5 min\"";
    let text = value.as_str().ok_or_else(|| wrong(HOW))?.trim();
    if text.contains(',') {
        let stop = text.replace(',', ".");
        return Err(wrong(&format!("write a full stop in the number, and no comma: \"{stop}\"")));
    }
    let unit_at = text.find(|c: char| c.is_alphabetic()).ok_or_else(|| wrong(HOW))?;
    let (numbers, sign) = text.split_at(unit_at);
    let unit = match sign {
        "s" => TimeUnit::Second,
        "min" => TimeUnit::Minute,
        _ => return Err(wrong(&format!("the unit {} is not known here; {HOW}", nearest::shown(sign)))),
    };
    let number = |n: &str| n.parse::<f64>().ok().filter(|n| n.is_finite() && *n >= 0.0);
    let (low, high) = range(numbers.trim(), number).ok_or_else(|| wrong(HOW))?;
    // Below a millisecond a time is none: what counts is the number as it is kept.
    let (low, high) = ((low * unit.millis()).round(), (high * unit.millis()).round());
    if low > high || high <= 0.0 || high > MOST_TIME {
        return Err(wrong("write a time between 0 and 2 hours, low before high, such as \"10-20 s\""));
    }
    Ok(Spanned::new(Time { low: low as u32, high: high as u32, unit }, span))
}

/// What to write for a day in another order or with other marks, such as `20/11/2026`.
pub(super) fn other_day(text: &str) -> Option<String> {
    let parts: Vec<&str> = text.trim().split(['/', '.', '-']).collect();
    let [first, second, third] = parts.as_slice() else { return None };
    let number = |part: &str, digits: RangeInclusive<usize>| -> Option<u16> {
        let plain = digits.contains(&part.len()) && part.bytes().all(|b| b.is_ascii_digit());
        plain.then(|| part.parse().ok()).flatten()
    };
    let written =
        |year: u16, month: u16, day: u16| Date::new(i16::try_from(year).ok()?, month as i8, day as i8).ok();
    let days: Vec<Date> = match (number(first, 1..=2), number(second, 1..=2), number(third, 4..=4)) {
        (Some(a), Some(b), Some(year)) => {
            [written(year, b, a), written(year, a, b)].into_iter().flatten().collect()
        }
        _ => {
            let (year, month, day) = (number(first, 4..=4)?, number(second, 1..=2)?, number(third, 1..=2)?);
            written(year, month, day).into_iter().collect()
        }
    };
    Some(match days.as_slice() {
        [one, other] if one != other => {
            format!("write year, month and day, without quotes: {one} or {other}, whichever is meant")
        }
        [day, ..] => format!("write year, month and day, without quotes: {day}"),
        [] => return None,
    })
}

/// Of any other year it is a slip.
const YEARS: std::ops::Range<u16> = 1900..2200;

fn date(value: &DeValue<'_>, span: Span) -> Result<Spanned<Date>, Wrong> {
    let wrong = || Wrong {
        span,
        message: format!("expected a date, found {}", shown(value)),
        help: value
            .as_str()
            .and_then(other_day)
            .unwrap_or_else(|| "write year, month and day without quotes, such as 2027-02-15".to_string()),
    };
    let written = value.as_datetime().ok_or_else(wrong)?;
    let (Some(d), None) = (written.date, written.time) else { return Err(wrong()) };
    if !YEARS.contains(&d.year) {
        return Err(Wrong {
            span,
            message: format!("expected a year from {} to {}, found {}", YEARS.start, YEARS.end - 1, d.year),
            help: "write the year in full, such as 2027-02-15".to_string(),
        });
    }
    let date = Date::new(i16::try_from(d.year).map_err(|_| wrong())?, d.month as i8, d.day as i8);
    date.map(|d| Spanned::new(d, span)).map_err(|_| wrong())
}

fn clock(value: &DeValue<'_>, span: Span) -> Result<Spanned<u32>, Wrong> {
    let wrong = || Wrong {
        span,
        message: format!("expected a time in the video, found {}", shown(value)),
        help: "write minutes and seconds such as \"8:55\", or hours too such as \"1:02:30\"".to_string(),
    };
    let text = value.as_str().ok_or_else(wrong)?;
    let parts: Option<Vec<u32>> = text
        .split(':')
        .map(|p| p.parse::<u32>().ok().filter(|_| p.len() <= 3 && p.bytes().all(|b| b.is_ascii_digit())))
        .collect();
    let seconds = match parts.as_deref() {
        Some(&[m, s]) if s < 60 && two_digits(text) => m * 60 + s,
        Some(&[h, m, s]) if m < 60 && s < 60 && two_digits(text) => h * 3600 + m * 60 + s,
        _ => return Err(wrong()),
    };
    Ok(Spanned::new(seconds, span))
}

/// Seconds, the last part, are always two digits: `8:05`, never `8:5`.
fn two_digits(text: &str) -> bool {
    text.rsplit(':').next().is_some_and(|s| s.len() == 2)
}

/// "8-12" or "10"; an en dash, which some editors put for a hyphen, is one too.
fn range<T: Copy>(text: &str, number: impl Fn(&str) -> Option<T>) -> Option<(T, T)> {
    match text.split_once(['-', '\u{2013}']) {
        Some((low, high)) => Some((number(low.trim())?, number(high.trim())?)),
        None => number(text.trim()).map(|n| (n, n)),
    }
}

/// A whole number that is not below zero.
pub(super) fn integer(value: &DeValue<'_>) -> Option<u32> {
    let integer = value.as_integer()?;
    u32::from_str_radix(integer.as_str(), integer.radix()).ok()
}

/// The author's own value in a message.
fn shown(value: &DeValue<'_>) -> String {
    match value {
        DeValue::String(text) => nearest::shown(text),
        DeValue::Integer(n) => nearest::shown(&n.to_string()),
        DeValue::Float(n) => nearest::shown(n.as_str()),
        DeValue::Boolean(b) => format!("`{b}`"),
        DeValue::Datetime(d) => format!("`{d}`"),
        other => kind_of(other).to_string(),
    }
}
