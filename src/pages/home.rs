//! The home page: the current week of each series, and all series.

use serde::Serialize;

use super::frame::{About, frame};
use super::week::{GlanceItem, glance};
use super::{Filled, Pages};
use crate::model::series::Series;
use crate::model::week::Week;
use crate::outputs::Address;
use crate::outputs::address::Links;
use crate::outputs::blocks::week::title_line;

#[derive(Serialize)]
pub(super) struct Home<'m> {
    summary: Option<String>,
    current: Vec<CurrentWeek<'m>>,
    series: Vec<SeriesTile>,
}

#[derive(Serialize)]
struct CurrentWeek<'m> {
    /// "This week", or "The first week" before the series has begun.
    label: String,
    series_title: Option<String>,
    title: String,
    date_line: String,
    glance: Vec<GlanceItem<'m>>,
    href: String,
    open_text: String,
}

#[derive(Serialize)]
struct SeriesTile {
    href: String,
    title: String,
    summary: String,
    weeks_line: String,
    starts_line: String,
}

pub(super) fn page<'m>(pages: &Pages<'m>, address: &Address) -> Filled<Home<'m>> {
    let links = pages.links(address);
    let site = &pages.model.site;
    let all: Vec<&'m Series> = pages.model.series.values().collect();
    let several = all.len() > 1;
    let current =
        all.iter().filter_map(|s| Some(current(pages, &links, s, s.week_on(pages.today())?, several)));
    let home = Home {
        summary: site.summary.as_ref().map(|s| s.value.clone()),
        current: current.collect(),
        series: all.iter().map(|s| tile(pages, &links, s)).collect(),
    };
    let mut about = About::titled(&site.title.value);
    about.description = home.summary.clone();
    frame(pages, address, about, home)
}

fn current<'m>(
    pages: &Pages<'m>,
    links: &Links,
    series: &'m Series,
    week: &'m Week,
    several: bool,
) -> CurrentWeek<'m> {
    let begun = week.date.value <= pages.today();
    let words = pages.words;
    let number = week.number.value;
    CurrentWeek {
        label: words.say(if begun { "home-this-week" } else { "home-first-week" }),
        series_title: several.then(|| series.title.value.clone()),
        title: week_title(pages, week),
        date_line: date_line(pages, week, begun),
        glance: glance(pages, week, |id| links.to(&Address::Exercise(id.to_string()))),
        href: links.to(&Address::week(series, week)),
        open_text: words.say_with("home-open-week", &[("number", number.to_string().into())]),
    }
}

fn date_line(pages: &Pages<'_>, week: &Week, begun: bool) -> String {
    let id = if begun { "week-of" } else { "home-starts" };
    pages.words.say_with(id, &[("date", pages.say().date(week.date.value).into())])
}

/// "Week 7: Light on your feet".
pub(super) fn week_title(pages: &Pages<'_>, week: &Week) -> String {
    title_line(week, pages.say())
}

fn tile(pages: &Pages<'_>, links: &Links, series: &Series) -> SeriesTile {
    let say = pages.say();
    let count = series.weeks.len();
    let weeks = [("count", fluent_bundle::FluentValue::from(count as f64))];
    SeriesTile {
        href: links.to(&Address::Series(series.id.clone())),
        title: series.title.value.clone(),
        summary: series.summary.value.clone(),
        weeks_line: pages.words.say_with("home-weeks", &weeks),
        starts_line: pages.words.say_with("home-starts", &[("date", say.date(series.start.value).into())]),
    }
}
