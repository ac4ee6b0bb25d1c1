//! What holds of every proposal: the search beside a naive one on random small cases, and the review's word on
//! every proposed week of the demonstration and of random series of its exercises.

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::LazyLock;

use proptest::collection::vec;
use proptest::prelude::*;

use super::search::{Cost, Item, Limits, best, shortest};
use super::*;
use crate::entry;
use crate::model::source::Sources;
use crate::review::testing::{TODAY, words};
use crate::review::{Case, review};
use crate::workspace::{self, Bytes, Texts, sample};

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
    let texts = workspace::read(Path::new(env!("CARGO_MANIFEST_DIR"))).unwrap();
    texts.sources.iter().map(|(_, source)| (source.name.clone(), source.text.clone())).collect()
});

const WEEKS: &str = "content/series/lantern-hill/week-";

/// Reads a workspace and looks at it.
fn look<T>(files: &Files, look: impl FnOnce(&Model, &Sources) -> T) -> T {
    let bytes = files.iter().map(|(name, text)| (name.clone(), Bytes::of(text.clone().into_bytes())));
    let texts = Texts::sorted(bytes.collect(), Default::default());
    let (site, _) = entry::read_site(&texts);
    let (model, _) = entry::read(&texts, site, words());
    look(&model, &texts.sources)
}

/// How often each thing that must never come of a proposal is found.
fn found(files: &Files) -> BTreeMap<String, usize> {
    look(files, |model, sources| {
        let case = Case { model, sources, words: words(), today: TODAY };
        let mut found = BTreeMap::new();
        for finding in review(&case, Vec::new()).findings.iter().filter(|f| NEVER.contains(&f.rule)) {
            let place =
                format!("{} {} {}", sources.get(finding.span.file).name, finding.rule, finding.message);
            *found.entry(place).or_default() += 1;
        }
        found
    })
}

/// The week that is proposed for the only series, as a file, or why there is none.
fn proposed(files: &Files, change: &impl Fn(&mut Wish)) -> Result<(String, String), String> {
    look(files, |model, _| {
        let series = model.series.values().next().unwrap();
        let mut wish = Wish::of(series, &model.site);
        change(&mut wish);
        let proposal = Proposal::of(model, series, &wish).map_err(|unknown| unknown.to_string())?;
        let session = proposal.choice.as_ref().map_err(|unfit| unfit.to_string())?;
        assert!(session.sum(Practice::whole).high <= u64::from(wish.minutes) * 60_000);
        let ids: Vec<&str> = session.practices.iter().map(|(e, _)| e.id.as_str()).collect();
        let name = format!("content/series/{}/week-{:02}.md", series.id, proposal.week);
        Ok((name, week(proposal.week, &proposal.date.to_string(), &ids)))
    })
}

fn week(number: u32, date: &str, ids: &[&str]) -> String {
    let used: String = ids.iter().map(|id| format!("{{ id = \"{id}\" }}, ")).collect();
    format!("```toml\nweek = {number}\ntitle = \"W\"\ndate = {date}\nexercises = [{used}]\n```\nHello.\n")
}

/// Fails when the proposed week brings a finding that was not there. True when a week was proposed.
fn brings_no_finding(files: &Files, change: impl Fn(&mut Wish)) -> Result<bool, TestCaseError> {
    let Ok((name, text)) = proposed(files, &change) else { return Ok(false) };
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
        assert!(brings_no_finding(&files, |_| ()).unwrap(), "nothing is proposed after week {last}");
    }
}

#[test]
fn the_sample_s_exercises_return_when_they_may() {
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
    let files: Files = sample::files().into_iter().map(|(name, bytes)| (name, text(bytes))).collect();
    assert!(!brings_no_finding(&files, |_| ()).unwrap(), "four of its five were in the last two weeks");
    assert!(brings_no_finding(&files, |wish| wish.weeks_apart = 0).unwrap());
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_proposed_week_brings_a_finding_whatever_the_weeks_before_it(
        weeks in vec(vec(0usize..1000, 4), 0..6),
        minutes in 12u32..40,
        weeks_apart in 0u32..4,
        left_out in vec(0usize..1000, 0..10),
    ) {
        let mut files = DEMONSTRATION.clone();
        files.retain(|name, _| !name.starts_with(WEEKS));
        let by_component: Vec<Vec<String>> = look(&files, |model, _| {
            let ids = |c: &Component| model.exercises.values().filter(|e| e.component.value == *c).map(|e| e.id.clone()).collect();
            Component::ALL.iter().map(ids).collect()
        });
        for (at, picks) in weeks.iter().enumerate() {
            let ids: Vec<&str> = by_component.iter().zip(picks).map(|(list, pick)| list[pick % list.len()].as_str()).collect();
            let date = (jiff::civil::date(2027, 1, 4) + (7 * at as i64).days()).to_string();
            files.insert(format!("{WEEKS}{:02}.md", at + 1), week(at as u32 + 1, &date, &ids));
        }
        let all: Vec<&String> = by_component.iter().flatten().collect();
        let left_out: Vec<String> = left_out.iter().map(|at| all[at % all.len()].clone()).collect();
        brings_no_finding(&files, |wish| {
            wish.minutes = minutes;
            wish.weeks_apart = weeks_apart;
            wish.leave_out.extend(left_out.clone());
        })?;
    }
}
