//! All series with their weeks, and the way to the next week.

use serde::Serialize;

use super::marks::Mark;
use super::request::Request;
use super::week::{Covered, covered, day};
use super::{Answer, FileChange, Room, Save, view};
use crate::entry::new;
use crate::model::series::Series;
use crate::model::week::next_monday;
use crate::reckon::answer::Answers;
use crate::reckon::ladder::Ladders;
use crate::reckon::proposal::{Proposal, Wish};

#[derive(Serialize)]
struct Page {
    series: Vec<Listed>,
    refused: Vec<Mark>,
}

#[derive(Serialize)]
struct Listed {
    id: String,
    title: String,
    weeks: Vec<ListedWeek>,
    next: u32,
}

#[derive(Serialize)]
struct ListedWeek {
    id: String,
    number: u32,
    title: String,
    begins: String,
    coverage: Vec<Covered>,
}

pub(super) fn answer(room: &Room<'_>, request: &Request) -> Answer {
    let taken =
        match (request.pressed(), &request.form) {
            (Some(("next", id)), _) => room.edition.model().series.get(id).map(|series| next(room, series)),
            (Some(("series", _)), Some(form)) => {
                let title = form.get("title").unwrap_or_default();
                Some(new::series(title, next_monday(room.today)).map_err(|_| {
                    format!("the title `{title}` has no letter a to z for the name of its folder")
                }))
            }
            _ => None,
        };
    match taken {
        None => shown(room, request, None),
        Some(Err(why)) => shown(room, request, Some(why)),
        Some(Ok(entry)) => {
            let then = super::today::href(&entry.name);
            let file = FileChange { name: entry.name, before: None, after: Some(entry.text.into_bytes()) };
            Answer::Save(Save { files: vec![file], then })
        }
    }
}

/// The week after the last, with what is proposed for it; without a proposal, with blanks.
fn next(room: &Room<'_>, series: &Series) -> Result<new::NewEntry, String> {
    let model = room.edition.model();
    let wish = Wish::of(series, &model.site);
    let (ladders, answers) = (Ladders::of(model), Answers::default());
    let proposal =
        Proposal::of(model, &ladders, &answers, series, &wish).map_err(|unknown| unknown.to_string())?;
    Ok(match &proposal.choice {
        Ok(session) => {
            let exercises = session.practices.iter().map(|(exercise, _)| *exercise);
            new::filled_week(series, proposal.week, proposal.date, exercises)
        }
        Err(_) => new::blank_week(series),
    })
}

fn shown(room: &Room<'_>, request: &Request, refused: Option<String>) -> Answer {
    let edition = room.edition;
    let listed = |series: &Series| Listed {
        id: series.id.clone(),
        title: series.title.value.clone(),
        weeks: series
            .weeks
            .iter()
            .map(|week| ListedWeek {
                id: week.id.clone(),
                number: week.number.value,
                title: week.title.value.clone(),
                begins: day(edition, week.date.value),
                coverage: covered(edition, week),
            })
            .collect(),
        next: series.next_week().0,
    };
    let page = Page {
        series: edition.model().series.values().map(listed).collect(),
        refused: refused.iter().map(|why| Mark::refusing(why)).collect(),
    };
    let status = if page.refused.is_empty() { 200 } else { 409 };
    Answer::Shown(view::with_status(status, request, "lists.html", "Weeks", &page))
}
