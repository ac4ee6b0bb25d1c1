//! Where a text's sentences are. A full stop in an abbreviation, a number or a name ends none.

use std::ops::Range;

use memchr::{memchr2_iter, memchr3};

const ENDS: [char; 4] = ['.', '!', '?', '\u{2026}'];

/// What may close behind the end of a sentence, and still belongs to it.
const CLOSERS: [char; 7] = [')', ']', '"', '\'', '\u{201d}', '\u{2019}', '\u{bb}'];

const OPENERS: [char; 7] = ['(', '[', '"', '\'', '\u{201c}', '\u{2018}', '\u{ab}'];

/// Abbreviations behind which a sentence goes on, in small letters.
const GO_ON: [&str; 16] = [
    "approx", "ca", "cf", "dr", "e.g", "fig", "i.e", "jr", "mr", "mrs", "ms", "prof", "sr", "st", "tel", "vs",
];

/// Abbreviations behind which a sentence goes on when a number follows.
const GO_ON_TO_A_NUMBER: [&str; 4] = ["no", "nos", "p", "pp"];

/// Words that a single letter belongs to, as in "vitamin D": the letter is no initial of a name.
const LETTERED: [&str; 10] =
    ["figure", "group", "hepatitis", "letter", "part", "plan", "point", "step", "type", "vitamin"];

/// The places of the sentences, without the space around them. A blank line ends a sentence; a piece
/// without a letter or digit is none.
pub fn sentences(text: &str) -> impl Iterator<Item = Range<usize>> + '_ {
    let mut start = 0;
    std::iter::from_fn(move || {
        while start < text.len() {
            let end = end_of_sentence(text, start);
            let piece = start..end;
            start = end;
            if text[piece.clone()].contains(char::is_alphanumeric) {
                return Some(trimmed(text, piece));
            }
        }
        None
    })
}

fn trimmed(text: &str, at: Range<usize>) -> Range<usize> {
    let piece = &text[at.clone()];
    let start = at.start + (piece.len() - piece.trim_start().len());
    start..start + piece.trim().len()
}

/// Where the sentence that begins at `start` ends; always behind `start`.
fn end_of_sentence(text: &str, start: usize) -> usize {
    let mut from = start;
    while let Some(at) = next_mark(text, from) {
        if text[at..].starts_with('\n') {
            let behind = &text[at + 1..];
            let space = behind.len() - behind.trim_start().len();
            if behind[..space].contains('\n') {
                return at + 1 + space;
            }
            from = at + 1;
            continue;
        }
        let marks = text[at..].trim_start_matches(ENDS);
        let rest = marks.trim_start_matches(CLOSERS);
        let end = text.len() - rest.len();
        let single_stop = text[at..text.len() - marks.len()] == *".";
        if ends_here(&text[start..at], rest, single_stop) {
            return end;
        }
        from = end;
    }
    text.len()
}

/// Where the next mark or line end is.
fn next_mark(text: &str, from: usize) -> Option<usize> {
    let bytes = &text.as_bytes()[from..];
    let mark = memchr3(b'.', b'!', b'?', bytes);
    // E2 is the first byte of the ellipsis, among others.
    let earlier = memchr2_iter(b'\n', 0xe2, &bytes[..mark.unwrap_or(bytes.len())])
        .find(|at| bytes[*at] == b'\n' || text[from + at..].starts_with('\u{2026}'));
    earlier.or(mark).map(|at| from + at)
}

/// True when a mark between `before`, which begins with the sentence, and `rest` ends the sentence.
fn ends_here(before: &str, rest: &str, single_stop: bool) -> bool {
    let next = rest.chars().next();
    if next.is_some_and(|c| !c.is_whitespace()) {
        // No space behind the mark: within a number, an address, an abbreviation; or a space forgotten.
        return next.is_some_and(char::is_uppercase) && before.ends_with(char::is_lowercase);
    }
    let following = rest.trim_start().trim_start_matches(OPENERS);
    if following.starts_with(char::is_lowercase) {
        return false;
    }
    !single_stop || following.is_empty() || !goes_on(before, following)
}

/// True when the word before a full stop is an abbreviation or an initial behind which a sentence goes on.
fn goes_on(before: &str, following: &str) -> bool {
    let in_word = |c: char| c.is_alphanumeric() || c == '.';
    let word = &before[before.trim_end_matches(in_word).len()..];
    let is = |list: &[&str]| list.iter().any(|w| w.eq_ignore_ascii_case(word));
    if is(&GO_ON) || (is(&GO_ON_TO_A_NUMBER) && following.starts_with(|c: char| c.is_ascii_digit())) {
        return true;
    }
    let initial = word.len() == 1 && word.starts_with(|c: char| c.is_ascii_uppercase()) && word != "I";
    if !initial || !following.starts_with(char::is_uppercase) {
        return false;
    }
    let earlier = before[..before.len() - word.len()].trim_end();
    let owner = &earlier[earlier.trim_end_matches(char::is_alphanumeric).len()..];
    !LETTERED.iter().any(|w| w.eq_ignore_ascii_case(owner))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn split(text: &str) -> Vec<&str> {
        sentences(text).map(|at| &text[at]).collect()
    }

    #[test]
    fn short_sentences_count_and_marks_belong_to_them() {
        assert_eq!(split("Sit tall. Breathe in. Rest."), ["Sit tall.", "Breathe in.", "Rest."]);
        assert_eq!(split("Ready? \"Go!\" Stop…"), ["Ready?", "\"Go!\"", "Stop…"]);
        assert_eq!(split("(Rest if you must.) Go on"), ["(Rest if you must.)", "Go on"]);
        assert_eq!(split("What?! Yes."), ["What?!", "Yes."]);
    }

    #[test]
    fn abbreviations_decimals_and_initials_end_no_sentence() {
        for one in [
            "Ask Dr. Green first.",
            "Hold on, e.g. to a counter, for 1.5 minutes.",
            "Use a support, i.e. Something that cannot move.",
            "See No. 5 on the list.",
            "Checked by A. Reviewer, PT.",
            "Written by J. K. Green.",
            "Begin at 9 a.m. and rest at noon.",
            "\"Are you ready?\" she asks.",
            "Write to hello@clinic.example or call.",
            "Wait ... then go on.",
        ] {
            assert_eq!(split(one), [one]);
        }
    }

    #[test]
    fn what_looks_like_an_abbreviation_may_end_a_sentence() {
        for two in [
            "No. Stop there.",
            "You need vitamin D. Ask about it.",
            "So do I. Now rest.",
            "Rest for 10 min. Then go on.",
            "Walk at 9 a.m. Rest at noon.",
            "Put it down.Then rest.",
            "It takes 1.5. Then rest.",
        ] {
            assert_eq!(split(two).len(), 2, "{two}");
        }
    }

    #[test]
    fn a_blank_line_ends_a_sentence_and_a_line_end_does_not() {
        assert_eq!(split("Stand\ntall\n\nlift one foot"), ["Stand\ntall", "lift one foot"]);
        assert_eq!(split("Stand\r\n \r\nrest"), ["Stand", "rest"]);
        assert_eq!(split("Stand.\n\n***\n\nRest."), ["Stand.", "Rest."]);
        assert_eq!(split(" \n\n !? "), [""; 0]);
    }

    #[test]
    fn a_colon_and_a_semicolon_end_no_sentence() {
        assert_eq!(split("Two ways: sit; stand.").len(), 1);
    }
}
