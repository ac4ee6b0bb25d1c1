//! A dose in plain words: large figures for one glance, a line, and the details below.

use serde::Serialize;

use super::minutes::about;
use super::phrases::Phrases;
use crate::model::amount::{Amount, Time, TimeUnit};
use crate::model::dose::Dose;
use crate::model::vocabulary::{Sides, Vocabulary};
use crate::reckon::between::Between;

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
    /// On how many days, rather than how much on one of them.
    pub often: bool,
}

/// A detail with its label.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Line {
    pub label: String,
    pub text: String,
}

impl DoseBlock {
    /// The words for a dose that takes so long, where that is known; `changed` when a week overrides some of it.
    pub fn of(dose: &Dose, length: Option<Between>, changed: bool, say: Phrases<'_>) -> DoseBlock {
        let time = length
            .map(|length| Line { label: say.words.say("dose-label-time"), text: about(length, None, say) });
        let lines = time.into_iter().chain(lines(dose, say)).collect();
        DoseBlock { glance: glance(dose, say), figures: figures(dose, say), lines, changed }
    }
}

/// The dose in one line.
pub fn glance(dose: &Dose, say: Phrases<'_>) -> String {
    let mut parts = counts(dose, say);
    parts.extend(dose.days.as_ref().map(|days| days_a_week(days.value, say)));
    say.capital(&parts.join(&say.words.say("dose-separator")))
}

/// "3 to 4 days a week", or "every day".
pub(super) fn days_a_week(days: Amount, say: Phrases<'_>) -> String {
    match days {
        Amount { low: 7, high: 7 } => say.words.say("dose-days-every"),
        days => say.counted("dose-days", say.amount(days), f64::from(days.high)),
    }
}

/// What is done on one day, in one line: the dose without its days.
pub fn count(dose: &Dose, say: Phrases<'_>) -> String {
    say.capital(&counts(dose, say).join(&say.words.say("dose-separator")))
}

fn counts(dose: &Dose, say: Phrases<'_>) -> Vec<String> {
    let mut parts = Vec::new();
    let suffix = suffix(dose);
    let counted = |id: &str, a: Amount| say.counted(id, say.amount(a), f64::from(a.high));
    let time = |id: &str, t: Time| say.words.say_with(id, &[("time", say.time(t).into())]);
    let mut sets = dose.sets.as_ref().map(|sets| sets.value);
    // Sides are said once: with the repetitions where there are any, else with the time.
    match (&dose.time, &dose.reps) {
        (None, None) => {}
        (Some(whole), None) => parts.push(match sets.take() {
            None => time(&format!("dose-time{suffix}"), whole.value),
            Some(sets) => say.words.say_with(
                &format!("dose-sets-of{suffix}"),
                &[
                    ("amount", say.amount(sets).into()),
                    ("count", sets.high.into()),
                    ("time", say.time(whole.value).into()),
                ],
            ),
        }),
        (within, Some(reps)) => {
            let each = sides(dose) == Some(Sides::Each);
            let within_id = if each { "dose-within-each" } else { "dose-within" };
            parts.push(counted(&format!("dose-reps{}", of_reps(dose)), reps.value));
            parts.extend(within.as_ref().map(|t| time(within_id, t.value)));
        }
    }
    if let Some(hold) = &dose.hold {
        let id = match (&dose.time, &dose.reps) {
            (None, None) => format!("dose-hold{suffix}"),
            (Some(_), None) => "dose-hold-each-time".to_string(),
            (_, Some(_)) => "dose-hold".to_string(),
        };
        parts.push(time(&id, hold.value));
    }
    parts.extend(sets.map(|sets| counted("dose-sets", sets)));
    parts
}

fn figures(dose: &Dose, say: Phrases<'_>) -> Vec<Figure> {
    let suffix = suffix(dose);
    let amount = |id: &str, a: Amount| Figure {
        number: say.amount(a),
        unit: say.counted(id, say.amount(a), f64::from(a.high)),
        often: id == "dose-unit-days",
    };
    let time = |id: &str, t: Time| {
        let (low, high) = t.in_unit();
        let number = say.range(low, high);
        let unit = match t.unit {
            TimeUnit::Second => "seconds",
            TimeUnit::Minute => "minutes",
        };
        Figure { unit: say.counted(&format!("{id}{unit}"), number.clone(), high), number, often: false }
    };
    let whole = |t: Time| {
        let Figure { number, unit, .. } = time("dose-unit-", t);
        let extent = say.words.say(&format!("dose-extent{}{suffix}", in_sets(dose)));
        let both = [("unit", unit.into()), ("extent", extent.into())];
        Figure { number, unit: say.words.say_with("dose-unit-time", &both), often: false }
    };
    let reps = format!("dose-unit-reps{}", of_reps(dose));
    [
        dose.time.as_ref().map(|t| whole(t.value)),
        dose.reps.as_ref().map(|r| amount(&reps, r.value)),
        dose.hold.as_ref().map(|h| time("dose-unit-hold-", h.value)),
        dose.sets.as_ref().map(|s| amount("dose-unit-sets", s.value)),
        dose.days.as_ref().map(|d| amount("dose-unit-days", d.value)),
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
    let repeated = dose.reps.as_ref().is_some_and(|reps| reps.value.high > 1);
    let rest = match dose.sets.as_ref().map(|s| s.value.high) {
        Some(sets) => (sets > 1).then_some("dose-rest-between-sets"),
        None => repeated.then_some("dose-rest-between-reps"),
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

fn suffix(dose: &Dose) -> &'static str {
    match sides(dose) {
        Some(Sides::Each) => "-each",
        Some(Sides::Alternating) => "-alternating",
        Some(Sides::BothTogether) | None => "",
    }
}

/// Repetitions that change sides are counted for both, in every set anew.
fn of_reps(dose: &Dose) -> &'static str {
    match (suffix(dose), in_sets(dose)) {
        ("-alternating", "-sets") => "-alternating-sets",
        (suffix, _) => suffix,
    }
}

/// What is done in every set anew is no sum for all of them.
fn in_sets(dose: &Dose) -> &'static str {
    if dose.sets.as_ref().is_some_and(|sets| sets.value.high > 1) { "-sets" } else { "" }
}

fn sides(dose: &Dose) -> Option<Sides> {
    dose.sides.as_ref().map(|sides| sides.value)
}

#[cfg(test)]
mod tests;
