//! The words of a sentence, as they stand there and as they are spoken.

use std::ops::Range;

use super::numerals;

/// The places of the words: letters and digits, with apostrophes and hyphens inside, points and commas
/// inside a number, points inside an abbreviation such as `a.m`, and a dash between two numbers.
pub fn words(text: &str) -> impl Iterator<Item = Range<usize>> + '_ {
    let mut at = 0;
    std::iter::from_fn(move || {
        let start = start_of_word(text, at)?;
        at = end_of_word(text, start);
        Some(start..at)
    })
}

// Every word of a workspace passes here several times in a review: bytes that are ASCII are looked at as bytes.

fn start_of_word(text: &str, from: usize) -> Option<usize> {
    let bytes = text.as_bytes();
    let mut at = from;
    while let Some(&byte) = bytes.get(at) {
        if byte.is_ascii_alphanumeric() {
            return Some(at);
        }
        if !byte.is_ascii() {
            return Some(at + text[at..].find(char::is_alphanumeric)?);
        }
        at += 1;
    }
    None
}

fn end_of_word(text: &str, start: usize) -> usize {
    let bytes = text.as_bytes();
    let letters = bytes[start..].iter().take_while(|b| b.is_ascii_alphanumeric()).count();
    let end = start + letters;
    match bytes.get(end) {
        Some(b'\'' | b'-' | b',' | b'.' | 0x80..) => end_of_joined_word(text, start),
        _ => end,
    }
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

/// Gives each word as it is spoken. `12-week` is one word, "twelve-week"; `3-4` is "three to four".
pub fn spoken(sentence: &str, mut say: impl FnMut(&str)) {
    let mut behind = 0;
    let mut after_number = false;
    for at in words(sentence) {
        say_signs(&sentence[behind..at.start], &mut say);
        let adjacent = after_number && sentence[behind..at.start].trim().is_empty();
        behind = at.end;
        let word = &sentence[at];
        let number = word.bytes().any(|b| b.is_ascii_digit());
        let unit = adjacent && !goes_on(sentence, behind, word);
        after_number = number;
        if number {
            say_number(word, &mut say);
            continue;
        }
        let long = match (unit, sentence.as_bytes().get(behind)) {
            (true, _) => spoken_for(&UNITS, word).or_else(|| spoken_for(&ABBREVIATIONS, word)),
            (false, Some(b'.')) => spoken_for(&ABBREVIATIONS, word),
            _ => None,
        };
        match long {
            Some(long) => long.split(' ').for_each(&mut say),
            None => say(word),
        }
    }
    say_signs(&sentence[behind..], &mut say);
}

fn spoken_for(list: &[(&str, &'static str)], word: &str) -> Option<&'static str> {
    list.iter().find(|(short, _)| short.eq_ignore_ascii_case(word)).map(|(_, long)| *long)
}

/// True for the `in` of "10 in the morning": the small word, not the unit.
fn goes_on(sentence: &str, behind: usize, word: &str) -> bool {
    word.eq_ignore_ascii_case("in") && sentence[behind..].starts_with(' ')
}

fn say_signs(between: &str, say: &mut impl FnMut(&str)) {
    if matches!(between, " " | "" | ". " | ", ") {
        return;
    }
    for c in between.chars() {
        if let Some((_, name)) = SIGNS.iter().find(|(sign, _)| *sign == c) {
            say(name);
        }
    }
}

/// A word with digits in it.
fn say_number(word: &str, say: &mut impl FnMut(&str)) {
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
        let mut said = Vec::new();
        spoken(text, |word| said.push(word.to_string()));
        said
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
        ] {
            assert_eq!(said(text).join("|"), expected, "{text}");
        }
    }
}
