//! Reads captions, WebVTT and SubRip, strictly: players guess at what is written wrongly, each in its own way,
//! and a client who needs the words gets none.

mod payload;
mod subrip;
mod times;
mod webvtt;

use std::ops::Range;

use crate::model::captions::{Captions, Cue, CueLine};
use crate::model::finding::Finding;
use crate::model::source::{FileId, Span};

/// Reads a caption file; `name` is its name below `content/`.
pub(super) fn read(text: &str, file: FileId, name: &str) -> (Captions, Vec<Finding>) {
    let mut notes = Notes { file, findings: Vec::new() };
    let lines: Vec<Line<'_>> = lines(text).collect();
    let cues = match name.to_ascii_lowercase().ends_with(".srt") {
        true => subrip::read(&lines, &mut notes),
        false => webvtt::read(&lines, &mut notes),
    };
    if cues.is_empty() && notes.findings.is_empty() {
        notes.unreadable(
            0..0,
            "there are no captions in this file",
            "write them, or remove the file and its name from the week",
        );
    }
    let captions = Captions {
        file,
        name: name.to_string(),
        language: Captions::language_of(name),
        sound: notes.findings.is_empty(),
        cues,
    };
    (captions, notes.findings)
}

/// What is noted while one file is read.
struct Notes {
    file: FileId,
    findings: Vec<Finding>,
}

impl Notes {
    fn span(&self, at: Range<usize>) -> Span {
        Span::new(self.file, at)
    }

    fn wrong(&mut self, at: Range<usize>, message: impl Into<String>, help: impl Into<String>) {
        self.findings.push(Finding::new("wrong-value", self.span(at), message, help));
    }

    fn unreadable(&mut self, at: Range<usize>, message: impl Into<String>, help: impl Into<String>) {
        self.findings.push(Finding::new("unreadable-entry", self.span(at), message, help));
    }
}

/// A line without its end, and where it stands.
#[derive(Clone, Copy, Debug)]
struct Line<'t> {
    text: &'t str,
    at: usize,
}

impl Line<'_> {
    fn range(&self) -> Range<usize> {
        self.at..self.at + self.text.len()
    }

    fn is_blank(&self) -> bool {
        self.text.trim().is_empty()
    }
}

/// The lines of a text, which end with LF, CR or both.
fn lines(text: &str) -> impl Iterator<Item = Line<'_>> {
    let mut at = 0;
    std::iter::from_fn(move || {
        let rest = text.get(at..).filter(|rest| !rest.is_empty())?;
        let length = rest.find(['\r', '\n']).unwrap_or(rest.len());
        let line = Line { text: &rest[..length], at };
        let end = if rest[length..].starts_with("\r\n") { 2 } else { 1 };
        at = (at + length + end).min(text.len());
        Some(line)
    })
}

/// Lines that stand together, between blank ones.
fn blocks<'l, 't>(lines: &'l [Line<'t>]) -> impl Iterator<Item = &'l [Line<'t>]> {
    lines.split(Line::is_blank).filter(|block| !block.is_empty())
}

/// A cue with at least one line; nothing is said of one that has none but that it has none.
fn cue(timing: &Line<'_>, times: times::Times, lines: Vec<CueLine>, notes: &mut Notes) -> Option<Cue> {
    if lines.is_empty() {
        notes.wrong(
            timing.range(),
            "these captions have no words",
            "write below this line what is said, or remove the line",
        );
        return None;
    }
    let span = notes.span(timing.range());
    Some(Cue { span, start: times.start, end: times.end, settings: times.settings, lines })
}

#[cfg(test)]
mod tests;
