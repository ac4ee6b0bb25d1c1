//! The line of times of a cue: `00:01:05.000 --> 00:01:08.500`.

use super::{Line, Notes};
use crate::model::nearest::shown;

/// How a format writes the fraction of a second.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Fraction {
    /// WebVTT: `01:05.000`, hours only where there are any.
    Point,
    /// SubRip: `00:01:05,000`.
    Comma,
}

/// Milliseconds from the start of the video.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Times {
    pub(super) start: u64,
    pub(super) end: u64,
    /// What stands after the times.
    pub(super) settings: String,
}

/// Reads a line of times that holds the arrow. With a mistake in it there is a finding, and no times.
pub(super) fn read(line: &Line<'_>, fraction: Fraction, notes: &mut Notes) -> Option<Times> {
    let arrow = line.text.find("-->")?;
    let (before, after) = (&line.text[..arrow], &line.text[arrow + 3..]);
    let spaced = before.ends_with([' ', '\t']) && after.starts_with([' ', '\t']);
    if !spaced {
        notes.wrong(
            line.at + arrow..line.at + arrow + 3,
            "expected a space before and after `-->`",
            "write the line as `00:01:05.000 --> 00:01:08.500`".replace('.', fraction.mark()),
        );
        return None;
    }
    let start = before.trim();
    let start_at = line.at + before.len() - before.trim_start().len();
    let rest = after.trim_start();
    let end_at = line.at + line.text.len() - rest.len();
    let end = rest.split([' ', '\t']).next().unwrap_or("");
    let settings = rest[end.len()..].trim();
    let read = |text: &str, at: usize, notes: &mut Notes| {
        let time = milliseconds(text, fraction);
        if time.is_none() {
            notes.wrong(
                at..at + text.len(),
                format!("expected a time such as `{}`, found {}", fraction.example(), shown(text)),
                fraction.help(),
            );
        }
        time
    };
    let (first, last) = (read(start, start_at, notes), read(end, end_at, notes));
    let (first, last) = (first?, last?);
    if last <= first {
        notes.wrong(
            end_at..end_at + end.len(),
            format!("these captions end at `{end}`, not after their start `{start}`"),
            "write a later end, or an earlier start",
        );
        return None;
    }
    Some(Times { start: first, end: last, settings: settings.to_string() })
}

impl Fraction {
    fn mark(self) -> &'static str {
        match self {
            Fraction::Point => ".",
            Fraction::Comma => ",",
        }
    }

    fn example(self) -> &'static str {
        match self {
            Fraction::Point => "01:05.000",
            Fraction::Comma => "00:01:05,000",
        }
    }

    fn help(self) -> &'static str {
        match self {
            Fraction::Point => {
                "write minutes, seconds and three digits after a point; from an hour on also the hours: `1:02:03.000` \
                 is `01:02:03.000`"
            }
            Fraction::Comma => "write hours, minutes, seconds and three digits after a comma: `00:01:05,000`",
        }
    }
}

/// A time in milliseconds. WebVTT section 4.3: two or more digits of hours, which only the first hour may
/// leave out, two of minutes and of seconds below 60, three of the fraction.
fn milliseconds(text: &str, fraction: Fraction) -> Option<u64> {
    let (clock, thousandths) = text.split_once(fraction.mark())?;
    let parts: Vec<&str> = clock.split(':').collect();
    let (hours, minutes, seconds) = match parts.as_slice() {
        [hours, minutes, seconds] if (2..=4).contains(&hours.len()) => (*hours, *minutes, *seconds),
        [minutes, seconds] if fraction == Fraction::Point => ("00", *minutes, *seconds),
        _ => return None,
    };
    if minutes.len() != 2 || seconds.len() != 2 || thousandths.len() != 3 {
        return None;
    }
    let number = |digits: &str| -> Option<u64> {
        digits.bytes().all(|b| b.is_ascii_digit()).then(|| digits.parse().ok())?
    };
    let (minutes, seconds) = (number(minutes)?, number(seconds)?);
    (minutes < 60 && seconds < 60)
        .then_some(((number(hours)? * 60 + minutes) * 60 + seconds) * 1000 + number(thousandths)?)
}
