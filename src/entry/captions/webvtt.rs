//! WebVTT, by the syntax of its files (W3C, section 4.1). Styles, regions and notes are the author's own and
//! left out: the site has its own look, and a note is not meant for clients.

use super::times::{self, Fraction};
use super::{Line, Notes, blocks, cue, payload};
use crate::model::captions::Cue;

pub(super) fn read(lines: &[Line<'_>], notes: &mut Notes) -> Vec<Cue> {
    let Some((first, rest)) = lines.split_first() else { return Vec::new() };
    let after = first.text.strip_prefix("WEBVTT");
    if !after.is_some_and(|after| after.is_empty() || after.starts_with([' ', '\t'])) {
        notes.unreadable(
            first.range(),
            "expected `WEBVTT` on the first line",
            "write `WEBVTT` and an empty line above the first captions, or end the name of a SubRip file in .srt",
        );
        return Vec::new();
    }
    let header = rest.iter().take_while(|line| !line.is_blank()).count();
    check_header(&rest[..header], notes);
    let mut cues: Vec<Cue> = Vec::new();
    for block in blocks(&rest[header..]) {
        let first = block[0];
        if is(first, "NOTE") || (cues.is_empty() && (is(first, "STYLE") || is(first, "REGION"))) {
            continue;
        }
        let Some(read) = read_cue(block, notes) else { continue };
        if let Some(before) = cues.last()
            && read.start < before.start
        {
            notes.wrong(
                read.span.range(),
                "these captions start before those above them",
                "put the captions into the order in which they are spoken",
            );
        }
        cues.push(read);
    }
    cues
}

/// Lines right under the first may only name something of the file, as some programs write it.
fn check_header(header: &[Line<'_>], notes: &mut Notes) {
    let names_something = |line: &Line<'_>| {
        !line.text.contains("-->")
            && line.text.split_once([':', '=']).is_some_and(|(name, _)| !name.trim().is_empty())
    };
    if let Some(line) = header.iter().find(|line| !names_something(line)) {
        notes.wrong(
            line.range(),
            "expected an empty line under `WEBVTT`",
            "write an empty line above this one",
        );
    }
}

fn is(line: Line<'_>, word: &str) -> bool {
    line.text.strip_prefix(word).is_some_and(|rest| rest.is_empty() || rest.starts_with([' ', '\t']))
}

fn read_cue(block: &[Line<'_>], notes: &mut Notes) -> Option<Cue> {
    let at = block.iter().take(2).position(|line| line.text.contains("-->"));
    let Some(at) = at else {
        notes.wrong(
            block[0].range(),
            "expected a line of times such as `01:05.000 --> 01:08.500`",
            "write when these captions start and end above their words; an empty line ends captions",
        );
        return None;
    };
    let (timing, words) = (&block[at], &block[at + 1..]);
    if let Some(line) = words.iter().find(|line| line.text.contains("-->")) {
        notes.wrong(
            line.range(),
            "expected words, found a line of times",
            "write an empty line between the captions above and this line",
        );
        return None;
    }
    let times = times::read(timing, Fraction::Point, notes)?;
    let lines = payload::read(words, notes);
    cue(timing, times, lines, notes)
}
