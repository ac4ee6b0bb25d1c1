//! The words of a sentence as they are spoken. The words that are spoken stand in the theme's lists, the grammar of English
//! numbers here.

use std::ops::Range;

use super::numerals;
use crate::model::words::Spoken;
use crate::text::words::{Word, is};

/// What a reader says for a part of a sentence.
pub(super) enum Said<'w> {
    /// A word as it is written.
    Written(Word),
    /// A word with digits, as [`number`] says it.
    Number(Word),
    /// These words, separated by spaces.
    Other(&'w str),
}

/// Gives what a reader says for a part of a text, in its order. `words` are those of the part.
pub(super) fn each_said<'w>(
    text: &str,
    part: Range<usize>,
    words: &[Word],
    spoken: &'w Spoken,
    mut say: impl FnMut(Said<'w>),
) {
    let bytes = text.as_bytes();
    let mut behind = part.start;
    let mut after_number = false;
    for word in words {
        let at = word.range();
        let between = &bytes[behind..at.start];
        if between != b" " {
            signs(&text[behind..at.start], spoken, &mut say);
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
            let goes_on = text[behind..].starts_with(' ');
            let long = unit.then(|| unit_for(written, goes_on, spoken)).flatten();
            let long = long.or_else(|| spoken_for(&spoken.abbreviations, written));
            say(long.map_or(Said::Written(*word), Said::Other));
        }
    }
    signs(&text[behind..part.end], spoken, &mut say);
}

/// Gives each word of a sentence as it is spoken. `12-week` is one word, "twelve-week"; `3-4` is "three to
/// four". `words` are those of the part of the text.
pub fn each_spoken(
    text: &str,
    part: Range<usize>,
    words: &[Word],
    spoken: &Spoken,
    mut say: impl FnMut(&str),
) {
    each_said(text, part, words, spoken, |said| match said {
        Said::Written(word) => say(&text[word.range()]),
        Said::Number(word) => number(&text[word.range()], spoken, &mut say),
        Said::Other(words) => words.split(' ').for_each(&mut say),
    });
}

fn spoken_for<'w>(list: &'w [(String, String)], word: &str) -> Option<&'w str> {
    list.iter().find(|(short, _)| is(word, short)).map(|(_, long)| long.as_str())
}

/// What is said for a unit behind a number. One that the list has with a full stop is a small word too, such as the `in` of
/// "10 in the morning", and no unit where the sentence goes on.
fn unit_for<'w>(word: &str, goes_on: bool, spoken: &'w Spoken) -> Option<&'w str> {
    let unit = spoken.units.iter().find(|(short, _)| is(word, short.trim_end_matches('.')))?;
    (!goes_on || !unit.0.ends_with('.')).then_some(unit.1.as_str())
}

fn signs<'w>(between: &str, spoken: &'w Spoken, say: &mut impl FnMut(Said<'w>)) {
    for sign in between.chars() {
        if let Some((_, name)) = spoken.signs.iter().find(|(known, _)| *known == sign) {
            say(Said::Other(name));
        }
    }
}

/// Gives the words that are spoken for a word with digits in it.
pub(super) fn number(word: &str, spoken: &Spoken, say: &mut impl FnMut(&str)) {
    let numerals = &spoken.numerals;
    let parts: Vec<&str> = word.split(['-', '\u{2010}', '\u{2011}', '\u{2013}']).collect();
    let is_number = |part: &&str| part.bytes().all(|b| b.is_ascii_digit() || b == b',' || b == b'.');
    if parts.iter().all(is_number) {
        for (i, part) in parts.iter().enumerate() {
            if i > 0 {
                say(numerals::named(numerals::TO, numerals));
            }
            numerals::spoken(part, numerals).split(' ').for_each(&mut *say);
        }
        return;
    }
    let spoken: Vec<String> = parts
        .iter()
        .map(|part| match ordinal_digits(part, spoken) {
            Some(number) => numerals::ordinal(number, spoken),
            None if is_number(part) => numerals::spoken(part, numerals),
            None => mixed(part, spoken),
        })
        .collect();
    match parts.len() {
        1 => spoken[0].split(' ').for_each(say),
        _ => say(&spoken.join("-").replace(' ', "-")),
    }
}

/// Digits and letters in one word, such as `2x`, separated by a space.
fn mixed(word: &str, spoken: &Spoken) -> String {
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
            true => out.push_str(&numerals::spoken(run, &spoken.numerals)),
            false => out.push_str(run),
        }
        rest = behind;
    }
    out
}

/// The digits of a word such as `3rd`.
fn ordinal_digits<'p>(part: &'p str, spoken: &Spoken) -> Option<&'p str> {
    let number = spoken.ordinal_marks.iter().find_map(|mark| part.strip_suffix(mark.as_str()))?;
    (!number.is_empty() && number.bytes().all(|b| b.is_ascii_digit())).then_some(number)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::text::words::words_in;

    fn said(text: &str) -> Vec<String> {
        let words: Vec<Word> = words_in(text, 0..text.len()).collect();
        let mut said = Vec::new();
        let spoken = &crate::review::testing::words().spoken;
        each_spoken(text, 0..text.len(), &words, spoken, |word| said.push(word.to_string()));
        said
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
