//! What holds of every choice, told a second time without the code that chooses: on drawn ladders of
//! every shape, and on the demonstration for every precaution and every two of them.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;
use std::path::Path;

use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::select;

use super::drawn;
use super::*;
use crate::entry;
use crate::model::catalogue::DEMANDS;
use crate::review::testing::words;
use crate::workspace;

/// What makes a form unsafe, looked for demand by demand.
fn wrong(form: &Form<'_>, precautions: &[&str], model: &Model) -> Option<String> {
    let Form { exercise, variation, link } = *form;
    let lists = |list: &[Spanned<String>], demand: &str| list.iter().any(|d| d.value == demand);
    let asks = |demand: &str| {
        let own = lists(&exercise.demands, demand);
        let kept = own && variation.is_none_or(|v| !lists(&v.removes, demand));
        let added = variation.is_some_and(|v| lists(&v.adds, demand));
        let linked = !own && link.is_some_and(|l| lists(&l.adds, demand));
        kept || added || linked
    };
    if !["demands", "variation", "caution"].iter().all(|field| exercise.standing.is_sound(field)) {
        return Some("not all read".to_string());
    }
    for precaution in precautions {
        let named: Vec<&Caution> = exercise.cautions.iter().filter(|c| c.names(precaution)).collect();
        if named.iter().any(|c| c.level.value == CautionLevel::Stop) {
            return Some(format!("{precaution}: stop"));
        }
        let Some(known) = model.site.catalogue.precautions.get(*precaution) else {
            return Some(format!("{precaution}: unknown"));
        };
        for (demand, row) in &known.restricts {
            if asks(demand) && (row.by == Restriction::Avoid || named.is_empty()) {
                return Some(format!("{precaution}: {demand}"));
            }
        }
    }
    None
}

/// How many regressions lead from an exercise to each that can be reached.
fn distances<'m>(asked: &'m Exercise, model: &'m Model) -> BTreeMap<&'m str, usize> {
    let mut distances = BTreeMap::from([(asked.id.as_str(), 0)]);
    for steps in 1..=model.exercises.len() {
        let edge: Vec<&str> = distances.iter().filter(|(_, d)| **d == steps - 1).map(|(id, _)| *id).collect();
        for exercise in edge.iter().map(|id| &model.exercises[*id]) {
            if !exercise.standing.is_sound("regression") {
                continue;
            }
            for id in exercise.regressions.iter().filter_map(|r| r.exercise()) {
                if model.exercises.contains_key(&id.value) {
                    distances.entry(&id.value).or_insert(steps);
                }
            }
        }
    }
    distances
}

/// A form by its exercise and the place of its variation, 0 for the exercise as it stands.
fn key<'m>(form: &Form<'m>) -> (&'m str, usize) {
    let place = form.variation.map(|v| form.exercise.variations.iter().position(|w| std::ptr::eq(v, w)));
    (&form.exercise.id, place.map_or(0, |at| at.expect("a variation of its exercise") + 1))
}

/// What does not hold of a choice, if anything.
fn broken(choice: &Choice<'_>, precautions: &[&str], model: &Model) -> Result<(), String> {
    let shown = || format!("{precautions:?}\n{}", drawn::show(choice));
    if let Some(form) = &choice.form
        && let Some(why) = wrong(form, precautions, model)
    {
        return Err(format!("chosen in spite of {why}: {}", shown()));
    }
    for refused in &choice.refused {
        let reason = wrong(&refused.form, precautions, model);
        if refused.why.is_empty() || reason.is_none() {
            return Err(format!("{} was refused, but it is safe: {}", refused.form, shown()));
        }
    }
    let tried: Vec<(&str, usize)> =
        choice.refused.iter().map(|r| &r.form).chain(&choice.form).map(key).collect();
    let distances = distances(choice.asked, model);
    if tried.first() != Some(&(choice.asked.id.as_str(), 0)) {
        return Err(format!("the exercise itself is not tried first: {}", shown()));
    }
    if tried.iter().collect::<BTreeSet<_>>().len() < tried.len() {
        return Err(format!("a form was tried twice: {}", shown()));
    }
    for two in tried.windows(2) {
        let [(id, place), (next, after)] = two else { continue };
        let all_tried = *place == model.exercises[*id].variations.len();
        let in_order = if id == next {
            *after == place + 1
        } else {
            all_tried && *after == 0 && distances[id] <= distances[next]
        };
        if !in_order {
            return Err(format!("{next} {after} behind {id} {place}: {}", shown()));
        }
    }
    let forms: usize = distances.keys().map(|id| model.exercises[*id].variations.len() + 1).sum();
    if choice.form.is_none() && tried.len() < forms {
        return Err(format!("left out before all of {forms} forms were tried: {}", shown()));
    }
    if choice.left_out().is_some() != choice.form.is_none() {
        return Err(format!("left out without a reason, or chosen with one: {}", shown()));
    }
    Ok(())
}

const IDS: [&str; 5] = ["a", "b", "c", "d", "e"];
const SOME: [&str; 6] =
    ["impact-low", "impact-high", "floor-transfer", "loaded-flexion", "kneeling", "long-hold"];
const WHO: [&str; 5] = ["spine-fracture", "unsteady", "low-bone-density", "no-floor", "knee-replacement"];

fn demands() -> impl Strategy<Value = Vec<&'static str>> {
    prop_oneof![3 => vec(select(&SOME[..]), 0..3), 1 => vec(select(&DEMANDS[..]), 0..4)]
}

fn changes() -> impl Strategy<Value = String> {
    (demands(), demands()).prop_map(|(removes, adds)| {
        let removes = removes.iter().map(|d| format!(" -{d}"));
        removes.chain(adds.iter().map(|d| format!(" +{d}"))).collect()
    })
}

/// One line of an exercise. A link may lead to itself, back up, or to what is not there.
fn line() -> impl Strategy<Value = String> {
    let to = select(&["a", "b", "c", "d", "e", "gone"][..]);
    let who = prop_oneof![3 => vec(select(&WHO[..]), 1..3), 1 => Just(vec!["everyone"])];
    let level = select(&["stop", "ask", "adapt"][..]);
    prop_oneof![
        6 => changes().prop_map(|c| format!("  variation V:{c}\n")),
        6 => (to, changes()).prop_map(|(to, c)| format!("  regression {to}:{c}\n")),
        1 => changes().prop_map(|c| format!("  words:{c}\n")),
        6 => (who, level).prop_map(|(who, level)| format!("  caution {}: {level}\n", who.join(" "))),
        1 => select(&["demands", "variation", "caution", "regression"][..]).prop_map(|s| format!("  slip {s}:\n")),
    ]
}

/// Five exercises, `a` first.
fn ladder() -> impl Strategy<Value = String> {
    vec((demands(), vec(line(), 0..7)), IDS.len()).prop_map(|exercises| {
        let mut drawn = String::new();
        for (id, (demands, lines)) in IDS.iter().zip(exercises) {
            write!(drawn, "{id}: {}\n{}", demands.join(" "), lines.concat()).unwrap();
        }
        drawn
    })
}

fn person() -> impl Strategy<Value = Vec<&'static str>> {
    prop_oneof![4 => vec(select(&WHO[..]), 0..4), 1 => Just(vec!["unsteady", "no-such-thing"])]
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_choice_is_the_first_safe_form(ladder in ladder(), person in person()) {
        let model = drawn::model(&ladder);
        for exercise in model.exercises.values() {
            let choice = choose(exercise, &person, &model);
            if let Err(why) = broken(&choice, &person, &model) {
                prop_assert!(false, "{}", why);
            }
        }
    }

    /// One precaution more makes no form safe that was not.
    #[test]
    fn a_further_precaution_never_brings_a_refused_form_back(
        ladder in ladder(),
        person in person(),
        further in select(&WHO[..]),
    ) {
        let model = drawn::model(&ladder);
        let more: Vec<&str> = person.iter().copied().chain([further]).collect();
        let refused = |precautions: &[&'static str]| -> Vec<(String, usize)> {
            let choice = choose(&model.exercises["a"], precautions, &model);
            let key = |r: &Refused<'_>| { let (id, place) = key(&r.form); (id.to_string(), place) };
            choice.refused.iter().map(key).collect()
        };
        let (before, after) = (refused(&person), refused(&more));
        prop_assert!(after.starts_with(&before), "{:?} became {:?}", before, after);
    }
}

/// The demonstration of this repository.
fn demonstration() -> Model {
    let texts = workspace::read(Path::new(env!("CARGO_MANIFEST_DIR"))).unwrap();
    let (site, _) = entry::read_site(&texts);
    entry::read(&texts, site, words()).0
}

#[test]
fn every_choice_in_the_demonstration_is_the_first_safe_form() {
    let model = demonstration();
    assert!(model.exercises.len() > 40, "{} exercises", model.exercises.len());
    let ids: Vec<&str> = model.site.catalogue.precautions.keys().map(String::as_str).collect();
    let mut people: Vec<Vec<&str>> = vec![Vec::new()];
    for (at, one) in ids.iter().enumerate() {
        people.push(vec![one]);
        people.extend(ids[..at].iter().map(|other| vec![*other, one]));
    }
    assert_eq!(people.len(), 1 + 17 + 17 * 16 / 2);
    for person in &people {
        for exercise in model.exercises.values() {
            let choice = choose(exercise, person, &model);
            if let Err(why) = broken(&choice, person, &model) {
                panic!("{}: {why}", exercise.id);
            }
        }
    }
}

/// What the demonstration comes to for each precaution: how many exercises are done as they stand, which
/// are done another way or as an easier exercise, and which have no safe form.
#[test]
fn what_each_precaution_makes_of_the_demonstration() {
    let model = demonstration();
    let mut shown = String::new();
    for precaution in model.site.catalogue.precautions.keys() {
        let choices: Vec<Choice<'_>> =
            model.exercises.values().map(|exercise| choose(exercise, &[precaution], &model)).collect();
        let (same, other): (Vec<_>, Vec<_>) = choices.into_iter().partition(|c| c.refused.is_empty());
        let left_out = other.iter().filter(|c| c.form.is_none()).count();
        writeln!(shown, "{precaution}: {} as they stand, {left_out} left out", same.len()).unwrap();
        for choice in other {
            match choice.form {
                Some(form) => writeln!(shown, "  {} as {form}", choice.asked.id).unwrap(),
                None => {
                    writeln!(shown, "  {} left out: {}", choice.asked.id, choice.refused[0].why[0]).unwrap()
                }
            }
        }
    }
    insta::assert_snapshot!(shown);
}
