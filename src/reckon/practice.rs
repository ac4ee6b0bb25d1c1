//! The practice week: on which days a person does which exercise.
//!
//! Exercises that rest, rest by region: two that train the same region of the body and that both need a clear day
//! are done on the same day or with a clear day between them, Sunday and Monday included.
//!
//! The search is exact. Of all weeks in which no exercise breaks its rest days, no region misses its clear day, no day
//! is used that is not free and none is longer than the minutes a day allow, it finds the one with, in this order,
//!
//! 1. as many exercises as possible on their low number of days or more;
//! 2. as few days as possible missing from the others;
//! 3. as few minutes as possible on the heaviest day;
//! 4. more days, up to the high number of each exercise, where they make the heaviest day no heavier: those
//!    with rest days come before the others, longer ones before shorter ones, then in the order given;
//! 5. and in the same order days that are spread evenly, then earlier days.

mod search;

use super::days::DaySet;
use super::dose::Practice;
use super::regions::Regions;
use crate::model::dose::Dose;
use crate::model::exercise::Exercise;
use crate::model::vocabulary::Component;

/// What one exercise asks of the week.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Request {
    /// Days a week, from low to high.
    pub low: u32,
    pub high: u32,
    /// Clear days between two of its days.
    pub rest_days: u32,
    /// Never on two days running, whatever `rest_days` says.
    pub apart: bool,
    /// Minutes a session.
    pub minutes: u32,
    /// The regions of the body that it trains.
    pub regions: Regions,
}

/// When a person can practice.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Free {
    pub days: DaySet,
    /// The most minutes on one day.
    pub minutes: Option<u32>,
}

/// A practice week.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plan {
    /// The days of each exercise, in the order of the requests.
    pub days: Vec<DaySet>,
    /// The minutes of each day, Monday first.
    pub minutes: [u32; 7],
    /// The exercises that got fewer days than they ask for, in the order of the requests.
    pub short: Vec<Short>,
}

/// An exercise that got fewer days than it asks for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Short {
    /// Which of the requests.
    pub request: usize,
    pub wanted: u32,
    pub got: u32,
    /// Each of them alone would do, and would take no day below what another exercise asks for.
    pub remedies: Vec<Remedy>,
}

/// What would let an exercise have its days.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Remedy {
    /// To ask for so many days.
    Days(u32),
    /// To practice on these days as well: the fewest that do, the earliest of these.
    FreeDays(DaySet),
    /// So many clear days in between: the most that do.
    RestDays(u32),
    /// So many minutes a day: the fewest with which all exercises have their days.
    Minutes(u32),
}

impl Request {
    /// What an exercise asks for in this dose, its session reckoned at its longest.
    pub fn of(exercise: &Exercise, dose: &Dose) -> Request {
        Request::for_practice(exercise, dose, &Practice::of(exercise, dose))
    }

    /// The same for a practice that was reckoned before.
    pub fn for_practice(exercise: &Exercise, dose: &Dose, practice: &Practice) -> Request {
        Request {
            low: practice.days.low as u32,
            high: practice.days.high as u32,
            rest_days: dose.rest_days.as_ref().map_or(0, |rest| rest.value.low),
            apart: needs_rest(exercise, dose),
            minutes: u32::try_from(practice.whole().minutes().1).unwrap_or(u32::MAX),
            regions: Regions::trained_by(exercise),
        }
    }

    /// The clear days it needs.
    pub fn rest(&self) -> u32 {
        self.rest_days.max(u32::from(self.apart))
    }

    /// The regions that need a clear day between two days on which they are trained, by this exercise or by another
    /// that needs its clear day too: what is meant for every day, such as posture, does not wait for strength.
    ///
    /// Not the same muscles on two days running: NIH MedlinePlus Magazine, Spring 2012; 48 hours between: Nelson et
    /// al. 2007, Med Sci Sports Exerc 39(8):1435-1445 (non-consecutive days).
    pub fn rested_regions(&self) -> Regions {
        if self.rest() > 0 { self.regions } else { Regions::NONE }
    }
}

/// True for what must not be done on two days running: strength, and holds of 30 s or more.
///
/// Strength: NIH MedlinePlus Magazine, Spring 2012; Nelson et al. 2007, Med Sci Sports Exerc 39(8):1435-1445.
/// Long holds three times a week, not daily: Clinical Hypertension 2022, doi 10.1186/s40885-022-00232-3, Table
/// 4; where they begin to be long is common practice, no source. Balance is no strength however long it is
/// held: daily is advised (Giangregorio et al. 2015, Osteoporos Int 26(3):891-910, Table 4).
pub fn needs_rest(exercise: &Exercise, dose: &Dose) -> bool {
    const LONG: u32 = 30_000;
    match exercise.component.value {
        Component::Strength => true,
        Component::Balance => false,
        Component::Posture | Component::Power => dose.hold.as_ref().is_some_and(|h| h.value.high >= LONG),
    }
}

impl Free {
    /// All seven days, for as long as it takes.
    pub const ANY: Free = Free { days: DaySet::ALL, minutes: None };
}

impl Plan {
    /// The practice week of these exercises.
    pub fn of(requests: &[Request], free: Free) -> Plan {
        let days = search::arrange(requests, free);
        let short = short(requests, &days).map(|request| Short {
            request,
            wanted: requests[request].low,
            got: days[request].len(),
            remedies: remedies(request, requests, free, &days),
        });
        Plan { minutes: minutes(requests, &days), short: short.collect(), days }
    }

    /// The minutes of the heaviest day.
    #[cfg(test)]
    fn heaviest(&self) -> u32 {
        self.minutes.into_iter().max().unwrap_or(0)
    }
}

fn minutes(requests: &[Request], days: &[DaySet]) -> [u32; 7] {
    let mut minutes = [0; 7];
    for (request, days) in requests.iter().zip(days) {
        days.iter().for_each(|day| minutes[day as usize] += request.minutes);
    }
    minutes
}

fn short(requests: &[Request], days: &[DaySet]) -> impl Iterator<Item = usize> {
    requests.iter().zip(days).enumerate().filter(|(_, (r, days))| days.len() < r.low).map(|(i, _)| i)
}

fn remedies(failing: usize, requests: &[Request], free: Free, days: &[DaySet]) -> Vec<Remedy> {
    let before: Vec<usize> = short(requests, days).collect();
    let does = |requests: &[Request], free: Free| {
        let days = search::arrange(requests, free);
        !short(requests, &days).any(|i| i == failing || !before.contains(&i))
    };
    let with = |change: &dyn Fn(&mut Request)| {
        let mut requests = requests.to_vec();
        change(&mut requests[failing]);
        requests
    };
    let request = requests[failing];
    let fewer = (1..=days[failing].len()).rev().find(|&n| does(&with(&|r| r.low = n), free));
    let added = |days: DaySet| Free { days: free.days.union(days), ..free };
    let more = does(requests, added(DaySet::ALL)).then(|| {
        let mut more: Vec<DaySet> = (1..=DaySet::ALL.bits()).map(DaySet::from_bits).collect();
        more.retain(|days| days.is_within(DaySet::ALL.without(free.days)));
        more.sort_by_key(|days| (days.len(), earliest(*days)));
        more.into_iter().find(|&days| does(requests, added(days)))
    });
    let least = u32::from(request.apart);
    let rest = (least..request.rest_days).rev().find(|&n| does(&with(&|r| r.rest_days = n), free));
    let longer = free.minutes.and_then(|_| {
        let days = search::arrange(requests, Free { minutes: None, ..free });
        let all = short(requests, &days).next().is_none();
        all.then(|| minutes(requests, &days).into_iter().max().unwrap_or(0))
    });
    [
        fewer.map(Remedy::Days),
        more.flatten().map(Remedy::FreeDays),
        rest.map(Remedy::RestDays),
        longer.map(Remedy::Minutes),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// Sorts sets of the same size: the one with the earlier first day comes first, then the one with the earlier
/// second day, and so on.
fn earliest(days: DaySet) -> u8 {
    u8::MAX - days.bits().reverse_bits()
}

#[cfg(test)]
mod tests;
