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
    if let Some(days) = &dose.days {
        parts.push(match days.value {
            Amount { low: 7, high: 7 } => say.words.say("dose-days-every"),
            days => counted("dose-days".to_string(), days),
        });
    }
    say.capital(&parts.join(&say.words.say("dose-separator")))
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
    let several_sets = dose.sets.as_ref().is_some_and(|s| s.value.high > 1);
    let rest = if several_sets { "dose-rest-between-sets" } else { "dose-rest-between-reps" };
    [
        dose.sides.as_ref().map(|s| line("sides", say.words.say(&format!("dose-sides-{}", s.value.word())))),
        dose.pace.as_ref().map(|p| line("pace", time("dose-pace", p.value))),
        dose.rest.as_ref().map(|r| line("rest", time(rest, r.value))),
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
