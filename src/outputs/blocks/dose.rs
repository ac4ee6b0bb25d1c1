//! A dose in plain words: large figures for one glance, a line, and the details below.

use serde::Serialize;

use super::phrases::Phrases;
use crate::model::amount::{Amount, Time, TimeUnit};
use crate::model::dose::Dose;
use crate::model::vocabulary::{Sides, Vocabulary};

/// A dose as a reader sees it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct DoseBlock {
    /// "10 times, 2 sets, 3 to 4 days a week", with a capital where it begins with a word.
    pub glance: String,
    pub figures: Vec<Figure>,
    pub lines: Vec<Line>,
    /// True when the week changed it.
    pub changed: bool,
}

/// A large number and the small words beside it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Figure {
    pub number: String,
    pub unit: String,
}

/// A detail with its label.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Line {
    pub label: String,
    pub text: String,
}

impl DoseBlock {
    /// The words for a dose; `changed` when a week overrides some of it.
    pub fn of(dose: &Dose, changed: bool, say: Phrases<'_>) -> DoseBlock {
        DoseBlock { glance: glance(dose, say), figures: figures(dose, say), lines: lines(dose, say), changed }
    }
}

/// The dose in one line.
pub fn glance(dose: &Dose, say: Phrases<'_>) -> String {
    let mut parts = counts(dose, say);
    if let Some(days) = &dose.days {
        parts.push(match days.value {
            Amount { low: 7, high: 7 } => say.words.say("dose-days-every"),
            days => say.counted("dose-days", say.amount(days), f64::from(days.high)),
        });
    }
    say.capital(&parts.join(&say.words.say("dose-separator")))
}

/// What is done on one day, in one line: the dose without its days.
pub fn count(dose: &Dose, say: Phrases<'_>) -> String {
    say.capital(&counts(dose, say).join(&say.words.say("dose-separator")))
}

fn counts(dose: &Dose, say: Phrases<'_>) -> Vec<String> {
    let mut parts = Vec::new();
    let sides = dose.sides.as_ref().map(|s| s.value);
    let suffix = suffix(sides);
    // Sides are said once: with the repetitions where there are any.
    let timed = if dose.reps.is_some() { "" } else { suffix };
    let counted = |id: String, a: Amount| say.counted(&id, say.amount(a), f64::from(a.high));
    let time = |id: String, t: Time| say.words.say_with(&id, &[("time", say.time(t).into())]);
    if let Some(whole) = &dose.time {
        parts.push(time(format!("dose-time{timed}"), whole.value));
    }
    if let Some(reps) = &dose.reps {
        parts.push(counted(format!("dose-reps{suffix}"), reps.value));
    }
    if let Some(hold) = &dose.hold {
        parts.push(time(format!("dose-hold{timed}"), hold.value));
    }
    if let Some(sets) = &dose.sets {
        parts.push(counted("dose-sets".to_string(), sets.value));
    }
    parts
}

fn figures(dose: &Dose, say: Phrases<'_>) -> Vec<Figure> {
    let suffix = suffix(dose.sides.as_ref().map(|s| s.value));
    let amount = |id: String, a: Amount| Figure {
        number: say.amount(a),
        unit: say.counted(&id, say.amount(a), f64::from(a.high)),
    };
    let time = |id: &str, t: Time| {
        let (low, high) = t.in_unit();
        let number = say.range(low, high);
        let unit = match t.unit {
            TimeUnit::Second => "seconds",
            TimeUnit::Minute => "minutes",
        };
        Figure { unit: say.counted(&format!("{id}{unit}"), number.clone(), high), number }
    };
    [
        dose.time.as_ref().map(|t| time("dose-unit-", t.value)),
        dose.reps.as_ref().map(|r| amount(format!("dose-unit-reps{suffix}"), r.value)),
        dose.hold.as_ref().map(|h| time("dose-unit-hold-", h.value)),
        dose.sets.as_ref().map(|s| amount("dose-unit-sets".to_string(), s.value)),
        dose.days.as_ref().map(|d| amount("dose-unit-days".to_string(), d.value)),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn lines(dose: &Dose, say: Phrases<'_>) -> Vec<Line> {
    let line =
        |label: &str, text: String| Line { label: say.words.say(&format!("dose-label-{label}")), text };
    let time = |id: &str, t: Time| say.words.say_with(id, &[("time", say.time(t).into())]);
    // One set has nothing to rest between; without a word on sets the rest is between repetitions.
    let rest = match dose.sets.as_ref().map(|s| s.value.high) {
        Some(0 | 1) => None,
        Some(_) => Some("dose-rest-between-sets"),
        None => Some("dose-rest-between-reps"),
    };
    [
        dose.sides.as_ref().map(|s| line("sides", say.words.say(&format!("dose-sides-{}", s.value.word())))),
        dose.pace.as_ref().map(|p| line("pace", time("dose-pace", p.value))),
        dose.rest.as_ref().and_then(|r| Some(line("rest", time(rest?, r.value)))),
        dose.rest_days.as_ref().filter(|r| r.value.high > 0).map(|r| {
            line("rest-days", say.counted("dose-rest-days", say.amount(r.value), f64::from(r.value.high)))
        }),
        dose.effort.as_ref().map(|e| {
            let amount = say.counted("dose-effort", say.amount(e.value), f64::from(e.value.high));
            line("effort", format!("{amount}. {}", say.words.say("dose-effort-scale")))
        }),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn suffix(sides: Option<Sides>) -> &'static str {
    match sides {
        Some(Sides::Each) => "-each",
        Some(Sides::Alternating) => "-alternating",
        Some(Sides::BothTogether) | None => "",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::source::{FileId, Span, Spanned};
    use crate::model::words::Words;
    use crate::workspace::theme::Theme;

    fn at<T>(value: T) -> Option<Spanned<T>> {
        Some(Spanned::new(value, Span::start_of(FileId(0))))
    }

    fn dose() -> Dose {
        Dose::empty(Span::start_of(FileId(0)))
    }

    fn seconds(low: u32, high: u32) -> Option<Spanned<Time>> {
        at(Time { low: low * 1000, high: high * 1000, unit: TimeUnit::Second })
    }

    fn words(language: &str) -> Words {
        let theme = Theme::built_in();
        Words::read(language, theme.text(&format!("words/{language}.ftl")).unwrap(), theme.lists(language))
            .unwrap()
    }

    #[test]
    fn a_dose_reads_as_a_person_would_say_it() {
        let heel_drop = Dose {
            reps: at(Amount::exactly(10)),
            sets: at(Amount::exactly(2)),
            sides: at(Sides::BothTogether),
            days: at(Amount { low: 3, high: 4 }),
            ..dose()
        };
        let tandem = Dose {
            reps: at(Amount::exactly(1)),
            hold: seconds(10, 20),
            sides: at(Sides::Each),
            days: at(Amount::exactly(7)),
            ..dose()
        };
        let stand =
            Dose { hold: seconds(30, 30), sides: at(Sides::Each), sets: at(Amount::exactly(1)), ..dose() };
        let walk = Dose {
            time: at(Time { low: 300_000, high: 300_000, unit: TimeUnit::Minute }),
            days: at(Amount::exactly(1)),
            ..dose()
        };
        let slow = Dose {
            reps: at(Amount::exactly(8)),
            hold: at(Time { low: 1500, high: 1500, unit: TimeUnit::Second }),
            ..dose()
        };
        for (dose, english, spanish) in [
            (&heel_drop, "10 times, 2 sets, 3 to 4 days a week", "10 veces, 2 series, 3 a 4 días por semana"),
            (
                &tandem,
                "1 time on each side, hold 10 to 20 seconds, every day",
                "1 vez de cada lado, mantenga 10 a 20 segundos, todos los días",
            ),
            (&stand, "Hold 30 seconds on each side, 1 set", "Mantenga 30 segundos de cada lado, 1 serie"),
            (&walk, "5 minutes in all, 1 day a week", "5 minutos en total, 1 día por semana"),
            (&slow, "8 times, hold 1.5 seconds", "8 veces, mantenga 1,5 segundos"),
        ] {
            for (language, expected) in [("en", english), ("es", spanish)] {
                let words = words(language);
                assert_eq!(glance(dose, Phrases { words: &words }), expected, "{language}");
            }
        }
    }

    #[test]
    fn rest_is_between_sets_only_where_there_are_several() {
        let words = words("en");
        let rest = |sets: Option<u32>| {
            let dose = Dose {
                reps: at(Amount::exactly(5)),
                sets: sets.and_then(|sets| at(Amount::exactly(sets))),
                rest: seconds(60, 60),
                ..dose()
            };
            DoseBlock::of(&dose, false, Phrases { words: &words }).lines.pop().map(|l| l.text)
        };
        assert_eq!(rest(Some(2)).as_deref(), Some("60 seconds between sets"));
        assert_eq!(rest(None).as_deref(), Some("60 seconds in between"));
        assert_eq!(rest(Some(1)), None);
    }
}
