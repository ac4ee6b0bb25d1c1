//! The ladders of a series: which weeks stand on which rung, drawn, and the same in words beside it.

use serde::Serialize;

use super::runs;
use crate::outputs::Address;
use crate::outputs::address::Links;
use crate::pages::{Link, Pages, series};
use crate::reckon::overview::{LadderUse, Overview, RungUse};

/// A ladder with the weeks on it.
#[derive(Serialize)]
pub(super) struct LadderPlan {
    id: String,
    title: String,
    description: String,
    /// In `em`.
    height: String,
    /// The names of the first and the last week, below the drawing.
    first: String,
    last: String,
    rungs: Vec<RungPlan>,
}

#[derive(Serialize)]
struct RungPlan {
    exercises: Vec<Link>,
    /// "Week 1, weeks 3 to 5", or that no week uses it.
    weeks: String,
    /// The line it is drawn as, and the upper edge of its boxes, in `em`.
    middle: String,
    top: String,
    boxes: Vec<BoxPlan>,
}

/// A week on a rung, in percent of the width.
#[derive(Serialize)]
struct BoxPlan {
    x: String,
    width: String,
}

/// From one rung to the next, in `em`.
const PITCH: f64 = 1.6;

pub(super) fn ladders(
    pages: &Pages<'_>,
    links: &Links,
    overview: &Overview<'_>,
    id: &str,
) -> Vec<LadderPlan> {
    let ladders = overview.ladders.iter().enumerate();
    ladders
        .map(|(at, used)| ladder(pages, links, overview, used, &format!("{id}.ladder-{}", at + 1)))
        .collect()
}

fn ladder(
    pages: &Pages<'_>,
    links: &Links,
    overview: &Overview<'_>,
    used: &LadderUse<'_>,
    id: &str,
) -> LadderPlan {
    let title = |rung: Option<&RungUse<'_>>| {
        rung.and_then(|rung| rung.exercises.first()).map(|e| e.title.value.clone()).unwrap_or_default()
    };
    let component =
        used.component().map(|component| series::named(pages, component).word).unwrap_or_default();
    let name_of = [
        ("component", component.into()),
        ("first", title(used.rungs.first()).into()),
        ("last", title(used.rungs.last()).into()),
    ];
    let name = |week: Option<_>| week.map(|planned| super::week_name(pages, planned)).unwrap_or_default();
    let height = PITCH * used.rungs.len() as f64;
    LadderPlan {
        id: id.to_string(),
        title: pages.words.say_with("plan-ladder", &name_of),
        description: pages.words.say("plan-ladder-about"),
        height: em(height),
        first: name(overview.weeks.first()),
        last: name(overview.weeks.last()),
        rungs: used
            .rungs
            .iter()
            .enumerate()
            .map(|(at, rung)| rung_plan(pages, links, overview, rung, at))
            .collect(),
    }
}

fn rung_plan(
    pages: &Pages<'_>,
    links: &Links,
    overview: &Overview<'_>,
    rung: &RungUse<'_>,
    at: usize,
) -> RungPlan {
    let column = 100.0 / overview.weeks.len() as f64;
    let boxes = rung.weeks.iter().map(|&week| BoxPlan {
        x: format!("{:.2}%", column * (week as f64 + 0.1)),
        width: format!("{:.2}%", column * 0.8),
    });
    let weeks: Vec<String> =
        runs(pages, &overview.weeks, &rung.weeks, |_, _| true).into_iter().map(|(words, _)| words).collect();
    let top = PITCH * at as f64;
    RungPlan {
        exercises: rung
            .exercises
            .iter()
            .map(|e| Link { href: links.to(&Address::Exercise(e.id.clone())), text: e.title.value.clone() })
            .collect(),
        weeks: if weeks.is_empty() {
            pages.words.say("plan-rung-unused")
        } else {
            weeks.join(&pages.words.say("list-separator"))
        },
        middle: em(top + 0.8),
        top: em(top + 0.25),
        boxes: boxes.collect(),
    }
}

fn em(length: f64) -> String {
    format!("{length:.2}em")
}
