//! The figures of a week, what each of them aims at, and on which side of its aim it lies.
//!
//! The review's rules on targets and the plan both ask here, so that they cannot disagree.

use std::cell::LazyCell;
use std::collections::BTreeSet;

use super::between::Between;
use super::days::DaySet;
use super::dose::{Practice, Session};
use super::practice::{Free, Plan, Request};
use crate::model::Model;
use crate::model::amount::Amount;
use crate::model::exercise::Exercise;
use crate::model::series::Series;
use crate::model::site::Site;
use crate::model::targets::{self, Target};
use crate::model::vocabulary::Component;
use crate::model::week::{Week, WeekExercise};

/// A figure of a week, in the unit of its target.
#[derive(Clone, Debug)]
pub struct Figure<'m> {
    pub target: &'static Target,
    pub value: Between,
    /// The exercise that it is of, where it is not of the week as a whole.
    pub of: Option<(&'m WeekExercise, &'m Exercise)>,
}

/// What the figures of a series aim at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Aim {
    pub amount: Amount,
    pub origin: Origin,
}

/// Who set an aim.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Origin {
    Series,
    Site,
    /// The default, whose source stands beside the target.
    Default,
}

/// Why a series has no aim for a target.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoAim {
    /// The default is not meant for people with this precaution, whom the series serves.
    NotFor(&'static str),
    /// What the series serves, or its targets, could not be read.
    Unread,
}

/// On which side of an aim a figure lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Side {
    /// Not even the high end of the doses meets it.
    Below,
    /// Only the high end of the doses meets it.
    Perhaps,
    /// The low end of the doses meets it.
    Met,
    /// Even the low end of the doses goes beyond it.
    Above,
}

/// Why the figures of a week are not known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unknown<'m> {
    /// The list of its exercises, or a dose in it, could not be read.
    List,
    /// This exercise is not there.
    Missing(&'m str),
    /// The dose, the demands or the component of this exercise could not be read.
    Unread(&'m str),
    /// This exercise stands in it twice: which of two doses holds?
    Twice(&'m str),
}

/// Impacts are meant for people without a spine fracture (Brooke-Wavell 2022, Br J Sports Med 56:837-846, read in
/// summaries): their defaults are no aim of a series that serves this precaution.
pub const NO_IMPACT_AIM: &str = "spine-fracture";

/// The targets that weeks have figures for, in the order of those of a week.
pub const TARGETS: [&Target; 8] = [
    &targets::POSTURE_DAYS,
    &targets::BALANCE_DAYS,
    &targets::BALANCE_MINUTES,
    &targets::STRENGTH_DAYS,
    &targets::STRENGTH_SETS,
    &targets::STRENGTH_REPS,
    &targets::IMPACT_DAYS,
    &targets::IMPACTS,
];

/// The figures of a week. What it has nothing of has no figure.
pub fn figures<'m>(model: &'m Model, week: &'m Week) -> Vec<Figure<'m>> {
    let session = Session::of(model, week);
    let planned = LazyCell::new(|| practice_week(model, week));
    let days = |counts: &dyn Fn(&Exercise, &Practice) -> bool| days(&session, &planned, counts);
    let mut figures = Vec::new();
    let whole = |target: &'static Target, value: Between| Figure { target, value, of: None };
    let by_days = [
        (Component::Posture, &targets::POSTURE_DAYS),
        (Component::Balance, &targets::BALANCE_DAYS),
        (Component::Strength, &targets::STRENGTH_DAYS),
    ];
    for (component, target) in by_days {
        if let Some(days) = days(&|exercise, _| exercise.component.value == component) {
            figures.push(whole(target, days));
        }
    }
    let balance = session.component(Component::Balance);
    if !balance.practices.is_empty() {
        let (low, high) = balance.a_week(Practice::exercising).minutes();
        figures.push(whole(&targets::BALANCE_MINUTES, Between::new(low, high)));
    }
    if let Some(days) = days(&|_, practice| practice.all_impacts().high > 0) {
        figures.push(whole(&targets::IMPACT_DAYS, days));
        figures.push(whole(&targets::IMPACTS, session.sum(Practice::all_impacts)));
    }
    for (used, exercise) in model.exercises_of(week) {
        if exercise.component.value != Component::Strength {
            continue;
        }
        let dose = used.dose_of(exercise);
        let practice = Practice::of(exercise, &dose);
        let mut add = |target, value| figures.push(Figure { target, value, of: Some((used, exercise)) });
        add(&targets::STRENGTH_SETS, practice.sets);
        if dose.reps.is_some() {
            add(&targets::STRENGTH_REPS, practice.reps_in_a_set);
        }
    }
    figures
}

/// What a target asks of a series.
///
/// # Errors
/// Where the default is not meant for whom the series serves, or might not be, or where the series sets
/// something that could not be read.
pub fn aim(target: &Target, series: &Series, site: &Site) -> Result<Aim, NoAim> {
    // A target that could not be read is not the default.
    if !series.standing.is_sound("targets") {
        return Err(NoAim::Unread);
    }
    if let Some(own) = series.targets.get(target.name) {
        return Ok(Aim { amount: own.value, origin: Origin::Series });
    }
    if let Some(set) = target.set(None, site) {
        return Ok(Aim { amount: set, origin: Origin::Site });
    }
    if [targets::IMPACTS.name, targets::IMPACT_DAYS.name].contains(&target.name) {
        if series.serves.iter().any(|p| p.value == NO_IMPACT_AIM) {
            return Err(NoAim::NotFor(NO_IMPACT_AIM));
        }
        if !series.standing.knows("serves") {
            return Err(NoAim::Unread);
        }
    }
    Ok(Aim { amount: target.default, origin: Origin::Default })
}

impl Side {
    /// A figure misses its aim only where all of it does, and meets it for certain only where its low end does.
    pub fn of(value: Between, aim: Amount) -> Side {
        if value.high < u64::from(aim.low) {
            Side::Below
        } else if value.low > u64::from(aim.high) {
            Side::Above
        } else if value.low < u64::from(aim.low) {
            Side::Perhaps
        } else {
            Side::Met
        }
    }
}

/// Why the figures of a week are not known: something about its doses would have to be guessed. `None` when
/// they are.
pub fn unknown<'m>(model: &Model, week: &'m Week) -> Option<Unknown<'m>> {
    if !week.standing.is_sound("exercises") {
        return Some(Unknown::List);
    }
    let mut seen = BTreeSet::new();
    week.exercises.iter().find_map(|used| {
        let id = used.id.value.as_str();
        let Some(exercise) = model.exercises.get(id) else { return Some(Unknown::Missing(id)) };
        let sound = ["dose", "demands", "component"].iter().all(|field| exercise.standing.is_sound(field));
        match (sound, seen.insert(id)) {
            (false, _) => Some(Unknown::Unread(id)),
            (true, false) => Some(Unknown::Twice(id)),
            (true, true) => None,
        }
    })
}

/// True when nothing about the doses of the week has to be guessed.
pub fn is_known(model: &Model, week: &Week) -> bool {
    unknown(model, week).is_none()
}

/// On how many days of a week something that `counts` is done; `None` where there is nothing of it. At the least all of
/// it is done on the same days; at the most on as many as one of them asks for, or as the practice week has for them
/// together.
fn days(
    session: &Session<'_>,
    planned: &LazyCell<Vec<DaySet>, impl FnOnce() -> Vec<DaySet>>,
    counts: &dyn Fn(&Exercise, &Practice) -> bool,
) -> Option<Between> {
    let of_it = || session.practices.iter().enumerate().filter(|(_, (e, practice))| counts(e, practice));
    let low = of_it().map(|(_, (_, practice))| practice.days.low).max()?;
    let high = of_it().map(|(_, (_, practice))| practice.days.high).max()?;
    let together = match of_it().count() {
        1 => 0,
        _ => of_it().fold(DaySet::NONE, |days, (at, _)| days.union(planned[at])).len(),
    };
    Some(Between::new(low, high.max(low).max(together.into())))
}

/// The days of each exercise in the practice week, in the order of the week.
fn practice_week(model: &Model, week: &Week) -> Vec<DaySet> {
    let requests = model.exercises_of(week).map(|(used, e)| Request::of(e, &used.dose_of(e)));
    Plan::of(&requests.collect::<Vec<_>>(), Free::ANY).days
}
