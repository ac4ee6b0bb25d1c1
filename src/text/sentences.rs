//! Where a text's sentences are. A full stop in an abbreviation, a number or a name ends none.

use std::ops::Range;

use memchr::{memchr2_iter, memchr3};

use super::words::is_one_of;

const ENDS: [char; 4] = ['.', '!', '?', '\u{2026}'];

/// What may close behind the end of a sentence, and still belongs to it: marks of emphasis too.
const CLOSERS: [char; 9] = [')', ']', '"', '\'', '\u{201d}', '\u{2019}', '\u{bb}', '*', '_'];

const OPENERS: [char; 7] = ['(', '[', '"', '\'', '\u{201c}', '\u{2018}', '\u{ab}'];

/// Parts texts of one language into sentences. The words are in small letters.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Splitter {
    /// Abbreviations behind which a sentence goes on.
    pub go_on: Vec<String>,
    /// Abbreviations behind which a sentence goes on when a number follows.
    pub go_on_to_a_number: Vec<String>,
    /// Words that a single letter belongs to, as in "vitamin D": the letter is no initial of a name.
    pub lettered: Vec<String>,
    /// Words of a single letter, which are no initials either, as in "so do I".
    pub no_initials: Vec<String>,
}

impl Splitter {
    /// The places of the sentences, without the space around them. A blank line ends a sentence; a piece
    /// without a letter or digit is none.
    pub fn sentences(&self, text: &str) -> impl Iterator<Item = Range<usize>> {
        let mut start = 0;
        std::iter::from_fn(move || {
            while start < text.len() {
                let end = self.end_of_sentence(text, start);
                let piece = start..end;
                start = end;
                if text[piece.clone()].contains(char::is_alphanumeric) {
                    return Some(trimmed(text, piece));
                }
            }
            None
        })
    }

    /// The parts of the sentences between colons and semicolons. What is said of a number hangs on the words of its own
    /// part: in "Rest for a while: one minute" nobody says that the rest is a minute. The colon of a time, "1:05", parts
    /// nothing.
    pub fn clauses(&self, text: &str) -> impl Iterator<Item = Range<usize>> {
        self.sentences(text).flat_map(move |sentence| {
            let mut start = sentence.start;
            std::iter::from_fn(move || {
                let rest = &text.as_bytes()[start..sentence.end];
                let parts = |at: &usize| {
                    matches!(rest[*at], b':' | b';') && !rest.get(at + 1).is_some_and(u8::is_ascii_digit)
                };
                let end = (0..rest.len()).find(parts).map_or(sentence.end, |at| start + at + 1);
                let clause = start..end;
                start = end;
                (!clause.is_empty()).then_some(clause)
            })
        })
    }

    /// The sentence that holds a place of a text; the whole text where none does.
    pub fn sentence_at(&self, text: &str, place: usize) -> Range<usize> {
        self.sentences(text).find(|sentence| sentence.contains(&place)).unwrap_or(0..text.len())
    }

    /// The first sentence of a text; all of it, without the space around it, where it has none.
    pub fn first<'t>(&self, text: &'t str) -> &'t str {
        self.sentences(text).next().map_or(text.trim(), |at| &text[at])
    }

    /// Where the sentence that begins at `start` ends; always behind `start`.
    fn end_of_sentence(&self, text: &str, start: usize) -> usize {
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
            if self.ends_here(&text[start..at], rest, single_stop) {
                return end;
            }
            from = end;
        }
        text.len()
    }

    /// True when a mark between `before`, which begins with the sentence, and `rest` ends the sentence.
    fn ends_here(&self, before: &str, rest: &str, single_stop: bool) -> bool {
        let next = rest.chars().next();
        if next.is_some_and(|c| !c.is_whitespace()) {
            // No space behind the mark: within a number, an address, an abbreviation; or a space forgotten.
            return next.is_some_and(char::is_uppercase) && before.ends_with(char::is_lowercase);
        }
        let following = rest.trim_start().trim_start_matches(OPENERS);
        if following.starts_with(char::is_lowercase) {
            return false;
        }
        !single_stop || following.is_empty() || !self.goes_on(before, following)
    }

    /// True when the word before a full stop is an abbreviation or an initial behind which a sentence goes on.
    fn goes_on(&self, before: &str, following: &str) -> bool {
        let in_word = |c: char| c.is_alphanumeric() || c == '.';
        let word = &before[before.trim_end_matches(in_word).len()..];
        let to_a_number = || following.starts_with(|c: char| c.is_ascii_digit());
        if is_one_of(word, &self.go_on) || to_a_number() && is_one_of(word, &self.go_on_to_a_number) {
            return true;
        }
        let letter = word.len() == 1 && word.starts_with(|c: char| c.is_ascii_uppercase());
        let initial = letter && !is_one_of(word, &self.no_initials);
        if !initial || !following.starts_with(char::is_uppercase) {
            return false;
        }
        let earlier = before[..before.len() - word.len()].trim_end();
        let owner = &earlier[earlier.trim_end_matches(char::is_alphanumeric).len()..];
        !is_one_of(owner, &self.lettered)
    }
}

fn trimmed(text: &str, at: Range<usize>) -> Range<usize> {
    let piece = &text[at.clone()];
    let start = at.start + (piece.len() - piece.trim_start().len());
    start..start + piece.trim().len()
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

#[cfg(test)]
mod tests {
    use super::*;

    fn splitter() -> Splitter {
        let list = |words: &[&str]| words.iter().map(ToString::to_string).collect();
        Splitter {
            go_on: list(&["dr", "e.g", "i.e"]),
            go_on_to_a_number: list(&["no"]),
            lettered: list(&["vitamin"]),
            no_initials: list(&["i"]),
        }
    }

    fn split(text: &str) -> Vec<&str> {
        splitter().sentences(text).map(|at| &text[at]).collect()
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
    fn marks_of_emphasis_belong_to_the_sentence_that_they_close() {
        assert_eq!(split("**Hold.** Rest. *Go on!*\n_Now._"), ["**Hold.**", "Rest.", "*Go on!*", "_Now._"]);
    }

    #[test]
    fn a_language_without_a_list_knows_no_abbreviations() {
        let text = "Ask Dr. Green. See No. 5.";
        let found: Vec<&str> = Splitter::default().sentences(text).map(|at| &text[at]).collect();
        assert_eq!(found, ["Ask Dr.", "Green.", "See No.", "5."]);
    }

    #[test]
    fn a_colon_and_a_semicolon_end_no_sentence_and_part_clauses() {
        let text = "Two ways: sit; stand. At 1:05 rest: a minute";
        assert_eq!(split(text), ["Two ways: sit; stand.", "At 1:05 rest: a minute"]);
        let clauses: Vec<&str> = splitter().clauses(text).map(|at| &text[at]).collect();
        assert_eq!(clauses, ["Two ways:", " sit;", " stand.", "At 1:05 rest:", " a minute"]);
    }

    #[test]
    fn a_sentence_is_found_by_a_place_in_it_and_the_first_without_one() {
        let text = " Ask Dr. Green. Then rest.";
        let at = |word: &str| &text[splitter().sentence_at(text, text.find(word).unwrap())];
        assert_eq!((at("Green"), at("rest")), ("Ask Dr. Green.", "Then rest."));
        assert_eq!(splitter().sentence_at("...", 1), 0..3);
        for (text, first) in [
            (text, "Ask Dr. Green."),
            ("Hold 1.5 seconds. Let go.", "Hold 1.5 seconds."),
            (" No end ", "No end"),
            (" - ", "-"),
        ] {
            assert_eq!(splitter().first(text), first);
        }
    }
}
