//! The templates of the desk, and the files that its pages load.

use std::sync::LazyLock;

use serde::Serialize;
use tera::{Context, Tera};

use super::request::{Request, Response};
use crate::model::nearest::shown;
use crate::workspace::theme::Theme;

const TEMPLATES: [(&str, &str); 12] = [
    ("frame.html", include_str!("pages/frame.html")),
    ("parts.html", include_str!("pages/parts.html")),
    ("today.html", include_str!("pages/today.html")),
    ("exercises.html", include_str!("pages/exercises.html")),
    ("exercise.html", include_str!("pages/exercise.html")),
    ("lists.html", include_str!("pages/lists.html")),
    ("week.html", include_str!("pages/week.html")),
    ("settings.html", include_str!("pages/settings.html")),
    ("raw.html", include_str!("pages/raw.html")),
    ("earlier.html", include_str!("pages/earlier.html")),
    ("opening.html", include_str!("pages/opening.html")),
    ("told.html", include_str!("pages/told.html")),
];

static TERA: LazyLock<Result<Tera, String>> = LazyLock::new(|| {
    let mut tera = Tera::default();
    tera.add_raw_templates(TEMPLATES).map_err(|error| format!("{error:?}"))?;
    let shape = |name: &str| String::from_utf8_lossy(include_shape(name)).trim().to_string();
    let shapes: std::collections::BTreeMap<&str, String> =
        ["posture", "balance", "strength", "power"].into_iter().map(|name| (name, shape(name))).collect();
    tera.global_context().insert("shapes", &shapes);
    Ok(tera)
});

fn include_shape(name: &str) -> &'static [u8] {
    match name {
        "posture" => include_bytes!("../../themes/wideleaf/shapes/posture.svg"),
        "balance" => include_bytes!("../../themes/wideleaf/shapes/balance.svg"),
        "strength" => include_bytes!("../../themes/wideleaf/shapes/strength.svg"),
        _ => include_bytes!("../../themes/wideleaf/shapes/power.svg"),
    }
}

/// What every page has.
#[derive(Serialize)]
struct Frame<'a> {
    title: &'a str,
    key: &'a str,
    path: &'a str,
}

/// A page of the desk.
pub(super) fn page(request: &Request, template: &str, title: &str, body: &impl Serialize) -> Response {
    with_status(200, request, template, title, body)
}

pub(super) fn with_status(
    status: u16,
    request: &Request,
    template: &str,
    title: &str,
    body: &impl Serialize,
) -> Response {
    let mut context = Context::new();
    context.insert("frame", &Frame { title, key: &request.key, path: &request.path });
    context.insert("page", body);
    let html = match &*TERA {
        Ok(tera) => tera.render(template, &context).map_err(|error| format!("{error:?}")),
        Err(why) => Err(why.clone()),
    };
    match html {
        Ok(html) => Response::Page { status, html },
        Err(why) => {
            Response::Page { status: 500, html: format!("<!DOCTYPE html><pre>{}</pre>", escaped(&why)) }
        }
    }
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;")
}

#[derive(Serialize)]
struct Told<'a> {
    title: &'a str,
    text: String,
    /// Lines that she wrote and that are not lost with the page.
    typed: Vec<&'a str>,
}

pub(super) fn not_there(request: &Request) -> Response {
    let text = format!("There is no page {} on the desk. It may have been removed.", shown(&request.path));
    let title = "Not on the desk";
    with_status(404, request, "told.html", title, &Told { title, text, typed: Vec::new() })
}

pub(super) fn unsaved(request: &Request, why: &str) -> Response {
    let text = format!(
        "{} Nothing was written. Go back: what you typed is still there.",
        super::marks::sentence(why)
    );
    let title = "Not saved";
    with_status(409, request, "told.html", title, &Told { title, text, typed: Vec::new() })
}

/// What pages of the desk load: their style and script, and the fonts of the built-in theme.
pub(super) fn asset(request: &Request) -> Option<Response> {
    let path = request.path.as_str();
    let bytes = match path {
        "desk.css" => include_bytes!("pages/desk.css").to_vec(),
        "desk.js" => include_bytes!("pages/desk.js").to_vec(),
        font if font.starts_with("fonts/") && font.ends_with(".woff2") => {
            Theme::built_in().files.get(font)?.to_vec()
        }
        _ => return None,
    };
    Some(Response::File { path: path.to_string(), bytes })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_template_can_be_read() {
        assert_eq!(TERA.as_ref().err(), None);
    }
}
