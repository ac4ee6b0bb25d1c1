//! The published formulas. Each takes counts with at least one word and one sentence.

use super::Counts;

/// The Flesch-Kincaid grade: Kincaid, Fishburne, Rogers and Chissom 1975, Navy Research Branch Report 8-75
/// (AD-A006 655). The report also prints a form with rounded constants; this is the precise one.
pub fn flesch_kincaid_grade(counts: Counts) -> f64 {
    0.39 * words_in_a_sentence(counts) + 11.8 * syllables_in_a_word(counts) - 15.59
}

/// Flesch reading ease: R. Flesch, A new readability yardstick, Journal of Applied Psychology 32(3), 1948,
/// 221-233 (the citation from memory, not verified).
pub fn flesch_reading_ease(counts: Counts) -> f64 {
    206.835 - 1.015 * words_in_a_sentence(counts) - 84.6 * syllables_in_a_word(counts)
}

/// SMOG in its precise form: G. H. McLaughlin, SMOG grading - a new readability formula, Journal of Reading
/// 12(8), 1969, 639-646. Made for 30 sentences; fewer are scaled to 30.
pub fn smog(counts: Counts) -> f64 {
    1.0430 * (f64::from(counts.long_words) * 30.0 / f64::from(counts.sentences)).sqrt() + 3.1291
}

fn words_in_a_sentence(counts: Counts) -> f64 {
    f64::from(counts.words) / f64::from(counts.sentences)
}

fn syllables_in_a_word(counts: Counts) -> f64 {
    f64::from(counts.syllables) / f64::from(counts.words)
}
