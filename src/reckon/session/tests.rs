//! Doses as they are counted out, worked by hand, and any dose beside the minutes that the plan and the sheets say.

use proptest::option::of as perhaps;
use proptest::prelude::*;

use super::*;
use crate::model::amount::{Amount, Time, TimeUnit};
use crate::model::exercise::Exercise;
use crate::model::source::{FileId, Span, Spanned};
use crate::reckon::dose::Session;
use crate::review::testing::{demonstration, edited, with_sample};

const LEAST: Ends = Ends { much: End::Low, pause: End::Low };

/// All of a timeline, in milliseconds.
fn length(timeline: &Timeline) -> u64 {
    timeline.parts.iter().map(length_of).sum()
}

fn length_of(part: &Part) -> u64 {
    match *part {
        Part::Ready(length) | Part::Time(length) | Part::Change(length) | Part::Rest(length) => length,
        Part::Reps(Reps { count, work, rest, .. }) => work + count.saturating_sub(1) * rest,
    }
}

/// A dose of the sample's strength exercise, whose way into it takes 30 to 60 seconds.
fn parts(dose: &str, ends: Ends) -> Vec<Part> {
    const FILE: &str = "content/exercises/sit-to-stand.md";
    let text = edited(FILE, &[]);
    let (before, rest) = text.split_once("[dose]\n").unwrap();
    let (_, after) = rest.split_once("\n[[").unwrap();
    let text = format!("{before}[dose]\n{dose}\n\n[[{after}");
    let mut parts = Vec::new();
    with_sample(&[(FILE, &text)], |model| {
        let exercise = &model.exercises["sit-to-stand"];
        assert!(exercise.standing.is_sound("dose"), "{dose}");
        parts = Timeline::of(&Form::base(exercise), &exercise.dose, ends).parts;
    });
    parts
}

fn reps(count: u64, seconds: u64) -> Reps {
    Reps { count, work: count * seconds * 1000, hold: 0, rest: 0, alternating: false }
}

const READY: Part = Part::Ready(60_000);

#[test]
fn two_sets_have_one_rest_between_them() {
    let dose = "reps = 10\nsets = 2\nsides = \"both-together\"\npace = \"4 s\"\nrest = \"60 s\"";
    let set = Part::Reps(reps(10, 4));
    assert_eq!(parts(dose, Ends::FEWEST), [READY, set, Part::Rest(60_000), set]);
}

#[test]
fn each_side_does_all_of_a_set_with_a_change_between_them() {
    let dose = "reps = 3\nsets = 2\nsides = \"each\"\npace = \"5 s\"\nrest = \"30 s\"";
    let (side, change, rest) = (Part::Reps(reps(3, 5)), Part::Change(10_000), Part::Rest(30_000));
    assert_eq!(parts(dose, Ends::FEWEST), [READY, side, change, side, rest, side, change, side]);
}

#[test]
fn alternating_sides_share_the_repetitions_and_need_no_change() {
    let dose = "reps = 8\nsets = 1\nsides = \"alternating\"\npace = \"3 s\"";
    let all = Part::Reps(Reps { alternating: true, ..reps(8, 3) });
    assert_eq!(parts(dose, Ends::FEWEST), [READY, all]);
}

/// The few are counted without haste: what is done at its least, what passes meanwhile at its most.
#[test]
fn of_a_range_the_voice_counts_the_fewest_and_the_slowest() {
    let dose = "reps = \"8-12\"\nsets = \"2-3\"\npace = \"4-6 s\"\nrest = \"60-90 s\"";
    let of = |ready: u64, sets: usize, rest: u64, one: Reps| {
        let set = [Part::Rest(rest * 1000), Part::Reps(one)];
        let mut all = vec![Part::Ready(ready * 1000)];
        all.extend(set.iter().copied().cycle().skip(1).take(sets * 2 - 1));
        all
    };
    assert_eq!(parts(dose, Ends::FEWEST), of(60, 2, 90, reps(8, 6)));
    assert_eq!(parts(dose, Ends::MOST), of(60, 3, 90, reps(12, 6)));
    assert_eq!(parts(dose, LEAST), of(30, 2, 60, reps(8, 4)));
}

#[test]
fn a_hold_stands_in_the_middle_of_a_repetition_or_is_all_of_it() {
    let held = |count, seconds, hold: u64| Part::Reps(Reps { hold: hold * 1000, ..reps(count, seconds) });
    for (dose, one) in [
        ("reps = 4\nhold = \"3 s\"\npace = \"8 s\"", held(4, 8, 3)),
        ("reps = 4\nhold = \"3 s\"\npace = \"2 s\"", held(4, 3, 3)),
        ("reps = 4\nhold = \"3-5 s\"", held(4, 3, 3)),
        ("hold = \"20 s\"", held(1, 20, 20)),
    ] {
        assert_eq!(parts(dose, Ends::FEWEST), [READY, one], "{dose}");
    }
    let dose = "reps = 8\nhold = \"3-5 s\"\nrest = \"10 s\"";
    let rested = Reps { hold: 3000, rest: 10_000, ..reps(8, 3) };
    assert_eq!(parts(dose, Ends::FEWEST), [READY, Part::Reps(rested)]);
    assert_eq!(length_of(&Part::Reps(rested)), 24_000 + 70_000);
}

#[test]
fn a_time_is_not_counted_unless_the_dose_says_how_often() {
    assert_eq!(parts("time = \"5 min\"", Ends::FEWEST), [READY, Part::Time(300_000)]);
    let sides = "time = \"10 s\"\nsets = 1\nsides = \"each\"";
    let (time, change) = (Part::Time(10_000), Part::Change(10_000));
    assert_eq!(parts(sides, Ends::FEWEST), [READY, time, change, time]);
    assert_eq!(parts("time = \"30 s\"\nreps = 5", Ends::FEWEST), [READY, Part::Reps(reps(5, 6))]);
}

/// NIH MedlinePlus Magazine, Spring 2012: 3 s up, 1 s hold, 3 s down, which is the slow end of what is assumed.
#[test]
fn a_dose_without_a_pace_is_counted_at_the_slow_end_of_what_is_assumed() {
    assert_eq!(parts("reps = 8", Ends::FEWEST), [READY, Part::Reps(reps(8, 7))]);
    assert_eq!(parts("reps = 8", LEAST), [Part::Ready(30_000), Part::Reps(reps(8, 4))]);
}

fn agrees(form: &Form<'_>, dose: &Dose) {
    let whole = Practice::of_form(form, dose).whole();
    let of = |ends| length(&Timeline::of(form, dose, ends));
    assert_eq!((of(LEAST), of(Ends::MOST)), (whole.low, whole.high), "{dose:?}");
    let voice = of(Ends::FEWEST);
    assert!(whole.low <= voice && voice <= whole.high, "{voice} of {whole:?}");
}

fn placed<T>(value: T) -> Spanned<T> {
    Spanned::new(value, Span::start_of(FileId(0)))
}

prop_compose! {
    fn amount(most: u32)(low in 1..=most, more in 0..=most) -> Spanned<Amount> {
        placed(Amount { low, high: low + more })
    }
}

prop_compose! {
    fn time()(low in 1..200_000u32, more in prop_oneof![Just(0), 1..100_000u32]) -> Spanned<Time> {
        placed(Time { low, high: low + more, unit: TimeUnit::Second })
    }
}

prop_compose! {
    fn dose()(
        reps in perhaps(amount(40)),
        sets in perhaps(amount(6)),
        hold in perhaps(time()),
        whole in perhaps(time()),
        rest in perhaps(time()),
        pace in perhaps(time()),
        sides in perhaps(prop_oneof![Just(Sides::Each), Just(Sides::Alternating), Just(Sides::BothTogether)]),
    ) -> Dose {
        let sides = sides.map(placed);
        Dose { reps, sets, hold, time: whole, rest, pace, sides, ..Dose::empty(Span::start_of(FileId(0))) }
    }
}

#[test]
fn any_dose_of_any_form_takes_the_minutes_that_the_plan_and_the_sheets_say() {
    with_sample(&[], |model| {
        let exercises: Vec<&Exercise> = model.exercises.values().collect();
        proptest!(ProptestConfig::with_cases(2_000), |(dose in dose(), at in 0..exercises.len())| {
            Form::all(exercises[at]).for_each(|form| agrees(&form, &dose));
        });
    });
}

#[test]
fn every_week_of_the_demonstration_takes_the_minutes_that_it_says() {
    let edition = demonstration();
    let model = edition.model();
    assert!(model.weeks().count() >= 12);
    for (_, week) in model.weeks() {
        let session = Session::of(model, week).sum(Practice::whole);
        let of = |ends| -> u64 {
            let used = model.exercises_of(week);
            used.map(|(used, e)| length(&Timeline::of(&Form::base(e), &used.dose_of(e), ends))).sum()
        };
        assert_eq!((of(LEAST), of(Ends::MOST)), (session.low, session.high), "{}", week.id);
    }
    for exercise in model.exercises.values() {
        Form::all(exercise).for_each(|form| agrees(&form, &form.dose(None)));
    }
}
