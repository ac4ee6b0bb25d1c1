//! A series: what it is, whom it serves, and the coverage table of its weeks.

use jiff::civil::Date;
use serde::Serialize;

use super::frame::{About, frame};
use super::home::week_title;
use super::ladder::rung_line;
use super::{Filled, LabeledId, Link, Pages};
use crate::model::series::Series;
use crate::model::vocabulary::{Component, Vocabulary};
use crate::model::week::Week;
use crate::outputs::address::Links;
use crate::outputs::{Address, Feed};
use crate::reckon::coverage;
use crate::reckon::this_week::{Time, stretches};

#[derive(Serialize)]
pub(super) struct SeriesPage {
    summary: String,
    audience: String,
    starts_line: String,
    serves: Vec<String>,
    coverage: CoverageTable,
    links: Vec<Link>,
}

/// Which exercises each week has of each component.
#[derive(Serialize)]
pub(super) struct CoverageTable {
    columns: Vec<LabeledId>,
    rows: Vec<Row>,
}

#[derive(Serialize)]
struct Row {
    title: String,
    href: String,
    date: String,
    /// It is the week of the day on which the page is made.
    current: bool,
    /// The days of the week, for the script that looks for the reader's own.
    from: String,
    until: String,
    cells: Vec<Cell>,
}

#[derive(Serialize)]
struct Cell {
    component: LabeledId,
    exercises: Vec<CellExercise>,
    /// It has none of them.
    gap: bool,
    /// It may have more of them, which could not be read.
    unread: bool,
}

#[derive(Serialize)]
struct CellExercise {
    href: String,
    text: String,
    /// "Rung 3 of 5", for an exercise on a ladder.
    rung: Option<String>,
}

/// A component by its id and its word.
pub(super) fn named(pages: &Pages<'_>, component: Component) -> LabeledId {
    let id = component.word();
    LabeledId { id: id.to_string(), word: pages.words.say(&format!("component-{id}")) }
}

pub(super) fn page(pages: &Pages<'_>, address: &Address, series: &Series) -> Filled<SeriesPage> {
    let say = pages.say();
    let links = pages.links(address);
    let file = |feed: Feed, id: &str| Link { href: links.file(&feed.path()), text: pages.words.say(id) };
    let body = SeriesPage {
        summary: series.summary.value.clone(),
        audience: series.audience.value.clone(),
        starts_line: pages.words.say_with("series-starts", &[("date", say.date(series.start.value).into())]),
        serves: series.serves.iter().map(|p| say.precaution(&pages.model.site, &p.value)).collect(),
        coverage: coverage_table(pages, &links, series),
        links: vec![
            file(Feed::Calendar(series.id.clone()), "series-calendar"),
            file(Feed::Series(series.id.clone()), "series-feed"),
        ],
    };
    let mut about = About::titled(&series.title.value);
    about.description = Some(series.summary.value.clone());
    frame(pages, address, about, body)
}

pub(super) fn coverage_table(pages: &Pages<'_>, links: &Links, series: &Series) -> CoverageTable {
    let say = pages.say();
    let days = stretches(series);
    let day = |week: &Week| days.iter().find(|s| s.time == Time::During && s.week == week.id);
    let written = |date: Option<Date>| date.map(|date| date.to_string()).unwrap_or_default();
    let rows = series.weeks.iter().map(|week| Row {
        title: week_title(pages, week),
        href: links.to(&Address::week(series, week)),
        date: say.day(week.date.value),
        current: day(week).is_some_and(|days| days.holds_on(pages.today())),
        from: written(day(week).and_then(|days| days.from)),
        until: written(day(week).and_then(|days| days.until)),
        cells: coverage::of_week(pages.model, week)
            .into_iter()
            .map(|cell| Cell {
                component: named(pages, cell.component),
                gap: cell.is_gap(),
                unread: !cell.is_whole,
                exercises: cell
                    .exercises
                    .into_iter()
                    .map(|(_, e)| CellExercise {
                        href: super::week::place(links, &Address::week(series, week), &e.id),
                        text: e.title.value.clone(),
                        rung: rung_line(pages, &e.id),
                    })
                    .collect(),
            })
            .collect(),
    });
    CoverageTable { columns: Component::ALL.iter().map(|&c| named(pages, c)).collect(), rows: rows.collect() }
}
