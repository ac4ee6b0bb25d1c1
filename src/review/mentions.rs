//! Numbers of a dose in a text: "hold for 20 seconds", "two sets", "3 or 4 days a week".
//!
//! Precise rather than eager: a number counts only with the word for what it counts, a time only after a word
//! for holding or resting, and nothing that is hedged ("at least 2", "one more set", "if 2 sets felt easy").

use std::ops::Range;

use crate::model::words::{Words, told};
use crate::text::phrases::Phrases;
use crate::text::sentences::Splitter;
use crate::text::tellings::Telling;
use crate::text::words::{is, is_one_of, words_in};

/// What a number counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum MentionKind {
    Reps,
    Sets,
    /// Days a week.
    Days,
    Hold,
    Rest,
    /// How long something lasts, where neither holding nor resting is said: "stand on one leg for 45 seconds".
    Lasting,
}

/// A number of a dose in a text, from low to high; times in milliseconds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Mention {
    pub(super) kind: MentionKind,
    pub(super) low: u32,
    pub(super) high: u32,
    pub(super) place: Range<usize>,
}

/// Finds the numbers of a dose in texts of one language.
pub(super) struct Reader<'w> {
    language: Language<'w>,
    /// Every word for what is counted.
    units: Phrases,
    splitter: &'w Splitter,
}

/// The words that matter in one language, as the list of the theme has them: words/doses.LANGUAGE.txt says what they are.
struct Language<'w> {
    numbers: Vec<(&'w str, u32)>,
    between: Vec<&'w str>,
    adjectives: Vec<&'w str>,
    reps: Vec<&'w str>,
    times: Vec<&'w str>,
    sets: Vec<&'w str>,
    days: Vec<&'w str>,
    seconds: Vec<&'w str>,
    minutes: Vec<&'w str>,
    weekly: Vec<&'w str>,
    other_times: Vec<&'w str>,
    hold: Vec<&'w str>,
    rest: Vec<&'w str>,
    lasting: Vec<&'w str>,
    moments: Vec<&'w str>,
    hedges: Vec<&'w str>,
    conditions: Vec<&'w str>,
    changes: Vec<&'w str>,
}

impl<'w> Language<'w> {
    fn of(list: &'w [Telling]) -> Language<'w> {
        let that = |what: &str| told(list, what).collect();
        let number = |telling: &'w Telling| Some((telling.phrase.as_str(), telling.tells.parse().ok()?));
        Language {
            numbers: list.iter().filter_map(number).collect(),
            between: that("between"),
            adjectives: that("adjective"),
            reps: that("repetitions"),
            times: that("times"),
            sets: that("sets"),
            days: that("days"),
            seconds: that("seconds"),
            minutes: that("minutes"),
            weekly: that("by the week"),
            other_times: that("no repetitions"),
            hold: that("hold"),
            rest: that("rest"),
            lasting: that("lasts"),
            moments: that("moment"),
            hedges: that("hedge"),
            conditions: that("condition"),
            changes: that("change"),
        }
    }
}

impl<'w> Reader<'w> {
    /// `None` for a language without a list.
    pub(super) fn of(words: &'w Words) -> Option<Reader<'w>> {
        let language = Language::of(&words.doses);
        let Language { reps, times, sets, days, seconds, minutes, .. } = &language;
        let units = [reps, times, sets, days, seconds, minutes].into_iter().flatten();
        let units: Vec<String> = units.map(ToString::to_string).collect();
        let known = !units.is_empty();
        known.then(|| Reader { language, units: Phrases::of(units), splitter: &words.splitter })
    }

    /// The numbers of a dose in a text, in its order.
    pub(super) fn mentions(&self, text: &str) -> Vec<Mention> {
        let mut found = Vec::new();
        // Most texts count nothing, and need not be split into words.
        let units = self.units.all_in(text);
        if units.is_empty() {
            return found;
        }
        for clause in self.splitter.clauses(text) {
            if !units.iter().any(|unit| clause.contains(&unit.at.start)) {
                continue;
            }
            let words =
                words_in(text, clause).map(|word| Word { text: &text[word.range()], place: word.range() });
            let words: Vec<Word<'_>> = words.collect();
            let mut at = 0;
            while at < words.len() {
                match mention(&words, at, &self.language) {
                    Some((mention, next)) => {
                        found.push(mention);
                        at = next;
                    }
                    None => at += 1,
                }
            }
        }
        found
    }
}

struct Word<'t> {
    text: &'t str,
    place: Range<usize>,
}

impl Word<'_> {
    fn is(&self, list: &[&str]) -> bool {
        is_one_of(self.text, list)
    }
}

/// A mention whose number begins with the word at `at`, and the word behind its unit.
fn mention(words: &[Word<'_>], at: usize, language: &Language<'_>) -> Option<(Mention, usize)> {
    let (mut low, mut high) = number(words.get(at)?, language)?;
    let mut next = at + 1;
    if low == high
        && let (Some(middle), Some(second)) = (words.get(next), words.get(next + 1))
        && middle.is(&language.between)
        && let Some((_, end)) = number(second, language).filter(|(end, _)| *end > low)
    {
        (low, high) = (low, end);
        next += 2;
    }
    if words.get(next).is_some_and(|word| word.is(&language.adjectives)) {
        next += 1;
    }
    let unit = words.get(next)?;
    let after = &words[next + 1..];
    let before = &words[..at];
    let follows = |phrases: &[&str]| {
        phrases.iter().any(|phrase| {
            let mut after = after.iter();
            phrase.split(' ').all(|expected| after.next().is_some_and(|word| is(word.text, expected)))
        })
    };
    let (kind, each) = if unit.is(&language.reps) {
        (MentionKind::Reps, 1)
    } else if unit.is(&language.times) && follows(&language.weekly) {
        (MentionKind::Days, 1)
    } else if unit.is(&language.times) && !follows(&language.other_times) {
        (MentionKind::Reps, 1)
    } else if unit.is(&language.sets) {
        (MentionKind::Sets, 1)
    } else if unit.is(&language.days) && follows(&language.weekly) {
        (MentionKind::Days, 1)
    } else if unit.is(&language.seconds) {
        (timed(before, language)?, 1_000)
    } else if unit.is(&language.minutes) {
        (timed(before, language)?, 60_000)
    } else {
        return None;
    };
    let hedged = before.last().is_some_and(|word| word.is(&language.hedges));
    let conditional = before.iter().any(|word| word.is(&language.conditions));
    let changed = after.first().is_some_and(|word| word.is(&language.changes));
    if hedged || conditional || changed {
        return None;
    }
    let place = words[at].place.start..unit.place.end;
    let (low, high) = (low.checked_mul(each)?, high.checked_mul(each)?);
    Some((Mention { kind, low, high, place }, next + 1))
}

/// What a time is for: what the last word for holding or resting before it says, or that something lasts so long.
fn timed(before: &[Word<'_>], language: &Language<'_>) -> Option<MentionKind> {
    let said = before.iter().rev().find_map(|word| {
        let kinds = [(&language.hold, MentionKind::Hold), (&language.rest, MentionKind::Rest)];
        kinds.into_iter().find(|(list, _)| word.is(list)).map(|(_, kind)| kind)
    });
    let lasts = before.last().is_some_and(|word| word.is(&language.lasting));
    let in_passing = before.iter().any(|word| word.is(&language.moments));
    said.or_else(|| (lasts && !in_passing).then_some(MentionKind::Lasting))
}

/// A number, or both ends of one such as "8-12".
fn number(word: &Word<'_>, language: &Language<'_>) -> Option<(u32, u32)> {
    if !word.text.starts_with(|c: char| c.is_ascii_digit()) {
        let named = language.numbers.iter().find(|(name, _)| is(word.text, name));
        return named.map(|(_, n)| (*n, *n));
    }
    let digits = |text: &str| text.bytes().all(|b| b.is_ascii_digit()).then(|| text.parse().ok()).flatten();
    match word.text.split_once(['-', '\u{2013}']) {
        Some((low, high)) => Some((digits(low)?, digits(high)?)).filter(|(low, high)| low < high),
        None => digits(word.text).map(|n| (n, n)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::words::Lists;
    use crate::review::testing::words_of;

    fn found(text: &str, language: &str) -> Vec<(MentionKind, u32, u32)> {
        let words = words_of(language);
        let reader = Reader::of(&words).unwrap();
        reader.mentions(text).into_iter().map(|m| (m.kind, m.low, m.high)).collect()
    }

    #[test]
    fn numbers_of_a_dose_are_read_in_digits_and_in_words() {
        use MentionKind::{Days, Hold, Reps, Rest, Sets};
        for (text, expected) in [
            ("Do it 10 times.", vec![(Reps, 10, 10)]),
            ("Do eight to twelve slow repetitions.", vec![(Reps, 8, 12)]),
            ("Do 8-12 reps in two sets.", vec![(Reps, 8, 12), (Sets, 2, 2)]),
            ("Do 8\u{2013}12 repetitions.", vec![(Reps, 8, 12)]),
            ("Practice 3 or 4 days a week.", vec![(Days, 3, 4)]),
            ("Three times a week is enough.", vec![(Days, 3, 3)]),
            (
                "Hold for 20 seconds. Rest for one minute.",
                vec![(Hold, 20_000, 20_000), (Rest, 60_000, 60_000)],
            ),
            ("This week has one set on each side.", vec![(Sets, 1, 1)]),
            ("Stay there for thirty seconds", vec![(Hold, 30_000, 30_000)]),
            ("Hold on, e.g. to a chair, for 20 seconds.", vec![(Hold, 20_000, 20_000)]),
            ("**Hold on.** Rest for 20 s.", vec![(Rest, 20_000, 20_000)]),
        ] {
            assert_eq!(found(text, "en"), expected, "{text}");
        }
        for (text, expected) in [
            ("Hágalo diez veces.", vec![(Reps, 10, 10)]),
            ("Haga 8 a 12 repeticiones en dos series.", vec![(Reps, 8, 12), (Sets, 2, 2)]),
            ("Practique tres o cuatro días por semana.", vec![(Days, 3, 4)]),
            (
                "Mantenga veinte segundos y descanse un minuto.",
                vec![(Hold, 20_000, 20_000), (Rest, 60_000, 60_000)],
            ),
            ("Tres veces a la semana.", vec![(Days, 3, 3)]),
        ] {
            assert_eq!(found(text, "es"), expected, "{text}");
        }
    }

    #[test]
    fn what_is_no_dose_is_not_read_as_one() {
        for text in [
            "You do this movement many times a day.",
            "You stand up 50 times a day.",
            "You do not need to do it all at one time.",
            "Experts advise it at least 2 days a week.",
            "The stamps return with one more set.",
            "Do it only if 2 sets felt easy.",
            "Call your clinician if soreness lasts more than 3 days.",
            "Pause for 2 seconds at the top.",
            "Stay with week 1 for one more week.",
            "Leave a clear day between 2 days of strength work.",
            "Walk 10 steps along the counter.",
            "After 3 sets you may sit down.",
            "Rest. 20 seconds are over soon.",
            "Sit on the second set of stairs.",
            "Do a set in the morning.",
            "Hold for 1.5 minutes.",
            "Rest for a while: one minute.",
        ] {
            assert_eq!(found(text, "en"), [], "{text}");
        }
        for text in [
            "Al menos dos días por semana.",
            "Una serie más.",
            "Si dos series son fáciles.",
            "Una vez al día.",
        ] {
            assert_eq!(found(text, "es"), [], "{text}");
        }
        let unknown = Words::read("de", "", Lists::default()).unwrap();
        assert!(Reader::of(&unknown).is_none());
    }

    #[test]
    fn the_place_is_the_number_with_its_unit() {
        let text = "Café. Hold for **10 to 20** seconds, no longer.";
        let words = words_of("en");
        let found = Reader::of(&words).unwrap().mentions(text);
        let places: Vec<&str> = found.into_iter().map(|m| &text[m.place]).collect();
        assert_eq!(places, ["10 to 20** seconds"]);
    }
}
