//! The page of one exercise, in the order in which a therapist thinks of it: what it is, how it is done, how much, for
//! whom, and what else belongs to it.

mod fields;
mod whom;

use serde::Serialize;

use super::form::{self, Clash, Control};
use super::marks::{self, Mark};
use super::request::{Request, Response};
use super::{Answer, Room, entry, view};
use crate::drawing::{Colors, Picture, svg};
use crate::edition::Edition;
use crate::entry::edit::{Approved, with_reviewed};
use crate::entry::{Parts, parts};
use crate::model::exercise::Exercise;
use crate::model::figure::Shows;
use crate::model::finding::Level;
use crate::outputs::Address;
use crate::reckon::approval;
use crate::reckon::figure::Scene;
use fields::{Group, Row, groups};

#[derive(Serialize)]
struct Page<'a> {
    id: &'a str,
    name: &'a str,
    title: String,
    /// Where its page of the site is, as the preview serves it.
    preview: String,
    groups: Vec<Group>,
    whom: Option<whom::Grid>,
    figures: Vec<Figure>,
    counted: String,
    /// What was found that is about no field of the form.
    rest: Vec<Mark>,
    /// Why nothing was written.
    refused: Vec<Mark>,
    clashes: bool,
    /// A table to fill in that is not in the entry yet.
    begun: Option<Row>,
    reviewed: Option<String>,
    earlier: usize,
    notice: Option<&'a str>,
}

#[derive(Serialize)]
struct Figure {
    svg: Option<String>,
    photo: Option<String>,
    description: String,
}

/// The entry's page, or what comes of its form; `None` where there is no such exercise.
pub(super) fn answer(room: &Room<'_>, request: &Request, id: &str) -> Option<Answer> {
    let edition = room.edition;
    let name = format!("content/exercises/{id}.md");
    let source = edition.sources().get(edition.sources().find(&name)?);
    // Fields that cannot be taken apart are mended as text.
    let Some(parts) = parts(&source.text, false) else {
        return Some(Answer::Shown(Response::Go(format!("text/{name}"))));
    };
    let mut entry = Entry { room, request, id, name: &name, text: &source.text, parts };
    Some(match &request.form {
        None => entry.shown(&[], &[]),
        Some(_) => entry.taken(),
    })
}

struct Entry<'a> {
    room: &'a Room<'a>,
    request: &'a Request,
    id: &'a str,
    name: &'a str,
    text: &'a str,
    parts: Parts,
}

impl Entry<'_> {
    fn edition(&self) -> &Edition {
        self.room.edition
    }

    fn exercise(&self) -> Option<&Exercise> {
        self.edition().model().exercises.get(self.id)
    }

    /// Takes what the form sent: her changes, and what the pressed button does beside them.
    fn taken(&mut self) -> Answer {
        let Some(form) = &self.request.form else { return self.shown(&[], &[]) };
        let pressed = self.request.pressed().unwrap_or_default();
        if pressed.0 == "approve" {
            return self.approved(form.get("by").unwrap_or_default().trim());
        }
        let groups = groups(self.edition(), &self.parts);
        let controls: Vec<Control> = groups.iter().flat_map(Group::controls).cloned().collect();
        let more = match fields::pressed(pressed, form, self.edition()) {
            Ok(more) => more,
            Err(why) => return self.refused(&why),
        };
        let place = if more.is_empty() { "" } else { pressed.1.split('.').next().unwrap_or_default() };
        let then = format!("exercise/{}?saved#{place}", self.id);
        let taken = entry::take(self.room, self.name, &controls, form, more, then.trim_end_matches('#'));
        taken.unwrap_or_else(|refused| self.shown(&refused.clashes, &refused.why))
    }

    fn approved(&mut self, by: &str) -> Answer {
        if by.is_empty() {
            return self.refused("to approve it, write your name and profession");
        }
        let Some(exercise) = self.exercise() else { return self.refused("it cannot be read yet") };
        let errors = marks::findings(self.room, self.name);
        if errors.iter().any(|f| f.level == Level::Error) {
            return self.refused("an exercise with something to mend cannot be approved");
        }
        let of = approval::fingerprint(exercise);
        let approved = Approved { by, on: self.room.today, of: &of };
        match with_reviewed(self.text, approved) {
            Some(text) => {
                let then = format!("exercise/{}?saved#approve", self.id);
                let taken = entry::put(self.room, self.name, &text, &then);
                taken.unwrap_or_else(|refused| self.shown(&refused.clashes, &refused.why))
            }
            None => self.refused("its `reviewed` is so written that it can only be changed as text"),
        }
    }

    fn refused(&mut self, why: &str) -> Answer {
        self.shown(&[], &[Mark::refusing(why)])
    }

    /// The page; where something was refused, with what she typed.
    fn shown(&mut self, clashes: &[Clash], refused: &[Mark]) -> Answer {
        let edition = self.edition();
        let mut groups = groups(edition, &self.parts);
        let findings = marks::findings(self.room, self.name);
        let mut controls: Vec<&mut Control> = groups.iter_mut().flat_map(Group::controls_mut).collect();
        let rest = marks::put(&mut controls, &findings, &self.parts);
        if let Some(form) = &self.request.form {
            for control in controls {
                form::kept(std::slice::from_mut(control), form, clashes);
            }
        }
        let exercise = self.exercise();
        let begun = self.request.query.get("new").and_then(|kind| {
            let given = |name: &str| self.request.query.get(name).unwrap_or_default().to_string();
            fields::begun(kind, edition, &given)
        });
        let title = exercise.map_or(self.id, |exercise| exercise.title.value.as_str()).to_string();
        let page = Page {
            id: self.id,
            name: self.name,
            preview: format!("/{}", Address::Exercise(self.id.to_string()).path()),
            groups,
            whom: exercise.map(|exercise| whom::grid(edition, exercise)),
            figures: exercise.map(figures).unwrap_or_default(),
            counted: marks::counted(&findings),
            rest,
            refused: refused.to_vec(),
            clashes: !clashes.is_empty(),
            begun,
            reviewed: exercise.and_then(reviewed),
            earlier: (self.room.earlier)(self.name).len(),
            notice: self.request.query.get("saved").map(|_| "Saved."),
            title: title.clone(),
        };
        let status = if refused.is_empty() && clashes.is_empty() { 200 } else { 409 };
        Answer::Shown(view::with_status(status, self.request, "exercise.html", &title, &page))
    }
}

/// Who approved it, and whether it is still what was approved.
fn reviewed(exercise: &Exercise) -> Option<String> {
    let reviewed = exercise.reviewed.as_ref()?;
    let now = approval::fingerprint(exercise);
    let same = reviewed.of.as_ref().is_none_or(|of| of.value == now);
    let by = format!("Approved by {} on {}.", reviewed.by.value, reviewed.on.value);
    Some(if same { by } else { format!("{by} It has changed since.") })
}

fn figures(exercise: &Exercise) -> Vec<Figure> {
    let drawn = exercise.figures.iter().map(|figure| {
        let (svg, photo) = match &figure.shows {
            Shows::Drawing(drawing) => {
                let picture = Picture::of(&Scene::of(drawing));
                (Some(svg(&picture, Colors::Paper, None)), None)
            }
            Shows::Photo(photo) => (None, Some(photo.file.value.clone())),
        };
        Figure { svg, photo, description: figure.description.value.clone() }
    });
    drawn.collect()
}
