//! Any entry as the text that it is: for what no form shows, and for what no form can read.

use serde::Serialize;

use super::marks::{self, Mark};
use super::request::Request;
use super::today::{href, title};
use super::{Answer, Room, entry, view};
use crate::workspace::layout;

#[derive(Serialize)]
struct Page<'a> {
    name: &'a str,
    /// Its form, where it has one.
    form: Option<String>,
    title: String,
    text: &'a str,
    was: &'a str,
    found: Vec<Mark>,
    refused: Vec<Mark>,
    /// What somebody else has made of it meanwhile.
    theirs: Option<&'a str>,
    earlier: usize,
    notice: Option<&'a str>,
}

/// The text of an entry, or what comes of another; `None` where there is none.
pub(super) fn answer(room: &Room<'_>, request: &Request, name: &str) -> Option<Answer> {
    layout::kind(name)?;
    let sources = room.edition.sources();
    let now = &sources.get(sources.find(name)?).text;
    let plain = now.replace("\r\n", "\n");
    let href = href(name);
    let mut page = Page {
        name,
        form: (!href.starts_with("text/")).then_some(href),
        title: title(name, room),
        text: &plain,
        was: &plain,
        found: marks::findings(room, name).into_iter().map(Mark::of).collect(),
        refused: Vec::new(),
        theirs: None,
        earlier: (room.earlier)(name).len(),
        notice: request.query.get("saved").map(|_| "Saved."),
    };
    let Some(form) = &request.form else {
        return Some(Answer::Shown(view::page(request, "raw.html", &page.title, &page)));
    };
    let (typed, was) = (form.get("text").unwrap_or_default(), form.get("was").unwrap_or_default());
    // Browsers leave out a line end that a text begins with.
    let is_same = |one: &str, other: &str| one.trim_start_matches('\n') == other.trim_start_matches('\n');
    page.text = typed;
    if !is_same(was, &plain) && !is_same(typed, &plain) {
        page.theirs = Some(&plain);
        return Some(Answer::Shown(view::with_status(409, request, "raw.html", &page.title, &page)));
    }
    let new = if is_same(typed, was) {
        now.clone()
    } else if now.contains("\r\n") {
        typed.replace('\n', "\r\n")
    } else {
        typed.to_string()
    };
    // What cannot be read may be written here, where it is mended, but not made worse without a word.
    let anyway = form.get("anyway").is_some();
    let then = format!("text/{name}?saved");
    Some(match entry::put_text(room, name, &new, &then, anyway) {
        Ok(answer) => answer,
        Err(refused) => {
            page.refused = refused.why;
            Answer::Shown(view::with_status(409, request, "raw.html", &page.title, &page))
        }
    })
}
