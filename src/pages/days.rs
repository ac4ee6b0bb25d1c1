//! "My days": what a client has done, which only her own device knows. The page brings what it asks of each week, and the
//! weeks' grids to check off by hand for those whose browser runs no scripts.

use std::collections::BTreeMap;

use serde::Serialize;

use super::frame::{About, frame};
use super::home::week_title;
use super::{Filled, Link, Pages};
use crate::model::amount::Amount;
use crate::model::exercise::Exercise;
use crate::model::series::Series;
use crate::model::week::Week;
use crate::outputs::address::Links;
use crate::outputs::blocks::dose::glance;
use crate::outputs::blocks::grid::{CellBlock, GridBlock, RowBlock};
use crate::outputs::blocks::practice::of_week;
use crate::outputs::blocks::used::UsedExercise;
use crate::outputs::{Address, offline};

/// Words that begin so are those of the page's script.
const SAID: &str = "days_say_";

#[derive(Serialize)]
pub(super) struct Days<'m> {
    /// What the script reads, as JSON that can stand inside a page.
    data: String,
    /// The current week of each series on paper.
    paper: Vec<PaperWeek<'m>>,
}

#[derive(Serialize)]
struct PaperWeek<'m> {
    page: Link,
    #[serde(flatten)]
    grid: GridBlock<'m>,
    rows: Vec<PaperRow<'m>>,
    handouts: Vec<Link>,
}

#[derive(Serialize)]
struct PaperRow<'m> {
    title: &'m str,
    count: String,
    choose: Option<String>,
    cells: Vec<CellBlock>,
}

/// What the script knows of the site.
#[derive(Serialize)]
struct Data<'m> {
    exercises: BTreeMap<&'m str, Known<'m>>,
    series: Vec<SeriesData<'m>>,
    words: BTreeMap<String, String>,
}

/// An exercise of some week: its title and those of its variations.
#[derive(Serialize)]
struct Known<'m>(&'m str, Vec<&'m str>);

#[derive(Serialize)]
struct SeriesData<'m> {
    id: &'m str,
    title: &'m str,
    weeks: Vec<WeekData<'m>>,
}

#[derive(Serialize)]
struct WeekData<'m> {
    number: u32,
    /// "Week 7: Light on your feet".
    title: String,
    /// "Week 7".
    short: String,
    /// The first day.
    on: String,
    href: String,
    asks: Vec<Ask<'m>>,
}

/// An exercise of the week: its id, its dose in one line, and the days a week that are asked, from the least to the most.
#[derive(Serialize)]
struct Ask<'m>(&'m str, String, Option<[u32; 2]>);

pub(super) fn page<'m>(pages: &Pages<'m>, address: &Address) -> Filled<Days<'m>> {
    let links = pages.links(address);
    let current = offline::current(pages.model, pages.today());
    let body = Days {
        data: data(pages, &links),
        paper: current.map(|(series, week)| paper(pages, &links, series, week)).collect(),
    };
    let mut about = About::titled(pages.words.say("days-title"));
    about.description = Some(pages.words.say("days-lead"));
    frame(pages, address, about, body)
}

fn data(pages: &Pages<'_>, links: &Links) -> String {
    let mut exercises = BTreeMap::new();
    let series = pages.model.series.values().map(|series| SeriesData {
        id: &series.id,
        title: &series.title.value,
        weeks: series
            .weeks
            .iter()
            .map(|week| week_data(pages, links, series, week, &mut exercises))
            .collect(),
    });
    let series = series.collect();
    let said = pages.words.plain().into_iter();
    let words = said.filter_map(|(id, text)| Some((id.strip_prefix(SAID)?.to_string(), text))).collect();
    // Words, numbers and lists of them can always be written as JSON.
    serde_json::to_string(&Data { exercises, series, words }).unwrap_or_default().replace('<', "\\u003c")
}

fn week_data<'m>(
    pages: &Pages<'m>,
    links: &Links,
    series: &'m Series,
    week: &'m Week,
    exercises: &mut BTreeMap<&'m str, Known<'m>>,
) -> WeekData<'m> {
    let asks = UsedExercise::of_week(pages.model, week).into_iter().map(|used| {
        let e: &'m Exercise = used.exercise;
        let dose = used.dose();
        exercises.entry(&e.id).or_insert_with(|| Known(&e.title.value, forms(e)));
        let days = dose.days.as_ref().map(|days| whole(days.value));
        Ask(&e.id, glance(&dose, pages.say()), days)
    });
    WeekData {
        number: week.number.value,
        title: week_title(pages, week),
        short: pages.words.say_with("week-number", &[("number", week.number.value.to_string().into())]),
        on: week.date.value.to_string(),
        href: links.to(&Address::week(series, week)),
        asks: asks.collect(),
    }
}

fn forms(e: &Exercise) -> Vec<&str> {
    e.variations.iter().map(|variation| variation.title.value.as_str()).collect()
}

fn whole(amount: Amount) -> [u32; 2] {
    [amount.low, amount.high]
}

fn paper<'m>(pages: &Pages<'m>, links: &Links, series: &'m Series, week: &'m Week) -> PaperWeek<'m> {
    let exercises = UsedExercise::of_week(pages.model, week);
    let spread = of_week(pages.model, week, pages.say()).and_then(|practice| practice.spread);
    let grid = GridBlock::of(&exercises, spread.as_ref(), pages.say());
    let page = Address::week(series, week);
    PaperWeek {
        page: Link { href: links.to(&page), text: week_title(pages, week) },
        rows: grid.rows.iter().map(paper_row).collect(),
        handouts: pages.handouts_from(links, &page),
        grid,
    }
}

fn paper_row<'m>(row: &RowBlock<'m>) -> PaperRow<'m> {
    PaperRow {
        title: &row.title.value,
        count: row.count.clone(),
        choose: row.choose.clone(),
        cells: row.cells.clone(),
    }
}

#[cfg(test)]
mod tests;
