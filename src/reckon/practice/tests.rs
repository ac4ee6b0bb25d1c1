//! Practice weeks drawn by hand, and the exact search beside a naive one on random small cases.

use proptest::prelude::*;
use proptest::sample::subsequence;

use super::*;
use crate::model::vocabulary::Day::{self, *};
use crate::model::vocabulary::{Region, Vocabulary};
use crate::review::testing::{demonstration, with_sample};

fn request(low: u32, high: u32, rest_days: u32, minutes: u32) -> Request {
    Request { low, high, rest_days, apart: false, minutes, regions: Regions::NONE }
}

/// The same for strength of these regions.
fn strength(low: u32, high: u32, minutes: u32, regions: &[Region]) -> Request {
    let regions = Regions::of(regions.iter().copied());
    Request { apart: true, regions, ..request(low, high, 0, minutes) }
}

fn on(days: impl IntoIterator<Item = Day>) -> Free {
    Free { days: DaySet::of(days), minutes: None }
}

#[test]
fn a_usual_week_spreads_its_minutes_and_keeps_its_rest_days() {
    let strength = Request { apart: true, ..request(2, 3, 1, 8) };
    let requests = [request(5, 7, 0, 3), request(5, 7, 0, 5), strength, request(3, 4, 0, 5)];
    let plan = Plan::of(&requests, Free::ANY);
    assert_eq!(plan.short, []);
    // 15 + 25 + 16 + 15 minutes on seven days would go into days of 11, but not with whole sessions: beside
    // two days of 3 + 8, five days of 5 + 5 leave no room for the other three sessions of 3.
    assert_eq!(plan.heaviest(), 13);
    assert!(plan.days[2].leaves(1));
    assert_eq!(plan.minutes.iter().sum::<u32>(), minutes(&requests, &plan.days).iter().sum::<u32>());
    assert_eq!(plan, Plan::of(&requests, on(Day::ALL.iter().rev().copied())));
}

#[test]
fn three_days_of_strength_are_monday_wednesday_and_friday() {
    let strength = Request { apart: true, ..request(2, 3, 0, 10) };
    let plan = Plan::of(&[strength], Free::ANY);
    assert_eq!(plan.days, [DaySet::of([Monday, Wednesday, Friday])]);
    assert_eq!(plan.minutes, [10, 0, 10, 0, 10, 0, 0]);
}

#[test]
fn days_that_are_added_make_the_heaviest_day_no_heavier() {
    // One day for both would be free, but only with 20 minutes on it.
    let plan = Plan::of(&[request(1, 2, 0, 10), request(1, 1, 0, 10)], on([Monday, Tuesday]));
    assert_eq!(plan.heaviest(), 10);
    assert_eq!(plan.days, [DaySet::of([Monday]), DaySet::of([Tuesday])]);
    let plan = Plan::of(&[request(1, 2, 0, 10), request(1, 1, 0, 10)], on([Monday, Tuesday, Sunday]));
    assert_eq!(plan.days, [DaySet::of([Tuesday, Sunday]), DaySet::of([Monday])]);
}

#[test]
fn a_day_more_for_a_later_exercise_comes_before_an_earlier_day_for_the_first() {
    let once = Request { apart: true, ..request(1, 1, 0, 1) };
    let twice = Request { apart: true, ..request(1, 2, 0, 1) };
    let plan = Plan::of(&[once, twice], on([Thursday, Saturday, Sunday]));
    // On Thursday the first one would leave Saturday and Sunday, two days running, to the second.
    assert_eq!(plan.days, [DaySet::of([Saturday]), DaySet::of([Thursday, Sunday])]);
}

/// Not the same muscles on two days running: NIH MedlinePlus Magazine, Spring 2012. Each exercise alone would have the
/// lightest days to itself: regions come before that.
#[test]
fn exercises_for_the_same_region_are_on_the_same_days_or_have_a_clear_day_between_them() {
    use Region::{Arms, Hips, Thighs};
    let (step, stand) = (strength(2, 3, 8, &[Thighs, Hips]), strength(2, 3, 4, &[Thighs]));
    let daily = request(7, 7, 0, 3);
    let week = |requests: &[Request]| Plan::of(requests, Free::ANY);
    let plan = week(&[step, stand, daily]);
    assert_eq!(plan.short, []);
    let both = plan.days[0].union(plan.days[1]);
    assert!(both.leaves(1), "{plan:?}");
    let apart = week(&[step, Request { regions: Regions::of([Arms]), ..stand }, daily]);
    assert!(apart.heaviest() < plan.heaviest() && !apart.days[0].union(apart.days[1]).leaves(1), "{apart:?}");
    // What needs no clear day itself does not wait for strength.
    let posture = Request { regions: Regions::of([Thighs]), ..daily };
    assert_eq!(week(&[step, posture]).days[1], DaySet::ALL);
    assert_eq!(week(&[step, posture]).short, []);
}

/// The step up is strength and the quick stand is power: both work the thighs and both need a clear day.
#[test]
fn the_step_up_and_the_quick_stand_of_the_demonstration_leave_the_thighs_their_clear_day() {
    let edition = demonstration();
    let model = edition.model();
    let (_, week) = model.weeks().find(|(_, week)| week.number.value == 9).unwrap();
    let used: Vec<_> = model.exercises_of(week).collect();
    let requests: Vec<Request> = used.iter().map(|(used, e)| Request::of(e, &used.dose_of(e))).collect();
    let plan = Plan::of(&requests, Free::ANY);
    let days = |id: &str| plan.days[used.iter().position(|(_, e)| e.id == id).unwrap()];
    assert_eq!(plan.short, []);
    assert!(days("step-up").union(days("fast-stand")).leaves(1), "{plan:?}");
    assert!(days("step-up").len() >= 2 && days("fast-stand").len() >= 2, "{plan:?}");
}

/// The week goes around from Sunday to Monday.
#[test]
fn a_region_has_its_clear_day_around_the_week_s_end() {
    let thighs = |minutes| strength(1, 1, minutes, &[Region::Thighs]);
    let both = [thighs(10), thighs(10)];
    let plan = Plan::of(&both, on([Sunday, Monday]));
    assert_eq!(plan.days, [DaySet::of([Monday]), DaySet::of([Monday])], "not on Sunday and Monday");
    let plan = Plan::of(&both, on([Saturday, Monday]));
    assert_eq!(plan.days, [DaySet::of([Monday]), DaySet::of([Saturday])]);
    // Only the minutes of a day keep them off the same day.
    let plan = Plan::of(&both, Free { minutes: Some(12), ..on([Sunday, Monday]) });
    assert_eq!(plan.days, [DaySet::of([Monday]), DaySet::NONE]);
    assert_eq!(plan.short[0].remedies, [Remedy::FreeDays(DaySet::of([Tuesday])), Remedy::Minutes(20)]);
}

#[test]
fn a_weekend_and_a_monday_hold_two_days_of_strength() {
    let strength = Request { apart: true, ..request(2, 2, 0, 10) };
    let plan = Plan::of(&[strength], on([Saturday, Sunday, Monday]));
    assert_eq!(plan.days, [DaySet::of([Monday, Saturday])]);
    assert_eq!(plan.short, []);
}

#[test]
fn a_week_that_cannot_be_met_says_what_would_do() {
    let strength = Request { apart: true, ..request(2, 3, 2, 10) };
    let plan = Plan::of(&[request(2, 2, 0, 5), strength], on([Monday, Wednesday]));
    assert_eq!(
        plan.short,
        [Short {
            request: 1,
            wanted: 2,
            got: 1,
            remedies: vec![Remedy::Days(1), Remedy::FreeDays(DaySet::of([Thursday])), Remedy::RestDays(1)],
        }]
    );
    assert_eq!(plan.days[0].len(), 2, "the other exercise has its days");
    // Two days running are no remedy for strength, and one clear day too many is none at all.
    let plan = Plan::of(&[strength], on([Sunday, Monday]));
    assert_eq!(plan.short[0].remedies, [Remedy::Days(1), Remedy::FreeDays(DaySet::of([Wednesday]))]);
}

#[test]
fn minutes_that_do_not_hold_the_week_are_said() {
    let free = Free { minutes: Some(12), ..on([Monday, Thursday]) };
    let plan = Plan::of(&[request(2, 2, 0, 8), request(2, 2, 0, 6)], free);
    assert_eq!(plan.heaviest(), 6, "of two exercises that do not go together, the lighter one stays");
    assert_eq!(plan.short.len(), 1);
    assert_eq!((plan.short[0].request, plan.short[0].got), (0, 0));
    assert_eq!(
        plan.short[0].remedies,
        [Remedy::FreeDays(DaySet::of([Tuesday, Wednesday])), Remedy::Minutes(14)]
    );
}

/// The week is the one that a search through all numbers of days for each exercise, one after another, found.
#[test]
fn ten_exercises_in_too_few_minutes_have_the_best_week_there_is() {
    let asked = [
        (2, 3, 0, 20),
        (6, 7, 1, 12),
        (6, 6, 1, 11),
        (6, 6, 1, 2),
        (7, 7, 0, 16),
        (7, 7, 1, 17),
        (7, 7, 0, 13),
        (7, 7, 0, 4),
        (2, 2, 1, 8),
        (5, 5, 1, 8),
    ];
    let requests = asked.map(|(low, high, rest_days, minutes)| request(low, high, rest_days, minutes));
    let days = search::arrange(&requests, Free { minutes: Some(49), ..Free::ANY });
    let bits: Vec<u8> = days.iter().map(|days| days.bits()).collect();
    assert_eq!(bits, [96, 21, 42, 21, 0, 21, 127, 127, 10, 74]);
}

#[test]
fn no_day_and_no_exercise_make_an_empty_week() {
    assert_eq!(Plan::of(&[], Free::ANY).days, []);
    let plan = Plan::of(&[request(2, 3, 1, 5)], on([]));
    assert_eq!(plan.days, [DaySet::NONE]);
    assert_eq!(plan.short[0].remedies, [Remedy::FreeDays(DaySet::of([Monday, Wednesday]))]);
    let long = Plan::of(&[request(1, 1, 0, 9_000)], Free::ANY);
    assert_eq!(long.days, [DaySet::of([Monday])], "a session longer than a day is taken for a day");
}

#[test]
fn strength_and_long_holds_must_not_stand_on_two_days_running() {
    with_sample(&[], |model| {
        let apart = |id: &str| {
            let exercise = &model.exercises[id];
            Request::of(exercise, &exercise.dose)
        };
        let strength = apart("sit-to-stand");
        assert!(strength.apart);
        // 8 x 6 s and the transition of 60 s at the longest: 108 s.
        assert_eq!((strength.low, strength.high, strength.rest_days, strength.minutes), (2, 3, 1, 2));
        assert!(!apart("tall-sit").apart);
    });
}

/// What a week is worth by the order of the module's own list, reckoned the plainest way.
type Worth = (usize, i64, i64, Vec<u32>);

fn worth(requests: &[Request], days: &[DaySet]) -> Worth {
    let got = |(r, d): (&Request, &DaySet)| (i64::from(r.low) - i64::from(d.len())).max(0);
    let missing: Vec<i64> = requests.iter().zip(days).map(got).collect();
    let heaviest = minutes(requests, days).into_iter().max().unwrap();
    let met = missing.iter().filter(|&&m| m == 0).count();
    let mut order: Vec<usize> = (0..requests.len()).collect();
    order.sort_by_key(|&i| (requests[i].rest() == 0, std::cmp::Reverse(requests[i].minutes)));
    let many = order.into_iter().map(|i| days[i].len()).collect();
    (met, -missing.iter().sum::<i64>(), -i64::from(heaviest), many)
}

/// Tries every set of days for every exercise.
fn naive(requests: &[Request], free: Free) -> Worth {
    fn all(requests: &[Request], free: Free, chosen: &mut Vec<DaySet>, best: &mut Option<Worth>) {
        let Some(request) = requests.get(chosen.len()) else {
            let fits = minutes(requests, chosen).into_iter().max().unwrap() <= free.minutes.unwrap_or(1440);
            if fits {
                *best = best.take().max(Some(worth(requests, chosen)));
            }
            return;
        };
        for bits in 0..128_u8 {
            let days: Vec<usize> = (0..7).filter(|day| bits >> day & 1 == 1).collect();
            let free_day = |day: &usize| free.days.contains(Day::ALL[*day]);
            let clear = |a: usize, b: usize| (b + 7 - a - 1) % 7;
            let apart = u32::from(request.apart).max(request.rest_days) as usize;
            let rested = days.iter().all(|&a| days.iter().all(|&b| a == b || clear(a, b) >= apart));
            let strains = |r: &Request| r.apart || r.rest_days > 0;
            let same = |other: &Request| {
                strains(request)
                    && strains(other)
                    && Region::ALL.iter().any(|&r| other.regions.contains(r) && request.regions.contains(r))
            };
            let neighbors = |other: &DaySet| {
                days.iter().any(|&a| other.iter().any(|b| matches!((b as usize + 7 - a) % 7, 1 | 6)))
            };
            let rested = rested && requests.iter().zip(chosen.iter()).all(|(r, d)| !same(r) || !neighbors(d));
            if days.iter().all(free_day) && rested && days.len() <= request.high as usize {
                chosen.push(DaySet::from_bits(bits));
                all(requests, free, chosen, best);
                chosen.pop();
            }
        }
    }
    let mut best = None;
    all(requests, free, &mut Vec::new(), &mut best);
    best.unwrap()
}

fn requests(most: usize) -> impl Strategy<Value = Vec<Request>> {
    let regions = prop::sample::subsequence(vec![Region::Arms, Region::Hips, Region::Thighs], 0..=2);
    let one = (1..=7_u32, 0..=2_u32, 0..=3_u32, any::<bool>(), 1..=9_u32, regions).prop_map(
        |(low, more, rest_days, apart, minutes, regions)| Request {
            low,
            high: (low + more).min(7),
            rest_days: rest_days.saturating_sub(1),
            apart: apart && rest_days > 0,
            minutes,
            regions: Regions::of(regions),
        },
    );
    prop::collection::vec(one, 1..=most)
}

fn free_days(most: usize) -> impl Strategy<Value = Free> {
    let days = subsequence(Day::ALL.to_vec(), 0..=most);
    (days, prop::option::weighted(0.4, 3..=25_u32)).prop_map(|(days, minutes)| Free { minutes, ..on(days) })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn the_search_is_as_good_as_trying_every_week(requests in requests(3), free in free_days(4)) {
        let plan = Plan::of(&requests, free);
        prop_assert_eq!(worth(&requests, &plan.days), naive(&requests, free));
    }

    #[test]
    fn strength_of_one_region_is_as_good_as_trying_every_week(mut requests in requests(3), free in free_days(5)) {
        for request in &mut requests {
            request.apart = true;
            request.regions = Regions::of([Region::Arms]);
        }
        let plan = Plan::of(&requests, free);
        prop_assert_eq!(worth(&requests, &plan.days), naive(&requests, free));
    }

    #[test]
    fn two_exercises_on_all_days_are_as_good_as_trying_every_week(requests in requests(2), minutes in prop::option::of(5..=20_u32)) {
        let free = Free { minutes, ..Free::ANY };
        let plan = Plan::of(&requests, free);
        prop_assert_eq!(worth(&requests, &plan.days), naive(&requests, free));
    }

    #[test]
    fn rest_days_free_days_and_minutes_are_never_broken(requests in requests(6), free in free_days(7)) {
        let plan = Plan::of(&requests, free);
        for (request, days) in requests.iter().zip(&plan.days) {
            prop_assert!(days.leaves(request.rest()) && days.is_within(free.days) && days.len() <= request.high);
        }
        prop_assert!(plan.heaviest() <= free.minutes.unwrap_or(u32::MAX));
        for &region in Region::ALL {
            let trains = |r: &&Request| r.rest() > 0 && r.regions.contains(region);
            let of_it = requests.iter().zip(&plan.days).filter(|(r, _)| trains(r));
            let days = of_it.fold(DaySet::NONE, |all, (_, &days)| all.union(days));
            prop_assert!(days.leaves(1), "{region:?} on {days:?}");
        }
        for short in &plan.short {
            prop_assert!(short.got < short.wanted && plan.days[short.request].len() == short.got);
        }
    }

    /// So no rule has to look for exercises that do not go together.
    #[test]
    fn exercises_that_fit_a_week_one_by_one_fit_together_whatever_they_train(requests in requests(6)) {
        let fits = |r: &&Request| r.low == 1 || r.low * (r.rest() + 1) <= 7;
        let requests: Vec<Request> = requests.iter().filter(fits).copied().collect();
        prop_assert_eq!(Plan::of(&requests, Free::ANY).short, []);
    }

    #[test]
    fn the_order_of_the_exercises_changes_nothing_that_counts(
        (requests, shuffled) in requests(5).prop_flat_map(|r| (Just(r.clone()), Just(r).prop_shuffle())),
        free in free_days(7),
    ) {
        let (plan, other) = (Plan::of(&requests, free), Plan::of(&shuffled, free));
        let (first, second) = (worth(&requests, &plan.days), worth(&shuffled, &other.days));
        prop_assert_eq!((first.0, first.1, first.2), (second.0, second.1, second.2));
        // The days that go to exercises asking for the same are the same days.
        let sorted = |requests: &[Request], plan: &Plan| {
            let mut all: Vec<_> = requests.iter().copied().zip(plan.days.iter().copied()).collect();
            all.sort();
            all
        };
        let mut distinct = requests.clone();
        distinct.sort_by_key(|r| (r.rest() == 0, r.minutes));
        distinct.dedup_by_key(|r| (r.rest() == 0, r.minutes));
        if distinct.len() == requests.len() {
            prop_assert_eq!(sorted(&requests, &plan), sorted(&shuffled, &other));
        }
    }

    #[test]
    fn every_remedy_does(requests in requests(3), free in free_days(5)) {
        let plan = Plan::of(&requests, free);
        for short in &plan.short {
            for remedy in &short.remedies {
                let (mut requests, mut free) = (requests.clone(), free);
                match *remedy {
                    Remedy::Days(n) => requests[short.request].low = n,
                    Remedy::FreeDays(days) => free.days = free.days.union(days),
                    Remedy::RestDays(n) => requests[short.request].rest_days = n,
                    Remedy::Minutes(n) => free.minutes = Some(n),
                }
                let fixed = Plan::of(&requests, free);
                prop_assert!(fixed.short.iter().all(|s| s.request != short.request), "{remedy:?}");
            }
        }
    }
}
