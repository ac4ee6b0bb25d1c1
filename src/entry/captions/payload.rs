//! The words of a cue, with their tags.

use super::{Line, Notes};
use crate::model::captions::CueLine;
use crate::model::nearest::shown;

/// The spans of WebVTT (section 4.2.2).
const TAGS: [&str; 8] = ["c", "i", "b", "u", "ruby", "rt", "v", "lang"];

/// What may stand after an ampersand, with what it stands for.
const REFERENCES: [(&str, &str); 8] = [
    ("amp", "&"),
    ("lt", "<"),
    ("gt", ">"),
    ("nbsp", "\u{a0}"),
    ("lrm", "\u{200e}"),
    ("rlm", "\u{200f}"),
    ("quot", "\""),
    ("apos", "'"),
];

/// The lines of a WebVTT cue that say something.
pub(super) fn read(lines: &[Line<'_>], notes: &mut Notes) -> Vec<CueLine> {
    let mut open: Vec<(&str, usize)> = Vec::new();
    let read: Vec<CueLine> = lines.iter().map(|line| read_line(line, &mut open, notes)).collect();
    // A voice may go on to the end of the cue.
    if let Some((name, at)) = open.iter().find(|(name, _)| *name != "v") {
        notes.wrong(
            *at..*at + name.len() + 2,
            format!("`<{name}>` is never closed"),
            format!("write `</{name}>` where it ends"),
        );
    }
    read.into_iter().filter(|line| !line.text.trim().is_empty()).collect()
}

fn read_line<'t>(line: &Line<'t>, open: &mut Vec<(&'t str, usize)>, notes: &mut Notes) -> CueLine {
    let mut read =
        CueLine { span: notes.span(line.range()), text: String::new(), markup: String::new(), speaker: None };
    let mut rest = line.text;
    while let Some(c) = rest.chars().next() {
        let at = line.at + line.text.len() - rest.len();
        match c {
            '&' => match reference(rest) {
                Some((length, meant)) => {
                    read.text.push_str(&meant);
                    read.markup.push_str(&rest[..length]);
                    rest = &rest[length..];
                    continue;
                }
                None => notes.wrong(at..at + 1, "`&` by itself means nothing here", "write `&amp;`"),
            },
            '<' => match rest.find('>') {
                Some(end) => {
                    tag(&rest[1..end], at, open, &mut read, notes);
                    rest = &rest[end + 1..];
                    continue;
                }
                None => notes.wrong(
                    at..at + 1,
                    "`<` begins a tag that never ends",
                    "write `&lt;` for the sign itself",
                ),
            },
            _ => {
                read.text.push(c);
                read.markup.push(c);
            }
        }
        rest = &rest[c.len_utf8()..];
    }
    read
}

/// Reads what stands between `<` and `>`; `at` is the place of the `<`.
fn tag<'t>(
    inside: &'t str,
    at: usize,
    open: &mut Vec<(&'t str, usize)>,
    read: &mut CueLine,
    notes: &mut Notes,
) {
    let whole = at..at + inside.len() + 2;
    if let Some(name) = inside.strip_prefix('/') {
        match open.pop() {
            Some((opened, _)) if opened == name => read.markup.push_str(&format!("</{name}>")),
            Some((opened, _)) => notes.wrong(
                whole,
                format!("expected `</{opened}>`, found `</{name}>`"),
                "close the tag that was opened last first",
            ),
            None => notes.wrong(whole, format!("`</{name}>` closes nothing"), "remove it, or open it before"),
        }
        return;
    }
    // A moment inside the cue, from which on the words are lit up: left out.
    if inside.starts_with(|c: char| c.is_ascii_digit()) {
        return;
    }
    let name = inside.split(['.', ' ', '\t']).next().unwrap_or("");
    if !TAGS.contains(&name) {
        notes.wrong(
            whole,
            format!("there is no tag {}", shown(&format!("<{name}>"))),
            "write `&lt;` for the sign itself, or remove the tag",
        );
        return;
    }
    let annotation = inside.split_once([' ', '\t']).map_or("", |(_, annotation)| annotation.trim());
    if name == "v" {
        match annotation.is_empty() {
            true => notes.wrong(whole, "this voice has no name", "write who speaks: `<v Maren>`"),
            false if read.text.trim().is_empty() => read.speaker = Some(annotation.to_string()),
            false => {}
        }
    }
    open.push((name, at));
    let annotation = if annotation.is_empty() { String::new() } else { format!(" {annotation}") };
    read.markup.push_str(&format!("<{name}{annotation}>"));
}

/// A character reference at the start of a text: its length, and what it stands for.
fn reference(text: &str) -> Option<(usize, String)> {
    let end = text.find(';')?;
    let name = &text[1..end];
    let meant = match name.strip_prefix('#') {
        Some(number) => {
            let code = match number.strip_prefix(['x', 'X']) {
                Some(hexadecimal) => u32::from_str_radix(hexadecimal, 16).ok()?,
                None => number.parse().ok()?,
            };
            char::from_u32(code).filter(|c| !c.is_control())?.to_string()
        }
        None => REFERENCES.iter().find(|(known, _)| *known == name)?.1.to_string(),
    };
    Some((end + 1, meant))
}

/// A line of SubRip, whose signs all stand for themselves but for tags of how letters look, which are left
/// out; `None` when nothing else is in it.
pub(super) fn plain(line: &Line<'_>, notes: &Notes) -> Option<CueLine> {
    let mut text = String::new();
    let mut rest = line.text;
    while let Some(c) = rest.chars().next() {
        let end = match c {
            '<' => rest.find('>').filter(|end| is_look(&rest[1..*end])),
            '{' => rest.find('}').filter(|_| rest.starts_with("{\\")),
            _ => None,
        };
        match end {
            Some(end) => rest = &rest[end + 1..],
            None => {
                text.push(c);
                rest = &rest[c.len_utf8()..];
            }
        }
    }
    let text = text.trim().to_string();
    let markup = text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;");
    (!text.is_empty()).then(|| CueLine { span: notes.span(line.range()), text, markup, speaker: None })
}

/// `i`, `/b`, `font color="#ffff00"`.
fn is_look(inside: &str) -> bool {
    let name = inside.trim_start_matches('/').split([' ', '\t']).next().unwrap_or("");
    ["i", "b", "u", "s", "font"].contains(&name.to_ascii_lowercase().as_str())
}
