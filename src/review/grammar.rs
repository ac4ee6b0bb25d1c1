//! As much of the grammar of an English instruction as the rules on steps need.

use super::beginnings::Beginnings;
use crate::reckon::readability::parsed::ParsedSentence;

/// Words in small letters.
pub(super) struct WordList {
    words: &'static [&'static str],
    beginnings: Beginnings,
}

impl WordList {
    pub(super) const fn of(words: &'static [&'static str]) -> WordList {
        let mut beginnings = Beginnings::NONE;
        let mut at = 0;
        while at < words.len() {
            beginnings.add(words[at]);
            at += 1;
        }
        WordList { words, beginnings }
    }
}

/// True when word `i` is in a list, in any letter case.
pub(super) fn is_in(step: &ParsedSentence<'_>, i: usize, list: &WordList) -> bool {
    let Some(word) = step.words.get(i) else { return false };
    let text = &step.passage.text;
    list.beginnings.have(text.as_bytes(), word.range())
        && list.words.iter().any(|one| one.eq_ignore_ascii_case(&text[word.range()]))
}

/// True when a comma, a semicolon, a colon or a dash stands before word `i`.
pub(super) fn is_parted_before(step: &ParsedSentence<'_>, i: usize) -> bool {
    let between = step.before(i);
    between != " " && between.contains([',', ';', ':', '\u{2013}', '\u{2014}'])
}

/// Words that open a clause which says when or how.
static OPENINGS: WordList = WordList::of(&[
    "after", "and", "as", "at", "before", "by", "during", "for", "from", "if", "in", "on", "once", "so",
    "to", "until", "when", "while", "with", "without",
]);

/// Small words before the verb of an instruction.
static SMALL: WordList = WordList::of(&[
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
]);

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
