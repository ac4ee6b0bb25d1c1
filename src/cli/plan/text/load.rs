//! Minutes and landings of each week, as bars with their figures.

use super::{paragraph, row, section, unknown, week_column};
use crate::cli::plan::columns::{GAP, INDENT, bar, range};
use crate::reckon::between::Between;
use crate::reckon::overview::{Load, Overview};
use crate::review::report::text::Look;

pub(super) fn minutes(overview: &Overview<'_>, look: Look) -> Option<String> {
    let in_minutes = |time: Between| {
        let (low, high) = time.minutes();
        Between::new(low, high)
    };
    let session = |load: &Load| in_minutes(load.session);
    let a_week = |load: &Load| in_minutes(load.week);
    let most =
        |figure: &dyn Fn(&Load) -> Between| loads(overview).map(|load| figure(load).high).max().unwrap_or(0);
    let label = |figure: &dyn Fn(&Load) -> Between| {
        loads(overview).map(|load| range(figure(load)).len()).max().unwrap_or(0)
    };
    let (sessions, weeks) = (label(&session), label(&a_week));
    let week = week_column(overview);
    let blocks = look.width.saturating_sub(INDENT.len() + week + 4 * GAP.len() + 2 + sessions + weeks) / 2;
    let mut body = format!(
        "{INDENT}{:week$}{GAP}{:<first$}{GAP}{GAP}a week\n",
        "week",
        "a session",
        first = blocks + GAP.len() + sessions
    );
    for planned in &overview.weeks {
        let figures = match &planned.load {
            Ok(load) => format!(
                "{}{GAP}{:>sessions$}{GAP}{GAP}{}{GAP}{:>weeks$}",
                bar(session(load), most(&session), blocks),
                range(session(load)),
                bar(a_week(load), most(&a_week), blocks),
                range(a_week(load)),
            ),
            Err(why) => format!("not known: {}", unknown(why)),
        };
        body.push_str(&row(planned, week, &figures));
    }
    let key = "A session does every exercise of the week; a week is each of them on all its days. Full blocks: the low end; light blocks: up to the high end.";
    Some(section("Minutes", key, &body, look))
}

pub(super) fn landings(overview: &Overview<'_>, look: Look) -> Option<String> {
    let most = loads(overview).map(|load| load.landings_a_session().high).max().unwrap_or(0);
    let all_known = overview.weeks.iter().all(|planned| planned.load.is_ok());
    if most == 0 && all_known {
        return Some(section("Landings", "", &paragraph("No week asks for one.", INDENT, look), look));
    }
    let week = week_column(overview);
    let columns = ["all", "low", "moderate", "high", "a week"];
    let figures = |load: &Load| {
        let level = |at: usize| load.landings[at].session;
        [load.landings_a_session(), level(0), level(1), level(2), load.landings_a_week()].map(|count| {
            match count.high {
                0 => "-".to_string(),
                _ => range(count),
            }
        })
    };
    let widths: Vec<usize> = (0..columns.len())
        .map(|at| {
            loads(overview).map(|load| figures(load)[at].len()).chain([columns[at].len()]).max().unwrap_or(0)
        })
        .collect();
    let used: usize = widths.iter().map(|width| width + GAP.len()).sum();
    let room = look.width.saturating_sub(INDENT.len() + week + GAP.len() + used).min(40);
    // Where there is hardly any room, the figures stand alone.
    let blocks = if room < 5 { 0 } else { room };
    let line = |bar: String, cells: &[String]| {
        let cells = cells.iter().zip(&widths).map(|(cell, &width)| format!("{cell:>width$}"));
        let bar = (blocks > 0).then_some(bar);
        bar.into_iter().chain(cells).collect::<Vec<_>>().join(GAP)
    };
    let head = line(" ".repeat(blocks), &columns.map(String::from));
    let mut body = format!("{INDENT}{:week$}{GAP}{head}\n", "week");
    for planned in &overview.weeks {
        let figures = match &planned.load {
            Ok(load) => line(bar(load.landings_a_session(), most, blocks), &figures(load)),
            Err(why) => format!("not known: {}", unknown(why)),
        };
        body.push_str(&row(planned, week, &figures));
    }
    let key = "Heel drops, stamps, hops and jumps; both feet count. Bars, and all but the last column, are of a session.";
    Some(section("Landings", key, &body, look))
}

fn loads<'o>(overview: &'o Overview<'_>) -> impl Iterator<Item = &'o Load> {
    overview.weeks.iter().filter_map(|planned| planned.load.as_ref().ok())
}
