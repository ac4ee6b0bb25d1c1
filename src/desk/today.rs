//! The first page: the week of today and the next one, and everything that the review has found, each with the way to it.

use serde::Serialize;

use super::marks::{self, Mark};
use super::request::Request;
use super::week::{Covered, covered, day};
use super::{Answer, Room, view};
use crate::model::finding::{Finding, Level};
use crate::model::source::Sources;
use crate::reckon::this_week::stretches;
use crate::workspace::layout::{FileKind, kind};

#[derive(Serialize)]
struct Page {
    day: String,
    site: String,
    weeks: Vec<ShownWeek>,
    is_reviewed: bool,
    counted: String,
    /// The entries in which something was found, those with errors first.
    entries: Vec<FoundIn>,
}

#[derive(Serialize)]
struct ShownWeek {
    series: String,
    series_title: String,
    id: String,
    title: String,
    number: u32,
    begins: String,
    when: &'static str,
    coverage: Vec<Covered>,
}

#[derive(Serialize)]
struct FoundIn {
    name: String,
    href: String,
    found: Vec<Mark>,
    /// The most serious of them.
    level: &'static str,
}

pub(super) fn answer(room: &Room<'_>, request: &Request) -> Answer {
    let edition = room.edition;
    let mut weeks = Vec::new();
    for series in edition.model().series.values() {
        let stretches = stretches(series);
        let now = stretches.iter().position(|stretch| stretch.holds_on(room.today));
        let shown = now.into_iter().flat_map(|now| stretches[now..].iter().take(2));
        let mut seen: Vec<&str> = Vec::new();
        for stretch in shown {
            let Some(week) = series.weeks.get(stretch.week).filter(|_| !seen.contains(&stretch.week)) else {
                continue;
            };
            seen.push(stretch.week);
            let when = match stretch.holds_on(room.today) {
                true if week.date.value > room.today => "Begins soon",
                true => "This week",
                false => "Next",
            };
            weeks.push(ShownWeek {
                series: series.id.clone(),
                series_title: series.title.value.clone(),
                id: week.id.clone(),
                title: week.title.value.clone(),
                number: week.number.value,
                begins: day(edition, week.date.value),
                when,
                coverage: covered(edition, week),
            });
        }
    }
    let findings: Vec<&Finding> =
        room.reviewed.map(|(review, _)| review.findings.iter().collect()).unwrap_or_default();
    let page = Page {
        day: day(edition, room.today),
        site: edition.model().site.title.value.clone(),
        weeks,
        is_reviewed: room.reviewed.is_some(),
        counted: marks::counted(&findings),
        entries: room.reviewed.map(|(_, sources)| found_in(&findings, sources, room)).unwrap_or_default(),
    };
    Answer::Shown(view::page(request, "today.html", "Today", &page))
}

fn found_in(findings: &[&Finding], sources: &Sources, room: &Room<'_>) -> Vec<FoundIn> {
    let mut entries: Vec<(Level, FoundIn)> = Vec::new();
    for finding in findings {
        let name = &sources.get(finding.span.file).name;
        match entries.iter_mut().find(|(_, entry)| entry.href.ends_with(&href(name))) {
            Some((level, entry)) => {
                *level = (*level).max(finding.level);
                entry.found.push(Mark::of(finding));
            }
            None => entries.push((
                finding.level,
                FoundIn {
                    name: title(name, room),
                    href: href(name),
                    found: vec![Mark::of(finding)],
                    level: "",
                },
            )),
        }
    }
    entries.sort_by_key(|(level, _)| std::cmp::Reverse(*level));
    entries.into_iter().map(|(level, entry)| FoundIn { level: level.word(), ..entry }).collect()
}

/// Where an entry is opened on the desk.
pub(super) fn href(name: &str) -> String {
    match kind(name) {
        Some(FileKind::Exercise { id }) => format!("exercise/{id}"),
        Some(FileKind::Week { series, id }) => format!("week/{series}/{id}"),
        Some(FileKind::Series { id }) => format!("series/{id}"),
        Some(FileKind::Site) => "settings".to_string(),
        _ => format!("text/{name}"),
    }
}

/// What an entry is called on the desk.
pub(super) fn title(name: &str, room: &Room<'_>) -> String {
    let model = room.edition.model();
    let found = match kind(name) {
        Some(FileKind::Exercise { id }) => model.exercises.get(&id).map(|e| e.title.value.clone()),
        Some(FileKind::Week { series, id }) => {
            let week = model.series.get(&series).and_then(|series| series.weeks.get(&id));
            week.map(|week| format!("Week {}: {}", week.number.value, week.title.value))
        }
        Some(FileKind::Series { id }) => model.series.get(&id).map(|s| s.title.value.clone()),
        Some(FileKind::Site) => Some("Settings of the site".to_string()),
        _ => None,
    };
    found.filter(|title| !title.trim().is_empty()).unwrap_or_else(|| name.to_string())
}
