//! Bars of each week, beside a list of their figures with lines of the same height. Places in the drawing are
//! shares of its width and heights are those of type, so that it fits any column and grows with the letters. It
//! holds no letters itself: no check could tell how they stand out from what is drawn.

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
    /// Its upper edge, in `em`.
    top: String,
    /// Percent of the width: the full part, and the open part up to the high end.
    low: String,
    open: Option<String>,
}

/// What a chart draws of a week.
type Figure = fn(&Load) -> Between;

/// From one week to the next, in `em`. The theme's lines are as high.
const PITCH: f64 = 1.6;

/// The share of the width that the longest bar takes; its edge needs the rest.
const WIDEST: f64 = 98.0;

/// Minutes of a session and of a week, landings of a session and of a week; none where no week has any.
pub(super) fn charts(pages: &Pages<'_>, overview: &Overview<'_>, id: &str) -> Vec<Chart> {
    let figures: [(&str, Figure); 4] = [
        ("session-minutes", |load| in_minutes(load.session)),
        ("week-minutes", |load| in_minutes(load.week)),
        ("session-landings", Load::landings_a_session),
        ("week-landings", Load::landings_a_week),
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

fn bar(pages: &Pages<'_>, planned: &PlannedWeek<'_>, at: usize, figure: Figure, most: u64) -> Bar {
    let value = planned.load.as_ref().ok().map(figure);
    let share = |part: u64| format!("{:.2}%", part as f64 * WIDEST / most as f64);
    Bar {
        week: week_name(pages, planned),
        text: value.map_or_else(|| pages.words.say("plan-not-known"), |value| amount(pages, value)),
        top: em(PITCH * at as f64 + 0.4),
        low: share(value.map_or(0, |value| value.low)),
        open: value.filter(|value| value.high > value.low).map(|value| share(value.high - value.low)),
    }
}

fn em(length: f64) -> String {
    format!("{length:.2}em")
}
