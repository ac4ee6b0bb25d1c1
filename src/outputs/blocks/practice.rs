//! The practice week in the reader's words: how long it takes, and a way to spread it over seven days.

use serde::Serialize;

use super::dose::days_a_week;
use super::minutes::{about, minutes};
use super::phrases::Phrases;
use super::word;
use crate::model::Model;
use crate::model::amount::Amount;
use crate::model::source::Spanned;
use crate::model::vocabulary::{Component, Day, Region, Vocabulary};
use crate::model::week::Week;
use crate::reckon::between::Between;
use crate::reckon::days::DaySet;
use crate::reckon::dose::Practice;
use crate::reckon::personal::Personal;
use crate::reckon::practice::{Free, Plan, Request};
use crate::reckon::regions::Regions;

/// A practice week.
#[derive(Clone, Debug, Serialize)]
pub struct PracticeBlock<'m> {
    /// "About 10 to 25 minutes a day, 6 days a week."
    pub time: String,
    /// `None` where a week does not hold what the doses ask for.
    pub spread: Option<Spread<'m>>,
}

/// A way to spread it over the days.
#[derive(Clone, Debug, Serialize)]
pub struct Spread<'m> {
    /// "One way to spread your practice".
    pub title: String,
    /// Seven, Monday first.
    pub days: Vec<DayBlock<'m>>,
    /// What stays when the days are changed.
    pub advice: Vec<String>,
}

/// One day of it.
#[derive(Clone, Debug, Serialize)]
pub struct DayBlock<'m> {
    /// "Monday".
    pub name: String,
    /// "About 15 minutes", or that it is a rest day.
    pub time: String,
    /// None on a rest day.
    pub exercises: Vec<Done<'m>>,
}

/// An exercise of a day.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct Done<'m> {
    pub title: &'m Spanned<String>,
    #[serde(rename = "kind", serialize_with = "word")]
    pub component: Component,
}

/// An exercise with its days.
struct Item<'m> {
    done: Done<'m>,
    length: Between,
    /// The clear days between two of its days.
    rest: u32,
    /// The regions that need a clear day between any two days on which they are trained.
    regions: Regions,
    days: DaySet,
}

/// One way to practice a week, for everyone; `None` where nothing is known of what it takes.
pub fn of_week<'m>(model: &'m Model, week: &'m Week, say: Phrases<'_>) -> Option<PracticeBlock<'m>> {
    let mut seen = std::collections::BTreeSet::new();
    let used = model.exercises_of(week).filter(|(_, e)| seen.insert(&e.id)).collect::<Vec<_>>();
    if used.is_empty() || !used.iter().all(|(_, e)| e.standing.is_sound("dose")) {
        return None;
    }
    let mut requests = Vec::new();
    let mut items = Vec::new();
    for (used, e) in used {
        let dose = used.dose_of(e);
        let practice = Practice::of(e, &dose);
        let request = Request::for_practice(e, &dose, &practice);
        let done = Done { title: &e.title, component: e.component.value };
        items.push(Item {
            done,
            length: practice.whole(),
            rest: request.rest(),
            regions: request.rested_regions(),
            days: DaySet::NONE,
        });
        requests.push(request);
    }
    let plan = Plan::of(&requests, Free::ANY);
    // The author is told by the review; a reader would only find that her days do not add up.
    if !plan.short.is_empty() {
        let whole: Between = items.iter().map(|item| item.length).sum();
        let together = [("minutes", minutes(whole, None, say).into())];
        return Some(PracticeBlock {
            time: say.words.say_with("practice-together", &together),
            spread: None,
        });
    }
    items.iter_mut().zip(&plan.days).for_each(|(item, &days)| item.days = days);
    let free = vec![say.words.say("practice-other-days")];
    Some(block(&items, None, "practice-title", free, say))
}

/// The week of a person, with no day longer than her minutes; `None` where there is nothing to practice.
pub fn of_person<'m>(
    personal: &Personal<'m>,
    most: Option<u32>,
    say: Phrases<'_>,
) -> Option<PracticeBlock<'m>> {
    let with_days = personal.chosen.iter().filter(|one| !one.days.is_empty());
    let items: Vec<Item<'m>> = with_days
        .map(|one| Item {
            done: Done { title: one.title(), component: one.form.exercise.component.value },
            length: one.practice.whole(),
            rest: one.rest,
            regions: one.regions,
            days: one.days,
        })
        .collect();
    (!items.is_empty()).then(|| block(&items, most, "practice-title-own", Vec::new(), say))
}

fn block<'m>(
    items: &[Item<'m>],
    most: Option<u32>,
    title: &str,
    mut advice: Vec<String>,
    say: Phrases<'_>,
) -> PracticeBlock<'m> {
    let on = |day: Day| items.iter().filter(move |item| item.days.contains(day));
    let length = |day: Day| on(day).map(|item| item.length).sum::<Between>();
    let practiced = items.iter().fold(DaySet::NONE, |days, item| days.union(item.days));
    let lengths: Vec<Between> = practiced.iter().map(length).collect();
    let least = lengths.iter().map(|length| length.low).min().unwrap_or(0);
    let longest = lengths.iter().map(|length| length.high).max().unwrap_or(0);
    let days = Day::ALL.iter().map(|&day| DayBlock {
        name: say.capital(&say.words.say(&format!("weekday-{}", day.number()))),
        time: match practiced.contains(day) {
            true => about(length(day), most, say),
            false => say.words.say("practice-rest-day"),
        },
        exercises: on(day).map(|item| item.done).collect(),
    });
    let minutes = ("minutes", minutes(Between::new(least, longest), most, say).into());
    advice.extend(rests(items, say));
    advice.extend(same_muscles(items, say));
    let a_week = ("days", days_a_week(Amount::exactly(practiced.len()), say).into());
    PracticeBlock {
        time: match practiced {
            DaySet::ALL => say.words.say_with("practice-every-day", &[minutes]),
            _ => say.words.say_with("practice-a-day", &[minutes, a_week]),
        },
        spread: Some(Spread { title: say.words.say(title), days: days.collect(), advice }),
    }
}

/// A line for each number of clear days that exercises need, the fewest first.
fn rests(items: &[Item<'_>], say: Phrases<'_>) -> Vec<String> {
    let mut rests: Vec<u32> = items.iter().map(|item| item.rest).filter(|&rest| rest > 0).collect();
    rests.sort_unstable();
    rests.dedup();
    let line = |rest: u32| {
        let titles = items.iter().filter(|item| item.rest == rest).map(|item| item.done.title.value.clone());
        say.words.say_with(
            "practice-rest",
            &[
                ("exercises", say.and(&titles.collect::<Vec<_>>()).into()),
                ("amount", rest.to_string().into()),
                ("count", rest.into()),
            ],
        )
    };
    rests.into_iter().map(line).collect()
}

/// A line for exercises that train the same region, which needs its clear day between any two of them.
fn same_muscles(items: &[Item<'_>], say: Phrases<'_>) -> Vec<String> {
    let trains = |region: Region| -> Vec<usize> {
        (0..items.len()).filter(|&at| items[at].regions.contains(region)).collect()
    };
    let mut groups: Vec<Vec<usize>> =
        Region::ALL.iter().map(|&region| trains(region)).filter(|group| group.len() > 1).collect();
    groups.sort_unstable();
    groups.dedup();
    let is_part = |group: &[usize], of: &[usize]| group != of && group.iter().all(|at| of.contains(at));
    let whole = groups.iter().filter(|group| !groups.iter().any(|of| is_part(group, of)));
    let line = |group: &Vec<usize>| {
        let titles: Vec<String> = group.iter().map(|&at| items[at].done.title.value.clone()).collect();
        say.words.say_with("practice-same-muscles", &[("exercises", say.and(&titles).into())])
    };
    whole.map(line).collect()
}

#[cfg(test)]
mod tests;
