//! Bars of each week. Places are shares of the width and lengths of type, so that a chart fits any column, its
//! letters keep the size that the reader sets, and nothing has to be scaled.

use serde::Serialize;

use super::{amount, in_minutes, week_name};
use crate::pages::Pages;
use crate::reckon::between::Between;
use crate::reckon::overview::{Load, Overview, PlannedWeek};

/// One figure over the weeks of a series.
#[derive(Serialize)]
pub(super) struct Chart {
    id: String,
    title: String,
    description: String,
    /// In `em`.
    height: String,
    bars: Vec<Bar>,
}

#[derive(Serialize)]
struct Bar {
    week: String,
    text: String,
    /// Of the letters' line, and of the bar's upper edge, in `em`.
    line: String,
    top: String,
    /// Percent of the width: the full part, and the open part up to the high end.
    low: String,
    open: Option<String>,
}

/// From one week to the next, in `em`.
const PITCH: f64 = 2.7;

/// The share of the width that the longest bar takes; its edge needs the rest.
const WIDEST: f64 = 98.0;

/// Minutes of a session, minutes of a week, landings of a session, where there are any.
pub(super) fn charts(pages: &Pages<'_>, overview: &Overview<'_>, id: &str) -> Vec<Chart> {
    let figures: [(&str, fn(&Load) -> Between); 3] = [
        ("session-minutes", |load| in_minutes(load.session)),
        ("week-minutes", |load| in_minutes(load.week)),
        ("session-landings", Load::landings_a_session),
    ];
    let charts = figures.into_iter().filter_map(|(name, figure)| {
        let loads = overview.weeks.iter().filter_map(|planned| planned.load.as_ref().ok());
        let most = loads.map(|load| figure(load).high).max().filter(|most| *most > 0)?;
        let bars =
            overview.weeks.iter().enumerate().map(|(at, planned)| bar(pages, planned, at, figure, most));
        Some(Chart {
            id: format!("{id}.{name}"),
            title: pages.words.say(&format!("plan-{name}")),
            description: pages.words.say("plan-chart-about"),
            height: em(PITCH * overview.weeks.len() as f64),
            bars: bars.collect(),
        })
    });
    charts.collect()
}

fn bar(
    pages: &Pages<'_>,
    planned: &PlannedWeek<'_>,
    at: usize,
    figure: fn(&Load) -> Between,
    most: u64,
) -> Bar {
    let value = planned.load.as_ref().ok().map(figure);
    let share = |part: u64| format!("{:.2}%", part as f64 * WIDEST / most as f64);
    let top = PITCH * at as f64;
    Bar {
        week: week_name(pages, planned),
        text: value.map_or_else(|| pages.words.say("plan-not-known"), |value| amount(pages, value)),
        line: em(top + 1.1),
        top: em(top + 1.45),
        low: share(value.map_or(0, |value| value.low)),
        open: value.filter(|value| value.high > value.low).map(|value| share(value.high - value.low)),
    }
}

fn em(length: f64) -> String {
    format!("{length:.2}em")
}
