//! The first page where there is no workspace yet: what it asks for, and the files of a new one.

use std::path::PathBuf;

use serde::Serialize;
use toml::Value;

use super::marks::Mark;
use super::request::{Request, Response};
use super::view;
use crate::entry::edit::{Change, changed};

#[derive(Serialize)]
struct Page {
    fields: Vec<Field>,
    refused: Vec<Mark>,
}

#[derive(Serialize)]
struct Field {
    name: &'static str,
    label: &'static str,
    help: &'static str,
    value: String,
    needed: bool,
}

/// Where a workspace is to begin, and what its files say.
pub struct Begun {
    pub folder: PathBuf,
    pub files: Vec<(String, Vec<u8>)>,
}

/// What is asked: the field, what it is called, help, whether it is needed, and where it stands in the settings.
const ASKED: [(&str, &str, &str, bool, Option<&str>); 7] = [
    ("folder", "The folder", "A new folder, or an empty one", true, None),
    ("title", "Title of your site", "What clients will see at the top", true, Some("title")),
    ("educator", "Your name", "As it is to be printed", true, Some("educator.name")),
    ("clinic", "Your clinic", "", false, Some("educator.clinic")),
    ("phone", "The phone for questions", "", false, Some("educator.phone")),
    (
        "emergency",
        "The emergency number where your clients live",
        "Printed on every sheet",
        true,
        Some("educator.emergency"),
    ),
    ("language", "The language of your texts", "en or es", true, Some("language")),
];

/// The page that asks, or what she has asked for: the files of the sample with what she said in their settings.
pub fn opening(
    request: &Request,
    folder: &str,
    files: Vec<(String, Vec<u8>)>,
    why: Option<&str>,
) -> Result<Begun, Response> {
    if let Some(asset) = view::asset(request) {
        return Err(asset);
    }
    let form = request.form.as_ref();
    let given = |name: &str| form.and_then(|form| form.get(name)).unwrap_or_default().trim().to_string();
    let shown = |why: Option<&str>| {
        let field =
            |&(name, label, help, needed, _): &(&'static str, &'static str, &'static str, bool, _)| {
                let value = match (form, name) {
                    (Some(_), _) => given(name),
                    (None, "folder") => folder.to_string(),
                    (None, "language") => "en".to_string(),
                    _ => String::new(),
                };
                Field { name, label, help, value, needed }
            };
        let page = Page {
            fields: ASKED.iter().map(field).collect(),
            refused: why.iter().map(|why| Mark::refusing(why)).collect(),
        };
        view::with_status(if why.is_some() { 409 } else { 200 }, request, "opening.html", "Welcome", &page)
    };
    if let Some(why) = why {
        return Err(shown(Some(why)));
    }
    if form.is_none() {
        return Err(shown(None));
    }
    let lacking = ASKED.iter().find(|(name, _, _, needed, _)| *needed && given(name).is_empty());
    if let Some((_, label, ..)) = lacking {
        return Err(shown(Some(&format!("fill in `{label}`"))));
    }
    let mut changes = Vec::new();
    for (name, _, _, _, place) in ASKED {
        let Some(at) = place.and_then(|place| place.parse().ok()) else { continue };
        changes.push(match given(name) {
            text if text.is_empty() => Change::Remove { at },
            text => Change::Set { at, value: Value::String(text) },
        });
    }
    let mut files = files;
    for (name, bytes) in &mut files {
        if name == "site.toml" {
            let text = String::from_utf8_lossy(bytes).into_owned();
            match changed(&text, true, &changes) {
                Ok(new) => *bytes = new.into_bytes(),
                Err(why) => return Err(shown(Some(&why.to_string()))),
            }
        }
    }
    Ok(Begun { folder: PathBuf::from(given("folder")), files })
}
