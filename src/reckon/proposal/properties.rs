//! What holds of every proposal: the search beside a naive one on random small cases, and the review's word on
//! every proposed week of the demonstration, and of random series of its exercises, many of them made worse.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use jiff::ToSpan;
use proptest::collection::vec;
use proptest::prelude::*;

use super::search::{Cost, Item, Limits, best, shortest};
use super::*;
use crate::edition::Edition;
use crate::review::review;
use crate::review::testing::{self, TODAY};
use crate::workspace::sample;

fn item() -> impl Strategy<Value = Item> {
    (proptest::array::uniform3(-2i64..3), 1u64..9, 0u64..4).prop_map(|(cost, time, landings)| {
        let [first, second, last] = cost;
        Item { cost: Cost([first, 0, second, 0, 0, 0, 0, last]), time, landings }
    })
}

fn lists() -> impl Strategy<Value = Vec<Vec<Item>>> {
    vec(vec(item(), 0..6), 4)
}

/// Every choice of one item of each list, by its places: the first list weighs most.
fn all(lists: &[Vec<Item>]) -> Vec<Vec<usize>> {
    lists.iter().fold(vec![Vec::new()], |choices, list| {
        let with = |choice: &Vec<usize>| -> Vec<Vec<usize>> {
            (0..list.len()).map(|at| choice.iter().copied().chain([at]).collect()).collect()
        };
        choices.iter().flat_map(with).collect()
    })
}

fn total<T: std::iter::Sum>(lists: &[Vec<Item>], choice: &[usize], figure: fn(&Item) -> T) -> T {
    lists.iter().zip(choice).map(|(list, &at)| figure(&list[at])).sum()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_search_finds_what_trying_everything_finds(
        lists in lists(),
        time in 4u64..30,
        landings in 0u64..10,
    ) {
        let few = |choice: &Vec<usize>| total(&lists, choice, |item| item.landings) <= landings;
        let short = |choice: &Vec<usize>| total(&lists, choice, |item| item.time) <= time;
        let fitting = all(&lists).into_iter().filter(few).filter(short);
        let expected = fitting.min_by_key(|choice| (total(&lists, choice, |item| item.cost), choice.clone()));
        prop_assert_eq!(best(&lists, Limits { time, landings }), expected);
        let least = all(&lists).into_iter().filter(few).map(|choice| total(&lists, &choice, |item| item.time)).min();
        prop_assert_eq!(shortest(&lists, landings), least);
    }
}

/// Four lists of 125, each item a little cheaper and as much longer than the next: no choice is plainly better than
/// another, and 125 to the power of 4 are too many to try.
#[test]
fn a_library_of_500_exercises_is_searched_in_no_time() {
    let item = |at: u64, landings| {
        let mut cost = Cost::default();
        cost.0[3] = at as i64;
        Item { cost, time: 125 - at, landings }
    };
    let plain: Vec<Vec<Item>> = vec![(0..125).map(|at| item(at, 0)).collect(); 4];
    // 400 of time are 100 of cost; the earliest of the first lists come first.
    assert_eq!(best(&plain, Limits { time: 400, landings: 0 }), Some(vec![0, 0, 0, 100]));
    assert_eq!(shortest(&plain, 0), Some(4));
    let landing: Vec<Vec<Item>> = vec![(0..125).map(|at| item(at, at * 37 % 60)).collect(); 4];
    let choice = best(&landing, Limits { time: 400, landings: 100 }).unwrap();
    assert_eq!(total(&landing, &choice, |item| item.time), 400);
    assert!(total(&landing, &choice, |item| item.landings) <= 100);
}

/// What a proposal must never lead to.
const NEVER: [&str; 8] = [
    "skipped-rung",
    "impact-unprepared",
    "unanswered-demand",
    "dose-jump",
    "impact-cap",
    "missing-component",
    "repeated-exercise",
    "no-rest-day",
];

/// The texts of a workspace.
type Files = BTreeMap<String, String>;

static DEMONSTRATION: LazyLock<Files> = LazyLock::new(|| {
    testing::demonstration()
        .sources()
        .iter()
        .map(|(_, source)| (source.name.clone(), source.text.clone()))
        .collect()
});

const WEEKS: &str = "content/series/lantern-hill/week-";

fn edition(files: &Files) -> Edition {
    testing::edition(files.clone())
}

/// How often each thing that must never come of a proposal is found.
fn found(files: &Files) -> BTreeMap<String, usize> {
    let edition = edition(files);
    let mut found = BTreeMap::new();
    let reviewed = review(&edition.case(TODAY), Vec::new());
    for finding in reviewed.findings.iter().filter(|f| NEVER.contains(&f.rule)) {
        let file = &edition.sources().get(finding.span.file).name;
        *found.entry(format!("{file} {} {}", finding.rule, finding.message)).or_default() += 1;
    }
    found
}

/// A week that is proposed for the only series, as a file, or why there is none: the choice, or else the candidates
/// at these places of their lists, where their landings fit together.
fn proposed(
    files: &Files,
    change: &impl Fn(&mut Wish),
    places: Option<&[usize]>,
) -> Result<(String, String), String> {
    let edition = edition(files);
    let model = edition.model();
    let series = model.series.values().next().unwrap();
    let mut wish = Wish::of(series, &model.site);
    change(&mut wish);
    let proposal = Proposal::of(model, &Ladders::of(model), &Answers::default(), series, &wish)
        .map_err(|unknown| unknown.to_string())?;
    let session = match places {
        None => proposal.choice.clone().map_err(|unfit| unfit.to_string())?,
        Some(places) => {
            at_places(&proposal, places).ok_or("a list is empty, or there are too many landings")?
        }
    };
    assert!(places.is_some() || session.sum(Practice::whole).high <= u64::from(wish.minutes) * 60_000);
    let ids: Vec<&str> = session.practices.iter().map(|(e, _)| e.id.as_str()).collect();
    let name = format!("content/series/{}/week-{:02}.md", series.id, proposal.week);
    Ok((name, week(proposal.week, &proposal.date.to_string(), &ids)))
}

fn at_places<'m>(proposal: &Proposal<'m>, places: &[usize]) -> Option<Session<'m>> {
    let one = |(list, place): (&List<'m>, &usize)| {
        let one = list.candidates.get(place % list.candidates.len().max(1))?;
        Some((one.exercise, one.practice.clone()))
    };
    let practices: Option<Vec<_>> = proposal.lists.iter().zip(places).map(one).collect();
    practices.map(|practices| Session { practices }).filter(|s| s.sum(Practice::all_impacts).high <= 100)
}

fn week(number: u32, date: &str, ids: &[&str]) -> String {
    let used: String = ids.iter().map(|id| format!("{{ id = \"{id}\" }}, ")).collect();
    format!("```toml\nweek = {number}\ntitle = \"W\"\ndate = {date}\nexercises = [{used}]\n```\nHello.\n")
}

/// Fails when the proposed week brings a finding that was not there. True when a week was proposed.
fn brings_no_finding(
    files: &Files,
    change: impl Fn(&mut Wish),
    places: Option<&[usize]>,
) -> Result<bool, TestCaseError> {
    let Ok((name, text)) = proposed(files, &change, places) else { return Ok(false) };
    let before = found(files);
    let mut with = files.clone();
    prop_assert!(with.insert(name, text.clone()).is_none(), "a week was replaced");
    prop_assert_eq!(found(&with), before, "after\n{}", text);
    Ok(true)
}

#[test]
fn after_each_week_of_the_demonstration_one_that_brings_no_finding_is_proposed() {
    for last in 2..=12 {
        let mut files = DEMONSTRATION.clone();
        files.retain(|name, _| !name.starts_with(WEEKS) || *name <= format!("{WEEKS}{last:02}.md"));
        assert!(brings_no_finding(&files, |_| (), None).unwrap(), "nothing is proposed after week {last}");
    }
}

#[test]
fn the_sample_s_exercises_return_when_they_may() {
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
    let files: Files = sample::files().into_iter().map(|(name, bytes)| (name, text(bytes))).collect();
    assert!(!brings_no_finding(&files, |_| (), None).unwrap(), "four of its five were in the last two weeks");
    assert!(brings_no_finding(&files, |wish| wish.weeks_apart = 0, None).unwrap());
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn neither_choice_nor_candidates_bring_a_finding_whatever_the_exercises_and_the_weeks_before_it(
        changes in vec((0usize..1000, change()), 0..40),
        weeks in vec(vec(0usize..1000, 4), 0..6),
        minutes in 12u32..200,
        weeks_apart in 0u32..4,
        left_out in vec(0usize..1000, 0..6),
        places in vec(0usize..1000, 4),
        serves_few in any::<bool>(),
    ) {
        let mut files = DEMONSTRATION.clone();
        files.retain(|name, _| !name.starts_with(WEEKS));
        if serves_few {
            // An impact that nobody has to avoid may still come too early.
            let text = files.get_mut("content/series/lantern-hill/series.toml").unwrap();
            let few = |line: &str| match line.starts_with("serves = ") {
                true => "serves = [\"high-blood-pressure\"]\n".to_string(),
                false => format!("{line}\n"),
            };
            *text = text.lines().map(few).collect();
        }
        let read = edition(&files);
        let of = |component: Component| {
            read.model().exercises.values().filter(move |e| e.component.value == component)
        };
        let by_component: Vec<Vec<String>> =
            Component::ALL.iter().map(|&component| of(component).map(|e| e.id.clone()).collect()).collect();
        let all: Vec<&String> = by_component.iter().flatten().collect();
        let pick = |list: &[&String], at: usize| list[at % list.len()].clone();
        for (at, change) in changes {
            let text = files.get_mut(&format!("content/exercises/{}.md", pick(&all, at))).unwrap();
            *text = text.lines().map(|line| changed(line, change) + "\n").collect();
        }
        for (at, picks) in weeks.iter().enumerate() {
            let of = |(list, pick): (&Vec<String>, &usize)| list[pick % list.len()].clone();
            let ids: Vec<String> = by_component.iter().zip(picks).map(of).collect();
            let ids: Vec<&str> = ids.iter().map(String::as_str).collect();
            let date = (jiff::civil::date(2027, 1, 4) + (7 * at as i64).days()).to_string();
            files.insert(format!("{WEEKS}{:02}.md", at + 1), week(at as u32 + 1, &date, &ids));
        }
        let left_out: Vec<String> = left_out.iter().map(|&at| pick(&all, at)).collect();
        let wish = |wish: &mut Wish| {
            wish.minutes = minutes;
            wish.weeks_apart = weeks_apart;
            wish.leave_out.extend(left_out.clone());
        };
        brings_no_finding(&files, wish, None)?;
        brings_no_finding(&files, wish, Some(&places))?;
    }
}

/// A change to an exercise of the demonstration that may make it a wrong choice.
#[derive(Clone, Copy, Debug)]
enum Changed {
    Demands(&'static str),
    Unanswered,
    Heavy,
}

fn change() -> impl Strategy<Value = Changed> {
    let demands = prop_oneof![
        Just("demands = [\"impact-low\"]"),
        Just("demands = [\"impact-moderate\"]"),
        Just("demands = [\"impact-high\"]"),
        Just("demands = [\"end-range-twist\"]"),
    ];
    prop_oneof![demands.prop_map(Changed::Demands), Just(Changed::Unanswered), Just(Changed::Heavy)]
}

/// A line of the exercise after the change.
fn changed(line: &str, change: Changed) -> String {
    let field = line.split(" = ").next().unwrap_or(line);
    match (change, field) {
        (Changed::Demands(demands), "demands") => demands.to_string(),
        // Whatever took demands away takes them away no more.
        (Changed::Unanswered, "removes") => String::new(),
        (Changed::Heavy, "sets") => "sets = 5".to_string(),
        _ => line.to_string(),
    }
}
