//! The earlier versions of an entry: what differs from now, and the way back.

use serde::Serialize;
use similar::{ChangeTag, TextDiff};

use super::request::Request;
use super::today::{href, title};
use super::{Answer, FileChange, Room, Save, view};
use crate::workspace::layout;

#[derive(Serialize)]
struct Page<'a> {
    name: &'a str,
    title: String,
    href: String,
    is_gone: bool,
    versions: Vec<Version>,
    shown: Option<Shown>,
}

#[derive(Serialize)]
struct Version {
    number: u64,
    until: String,
}

/// One version beside what the entry says now.
#[derive(Serialize)]
struct Shown {
    number: u64,
    lines: Vec<Line>,
}

#[derive(Serialize)]
struct Line {
    kind: &'static str,
    text: String,
}

/// The versions of an entry; `None` where there is none, nor was.
pub(super) fn answer(room: &Room<'_>, request: &Request, name: &str) -> Option<Answer> {
    layout::kind(name)?;
    let sources = room.edition.sources();
    let now = sources.find(name).map(|file| sources.get(file).text.as_str());
    let versions = (room.earlier)(name);
    if now.is_none() && versions.is_empty() {
        return None;
    }
    if let Some((act, what)) = request.pressed() {
        let before = match now {
            Some(_) => match room.edition.rewritten(name, "") {
                Ok(same) => Some(same.before),
                Err(_) => return Some(Answer::Stale(name.to_string())),
            },
            None => None,
        };
        let after = match act {
            "back" => Some((room.then)(name, what.parse().ok()?)?),
            "delete" => None,
            _ => return None,
        };
        let then = if after.is_some() { format!("{}?saved", href(name)) } else { format!("earlier/{name}") };
        let file = FileChange { name: name.to_string(), before, after };
        return Some(Answer::Save(Save { files: vec![file], then }));
    }
    let asked = request.query.get("version").and_then(|number| number.parse::<u64>().ok());
    let asked = asked.or(versions.first().map(|latest| latest.number));
    let shown = asked.and_then(|number| {
        let then = String::from_utf8_lossy(&(room.then)(name, number)?).into_owned();
        Some(Shown { number, lines: compared(&then, now.unwrap_or_default()) })
    });
    let versions =
        versions.iter().map(|version| Version { number: version.number, until: version.until.to_string() });
    let page = Page {
        name,
        title: title(name, room),
        href: href(name),
        is_gone: now.is_none(),
        versions: versions.collect(),
        shown,
    };
    let heading = format!("Earlier versions of {}", page.title);
    Some(Answer::Shown(view::page(request, "earlier.html", &heading, &page)))
}

/// The lines of two texts, those that both have once.
fn compared(then: &str, now: &str) -> Vec<Line> {
    let told = |change: similar::Change<&str>| {
        let kind = match change.tag() {
            ChangeTag::Equal => "same",
            ChangeTag::Delete => "then",
            ChangeTag::Insert => "now",
        };
        Line { kind, text: change.value().trim_end_matches(['\r', '\n']).to_string() }
    };
    TextDiff::from_lines(then, now).iter_all_changes().map(told).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_of_both_stand_once_and_the_others_on_their_side() {
        let lines = compared("a\nb\nc\n", "a\nx\nc\nd\n");
        let told: Vec<String> = lines.iter().map(|line| format!("{} {}", line.kind, line.text)).collect();
        assert_eq!(told, ["same a", "then b", "now x", "same c", "now d"]);
        assert!(compared("", "").is_empty());
    }
}
