//! The page of one week: its four components, its exercises in their order, and what is said.

use serde::Serialize;
use toml::Value;

use super::form::{Control, Kind};
use super::marks::{self, Mark};
use super::request::{Request, Response};
use super::{Answer, Room, entry, form, view};
use crate::edition::Edition;
use crate::entry::edit::{Change, Place};
use crate::entry::{Parts, parts};
use crate::model::series::Series;
use crate::model::vocabulary::{Component, Vocabulary};
use crate::model::week::Week;
use crate::outputs::Address;
use crate::outputs::blocks::phrases::Phrases;
use crate::reckon::coverage;

#[derive(Serialize)]
struct Page<'a> {
    series: &'a str,
    series_title: &'a str,
    id: &'a str,
    name: &'a str,
    title: String,
    preview: String,
    coverage: Vec<Covered>,
    fields: Vec<Control>,
    rows: Vec<Row>,
    /// Every exercise, under its component.
    library: Vec<Shelf>,
    counted: String,
    rest: Vec<Mark>,
    refused: Vec<Mark>,
    clashes: bool,
    earlier: usize,
    notice: Option<&'a str>,
}

/// One of the four components, and what the week has for it.
#[derive(Serialize)]
pub(super) struct Covered {
    id: &'static str,
    word: String,
    exercises: Vec<String>,
}

#[derive(Serialize)]
struct Row {
    place: String,
    title: String,
    component: Option<&'static str>,
    first: bool,
    last: bool,
    fields: Vec<Control>,
}

#[derive(Serialize)]
struct Shelf {
    word: String,
    exercises: Vec<(String, String)>,
}

/// The components of a week with the titles of its exercises.
pub(super) fn covered(edition: &Edition, week: &Week) -> Vec<Covered> {
    let cells = coverage::of_week(edition.model(), week).into_iter();
    let covered = cells.map(|cell| Covered {
        id: cell.component.word(),
        word: component(edition, cell.component),
        exercises: cell.exercises.iter().map(|(_, exercise)| exercise.title.value.clone()).collect(),
    });
    covered.collect()
}

fn component(edition: &Edition, component: Component) -> String {
    edition.words().say(&format!("component-{}", component.word()))
}

/// The week's page, or what comes of its form; `None` where there is no such week.
pub(super) fn answer(room: &Room<'_>, request: &Request, series: &str, id: &str) -> Option<Answer> {
    let edition = room.edition;
    let name = format!("content/series/{series}/{id}.md");
    let source = edition.sources().get(edition.sources().find(&name)?);
    let series = edition.model().series.get(series)?;
    let Some(parts) = parts(&source.text, false) else {
        return Some(Answer::Shown(Response::Go(format!("text/{name}"))));
    };
    let open = Open { room, request, series, id, name, parts };
    Some(match &request.form {
        None => open.shown(&entry::Refused::default()),
        Some(_) => open.taken().unwrap_or_else(|refused| open.shown(&refused)),
    })
}

struct Open<'a> {
    room: &'a Room<'a>,
    request: &'a Request,
    series: &'a Series,
    id: &'a str,
    name: String,
    parts: Parts,
}

impl Open<'_> {
    fn count(&self) -> usize {
        self.parts.fields.get("exercises").and_then(Value::as_array).map_or(0, Vec::len)
    }

    fn fields(&self) -> Vec<Control> {
        let opening =
            if self.parts.opening.is_empty() { Vec::new() } else { vec![self.parts.opening.clone()] };
        let line = |place: &str, label: &str, help: &str| {
            Control::new(place, Kind::Line, label, help).of(&self.parts.fields)
        };
        vec![
            line("title", "Title", "Light on your feet"),
            Control::new("date", Kind::Day, "Begins on", "").of(&self.parts.fields),
            Control::new("opening", Kind::Opening, "A word of welcome", "").holding(opening),
            line("question", "A question for them", "Which kitchen surface do you hold on to?"),
            line("video.address", "Video, where it is to be seen", "https://…"),
            line("video.length", "How long the video is", "11:20"),
        ]
    }

    fn rows(&self) -> Vec<Row> {
        let model = self.room.edition.model();
        let count = self.count();
        let row = |at: usize| {
            let place = format!("exercises.{at}");
            let id = Control::new(&format!("{place}.id"), Kind::Line, "", "")
                .of(&self.parts.fields)
                .holds
                .join("");
            let exercise = model.exercises.get(&id);
            let of = |name: &str, kind: Kind, label: &str, help: &str| {
                Control::new(&format!("{place}.{name}"), kind, label, help).of(&self.parts.fields)
            };
            let all = library(self.room.edition).into_iter().flat_map(|shelf| shelf.exercises);
            let fields = vec![
                Control::new(&format!("{place}.id"), Kind::One, "Exercise", "")
                    .with(all)
                    .of(&self.parts.fields),
                of("focus", Kind::Line, "The cue of this week", "Both feet land together."),
                of("dose.reps", Kind::Amount, "Repetitions", "As the exercise says where it is empty"),
                of("dose.sets", Kind::Amount, "Sets", ""),
                of("dose.hold", Kind::Amount, "Hold", "15 s"),
                of("dose.effort", Kind::Amount, "Effort", "5-6"),
                of("at", Kind::Line, "Begins in the video at", "3:40"),
            ];
            Row {
                title: exercise.map_or_else(|| unknown(&id), |exercise| exercise.title.value.clone()),
                component: exercise.map(|exercise| exercise.component.value.word()),
                first: at == 0,
                last: at + 1 == count,
                place,
                fields,
            }
        };
        (0..count).map(row).collect()
    }

    fn taken(&self) -> Result<Answer, entry::Refused> {
        let Some(form) = &self.request.form else { return Err(entry::Refused::default()) };
        let fields = self.fields().into_iter();
        let controls: Vec<Control> =
            fields.chain(self.rows().into_iter().flat_map(|row| row.fields)).collect();
        let mut more = Vec::new();
        let (act, what) = self.request.pressed().unwrap_or_default();
        let at = |what: &str| what.parse::<Place>().ok();
        let number = what.rsplit('.').next().and_then(|n| n.parse::<usize>().ok());
        match (act, number) {
            ("remove", Some(_)) => more.extend(at(what).map(|at| Change::Remove { at })),
            ("up", Some(n)) => more.extend(at(what).map(|at| Change::Move { at, to: n.saturating_sub(1) })),
            ("down", Some(n)) => more.extend(at(what).map(|at| Change::Move { at, to: n + 1 })),
            ("insert", _) => {
                let id = form.get("exercise").unwrap_or_default().to_string();
                let fields = vec![("id".to_string(), Value::String(id))];
                more.extend(at("exercises").map(|into| Change::Insert { into, fields }));
            }
            _ => {}
        }
        let place = if more.is_empty() { "" } else { "#exercises" };
        let then = format!("week/{}/{}?saved{place}", self.series.id, self.id);
        entry::take(self.room, &self.name, &controls, form, more, &then)
    }

    fn shown(&self, refused: &entry::Refused) -> Answer {
        let edition = self.room.edition;
        let (mut fields, mut rows) = (self.fields(), self.rows());
        let findings = marks::findings(self.room, &self.name);
        let rest = {
            let of_rows = rows.iter_mut().flat_map(|row| &mut row.fields);
            let mut controls: Vec<&mut Control> = fields.iter_mut().chain(of_rows).collect();
            let rest = marks::put(&mut controls, &findings, &self.parts);
            if let Some(form) = &self.request.form {
                for control in controls {
                    form::kept(std::slice::from_mut(control), form, &refused.clashes);
                }
            }
            rest
        };
        let week = self.series.weeks.get(self.id);
        let title = week.map_or(self.id, |week| week.title.value.as_str()).to_string();
        let page = Page {
            series: &self.series.id,
            series_title: &self.series.title.value,
            id: self.id,
            name: &self.name,
            preview: week
                .map(|week| format!("/{}", Address::week(self.series, week).path()))
                .unwrap_or_default(),
            coverage: week.map(|week| covered(edition, week)).unwrap_or_default(),
            fields,
            rows,
            library: library(edition),
            counted: marks::counted(&findings),
            rest,
            refused: refused.why.clone(),
            clashes: !refused.clashes.is_empty(),
            earlier: (self.room.earlier)(&self.name).len(),
            notice: self.request.query.get("saved").map(|_| "Saved."),
            title: title.clone(),
        };
        let status = if refused.why.is_empty() && refused.clashes.is_empty() { 200 } else { 409 };
        Answer::Shown(view::with_status(status, self.request, "week.html", &title, &page))
    }
}

/// What a row is called whose exercise is not there.
fn unknown(id: &str) -> String {
    if id.is_empty() { "Not chosen yet".to_string() } else { id.to_string() }
}

fn library(edition: &Edition) -> Vec<Shelf> {
    let shelf = |&of: &Component| {
        let exercises = edition.model().exercises.values().filter(|e| e.component.value == of);
        let mut exercises: Vec<_> = exercises.map(|e| (e.id.clone(), e.title.value.clone())).collect();
        exercises.sort_by(|a, b| a.1.cmp(&b.1));
        Shelf { word: component(edition, of), exercises }
    };
    Component::ALL.iter().map(shelf).collect()
}

/// A day as the educator reads it.
pub(super) fn day(edition: &Edition, date: jiff::civil::Date) -> String {
    Phrases { words: edition.words() }.date(date)
}
