//! Weeks that miss their targets, in words, for `below-target` and `above-target`.

use std::collections::BTreeMap;

use super::Case;
use crate::model::amount::Amount;
use crate::model::finding::Subject;
use crate::model::series::Series;
use crate::model::source::Span;
use crate::model::targets;
use crate::model::week::Week;
use crate::reckon::aims::{Figure, Side, aim, figures, is_known};
use crate::reckon::between::Between;

/// Something that a week has too little or too much of, or most weeks of a series have.
pub(super) struct Miss {
    pub(super) span: Span,
    pub(super) message: String,
    pub(super) subjects: Vec<Subject>,
}

/// What lies on that side of its target. What most weeks of a series share is one finding at the series: it is
/// how the series is built, and no slip of a week.
pub(super) fn misses(case: &Case<'_>, side: Side) -> Vec<Miss> {
    let mut misses = Vec::new();
    for series in case.model.series.values() {
        let mut by_target: BTreeMap<&str, Vec<Missed<'_>>> = BTreeMap::new();
        let mut weeks = 0;
        for week in series.weeks.iter().filter(|week| is_known(case.model, week)) {
            weeks += 1;
            for figure in figures(case.model, week) {
                let Ok(aim) = aim(figure.target, series, &case.model.site) else { continue };
                if Side::of(figure.value, aim.amount) == side {
                    let missed = Missed { week, figure, aim: aim.amount };
                    by_target.entry(missed.figure.target.name).or_default().push(missed);
                }
            }
        }
        for missed in by_target.into_values() {
            misses.extend(told(series, missed, weeks, side));
        }
    }
    misses
}

/// A figure that misses its aim.
struct Missed<'m> {
    week: &'m Week,
    figure: Figure<'m>,
    aim: Amount,
}

fn told(series: &Series, missed: Vec<Missed<'_>>, weeks: usize, side: Side) -> Vec<Miss> {
    let side = if side == Side::Above { "above" } else { "below" };
    let mut numbers: Vec<u32> = missed.iter().map(|missed| missed.week.number.value).collect();
    numbers.dedup();
    if let [first, _, ..] = &missed[..]
        && numbers.len() * 2 > weeks
        && numbers.len() > 1
    {
        let low = missed.iter().map(|missed| missed.figure.value.low).min().unwrap_or(0);
        let high = missed.iter().map(|missed| missed.figure.value.high).max().unwrap_or(0);
        let value = Between::new(low, high);
        let message = format!(
            "{} of {weeks} weeks have {}, {side} the target `{}` of `{}`",
            numbers.len(),
            said(&first.figure, value),
            first.figure.target.name,
            first.aim,
        );
        let subjects = subjects(&first.figure, value, first.aim);
        return vec![Miss { span: series.title.span, message, subjects }];
    }
    let one = |Missed { week, figure, aim }: Missed<'_>| Miss {
        message: format!(
            "week {} has {}, {side} the target `{}` of `{aim}`",
            week.number.value,
            said(&figure, figure.value),
            figure.target.name
        ),
        span: figure.of.map_or(week.exercises_span, |(used, _)| used.id.span),
        subjects: {
            let mut subjects = subjects(&figure, figure.value, aim);
            subjects.push(Subject::Week(week.number.value));
            subjects
        },
    };
    missed.into_iter().map(one).collect()
}

fn subjects(figure: &Figure<'_>, value: Between, aim: Amount) -> Vec<Subject> {
    let of = figure.of.map(|(_, exercise)| Subject::Exercise(exercise.id.clone()));
    let numbers = [Subject::Number(written(value)), Subject::number(aim)];
    [Subject::Target(figure.target.name.into())].into_iter().chain(of).chain(numbers).collect()
}

/// A range as an author writes it.
fn written(value: Between) -> String {
    if value.low == value.high { value.low.to_string() } else { format!("{}-{}", value.low, value.high) }
}

/// A figure in words, with this value of it.
fn said(figure: &Figure<'_>, value: Between) -> String {
    let number = format!("`{}`", written(value));
    let of = figure.of.map_or("", |(_, exercise)| exercise.id.as_str());
    match *figure.target {
        targets::POSTURE_DAYS => format!("posture on {number} days"),
        targets::BALANCE_DAYS => format!("balance on {number} days"),
        targets::STRENGTH_DAYS => format!("strength on {number} days"),
        targets::BALANCE_MINUTES => format!("balance for {number} minutes"),
        targets::IMPACT_DAYS => format!("landings on {number} days"),
        targets::IMPACTS => format!("{number} landings a session"),
        targets::STRENGTH_SETS => format!("`{of}` in {number} sets"),
        targets::STRENGTH_REPS => format!("`{of}` in {number} repetitions"),
        other => format!("{number} of `{}`", other.name),
    }
}
