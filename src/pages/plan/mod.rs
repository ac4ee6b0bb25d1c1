//! The plan: every series at a glance, for educators; where they are many, each on a page of its own.

mod accepted;
mod chart;
mod ladders;
mod proposals;
mod targets;
mod words;

use serde::Serialize;

use self::accepted::{AcceptedRow, accepted};
use self::chart::Chart;
use self::ladders::LadderPlan;
use self::proposals::Proposals;
use self::targets::TargetView;
use self::words::WordsRow;
use super::frame::{About, frame};
use super::series::{CoverageTable, coverage_table};
use super::{Filled, Link, Pages};
use crate::model::series::Series;
use crate::outputs::Address;
use crate::outputs::lists::planned_alone;
use crate::reckon::aims::Unknown;
use crate::reckon::between::Between;
use crate::reckon::dose::Impact;
use crate::reckon::overview::{Limit, Load, Overview, PlannedWeek, Trained, Unmeasured};
use crate::reckon::regions::{ADVISED_SOURCE, Advised};

#[derive(Serialize)]
pub(super) struct PlanPage {
    /// To each series of the page, or to each section of the only one.
    contents: Vec<Link>,
    /// To the page of each series, where one page cannot hold all of them.
    parts: Vec<Link>,
    /// The safety findings that somebody has accepted.
    accepted: Vec<AcceptedRow>,
    series: Vec<SeriesPlan>,
}

/// One series; a section for each question about it.
#[derive(Serialize)]
struct SeriesPlan {
    /// The place on the page.
    id: String,
    title: String,
    href: String,
    coverage: CoverageTable,
    charts: Vec<Chart>,
    figures: Vec<FigureRow>,
    ladders: Vec<LadderPlan>,
    targets: Vec<TargetView>,
    limits: Vec<LimitView>,
    words: Vec<WordsRow>,
    proposals: Proposals,
}

/// Something that the weeks of a series cannot do by themselves.
#[derive(Serialize)]
struct LimitView {
    about: String,
    weeks: Vec<LimitRow>,
}

/// Weeks that follow each other and are the same in it.
#[derive(Serialize)]
struct LimitRow {
    weeks: String,
    value: String,
}

/// The figures of one week, as the charts draw them, and its reading grade.
#[derive(Serialize)]
struct FigureRow {
    week: String,
    /// Why its figures are not known.
    unknown: Option<String>,
    session_minutes: String,
    week_minutes: String,
    session_landings: String,
    week_landings: String,
    /// Flesch-Kincaid, and SMOG.
    grade: Option<(String, String)>,
    unmeasured: Option<String>,
}

pub(super) fn page(pages: &Pages<'_>, address: &Address) -> Filled<PlanPage> {
    let links = pages.links(address);
    let part = |series: &Series| Link {
        href: links.to(&Address::SeriesPlan(series.id.clone())),
        text: series.title.value.clone(),
    };
    let parts: Vec<Link> = planned_alone(pages.model).map(part).collect();
    let here = pages.model.series.values().filter(|_| parts.is_empty());
    let series: Vec<SeriesPlan> =
        here.enumerate().map(|(at, series)| series_plan(pages, address, series, at + 1)).collect();
    let accepted = accepted(pages);
    let to_accepted = (!accepted.is_empty())
        .then(|| Link { href: "#plan.accepted".to_string(), text: pages.words.say("plan-accepted") });
    let to_series: Vec<Link> = match &series[..] {
        [one] => sections(pages, one),
        several => several
            .iter()
            .map(|series| Link { href: format!("#{}", series.id), text: series.title.clone() })
            .collect(),
    };
    let contents = to_accepted.into_iter().chain(to_series).collect();
    let about = About::titled(pages.words.say("plan-title"));
    frame(pages, address, about, PlanPage { contents, parts, accepted, series })
}

/// The plan of one series among many. What was accepted stands with all of them.
pub(super) fn of_one(pages: &Pages<'_>, address: &Address, series: &Series) -> Filled<PlanPage> {
    let title = ("title", series.title.value.as_str().into());
    let plan = series_plan(pages, address, series, 1);
    let body = PlanPage {
        contents: sections(pages, &plan),
        parts: Vec::new(),
        accepted: Vec::new(),
        series: vec![plan],
    };
    frame(pages, address, About::titled(pages.words.say_with("plan-part-title", &[title])), body)
}

/// The links to the sections of a series; without weeks it has proposals alone.
fn sections(pages: &Pages<'_>, series: &SeriesPlan) -> Vec<Link> {
    let shown = |name: &&str| match *name {
        "proposals" => true,
        "limits" => !series.limits.is_empty(),
        _ => !series.figures.is_empty(),
    };
    let link = |name: &str| Link {
        href: format!("#{}.{name}", series.id),
        text: pages.words.say(&format!("plan-{name}")),
    };
    ["coverage", "load", "ladders", "targets", "limits", "proposals", "words"]
        .into_iter()
        .filter(shown)
        .map(link)
        .collect()
}

/// `number` is its place on the page, from 1.
fn series_plan(pages: &Pages<'_>, address: &Address, series: &Series, number: usize) -> SeriesPlan {
    let links = pages.links(address);
    let overview = &Overview::of(pages.model, pages.sources, pages.words, pages.ladders(), series);
    let id = format!("plan.{number}");
    SeriesPlan {
        title: overview.series.title.value.clone(),
        href: links.to(&Address::Series(overview.series.id.clone())),
        coverage: coverage_table(pages, &links, overview.series),
        charts: chart::charts(pages, overview, &id),
        figures: overview.weeks.iter().map(|planned| figure_row(pages, planned)).collect(),
        ladders: ladders::ladders(pages, &links, overview, &id),
        targets: targets::targets(pages, overview),
        limits: overview.limits.iter().map(|limit| limit_view(pages, overview, limit)).collect(),
        words: words::words(pages, &links, overview.series),
        proposals: proposals::proposals(pages, &links, overview),
        id,
    }
}

fn figure_row(pages: &Pages<'_>, planned: &PlannedWeek<'_>) -> FigureRow {
    let figure = |of: &dyn Fn(&Load) -> String| planned.load.as_ref().map(of).unwrap_or_default();
    let grade = |grade: f64| pages.say().decimal(grade);
    FigureRow {
        week: week_name(pages, planned),
        unknown: planned.load.as_ref().err().map(|why| unknown(pages, why)),
        session_minutes: figure(&|load| amount(pages, in_minutes(load.session))),
        week_minutes: figure(&|load| amount(pages, in_minutes(load.week))),
        session_landings: figure(&|load| landings(pages, load)),
        week_landings: figure(&|load| amount(pages, load.landings_a_week())),
        grade: planned.reading.ok().map(|score| (grade(score.grade), grade(score.smog))),
        unmeasured: planned.reading.err().map(|why| {
            pages.words.say(match why {
                Unmeasured::Language => "plan-unmeasured-language",
                Unmeasured::TooShort => "plan-unmeasured-short",
            })
        }),
    }
}

/// The landings of a session by level: "20 light, 10 firmer".
fn landings(pages: &Pages<'_>, load: &Load) -> String {
    let some = load.landings.iter().filter(|level| level.session.high > 0);
    let words = some.map(|level| {
        let id = match level.level {
            Impact::Low => "plan-landings-low",
            Impact::Moderate => "plan-landings-moderate",
            Impact::High => "plan-landings-high",
        };
        pages.words.say_with(id, &[("amount", amount(pages, level.session).into())])
    });
    let words: Vec<String> = words.collect();
    if words.is_empty() {
        amount(pages, Between::ZERO)
    } else {
        words.join(&pages.words.say("list-separator"))
    }
}

fn limit_view(pages: &Pages<'_>, overview: &Overview<'_>, limit: &Limit) -> LimitView {
    match limit {
        Limit::Regions { weeks, .. } => {
            let places: Vec<usize> = (0..weeks.len()).collect();
            let runs = runs(pages, &overview.weeks, &places, |one, other| weeks[one] == weeks[other]);
            let value = |week: &Option<Trained>| match week {
                Some(week) => regions(pages, week),
                None => pages.words.say("plan-not-known"),
            };
            LimitView {
                about: pages.words.say_with("plan-limit-regions", &[("source", ADVISED_SOURCE.into())]),
                weeks: runs
                    .into_iter()
                    .map(|(name, at)| LimitRow { weeks: name, value: value(&weeks[at]) })
                    .collect(),
            }
        }
    }
}

/// "legs, arms; not chest, shoulders, back".
fn regions(pages: &Pages<'_>, week: &Trained) -> String {
    let words = |regions: &[Advised]| {
        let word = |region: &Advised| pages.words.say(&format!("plan-region-{}", region.word()));
        regions.iter().map(word).collect::<Vec<_>>().join(&pages.words.say("list-separator"))
    };
    match (week.trained.is_empty(), week.missing.is_empty()) {
        (true, _) => pages.words.say("plan-regions-none"),
        (_, true) => pages.words.say("plan-regions-all"),
        _ => pages.words.say_with(
            "plan-regions",
            &[("trained", words(&week.trained).into()), ("missing", words(&week.missing).into())],
        ),
    }
}

fn unknown(pages: &Pages<'_>, why: &Unknown<'_>) -> String {
    let (id, exercise) = match why {
        Unknown::List => ("plan-unknown-list", ""),
        Unknown::Missing(exercise) => ("plan-unknown-missing", *exercise),
        Unknown::Unread(exercise) => ("plan-unknown-unread", *exercise),
        Unknown::Twice(exercise) => ("plan-unknown-twice", *exercise),
    };
    pages.words.say_with(id, &[("exercise", exercise.into())])
}

/// "Week 7", or the name of its file where its number could not be read.
fn week_name(pages: &Pages<'_>, planned: &PlannedWeek<'_>) -> String {
    match planned.number() {
        Some(number) => pages.words.say_with("week-number", &[("number", number.to_string().into())]),
        None => planned.week.id.clone(),
    }
}

/// "Week 1", "Weeks 3 to 6": these places in the list of weeks, in their order; those that follow each other
/// with numbers that do are told together where `same` says so.
fn runs(
    pages: &Pages<'_>,
    weeks: &[PlannedWeek<'_>],
    places: &[usize],
    same: impl Fn(usize, usize) -> bool,
) -> Vec<(String, usize)> {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for &at in places {
        let follows = |last: usize| {
            let next = weeks[last].number().map(|number| number + 1);
            last + 1 == at && next.is_some() && next == weeks[at].number() && same(last, at)
        };
        match runs.last_mut() {
            Some((_, last)) if follows(*last) => *last = at,
            _ => runs.push((at, at)),
        }
    }
    let told = |(first, last): (usize, usize)| match (weeks[first].number(), weeks[last].number()) {
        (Some(low), Some(high)) if low < high => {
            let ends = [("first", low.to_string().into()), ("last", high.to_string().into())];
            (pages.words.say_with("plan-weeks", &ends), first)
        }
        _ => (week_name(pages, &weeks[first]), first),
    };
    runs.into_iter().map(told).collect()
}

fn in_minutes(time: Between) -> Between {
    let (low, high) = time.minutes();
    Between::new(low, high)
}

/// "12" or "12 to 16".
fn amount(pages: &Pages<'_>, value: Between) -> String {
    pages.say().range(value.low as f64, value.high as f64)
}

#[cfg(test)]
mod tests;
