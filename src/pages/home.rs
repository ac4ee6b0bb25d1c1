//! The home page: the week of each series that a reader is in, with its pictures, and all series.

use std::collections::BTreeMap;

use serde::Serialize;

use super::frame::{About, frame};
use super::week::{GlanceItem, glance, place};
use super::{Filled, Pages};
use crate::model::series::Series;
use crate::model::week::Week;
use crate::outputs::Address;
use crate::outputs::address::Links;
use crate::outputs::blocks::now::NowBlock;
use crate::outputs::blocks::week::title_line;
use crate::reckon::this_week::{Stretch, stretches};

/// How many weeks before and after that of the day on which the page is made it has with their exercises: a site that
/// nobody has made anew for longer leads to the week's page.
const BEFORE: usize = 1;
const AFTER: usize = 8;

#[derive(Serialize)]
pub(super) struct Home<'m> {
    summary: Option<String>,
    /// Of each series with weeks what is seen on any day.
    current: Vec<CurrentSeries<'m>>,
    /// Small pictures of the exercises of all other days, each once and in the order of their ids: templates keep no
    /// order of a map.
    pictures: Vec<LentPicture>,
    series: Vec<SeriesTile>,
}

#[derive(Serialize)]
struct LentPicture {
    id: String,
    picture: String,
}

#[derive(Serialize)]
struct CurrentSeries<'m> {
    /// Where there are several.
    title: Option<String>,
    days: Vec<CurrentWeek<'m>>,
}

/// What is seen on some days.
#[derive(Serialize)]
struct CurrentWeek<'m> {
    #[serde(flatten)]
    now: NowBlock,
    title: String,
    /// None for a week that is far away.
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
    let current = all.iter().map(|series| CurrentSeries {
        title: several.then(|| series.title.value.clone()),
        days: days(pages, &links, series),
    });
    let mut current: Vec<CurrentSeries<'_>> = current.filter(|series| !series.days.is_empty()).collect();
    let others = current.iter_mut().flat_map(|series| &mut series.days).filter(|day| !day.now.shown);
    let pictures: BTreeMap<String, String> =
        others.flat_map(|day| &mut day.glance).filter_map(GlanceItem::lend_picture).collect();
    let home = Home {
        summary: site.summary.as_ref().map(|s| s.value.clone()),
        pictures: pictures.into_iter().map(|(id, picture)| LentPicture { id, picture }).collect(),
        current,
        series: all.iter().map(|s| tile(pages, &links, s)).collect(),
    };
    let mut about = About::titled(&site.title.value);
    about.description = home.summary.clone();
    frame(pages, address, about, home)
}

fn days<'m>(pages: &Pages<'m>, links: &Links, series: &'m Series) -> Vec<CurrentWeek<'m>> {
    let all = stretches(series);
    let today = pages.today();
    let here = all.iter().position(|stretch| stretch.holds_on(today)).unwrap_or_default();
    let one = |(at, stretch): (usize, &Stretch<'m>)| {
        let week = series.weeks.get(stretch.week)?;
        let near = at + BEFORE >= here && at <= here + AFTER;
        Some(current(pages, links, (series, week), stretch, near))
    };
    all.iter().enumerate().filter_map(one).collect()
}

fn current<'m>(
    pages: &Pages<'m>,
    links: &Links,
    (series, week): (&'m Series, &'m Week),
    stretch: &Stretch<'_>,
    near: bool,
) -> CurrentWeek<'m> {
    let page = Address::week(series, week);
    let number = week.number.value.to_string();
    CurrentWeek {
        now: NowBlock::of(stretch, pages.today(), pages.say()),
        title: week_title(pages, week),
        glance: match near {
            true => glance(pages, links, week, |id| place(links, &page, id)),
            false => Vec::new(),
        },
        href: links.to(&page),
        open_text: pages.words.say_with("home-open-week", &[("number", number.into())]),
    }
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
