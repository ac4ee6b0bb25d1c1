//! What holds for a series and for the whole site.

use serde::Serialize;

use super::form::{self, Control, Kind};
use super::marks::{self, Mark};
use super::request::{Request, Response};
use super::{Answer, Room, entry, view};
use crate::entry::parts;
use crate::outputs::blocks::phrases::Phrases;

#[derive(Serialize)]
struct Page<'a> {
    name: &'a str,
    path: String,
    title: String,
    fields: Vec<Control>,
    counted: String,
    rest: Vec<Mark>,
    refused: Vec<Mark>,
    clashes: bool,
    earlier: usize,
    notice: Option<&'a str>,
}

/// A series; `None` where there is none.
pub(super) fn series(room: &Room<'_>, request: &Request, id: &str) -> Option<Answer> {
    let model = room.edition.model();
    let series = model.series.get(id)?;
    let say = Phrases { words: room.edition.words() };
    let precautions = model.site.catalogue.precautions.keys();
    let mut people: Vec<(String, String)> =
        precautions.map(|id| (id.clone(), say.capital(&say.precaution(&model.site, id)))).collect();
    people.sort_by(|a, b| a.1.cmp(&b.1));
    let fields = vec![
        Control::new("title", Kind::Line, "Title", ""),
        Control::new("summary", Kind::Text, "In a sentence", ""),
        Control::new("audience", Kind::Text, "For whom it is", ""),
        Control::new("start", Kind::Day, "Begins on", ""),
        Control::new("all_have", Kind::Some, "What everybody in it has", "Every sheet is made for it")
            .with(people.clone()),
        Control::new(
            "serves",
            Kind::Some,
            "Who has to have an answer",
            "The review asks for a safe way for each",
        )
        .with(people),
    ];
    settled(
        room,
        request,
        &format!("content/series/{id}/series.toml"),
        &format!("series/{id}"),
        &series.title.value,
        fields,
    )
}

/// The site.
pub(super) fn site(room: &Room<'_>, request: &Request) -> Option<Answer> {
    let line = |place: &str, label: &str, help: &str| Control::new(place, Kind::Line, label, help);
    let languages = room.edition.theme().languages();
    let languages = languages.into_iter().map(|l| (l.to_string(), l.to_string())).collect::<Vec<_>>();
    let fields = vec![
        line("title", "Title of the site", ""),
        line("address", "Where it will be published", "https://clinic.example/exercises/"),
        Control::new("language", Kind::One, "Language", "").with(languages),
        line("educator.name", "Your name", "As it is printed"),
        line("educator.clinic", "Your clinic", ""),
        line("educator.credentials", "Your profession", "PT"),
        Control::new("educator.place", Kind::Lines, "Its postal address", "Line by line"),
        line("educator.phone", "Its phone", "Printed on every sheet"),
        line("educator.email", "Its mail address", ""),
        line("educator.emergency", "Emergency number", "Who is called in an emergency"),
    ];
    settled(room, request, "site.toml", "settings", "Settings of the site", fields)
}

fn settled(
    room: &Room<'_>,
    request: &Request,
    name: &str,
    path: &str,
    title: &str,
    fields: Vec<Control>,
) -> Option<Answer> {
    let sources = room.edition.sources();
    let text = &sources.get(sources.find(name)?).text;
    let Some(parts) = parts(text, true) else {
        return Some(Answer::Shown(Response::Go(format!("text/{name}"))));
    };
    let mut fields: Vec<Control> = fields.into_iter().map(|field| field.of(&parts.fields)).collect();
    let refused = match &request.form {
        None => entry::Refused::default(),
        Some(form) => match entry::take(room, name, &fields, form, Vec::new(), &format!("{path}?saved")) {
            Ok(answer) => return Some(answer),
            Err(refused) => refused,
        },
    };
    let findings = marks::findings(room, name);
    let mut controls: Vec<&mut Control> = fields.iter_mut().collect();
    let rest = marks::put(&mut controls, &findings, &parts);
    if let Some(form) = &request.form {
        form::kept(&mut fields, form, &refused.clashes);
    }
    let page = Page {
        name,
        path: path.to_string(),
        title: title.to_string(),
        fields,
        counted: marks::counted(&findings),
        rest,
        clashes: !refused.clashes.is_empty(),
        earlier: (room.earlier)(name).len(),
        notice: request.query.get("saved").map(|_| "Saved."),
        refused: refused.why,
    };
    let status = if page.refused.is_empty() && !page.clashes { 200 } else { 409 };
    Some(Answer::Shown(view::with_status(status, request, "settings.html", title, &page)))
}
