//! The words of a sentence, as they stand there and as they are spoken.

use std::ops::Range;

use super::numerals;

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
pub fn letters(text: &[u8], start: usize) -> usize {
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
        let inside = c.is_alphanumeric() || {
            let next = chars.peek().map_or('\0', |(_, next)| *next);
            match c {
                '\'' | '\u{2019}' | '-' | '\u{2010}' | '\u{2011}' => next.is_alphanumeric(),
                '\u{2013}' => before[1].is_ascii_digit() && next.is_ascii_digit(),
                ',' => before[1].is_ascii_digit() && next.is_ascii_digit(),
                '.' if before[1].is_ascii_digit() => next.is_ascii_digit(),
                '.' => before[1].is_alphabetic() && !before[0].is_alphabetic() && next.is_alphabetic(),
                _ => false,
            }
        };
        if !inside {
            break;
        }
        end = start + i + c.len_utf8();
        before = [before[1], c];
    }
    end
}

/// Abbreviations in small letters, without their last point, and what a reader says for them.
const ABBREVIATIONS: [(&str, &str); 9] = [
    ("approx", "approximately"),
    ("dr", "doctor"),
    ("e.g", "for example"),
    ("etc", "et cetera"),
    ("i.e", "that is"),
    ("mr", "mister"),
    ("mrs", "missis"),
    ("ms", "miz"),
    ("vs", "versus"),
];

/// Units, which are abbreviations behind a number only.
const UNITS: [(&str, &str); 16] = [
    ("cm", "centimeters"),
    ("ft", "feet"),
    ("g", "grams"),
    ("h", "hours"),
    ("hr", "hours"),
    ("in", "inches"),
    ("kg", "kilograms"),
    ("km", "kilometers"),
    ("lb", "pounds"),
    ("lbs", "pounds"),
    ("min", "minutes"),
    ("mm", "millimeters"),
    ("oz", "ounces"),
    ("s", "seconds"),
    ("sec", "seconds"),
    ("secs", "seconds"),
];

/// Signs that are spoken as words.
const SIGNS: [(char, &str); 3] = [('%', "percent"), ('&', "and"), ('\u{b0}', "degrees")];

/// What a reader says for a part of a sentence.
pub(super) enum Said {
    /// A word as it is written.
    Written(Word),
    /// A word with digits, as [`number`] says it.
    Number(Word),
    /// These words, parted by spaces.
    Other(&'static str),
}

/// Gives what a reader says for a part of a text, in its order. `words` are those of the part.
pub(super) fn each_said(text: &str, part: Range<usize>, words: &[Word], mut say: impl FnMut(Said)) {
    let bytes = text.as_bytes();
    let mut behind = part.start;
    let mut after_number = false;
    for word in words {
        let at = word.range();
        let between = &bytes[behind..at.start];
        if between != b" " {
            signs(&text[behind..at.start], &mut say);
        }
        let unit = after_number && text[behind..at.start].trim().is_empty();
        behind = at.end;
        after_number = false;
        if word.plain && !unit && bytes.get(behind) != Some(&b'.') {
            say(Said::Written(*word));
            continue;
        }
        let written = &text[at];
        if written.bytes().any(|b| b.is_ascii_digit()) {
            after_number = true;
            say(Said::Number(*word));
        } else {
            let unit = unit && !goes_on(text, behind, written);
            let long = Some(written).filter(|_| unit).and_then(|word| spoken_for(&UNITS, word));
            let long = long.or_else(|| spoken_for(&ABBREVIATIONS, written));
            say(long.map_or(Said::Written(*word), Said::Other));
        }
    }
    signs(&text[behind..part.end], &mut say);
}

/// Gives each word of a sentence as it is spoken. `12-week` is one word, "twelve-week"; `3-4` is "three to
/// four". `words` are those of the part of the text.
pub fn spoken(text: &str, part: Range<usize>, words: &[Word], mut say: impl FnMut(&str)) {
    each_said(text, part, words, |said| match said {
        Said::Written(word) => say(&text[word.range()]),
        Said::Number(word) => number(&text[word.range()], &mut say),
        Said::Other(words) => words.split(' ').for_each(&mut say),
    });
}

fn spoken_for(list: &[(&str, &'static str)], word: &str) -> Option<&'static str> {
    list.iter().find(|(short, _)| short.eq_ignore_ascii_case(word)).map(|(_, long)| *long)
}

/// True for the `in` of "10 in the morning": the small word, not the unit.
fn goes_on(sentence: &str, behind: usize, word: &str) -> bool {
    word.eq_ignore_ascii_case("in") && sentence[behind..].starts_with(' ')
}

fn signs(between: &str, say: &mut impl FnMut(Said)) {
    for c in between.chars() {
        if let Some((_, name)) = SIGNS.iter().find(|(sign, _)| *sign == c) {
            say(Said::Other(name));
        }
    }
}

/// Gives the words that are spoken for a word with digits in it.
pub(super) fn number(word: &str, say: &mut impl FnMut(&str)) {
    let parts: Vec<&str> = word.split(['-', '\u{2010}', '\u{2011}', '\u{2013}']).collect();
    let is_number = |part: &&str| part.bytes().all(|b| b.is_ascii_digit() || b == b',' || b == b'.');
    if parts.iter().all(is_number) {
        for (i, part) in parts.iter().enumerate() {
            if i > 0 {
                say("to");
            }
            numerals::spoken(part).split(' ').for_each(&mut *say);
        }
        return;
    }
    let spoken: Vec<String> = parts
        .iter()
        .map(|part| match ordinal_digits(part) {
            Some(number) => numerals::ordinal(number),
            None if is_number(part) => numerals::spoken(part),
            None => mixed(part),
        })
        .collect();
    match parts.len() {
        1 => spoken[0].split(' ').for_each(say),
        _ => say(&spoken.join("-").replace(' ', "-")),
    }
}

/// Digits and letters in one word, such as `2x`, parted by a space.
fn mixed(word: &str) -> String {
    let mut out = String::new();
    let mut rest = word;
    while let Some(first) = rest.chars().next() {
        let digit = first.is_ascii_digit();
        let end = rest.find(|c: char| c.is_ascii_digit() != digit).unwrap_or(rest.len());
        let (run, behind) = rest.split_at(end);
        if !out.is_empty() {
            out.push(' ');
        }
        match digit {
            true => out.push_str(&numerals::spoken(run)),
            false => out.push_str(run),
        }
        rest = behind;
    }
    out
}

/// The digits of a word such as `3rd`.
fn ordinal_digits(part: &str) -> Option<&str> {
    let number = ["st", "nd", "rd", "th"].iter().find_map(|end| part.strip_suffix(end))?;
    (!number.is_empty() && number.bytes().all(|b| b.is_ascii_digit())).then_some(number)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(text: &str) -> Vec<String> {
        let words: Vec<Word> = words_in(text, 0..text.len()).collect();
        let mut said = Vec::new();
        spoken(text, 0..text.len(), &words, |word| said.push(word.to_string()));
        said
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
        let found: Vec<&str> = words(text).map(|at| &text[at]).collect();
        assert_eq!(
            found,
            ["Don\u{2019}t", "rush", "the", "sit-to-stand", "rest", "and", "or", "wait", "then", "go"]
        );
    }

    #[test]
    fn numerals_signs_units_and_abbreviations_are_spoken() {
        for (text, expected) in [
            ("Do 12", "Do|twelve"),
            ("a 12-week series", "a|twelve-week|series"),
            ("8-12 times", "eight|to|twelve|times"),
            ("3\u{2013}4 days", "three|to|four|days"),
            ("1.5 m", "one|point|five|m"),
            ("1,000 steps", "one|thousand|steps"),
            ("10 s, then 30 min.", "ten|seconds|then|thirty|minutes"),
            ("3 cm (1 in)", "three|centimeters|one|inches"),
            ("at 10 in bed", "at|ten|in|bed"),
            ("10 % & more", "ten|percent|and|more"),
            ("the 3rd day", "the|third|day"),
            ("2x a day", "two|x|a|day"),
            ("e.g. Dr. Green, etc.", "for|example|doctor|Green|et|cetera"),
            ("120/80", "one|hundred|twenty|eighty"),
            ("s min", "s|min"),
            ("vs. them", "versus|them"),
            ("caf\u{e9} \u{201c}na\u{ef}ve\u{201d}", "caf\u{e9}|na\u{ef}ve"),
        ] {
            assert_eq!(said(text).join("|"), expected, "{text}");
        }
    }
}
