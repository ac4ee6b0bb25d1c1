//! Which form of each exercise of the demonstration people get: as it is chosen, and as it is looked up in what is laid out
//! for pages; and the choices for comparing with what the pages show.
//!
//! `tests/all` says in `STEADYLEAF_YOURS` where that is to be written, as JSON; `tests/outside/yours.mjs` says the same
//! precautions and things to the pages in a browser. Without that variable nothing is written, and the test says so.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use serde_json::{Value, json};
use steadyleaf::edition::Edition;
use steadyleaf::model::Model;
use steadyleaf::model::exercise::Exercise;
use steadyleaf::model::form::Form;
use steadyleaf::model::source::Spanned;
use steadyleaf::model::week::WeekExercise;
use steadyleaf::outputs::Address;
use steadyleaf::reckon::choice::lookup::{Lookup, words_at_home, words_of};
use steadyleaf::reckon::choice::{Need, choose};

const WHERE: &str = "STEADYLEAF_YOURS";

/// So many people are drawn.
const PEOPLE: usize = 500;

#[test]
#[expect(clippy::disallowed_methods, reason = "the choices are for a browser outside the repository")]
fn the_choices_for_many_people_are_written_for_a_browser_to_compare() {
    let edition = Edition::open(Path::new(env!("CARGO_MANIFEST_DIR")).to_path_buf()).unwrap();
    let model = edition.model();
    let precautions: Vec<&str> = model.site.catalogue.precautions.keys().map(String::as_str).collect();
    let things = things(model);
    let mut draw = Draw(2027);
    let people: Vec<Value> = (0..PEOPLE).map(|_| person(&mut draw, &precautions, &things, model)).collect();
    // The draws reach every kind of answer.
    let answers: BTreeSet<&str> = people.iter().flat_map(kinds).collect();
    assert_eq!(
        answers.into_iter().collect::<Vec<_>>(),
        ["another exercise", "as it stands", "none", "variation"]
    );
    let Some(path) = std::env::var_os(WHERE) else {
        println!("NOT WRITTEN: the choices for {PEOPLE} people, since {WHERE} is not set; tests/all sets it");
        return;
    };
    std::fs::write(&path, json!({ "people": people }).to_string())
        .unwrap_or_else(|e| panic!("{}: {e}", path.display()));
}

/// The things that some form needs, by the words that they are compared by.
fn things(model: &Model) -> BTreeMap<String, Spanned<String>> {
    let all = model.exercises.values().flat_map(Form::all).flat_map(|form| form.equipment());
    let by_words = all.filter_map(|thing| {
        let words: Vec<String> = words_at_home(&thing.value, model)?.into_iter().collect();
        Some((words.join(" "), thing.clone()))
    });
    by_words.collect()
}

/// One in two has said nothing of her things.
fn person<'m>(
    draw: &mut Draw,
    precautions: &[&'m str],
    things: &BTreeMap<String, Spanned<String>>,
    model: &'m Model,
) -> Value {
    let many = if draw.below(8) == 0 { precautions.len() } else { draw.below(6) };
    let hers: BTreeSet<&str> = (0..many).map(|_| precautions[draw.below(precautions.len())]).collect();
    let home: Option<Vec<(&String, &Spanned<String>)>> =
        (draw.below(2) == 0).then(|| things.iter().filter(|_| draw.below(3) > 0).collect());
    let own: Option<Vec<Spanned<String>>> =
        home.as_ref().map(|home| home.iter().map(|(_, thing)| (*thing).clone()).collect());
    let get = |asked: &Exercise, used: Option<&WeekExercise>, have: &[&str]| -> Value {
        let all: BTreeSet<&str> = hers.iter().copied().chain(have.iter().copied()).collect();
        let need = Need {
            // Ids of the model live as long as it.
            precautions: precautions.iter().copied().filter(|p| all.contains(p)).collect(),
            equipment: own.as_deref(),
            ..Need::default()
        };
        let chosen = choose(asked, used, &need, model).form();
        let lookup = Lookup::of(asked, used, model);
        let found = look_up(&lookup, &need.precautions, own.as_deref(), model);
        assert_eq!(
            found.map(|form| form.to_string()),
            chosen.map(|form| form.to_string()),
            "{} for {hers:?} with {home:?}",
            asked.id
        );
        let Some(form) = chosen else { return Value::Null };
        let variation = form.variation.and_then(|v| {
            form.exercise.variations.iter().position(|other| other.title.value == v.title.value)
        });
        json!({ "exercise": form.exercise.id, "variation": variation, "title": form.title().value })
    };
    let all_have = model.all_have();
    let alone: BTreeMap<&str, Value> =
        model.exercises.values().map(|e| (e.id.as_str(), get(e, None, &all_have))).collect();
    let weeks: BTreeMap<String, BTreeMap<&str, Value>> = model
        .weeks()
        .map(|(series, week)| {
            let have: Vec<&str> = series.all_have_ids().collect();
            let each = model.each_exercise_of(week);
            (
                Address::week(series, week).path(),
                each.map(|(used, e)| (e.id.as_str(), get(e, Some(used), &have))).collect(),
            )
        })
        .collect();
    json!({
        "precautions": hers,
        "things": home.map(|home| home.iter().map(|(words, _)| *words).collect::<Vec<_>>()),
        "alone": alone,
        "weeks": weeks,
    })
}

/// What the script of a page does with its table.
fn look_up<'m>(
    lookup: &Lookup<'m>,
    hers: &[&str],
    things: Option<&[Spanned<String>]>,
    model: &Model,
) -> Option<Form<'m>> {
    let home: Option<Vec<BTreeSet<String>>> =
        things.map(|all| all.iter().filter_map(|thing| words_at_home(&thing.value, model)).collect());
    let has = |need: &Spanned<String>| {
        let need = words_of(&need.value, model);
        home.as_ref().is_none_or(|home| home.iter().any(|own| need.is_subset(own)))
    };
    let mut in_order = lookup.rungs.iter().flat_map(|rung| {
        let sent = rung.named.iter().filter(|(who, _)| who.iter().any(|p| hers.contains(p)));
        sent.map(|(_, at)| *at).chain(rung.own.iter().copied()).collect::<Vec<_>>()
    });
    let is_hers = |at: &usize| {
        let form = &lookup.forms[*at];
        let refused = hers.iter().any(|p| form.refusals.contains_key(p));
        form.against_all.is_empty() && !refused && form.needs().iter().all(has)
    };
    in_order.find(is_hers).map(|at| lookup.forms[at].form())
}

fn kinds(person: &Value) -> Vec<&'static str> {
    let kind = |(asked, form): (&String, &Value)| match form {
        Value::Null => "none",
        form if form["exercise"] != asked.as_str() => "another exercise",
        form if form["variation"].is_null() => "as it stands",
        _ => "variation",
    };
    person["alone"].as_object().into_iter().flatten().map(kind).collect()
}

/// Numbers that come again with the same seed (Steele, Lea, Flood 2014: SplitMix64).
struct Draw(u64);

impl Draw {
    fn below(&mut self, end: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) % end as u64) as usize
    }
}
