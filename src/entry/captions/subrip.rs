//! SubRip, the format of `.srt` files: a number, a line of times, the words, an empty line. No standard
//! defines it; what is read here is what editors of captions write (common practice, no source).

use super::times::{self, Fraction};
use super::{Line, Notes, blocks, cue, payload};
use crate::model::captions::Cue;

pub(super) fn read(lines: &[Line<'_>], notes: &mut Notes) -> Vec<Cue> {
    let mut cues: Vec<Cue> = blocks(lines).filter_map(|block| read_cue(block, notes)).collect();
    // Editors keep them in the order of their numbers, which need not be that of their times.
    cues.sort_by_key(|cue| (cue.start, cue.end));
    cues
}

fn read_cue(block: &[Line<'_>], notes: &mut Notes) -> Option<Cue> {
    let is_number = |line: &Line<'_>| line.text.trim().bytes().all(|b| b.is_ascii_digit());
    match block {
        [number, timing, words @ ..] if timing.text.contains("-->") => {
            if !is_number(number) {
                notes.wrong(
                    number.range(),
                    "expected the number of the captions",
                    "write a number of its own on the line above their times",
                );
                return None;
            }
            if let Some(line) = words.iter().find(|line| line.text.contains("-->")) {
                notes.wrong(
                    line.range(),
                    "expected words, found a line of times",
                    "write an empty line between the captions above and the number of these",
                );
                return None;
            }
            let times = times::read(timing, Fraction::Comma, notes)?;
            let lines = words.iter().filter_map(|line| payload::plain(line, notes)).collect();
            // What stands after the times is where the words are on a picture of some size: nothing to keep.
            cue(timing, times::Times { settings: String::new(), ..times }, lines, notes)
        }
        [timing, ..] if timing.text.contains("-->") => {
            notes.wrong(
                timing.range(),
                "expected the number of the captions above their times",
                "write a number on a line of its own above this one",
            );
            None
        }
        [first, ..] => {
            notes.wrong(
                first.range(),
                "expected a number, and under it a line of times such as `00:01:05,000 --> 00:01:08,500`",
                "write both above these words; an empty line ends captions",
            );
            None
        }
        [] => None,
    }
}
