//! Weeks against their targets, for `below-target` and `above-target`.

use std::collections::{BTreeMap, BTreeSet};

use super::Case;
use crate::model::amount::Amount;
use crate::model::series::Series;
use crate::model::source::Span;
use crate::model::targets::{self, Target};
use crate::model::vocabulary::{Component, Vocabulary};
use crate::model::week::Week;
use crate::reckon::between::Between;
use crate::reckon::dose::{Practice, Session};

/// On which side of its target a week lies.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Side {
    Below,
    Above,
}

/// Something that a week has too little or too much of, or most weeks of a series have.
pub(super) struct Miss {
    pub(super) span: Span,
    pub(super) message: String,
}

/// Impacts are meant for people without a spine fracture (Brooke-Wavell 2022, Br J Sports Med 56:837-846, read in
/// summaries): their defaults are no aim of a series that serves this precaution.
const NO_IMPACT_AIM: &str = "spine-fracture";

/// What lies on that side of its target. What most weeks of a series share is one finding at the series: it is
/// how the series is built, and no slip of a week.
pub(super) fn misses(case: &Case<'_>, side: Side) -> Vec<Miss> {
    let mut misses = Vec::new();
    // A target that could not be read is not the default.
    let readable = |series: &&Series| series.standing.is_sound("targets");
    for series in case.model.series.values().filter(readable) {
        let mut by_target: BTreeMap<&str, Vec<(u32, Figure, Amount)>> = BTreeMap::new();
        let mut weeks = 0;
        for week in series.weeks.iter().filter(|week| is_known(case, week)) {
            weeks += 1;
            for figure in figures(case, week) {
                let Some(aim) = aim(figure.target, series, case) else { continue };
                let (low, high) = (u64::from(aim.low), u64::from(aim.high));
                let misses = match side {
                    Side::Below => figure.value.high < low,
                    Side::Above => figure.value.low > high,
                };
                if misses {
                    by_target.entry(figure.target.name).or_default().push((week.number.value, figure, aim));
                }
            }
        }
        for missed in by_target.into_values() {
            misses.extend(told(series, missed, weeks, side));
        }
    }
    misses
}

fn told(series: &Series, missed: Vec<(u32, Figure, Amount)>, weeks: usize, side: Side) -> Vec<Miss> {
    let side = match side {
        Side::Below => "below",
        Side::Above => "above",
    };
    let mut numbers: Vec<u32> = missed.iter().map(|(week, ..)| *week).collect();
    numbers.dedup();
    if let [(_, first, aim), _, ..] = &missed[..]
        && numbers.len() * 2 > weeks
        && numbers.len() > 1
    {
        let low = missed.iter().map(|(_, figure, _)| figure.value.low).min().unwrap_or(0);
        let high = missed.iter().map(|(_, figure, _)| figure.value.high).max().unwrap_or(0);
        let message = format!(
            "{} of {weeks} weeks have {}, {side} the target `{}` of `{aim}`",
            numbers.len(),
            first.said(Between::new(low, high)),
            first.target.name,
        );
        return vec![Miss { span: series.title.span, message }];
    }
    let one = |(week, figure, aim): (u32, Figure, Amount)| Miss {
        message: format!(
            "week {week} has {}, {side} the target `{}` of `{aim}`",
            figure.said(figure.value),
            figure.target.name
        ),
        span: figure.span,
    };
    missed.into_iter().map(one).collect()
}

/// A figure of a week, in the unit of its target.
struct Figure {
    target: &'static Target,
    value: Between,
    /// With `#` in place of the number.
    words: String,
    span: Span,
}

impl Figure {
    fn said(&self, value: Between) -> String {
        let number = match value.low == value.high {
            true => format!("`{}`", value.low),
            false => format!("`{}-{}`", value.low, value.high),
        };
        self.words.replace('#', &number)
    }
}

/// The target of a figure; `None` where the default is not meant for whom the series serves, or might not be.
fn aim(target: &Target, series: &Series, case: &Case<'_>) -> Option<Amount> {
    let impact = [targets::IMPACTS.name, targets::IMPACT_DAYS.name].contains(&target.name);
    let serves = series.serves.iter().any(|p| p.value == NO_IMPACT_AIM);
    let unsure = !series.standing.knows("serves");
    match target.set(Some(series), &case.model.site) {
        None if impact && (serves || unsure) => None,
        set => Some(set.unwrap_or(target.default)),
    }
}

fn figures(case: &Case<'_>, week: &Week) -> Vec<Figure> {
    let session = Session::of(case.model, week);
    let mut figures = Vec::new();
    let whole = |target: &'static Target, value: Between, words: String| Figure {
        target,
        value,
        words,
        span: week.exercises_span,
    };
    let by_days = [
        (Component::Posture, &targets::POSTURE_DAYS),
        (Component::Balance, &targets::BALANCE_DAYS),
        (Component::Strength, &targets::STRENGTH_DAYS),
    ];
    for (component, target) in by_days {
        let part = session.component(component);
        if let Some(days) = days(part.practices.iter().map(|(_, practice)| practice)) {
            figures.push(whole(target, days, format!("{} on # days", component.word())));
        }
    }
    let balance = session.component(Component::Balance);
    if !balance.practices.is_empty() {
        let (low, high) = balance.a_week(Practice::practising).minutes();
        let minutes = Between::new(low, high);
        figures.push(whole(&targets::BALANCE_MINUTES, minutes, "balance for # minutes".to_string()));
    }
    let landing = session.practices.iter().map(|(_, p)| p).filter(|p| p.all_impacts().high > 0);
    if let Some(days) = days(landing) {
        figures.push(whole(&targets::IMPACT_DAYS, days, "landings on # days".to_string()));
        let landings = session.sum(Practice::all_impacts);
        figures.push(whole(&targets::IMPACTS, landings, "# landings a session".to_string()));
    }
    for (used, exercise) in case.model.exercises_of(week) {
        if exercise.component.value != Component::Strength {
            continue;
        }
        let dose = used.dose_of(exercise);
        let practice = Practice::of(exercise, &dose);
        let mut add = |target, value, what: &str| {
            let words = format!("`{}` in # {what}", exercise.id);
            figures.push(Figure { target, value, words, span: used.id.span });
        };
        add(&targets::STRENGTH_SETS, practice.sets, "sets");
        if dose.reps.is_some() {
            add(&targets::STRENGTH_REPS, practice.reps_in_a_set, "repetitions");
        }
    }
    figures
}

/// On how many days of a week one of these is done: none where there is none of them.
fn days<'p>(practices: impl Iterator<Item = &'p Practice>) -> Option<Between> {
    let days: Vec<Between> = practices.map(|practice| practice.days).collect();
    let low = days.iter().map(|days| days.low).max()?;
    let high = days.iter().map(|days| days.high).sum::<u64>().min(7);
    Some(Between::new(low, high.max(low)))
}

/// True when nothing about the doses of the week had to be guessed, nor which of two doses of one exercise
/// holds.
pub(super) fn is_known(case: &Case<'_>, week: &Week) -> bool {
    let sound = |id: &str| {
        case.model
            .exercises
            .get(id)
            .is_some_and(|e| ["dose", "demands", "component"].iter().all(|field| e.standing.is_sound(field)))
    };
    let mut seen = BTreeSet::new();
    let once = week.exercises.iter().all(|used| seen.insert(&used.id.value));
    once && week.standing.is_sound("exercises") && week.exercises.iter().all(|used| sound(&used.id.value))
}
