//! The words of a text.

use std::ops::Range;

/// A word and its place in the text it was found in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Word {
    pub start: u32,
    pub end: u32,
    /// True when it is nothing but ASCII letters, as most words are.
    pub plain: bool,
}

impl Word {
    pub fn range(self) -> Range<usize> {
        self.start as usize..self.end as usize
    }
}

/// The places of the words: letters and digits, with apostrophes and hyphens inside, points and commas
/// inside a number, points inside an abbreviation such as `a.m`, and a dash between two numbers.
pub fn words(text: &str) -> impl Iterator<Item = Range<usize>> + '_ {
    words_in(text, 0..text.len()).map(Word::range)
}

/// The words in a part of a text, which begins and ends where no word is cut.
pub fn words_in(text: &str, part: Range<usize>) -> impl Iterator<Item = Word> + '_ {
    let Range { start: mut at, end: last } = part;
    std::iter::from_fn(move || {
        let word = next_word(text, at, last)?;
        at = word.end as usize;
        Some(word)
    })
}

/// True when a text is this word, which is in small letters.
pub fn is(text: &str, word: &str) -> bool {
    match text.is_ascii() {
        true => text.eq_ignore_ascii_case(word),
        false => text.chars().flat_map(char::to_lowercase).eq(word.chars()),
    }
}

/// True when a text is one of these words, which are in small letters.
pub fn is_one_of<S: AsRef<str>>(text: &str, words: &[S]) -> bool {
    words.iter().any(|word| is(text, word.as_ref()))
}

/// True when two words with this between them may stand in one phrase: space, also that of a line end, and marks of
/// emphasis.
pub fn is_space(between: char) -> bool {
    between.is_whitespace() || matches!(between, '*' | '_')
}

/// True where no word goes on across this place. Tells of a place what [`words`] tells of a whole text, from the two
/// characters on each side.
pub fn is_edge(text: &str, at: usize) -> bool {
    let (mut before, mut behind) = (text[..at].chars().rev(), text[at..].chars());
    let (Some(last), Some(next)) = (before.next(), behind.next()) else { return true };
    let joined = match (last.is_alphanumeric(), next.is_alphanumeric()) {
        (true, true) => true,
        (false, true) => {
            let (last_but_one, earlier) = (before.next().unwrap_or('\0'), before.next().unwrap_or('\0'));
            last_but_one.is_alphanumeric() && joins([earlier, last_but_one], last, next)
        }
        (true, false) => {
            let earlier = before.next().unwrap_or('\0');
            joins([earlier, last], next, behind.next().unwrap_or('\0'))
        }
        (false, false) => false,
    };
    !joined
}

/// What a byte is to a word. Every word of a workspace passes here in a review: what is ASCII is looked at
/// as bytes.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Class {
    Letter,
    Digit,
    /// It may join what stands before and behind it.
    Joint,
    /// Part of a character outside ASCII.
    Other,
    Between,
}

static CLASSES: [Class; 256] = {
    let mut classes = [Class::Between; 256];
    let mut byte = 0;
    while byte < 256 {
        classes[byte] = match byte as u8 {
            b'a'..=b'z' | b'A'..=b'Z' => Class::Letter,
            b'0'..=b'9' => Class::Digit,
            b'\'' | b'-' | b',' | b'.' => Class::Joint,
            0x80.. => Class::Other,
            _ => Class::Between,
        };
        byte += 1;
    }
    classes
};

/// The first word between two places of a text.
#[inline]
fn next_word(text: &str, from: usize, last: usize) -> Option<Word> {
    let bytes = text.as_bytes();
    let class = |at: usize| if at < last { CLASSES[usize::from(bytes[at])] } else { Class::Between };
    let mut start = from;
    while start < last && matches!(class(start), Class::Between | Class::Joint) {
        start += 1;
    }
    if start >= last {
        return None;
    }
    let plain = class(start) == Class::Letter;
    let length = if plain { letters(bytes, start) } else { digits(&bytes[start..last]) };
    let end = start + length;
    // A joint joins nothing but letters and digits.
    let ends = match class(end) {
        Class::Between => true,
        Class::Joint => matches!(class(end + 1), Class::Between | Class::Joint),
        Class::Letter | Class::Digit | Class::Other => false,
    };
    match length > 0 && ends {
        true => Some(Word { start: start as u32, end: end as u32, plain }),
        false => joined_word(&text[..last], start),
    }
}

/// The first word behind a place of a text, which need not be plain.
fn joined_word(text: &str, from: usize) -> Option<Word> {
    let start = from + text[from..].find(char::is_alphanumeric)?;
    let end = end_of_joined_word(text, start);
    let plain = text.as_bytes()[start..end].iter().all(u8::is_ascii_alphabetic);
    Some(Word { start: start as u32, end: end as u32, plain })
}

/// How many ASCII letters stand at a place, one behind the other. Eight bytes are looked at together: where
/// the next word ends is what a processor cannot guess.
#[inline]
fn letters(text: &[u8], start: usize) -> usize {
    const fn all(byte: u8) -> u64 {
        u64::from_le_bytes([byte; 8])
    }
    let mut at = start;
    while let Some(eight) = text[at..].first_chunk() {
        let eight = u64::from_le_bytes(*eight);
        // In small letters and without their upper bit, so that no sum below reaches the next byte.
        let small = (eight | all(0x20)) & all(0x7f);
        let from_a = small + all(0x80 - b'a');
        let behind_z = small + all(0x80 - b'z' - 1);
        let others = !(from_a & !behind_z & !eight) & all(0x80);
        if others != 0 {
            return at - start + others.trailing_zeros() as usize / 8;
        }
        at += 8;
    }
    at - start + text[at..].iter().take_while(|byte| byte.is_ascii_alphabetic()).count()
}

fn digits(text: &[u8]) -> usize {
    text.iter().take_while(|byte| byte.is_ascii_digit()).count()
}

fn end_of_joined_word(text: &str, start: usize) -> usize {
    let mut chars = text[start..].char_indices().peekable();
    let mut end = start;
    let mut before = ['\0'; 2];
    while let Some((i, c)) = chars.next() {
        let next = chars.peek().map_or('\0', |(_, next)| *next);
        if !c.is_alphanumeric() && !joins(before, c, next) {
            break;
        }
        end = start + i + c.len_utf8();
        before = [before[1], c];
    }
    end
}

/// True when a character joins the two of a word before it with the one behind it.
fn joins(before: [char; 2], joint: char, next: char) -> bool {
    let [earlier, last] = before;
    match joint {
        '\'' | '\u{2019}' | '-' | '\u{2010}' | '\u{2011}' => next.is_alphanumeric(),
        '\u{2013}' | ',' => last.is_ascii_digit() && next.is_ascii_digit(),
        '.' if last.is_ascii_digit() => next.is_ascii_digit(),
        '.' => last.is_alphabetic() && !earlier.is_alphabetic() && next.is_alphabetic(),
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn split(text: &str) -> Vec<&str> {
        words(text).map(|at| &text[at]).collect()
    }

    #[test]
    fn letters_end_at_every_other_byte_wherever_it_stands() {
        for length in 0..20 {
            for other in (0..=u8::MAX).filter(|byte| !byte.is_ascii_alphabetic()) {
                let mut text = vec![b'-'; 2];
                text.extend((0..length).map(|at| if at % 2 == 0 { b'z' - at } else { b'A' + at }));
                assert_eq!(letters(&text, 2), usize::from(length));
                text.extend([other, b'a', b'Z', other, b'm', b'm', b'm', b'm', b'm', b'm', b'm']);
                assert_eq!(letters(&text, 2), usize::from(length), "{other}");
            }
        }
    }

    #[test]
    fn hyphens_and_apostrophes_stand_inside_a_word_and_dashes_and_slashes_between_two() {
        let text = "Don\u{2019}t rush the sit-to-stand - rest and/or 'wait'\u{2014}then go.";
        assert_eq!(
            split(text),
            ["Don\u{2019}t", "rush", "the", "sit-to-stand", "rest", "and", "or", "wait", "then", "go"]
        );
    }

    #[test]
    fn numbers_and_abbreviations_are_one_word_each() {
        for (text, expected) in [
            ("1,000 steps in 1.5 h", &["1,000", "steps", "in", "1.5", "h"][..]),
            ("8-12 times, 3\u{2013}4 days", &["8-12", "times", "3\u{2013}4", "days"]),
            ("at 9 a.m. or 10:30", &["at", "9", "a.m", "or", "10", "30"]),
            ("down.Then 2, 3", &["down", "Then", "2", "3"]),
            ("caf\u{e9} \u{201c}na\u{ef}ve\u{201d}", &["caf\u{e9}", "na\u{ef}ve"]),
            (" - -- * ", &[]),
        ] {
            assert_eq!(split(text), expected, "{text}");
        }
    }

    #[test]
    fn a_word_is_the_same_in_any_letter_case() {
        for (text, word, same) in [
            ("Bone", "bone", true),
            ("PRESI\u{d3}N", "presi\u{f3}n", true),
            ("bones", "bone", false),
            ("presion", "presi\u{f3}n", false),
            ("", "", true),
        ] {
            assert_eq!(is(text, word), same, "{text}");
        }
        assert!(is_one_of("DOS", &["uno", "dos"]));
        assert!(!is_one_of("tres", &["uno", "dos"]));
    }

    proptest! {
        #[test]
        fn a_place_is_an_edge_where_no_word_goes_on_across_it(
            pieces in prop::collection::vec(prop_oneof!["[a-cX\u{e9}\u{c9}0-2]{1,2}", "[ .,'*\u{2019}\u{2013}-]", any::<String>()], 0..16)
        ) {
            let text = pieces.concat();
            let words: Vec<_> = words(&text).collect();
            for at in (0..=text.len()).filter(|at| text.is_char_boundary(*at)) {
                let inside = words.iter().any(|word| word.start < at && at < word.end);
                prop_assert_eq!(is_edge(&text, at), !inside, "{} in {:?}", at, text);
            }
        }
    }
}
