//! Numbers of a dose in a text: "hold for 20 seconds", "two sets", "3 or 4 days a week".
//!
//! Precise rather than eager: a number counts only with the word for what it counts, a time only after a word
//! for holding or resting, and nothing that is hedged ("at least 2", "one more set", "if 2 sets felt easy").

use std::ops::Range;

use super::beginnings::Beginnings;
use super::phrases::is;
use crate::reckon::readability::words::letters;

/// What a number counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
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
    pub(super) kind: Kind,
    pub(super) low: u32,
    pub(super) high: u32,
    pub(super) place: Range<usize>,
}

/// Finds the numbers of a dose in texts of one language.
pub(super) struct Reader {
    language: &'static Language,
    numbers: Beginnings,
    units: Beginnings,
}

/// The words that matter in one language, all in small letters.
struct Language {
    numbers: &'static [(&'static str, u32)],
    /// Between the two ends of a range.
    between: &'static [&'static str],
    /// May stand between a number and its unit.
    adjectives: &'static [&'static str],
    reps: &'static [&'static str],
    /// Count repetitions, or days when a word for "a week" follows.
    times: &'static [&'static str],
    sets: &'static [&'static str],
    days: &'static [&'static str],
    seconds: &'static [&'static str],
    minutes: &'static [&'static str],
    /// Follow a number of days or times and say that it is meant by the week.
    weekly: &'static [&'static [&'static str]],
    /// Follow a number of times and say that it is no number of repetitions.
    other_times: &'static [&'static [&'static str]],
    hold: &'static [&'static str],
    rest: &'static [&'static str],
    /// Right before a time: so long it lasts.
    lasting: &'static [&'static str],
    /// Earlier in the sentence: what lasts so long is a moment within the movement.
    moments: &'static [&'static str],
    /// Right before a number: it is no dose.
    hedges: &'static [&'static str],
    /// Earlier in the sentence: what follows is a condition.
    conditions: &'static [&'static str],
    /// Between a number and its unit, or after the unit: it is a change, no dose.
    changes: &'static [&'static str],
}

const ENGLISH_NUMBERS: &[(&str, u32)] = &[
    ("one", 1),
    ("two", 2),
    ("three", 3),
    ("four", 4),
    ("five", 5),
    ("six", 6),
    ("seven", 7),
    ("eight", 8),
    ("nine", 9),
    ("ten", 10),
    ("eleven", 11),
    ("twelve", 12),
    ("fifteen", 15),
    ("sixteen", 16),
    ("twenty", 20),
    ("thirty", 30),
    ("forty", 40),
    ("forty-five", 45),
    ("fifty", 50),
    ("sixty", 60),
    ("ninety", 90),
];

static ENGLISH: Language = Language {
    numbers: ENGLISH_NUMBERS,
    between: &["to", "or", "and"],
    adjectives: &["slow", "slowly", "gentle", "easy", "good", "full", "quiet", "calm", "whole", "smooth"],
    reps: &["repetitions", "repetition", "reps"],
    times: &["times"],
    sets: &["sets", "set"],
    days: &["days"],
    seconds: &["seconds", "second", "s", "sec"],
    minutes: &["minutes", "minute", "min"],
    weekly: &[
        &["a", "week"],
        &["each", "week"],
        &["every", "week"],
        &["per", "week"],
        &["of", "the", "week"],
        &["this", "week"],
    ],
    other_times: &[
        &["a", "day"],
        &["each", "day"],
        &["every", "day"],
        &["per", "day"],
        &["a", "month"],
        &["as"],
        &["in", "the", "day"],
        &["that", "day"],
    ],
    hold: &["hold", "holding", "holds", "stay", "staying"],
    rest: &["rest", "rests", "resting"],
    lasting: &["for"],
    moments: &["pause", "wait", "breathe", "breath", "count", "look"],
    hedges: &[
        "least", "most", "than", "about", "after", "within", "every", "another", "last", "first", "next",
        "other", "over", "under", "until", "the", "these", "those", "of", "week", "weeks", "step", "stage",
        "number", "a", "an", "takes", "between", "only",
    ],
    conditions: &["if", "unless", "until", "when", "once", "after", "before", "instead", "later", "whether"],
    changes: &[
        "more",
        "extra",
        "fewer",
        "less",
        "longer",
        "shorter",
        "further",
        "additional",
        "ago",
        "later",
        "old",
    ],
};

const SPANISH_NUMBERS: &[(&str, u32)] = &[
    ("un", 1),
    ("una", 1),
    ("uno", 1),
    ("dos", 2),
    ("tres", 3),
    ("cuatro", 4),
    ("cinco", 5),
    ("seis", 6),
    ("siete", 7),
    ("ocho", 8),
    ("nueve", 9),
    ("diez", 10),
    ("once", 11),
    ("doce", 12),
    ("quince", 15),
    ("dieciséis", 16),
    ("veinte", 20),
    ("treinta", 30),
    ("cuarenta", 40),
    ("cincuenta", 50),
    ("sesenta", 60),
    ("noventa", 90),
];

static SPANISH: Language = Language {
    numbers: SPANISH_NUMBERS,
    between: &["a", "o", "u", "y"],
    adjectives: &["lentas", "lentos", "suaves", "buenas", "buenos", "completas", "tranquilas"],
    reps: &["repeticiones", "repetición"],
    times: &["veces"],
    sets: &["series", "serie"],
    days: &["días"],
    seconds: &["segundos", "segundo", "s"],
    minutes: &["minutos", "minuto", "min"],
    weekly: &[
        &["por", "semana"],
        &["a", "la", "semana"],
        &["cada", "semana"],
        &["de", "la", "semana"],
        &["esta", "semana"],
    ],
    other_times: &[&["al", "día"], &["por", "día"], &["cada", "día"], &["al", "mes"], &["más"]],
    hold: &[
        "mantenga",
        "mantén",
        "mantener",
        "manteniendo",
        "sostenga",
        "sostén",
        "sostener",
        "quédese",
        "quédate",
    ],
    rest: &["descanse", "descansa", "descansar", "descansando", "descanso"],
    lasting: &["durante"],
    moments: &["pausa", "espere", "espera", "respire", "respira", "cuente", "mire"],
    hedges: &[
        "menos", "mínimo", "máximo", "de", "hasta", "unos", "unas", "cada", "otra", "otras", "otros",
        "últimas", "primeras", "tras", "las", "los", "la", "el", "estas", "esas", "semana", "paso", "solo",
        "entre",
    ],
    conditions: &["si", "cuando", "después", "antes", "salvo", "luego"],
    changes: &["más", "menos", "adicionales", "extra"],
};

impl Reader {
    /// `None` for a language that is not known here.
    pub(super) fn of(language: &str) -> Option<Reader> {
        let language = match language.split('-').next() {
            Some("en") => &ENGLISH,
            Some("es") => &SPANISH,
            _ => return None,
        };
        let Language { reps, times, sets, days, seconds, minutes, .. } = language;
        let units = [reps, times, sets, days, seconds, minutes].into_iter().copied().flatten().copied();
        Some(Reader {
            language,
            numbers: Beginnings::of(language.numbers.iter().map(|(name, _)| *name)),
            units: Beginnings::of(units),
        })
    }

    /// The numbers of a dose in a text, in its order.
    pub(super) fn mentions(&self, text: &str) -> Vec<Mention> {
        let mut found = Vec::new();
        if !self.might_count(text.as_bytes()) {
            return found;
        }
        let language = self.language;
        let mut words = Vec::new();
        for sentence in sentences(text).filter(|at| self.might_count(&text.as_bytes()[at.clone()])) {
            words.clear();
            words.extend(words_in(text, sentence));
            let mut at = 0;
            while at < words.len() {
                match mention(&words, at, language) {
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

    /// False when nothing that begins as a unit does stands close behind what begins as a number does, in
    /// digits or in words: so it is in most texts, and they need not be parted into words.
    fn might_count(&self, text: &[u8]) -> bool {
        // What stands behind the last letter of a number outside ASCII, an adjective, and the unit.
        const CLOSE: usize = 3;
        let (mut at, mut close) = (0, 0);
        while at < text.len() {
            let run = at..at + letters(text, at);
            at = run.end + 1;
            let digit = text.get(run.end).is_some_and(u8::is_ascii_digit);
            if !run.is_empty() {
                if close > 0 && self.units.have(text, run.clone()) {
                    return true;
                }
                close = if self.numbers.have(text, run) { CLOSE } else { close.saturating_sub(1) };
            }
            close = if digit { CLOSE } else { close };
        }
        false
    }
}

/// A mention whose number begins with the word at `at`, and the word behind its unit.
fn mention(words: &[Word<'_>], at: usize, language: &Language) -> Option<(Mention, usize)> {
    let (mut low, mut high) = number(words.get(at)?, language)?;
    let mut next = at + 1;
    if low == high
        && let (Some(middle), Some(second)) = (words.get(next), words.get(next + 1))
        && middle.is(language.between)
        && let Some((_, end)) = number(second, language).filter(|(end, _)| *end > low)
    {
        (low, high) = (low, end);
        next += 2;
    }
    if words.get(next).is_some_and(|word| word.is(language.adjectives)) {
        next += 1;
    }
    let unit = words.get(next)?;
    let after = &words[next + 1..];
    let before = &words[..at];
    let follows = |phrases: &[&[&str]]| {
        phrases.iter().any(|phrase| {
            after.len() >= phrase.len()
                && after.iter().zip(*phrase).all(|(word, expected)| is(word.text, expected))
        })
    };
    let (kind, each) = if unit.is(language.reps) {
        (Kind::Reps, 1)
    } else if unit.is(language.times) && follows(language.weekly) {
        (Kind::Days, 1)
    } else if unit.is(language.times) && !follows(language.other_times) {
        (Kind::Reps, 1)
    } else if unit.is(language.sets) {
        (Kind::Sets, 1)
    } else if unit.is(language.days) && follows(language.weekly) {
        (Kind::Days, 1)
    } else if unit.is(language.seconds) {
        (timed(before, language)?, 1_000)
    } else if unit.is(language.minutes) {
        (timed(before, language)?, 60_000)
    } else {
        return None;
    };
    let hedged = before.last().is_some_and(|word| word.is(language.hedges));
    let conditional = before.iter().any(|word| word.is(language.conditions));
    let changed = after.first().is_some_and(|word| word.is(language.changes));
    if hedged || conditional || changed {
        return None;
    }
    let place = words[at].place.start..unit.place.end;
    let (low, high) = (low.checked_mul(each)?, high.checked_mul(each)?);
    Some((Mention { kind, low, high, place }, next + 1))
}

/// What a time is for: what the last word for holding or resting before it says, or that something lasts so long.
fn timed(before: &[Word<'_>], language: &Language) -> Option<Kind> {
    let said = before.iter().rev().find_map(|word| {
        let kinds = [(language.hold, Kind::Hold), (language.rest, Kind::Rest)];
        kinds.into_iter().find(|(list, _)| word.is(list)).map(|(_, kind)| kind)
    });
    let lasts = before.last().is_some_and(|word| word.is(language.lasting));
    let in_passing = before.iter().any(|word| word.is(language.moments));
    said.or_else(|| (lasts && !in_passing).then_some(Kind::Lasting))
}

struct Word<'t> {
    text: &'t str,
    place: Range<usize>,
}

impl Word<'_> {
    fn is(&self, list: &[&str]) -> bool {
        list.iter().any(|word| is(self.text, word))
    }
}

/// A number, or both ends of one such as "8-12".
fn number(word: &Word<'_>, language: &Language) -> Option<(u32, u32)> {
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

/// Runs of letters and digits in a part of a text, with hyphens and dashes inside.
fn words_in(text: &str, part: Range<usize>) -> impl Iterator<Item = Word<'_>> {
    let inside = |c: char| c.is_alphanumeric() || matches!(c, '-' | '\u{2013}' | '\'' | '\u{2019}');
    let Range { start: mut at, end: last } = part;
    std::iter::from_fn(move || {
        let start = at + text[at..last].find(char::is_alphanumeric)?;
        at = text[start..last].find(|c| !inside(c)).map_or(last, |length| start + length);
        let word = text[start..at].trim_end_matches(|c: char| !c.is_alphanumeric());
        Some(Word { text: word, place: start..start + word.len() })
    })
}

/// Where the sentences of a text are: they end at a full stop, a question or exclamation mark, a colon or a
/// semicolon that no digit follows.
fn sentences(text: &str) -> impl Iterator<Item = Range<usize>> {
    let mut start = 0;
    std::iter::from_fn(move || {
        if start >= text.len() {
            return None;
        }
        // The marks are ASCII, as none of the bytes of another letter is.
        let rest = &text.as_bytes()[start..];
        let ends = |(at, byte): (usize, &u8)| {
            let closes = matches!(byte, b'.' | b'!' | b'?' | b':' | b';');
            let digit = rest.get(at + 1).is_some_and(u8::is_ascii_digit);
            (closes && !digit).then_some(start + at + 1)
        };
        let end = rest.iter().enumerate().find_map(ends).unwrap_or(text.len());
        let sentence = start..end;
        start = end;
        Some(sentence)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(text: &str, language: &str) -> Vec<(Kind, u32, u32)> {
        let reader = Reader::of(language).unwrap();
        reader.mentions(text).into_iter().map(|m| (m.kind, m.low, m.high)).collect()
    }

    #[test]
    fn numbers_of_a_dose_are_read_in_digits_and_in_words() {
        use Kind::{Days, Hold, Reps, Rest, Sets};
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
        assert!(Reader::of("de").is_none());
    }

    #[test]
    fn the_place_is_the_number_with_its_unit() {
        let text = "Café. Hold for **10 to 20** seconds, no longer.";
        let found = Reader::of("en").unwrap().mentions(text);
        let places: Vec<&str> = found.into_iter().map(|m| &text[m.place]).collect();
        assert_eq!(places, ["10 to 20** seconds"]);
    }
}
