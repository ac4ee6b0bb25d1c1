//! All exercises, and the way to a new one.

use serde::Serialize;

use super::marks::{self, Mark};
use super::request::Request;
use super::{Answer, FileChange, Room, Save, view};
use crate::entry::new::{self, NotNew};
use crate::model::finding::Level;
use crate::model::vocabulary::{Component, Position, Vocabulary};
use crate::workspace::layout;

#[derive(Serialize)]
struct Page {
    shelves: Vec<Shelf>,
    components: Vec<(&'static str, String)>,
    positions: Vec<(&'static str, String)>,
    refused: Vec<Mark>,
    /// What she has typed for a new one.
    title: String,
    /// Those that were deleted here and can be brought back.
    gone: Vec<String>,
}

#[derive(Serialize)]
struct Shelf {
    id: &'static str,
    word: String,
    exercises: Vec<Listed>,
}

#[derive(Serialize)]
struct Listed {
    id: String,
    title: String,
    summary: String,
    errors: usize,
}

pub(super) fn answer(room: &Room<'_>, request: &Request) -> Answer {
    let Some(form) = &request.form else { return shown(room, request, None) };
    let title = form.get("title").unwrap_or_default().trim();
    let component = form.get("component").and_then(Component::from_word);
    let position = form.get("position").and_then(Position::from_word);
    let (Some(component), false) = (component, title.is_empty()) else {
        return shown(room, request, Some("give the new exercise a title and a component".to_string()));
    };
    let (model, words) = (room.edition.model(), room.edition.words());
    match new::exercise(title, component, position, model, words) {
        Ok(entry) => {
            let id = entry.name.trim_start_matches("content/exercises/").trim_end_matches(".md").to_string();
            let file = FileChange { name: entry.name, before: None, after: Some(entry.text.into_bytes()) };
            Answer::Save(Save { files: vec![file], then: format!("exercise/{id}") })
        }
        Err(NotNew::NoName) => shown(
            room,
            request,
            Some(format!("the title `{title}` has no letter a to z for the name of its file")),
        ),
        Err(NotNew::Taken(other)) => {
            let why = format!("there is an exercise `{other}` already; give the new one another title");
            shown(room, request, Some(why))
        }
    }
}

fn shown(room: &Room<'_>, request: &Request, refused: Option<String>) -> Answer {
    let edition = room.edition;
    let shelf = |&component: &Component| {
        let exercises = edition.model().exercises.values().filter(|e| e.component.value == component);
        let mut exercises: Vec<Listed> = exercises
            .map(|exercise| {
                let name = format!("content/exercises/{}.md", exercise.id);
                let findings = marks::findings(room, &name);
                Listed {
                    id: exercise.id.clone(),
                    title: exercise.title.value.clone(),
                    summary: exercise.summary.value.clone(),
                    errors: findings.iter().filter(|f| f.level == Level::Error).count(),
                }
            })
            .collect();
        exercises.sort_by(|a, b| a.title.cmp(&b.title));
        Shelf {
            id: component.word(),
            word: edition.words().say(&format!("component-{}", component.word())),
            exercises,
        }
    };
    let said = |prefix: &str, word: &str| edition.words().say(&format!("{prefix}-{word}"));
    let page = Page {
        shelves: Component::ALL.iter().map(shelf).collect(),
        components: Component::ALL.iter().map(|c| (c.word(), said("component", c.word()))).collect(),
        positions: Position::ALL.iter().map(|p| (p.word(), said("position", p.word()))).collect(),
        refused: refused.iter().map(|why| Mark::refusing(why)).collect(),
        title: request.form.as_ref().and_then(|form| form.get("title")).unwrap_or_default().to_string(),
        gone: (room.gone)().into_iter().filter(|name| layout::kind(name).is_some()).collect(),
    };
    let status = if page.refused.is_empty() { 200 } else { 409 };
    Answer::Shown(view::with_status(status, request, "exercises.html", "Exercises", &page))
}
