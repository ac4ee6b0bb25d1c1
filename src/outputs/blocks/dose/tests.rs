//! Doses read out in both languages.

use super::*;
use crate::model::source::{FileId, Span, Spanned};
use crate::model::words::Words;
use crate::workspace::theme::Theme;

fn at<T>(value: T) -> Option<Spanned<T>> {
    Some(Spanned::new(value, Span::start_of(FileId(0))))
}

fn dose() -> Dose {
    Dose::empty(Span::start_of(FileId(0)))
}

fn seconds(low: u32, high: u32) -> Option<Spanned<Time>> {
    at(Time { low: low * 1000, high: high * 1000, unit: TimeUnit::Second })
}

fn words(language: &str) -> Words {
    let theme = Theme::built_in();
    Words::read(language, theme.text(&format!("words/{language}.ftl")).unwrap(), theme.lists(language))
        .unwrap()
}

#[test]
fn a_dose_reads_as_a_person_would_say_it() {
    let heel_drop = Dose {
        reps: at(Amount::exactly(10)),
        sets: at(Amount::exactly(2)),
        sides: at(Sides::BothTogether),
        days: at(Amount { low: 3, high: 4 }),
        ..dose()
    };
    let tandem = Dose {
        reps: at(Amount::exactly(1)),
        hold: seconds(10, 20),
        sides: at(Sides::Each),
        days: at(Amount::exactly(7)),
        ..dose()
    };
    let stand =
        Dose { hold: seconds(30, 30), sides: at(Sides::Each), sets: at(Amount::exactly(1)), ..dose() };
    let walk = Dose {
        time: at(Time { low: 300_000, high: 300_000, unit: TimeUnit::Minute }),
        days: at(Amount::exactly(1)),
        ..dose()
    };
    let slow = Dose {
        reps: at(Amount::exactly(8)),
        hold: at(Time { low: 1500, high: 1500, unit: TimeUnit::Second }),
        ..dose()
    };
    for (dose, english, spanish) in [
        (&heel_drop, "10 times, 2 sets, 3 to 4 days a week", "10 veces, 2 series, 3 a 4 días por semana"),
        (
            &tandem,
            "1 time on each side, hold 10 to 20 seconds, every day",
            "1 vez de cada lado, mantenga 10 a 20 segundos, todos los días",
        ),
        (&stand, "Hold 30 seconds on each side, 1 set", "Mantenga 30 segundos de cada lado, 1 serie"),
        (&walk, "5 minutes in all, 1 day a week", "5 minutos en total, 1 día por semana"),
        (&slow, "8 times, hold 1.5 seconds", "8 veces, mantenga 1,5 segundos"),
    ] {
        for (language, expected) in [("en", english), ("es", spanish)] {
            let words = words(language);
            assert_eq!(glance(dose, Phrases { words: &words }), expected, "{language}");
        }
    }
}

#[test]
fn rest_is_between_sets_only_where_there_are_several() {
    let words = words("en");
    let rest = |sets: Option<u32>| {
        let dose = Dose {
            reps: at(Amount::exactly(5)),
            sets: sets.and_then(|sets| at(Amount::exactly(sets))),
            rest: seconds(60, 60),
            ..dose()
        };
        DoseBlock::of(&dose, None, false, Phrases { words: &words }).lines.pop().map(|l| l.text)
    };
    assert_eq!(rest(Some(2)).as_deref(), Some("60 seconds between sets"));
    assert_eq!(rest(None).as_deref(), Some("60 seconds in between"));
    assert_eq!(rest(Some(1)), None);
}

/// Every dose that says how much in another combination of fields, with what its fields are.
fn every_combination() -> Vec<(String, Dose)> {
    let mut all = Vec::new();
    for (fields, time, reps, hold) in [
        ("time", true, false, false),
        ("reps", false, true, false),
        ("hold", false, false, true),
        ("time, reps", true, true, false),
        ("time, hold", true, false, true),
        ("reps, hold", false, true, true),
        ("time, reps, hold", true, true, true),
    ] {
        for sets in [None, Some(1), Some(3)] {
            for sides in [None, Some(Sides::BothTogether), Some(Sides::Each), Some(Sides::Alternating)] {
                let said = [sets.map(|n| format!("{n} sets")), sides.map(|s| s.word().to_string())];
                let said =
                    said.into_iter().flatten().fold(fields.to_string(), |all, one| format!("{all}, {one}"));
                let dose = Dose {
                    time: seconds(30, 30).filter(|_| time),
                    reps: at(Amount::exactly(8)).filter(|_| reps),
                    hold: seconds(2, 3).filter(|_| hold),
                    sets: sets.and_then(|n| at(Amount::exactly(n))),
                    sides: sides.and_then(at),
                    ..dose()
                };
                all.push((said, dose));
            }
        }
    }
    all
}

#[test]
fn every_combination_of_fields_reads_as_it_is_reckoned() {
    for language in ["en", "es"] {
        let words = words(language);
        let say = Phrases { words: &words };
        let read = |(fields, dose): (String, Dose)| {
            let figures = figures(&dose, say).into_iter().map(|f| format!("{} {}", f.number, f.unit));
            format!("{fields}\n  {}\n  {}\n", glance(&dose, say), figures.collect::<Vec<_>>().join(" | "))
        };
        let all: String = every_combination().into_iter().map(read).collect();
        insta::assert_snapshot!(format!("every_combination_{language}"), all);
    }
}

/// By [`crate::reckon::dose`] a time is for every set and each side anew, and so are repetitions but for those
/// that change sides, which are counted for both.
#[test]
fn what_is_done_more_than_once_is_not_said_to_be_all() {
    let words = words("en");
    let say = Phrases { words: &words };
    for (fields, dose) in every_combination() {
        let sets = dose.sets.as_ref().is_some_and(|sets| sets.value.high > 1);
        let figures = figures(&dose, say).into_iter().map(|f| format!("{} {}", f.number, f.unit));
        for said in figures.chain([glance(&dose, say)]) {
            assert!(!(said.contains("in all") && sets), "{fields}: {said}");
            let each = dose.sides.as_ref().is_some_and(|sides| sides.value == Sides::Each);
            assert!(!(said.contains("in all") && each), "{fields}: {said}");
        }
    }
}
