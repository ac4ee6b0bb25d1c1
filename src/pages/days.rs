//! "My days": what a client has done, which only her own device knows. The page brings what it asks of each week, and the
//! weeks' grids to check off by hand for those whose browser runs no scripts.

use std::collections::BTreeMap;

use jiff::ToSpan;
use jiff::civil::Date;
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
use crate::outputs::blocks::turn::TurnBlock;
use crate::outputs::blocks::used::UsedExercise;
use crate::outputs::blocks::week::number_line;
use crate::outputs::{Address, offline};
use crate::print::Subject;

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
pub(super) struct PaperRow<'m> {
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

/// An exercise of some week.
#[derive(Serialize)]
#[serde(untagged)]
enum Known<'m> {
    /// Its title and those of its variations.
    Any(&'m str, Vec<&'m str>),
    /// What a person calls it, the forms that she does, and the one that is written down unless she says another.
    Hers(String, Vec<&'m str>, Option<&'m str>),
}

#[derive(Serialize)]
struct SeriesData<'m> {
    /// `None` for what belongs to no series.
    id: Option<&'m str>,
    title: &'m str,
    /// The only week of it goes on, before its first day and after its last.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    goes_on: bool,
    weeks: Vec<WeekData<'m>>,
}

#[derive(Serialize)]
struct WeekData<'m> {
    number: Option<u32>,
    /// "Week 7: Light on your feet".
    title: String,
    /// "Week 7".
    short: String,
    /// The first day.
    on: String,
    asks: Vec<Ask<'m>>,
}

/// An exercise of the week: its id, its dose in one line, and the days a week that are asked, from the least to the most.
#[derive(Serialize)]
struct Ask<'m>(&'m str, String, Option<[u32; 2]>);

pub(super) fn page<'m>(pages: &Pages<'m>, address: &Address) -> Filled<Days<'m>> {
    let links = pages.links(address);
    let current = offline::current(pages.model, pages.today());
    let body = Days {
        data: data(pages),
        paper: current.map(|(series, week)| paper(pages, &links, series, week)).collect(),
    };
    let mut about = About::titled(pages.words.say("days-title"));
    about.description = Some(pages.words.say("days-lead"));
    frame(pages, address, about, body)
}

fn data(pages: &Pages<'_>) -> String {
    let mut exercises = BTreeMap::new();
    let series = pages.model.series.values().map(|series| SeriesData {
        id: Some(&series.id),
        title: &series.title.value,
        goes_on: false,
        weeks: series.weeks.iter().map(|week| week_data(pages, week, &mut exercises)).collect(),
    });
    let series = series.collect();
    written(pages, exercises, series)
}

/// The days of one person: what her sheet asks of every week, until she gets another.
pub(super) fn data_of_person<'m>(
    pages: &Pages<'m>,
    subject: &Subject<'m>,
    exercises: &[UsedExercise<'_, 'm>],
    made: Date,
) -> String {
    let mut known: BTreeMap<&str, Known<'m>> = BTreeMap::new();
    let mut asks: Vec<Ask<'m>> = Vec::new();
    for used in exercises {
        let e: &'m Exercise = used.exercise;
        let turn = TurnBlock::of(used, pages.say());
        let dose: Vec<String> = [Some(turn.count), turn.days].into_iter().flatten().collect();
        let days = used.dose().days.map(|days| whole(days.value));
        let title = used.title().value.as_str();
        let form = used.form().variation.map(|_| title);
        let line = dose.join(". ");
        // Two forms of one exercise are written down under its one id: she says which it was.
        if let (Some(ask), Some(Known::Hers(name, forms, always))) =
            (asks.iter_mut().find(|ask| ask.0 == e.id), known.get_mut(e.id.as_str()))
        {
            forms.push(title);
            (*name, *always) =
                (pages.say().and(&forms.iter().map(|f| f.to_string()).collect::<Vec<_>>()), None);
            ask.1 = format!("{}. {title}: {line}", ask.1);
            continue;
        }
        known.insert(&e.id, Known::Hers(title.to_string(), vec![title], form));
        asks.push(Ask(&e.id, line, days));
    }
    let (id, week) = match subject {
        Subject::Week(series, week) => {
            (Some(series.id.as_str()), week_only(pages, Some(*week), week.date.value, asks))
        }
        Subject::Exercises(_) => (None, week_only(pages, None, made, asks)),
    };
    let series = SeriesData { id, title: "", goes_on: true, weeks: vec![week] };
    written(pages, known, vec![series])
}

/// A week with these exercises. What belongs to none begins on the Monday before.
fn week_only<'m>(pages: &Pages<'_>, week: Option<&Week>, on: Date, asks: Vec<Ask<'m>>) -> WeekData<'m> {
    let monday = on.checked_sub(i64::from(on.weekday().to_monday_zero_offset()).days()).unwrap_or(on);
    WeekData {
        number: week.map(|week| week.number.value),
        title: week.map(|week| week_title(pages, week)).unwrap_or_default(),
        short: week.map(|week| number_line(week, pages.say())).unwrap_or_default(),
        on: if week.is_some() { on } else { monday }.to_string(),
        asks,
    }
}

fn written<'m>(
    pages: &Pages<'_>,
    exercises: BTreeMap<&'m str, Known<'m>>,
    series: Vec<SeriesData<'m>>,
) -> String {
    let said = pages.words.plain().into_iter();
    let words = said.filter_map(|(id, text)| Some((id.strip_prefix(SAID)?.to_string(), text))).collect();
    // Words, numbers and lists of them can always be written as JSON.
    serde_json::to_string(&Data { exercises, series, words }).unwrap_or_default().replace('<', "\\u003c")
}

fn week_data<'m>(
    pages: &Pages<'m>,
    week: &'m Week,
    exercises: &mut BTreeMap<&'m str, Known<'m>>,
) -> WeekData<'m> {
    let asks = UsedExercise::of_week(pages.model, week).into_iter().map(|used| {
        let e: &'m Exercise = used.exercise;
        let dose = used.dose();
        exercises.entry(&e.id).or_insert_with(|| Known::Any(&e.title.value, forms(e)));
        let days = dose.days.as_ref().map(|days| whole(days.value));
        Ask(&e.id, glance(&dose, pages.say()), days)
    });
    WeekData {
        number: Some(week.number.value),
        title: week_title(pages, week),
        short: number_line(week, pages.say()),
        on: week.date.value.to_string(),
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

pub(super) fn paper_row<'m>(row: &RowBlock<'m>) -> PaperRow<'m> {
    PaperRow {
        title: &row.title.value,
        count: row.count.clone(),
        choose: row.choose.clone(),
        cells: row.cells.clone(),
    }
}

#[cfg(test)]
mod tests;
