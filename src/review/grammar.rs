//! As much of the grammar of an English instruction as the rules on steps need.

use crate::reckon::readability::parsed::ParsedSentence;

/// True when word `i` is in a list of words in small letters.
pub(super) fn is_in(step: &ParsedSentence<'_>, i: usize, list: &[&str]) -> bool {
    let word = step.word(i);
    list.iter().any(|one| one.eq_ignore_ascii_case(word))
}

/// True when a comma, a semicolon, a colon or a dash stands before word `i`.
pub(super) fn is_parted_before(step: &ParsedSentence<'_>, i: usize) -> bool {
    step.before(i).contains([',', ';', ':', '\u{2013}', '\u{2014}'])
}

/// Words that open a clause which says when or how.
const OPENINGS: [&str; 20] = [
    "after", "and", "as", "at", "before", "by", "during", "for", "from", "if", "in", "on", "once", "so",
    "to", "until", "when", "while", "with", "without",
];

/// Small words before the verb of an instruction.
const SMALL: [&str; 12] = [
    "again",
    "also",
    "always",
    "carefully",
    "finally",
    "first",
    "gently",
    "next",
    "now",
    "please",
    "slowly",
    "then",
];

/// The word at which the main clause begins: behind an opening that says when or how ("When you feel
/// steady, …", "With your left hand, …") and behind small words ("then", "now").
pub(super) fn main_clause(step: &ParsedSentence<'_>) -> usize {
    let mut start = 0;
    if is_in(step, 0, &OPENINGS) {
        start = (1..step.words.len()).find(|i| is_parted_before(step, *i)).unwrap_or(0);
    }
    while is_in(step, start, &SMALL) {
        start += 1;
    }
    start
}
