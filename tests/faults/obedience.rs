//! What a caution says to the program and what a form is, taken out of the entries one thing at a time, in every
//! exercise and every caution: each slip is found, or it changes nobody's form; and no slip gives anybody a form
//! that the entry, as it was meant, keeps from her.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use rayon::prelude::*;
use steadyleaf::model::Model;
use steadyleaf::model::finding::Level;
use steadyleaf::model::form::Form;
use steadyleaf::reckon::choice::{Need, choose};
use steadyleaf::reckon::safety::{Offer, refusals};

use crate::TODAY;
use crate::demonstration::{Demonstration, Entry};
use crate::edit::{blocks_at, cut, field_at, fields_at, put};
use crate::fault::Edits;

/// A form by its exercise and its title; `None` where the exercise is left out.
type Got = Option<(String, Option<String>)>;

/// One slip: what was taken out, and the text without it.
struct Slip<'d> {
    entry: &'d Entry,
    kind: &'static str,
    what: String,
    text: String,
}

#[derive(Default)]
struct Count {
    made: usize,
    found: usize,
    harmless: usize,
    missed: Vec<String>,
    unsafe_forms: Vec<String>,
}

#[test]
fn whatever_is_taken_out_is_found_or_harmless_and_gives_nobody_an_unsafe_form() {
    let demonstration = Demonstration::read();
    let (meant, safe) =
        demonstration.with(&Edits::default(), TODAY, |model, _, _| (forms(model, None), safe(model)));
    let slips: Vec<Slip<'_>> = demonstration.exercises.values().flat_map(slips).collect();
    let counts: Vec<(&str, Count)> = slips
        .par_iter()
        .map(|slip| {
            let edits = Edits::of(&slip.entry.file, slip.text.clone());
            (
                slip.kind,
                demonstration.with(&edits, TODAY, |model, _, findings| {
                    let stops = findings.iter().any(|f| f.level == Level::Error);
                    let got = forms(model, Some(&slip.entry.id));
                    let changed = got.iter().any(|(who, form)| meant[who] != *form);
                    let place = format!("{}: {}", slip.entry.id, slip.what);
                    let mut count = Count { made: 1, ..Count::default() };
                    match (findings.is_empty(), changed) {
                        (false, _) => count.found = 1,
                        (true, false) => count.harmless = 1,
                        (true, true) => count.missed.push(place.clone()),
                    }
                    // After an error nothing is made and nothing printed.
                    for (who, form) in got.iter().filter(|_| !stops) {
                        if !safe.contains(&(who.1.clone(), form.clone())) {
                            count.unsafe_forms.push(format!("{place}: {} gets {form:?}", who.1));
                        }
                    }
                    count
                }),
            )
        })
        .collect();
    let mut by_kind: BTreeMap<&str, Count> = BTreeMap::new();
    for (kind, one) in counts {
        let sum = by_kind.entry(kind).or_default();
        sum.made += one.made;
        sum.found += one.found;
        sum.harmless += one.harmless;
        sum.missed.extend(one.missed);
        sum.unsafe_forms.extend(one.unsafe_forms);
    }
    println!(
        "{:<24} {:>6} {:>6} {:>9} {:>7} {:>7}",
        "taken out", "made", "found", "harmless", "missed", "unsafe"
    );
    for (kind, c) in &by_kind {
        let (missed, unsafe_forms) = (c.missed.len(), c.unsafe_forms.len());
        println!("{kind:<24} {:>6} {:>6} {:>9} {missed:>7} {unsafe_forms:>7}", c.made, c.found, c.harmless);
    }
    let wrong: Vec<&String> = by_kind.values().flat_map(|c| c.missed.iter().chain(&c.unsafe_forms)).collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
    assert!(by_kind.len() == 5 && by_kind.values().all(|c| c.made >= 4), "too few slips");
}

/// Everything that can be taken out of an entry.
fn slips(entry: &Entry) -> Vec<Slip<'_>> {
    let text = &entry.text;
    let slip = |kind, what: String, text: String| Slip { entry, kind, what, text };
    let mut slips = Vec::new();
    for (n, block) in blocks_at(text, "[[caution]]").into_iter().enumerate() {
        for (field, kind) in [("use", "use of a caution"), ("about", "about of a caution")] {
            if let Some(at) = field_at(text, block.clone(), field) {
                slips.push(slip(kind, format!("{field} of caution {}", n + 1), cut(text, vec![at])));
            }
        }
    }
    for (n, block) in blocks_at(text, "[[variation]]").into_iter().enumerate() {
        if let Some(at) = steps_at(text, block.clone()) {
            slips.push(slip(
                "steps of a variation",
                format!("steps of variation {}", n + 1),
                cut(text, vec![at]),
            ));
        }
        if let Some(at) = field_at(text, block, "surface") {
            slips.push(slip("surface", format!("surface of variation {}", n + 1), cut(text, vec![at])));
        }
    }
    let fields = fields_at(text);
    let head = fields.start..fields.start + text[fields].find("\n[").unwrap();
    if let Some(at) = field_at(text, head.clone(), "surface") {
        slips.push(slip("surface", "surface of the exercise".to_string(), cut(text, vec![at])));
    }
    let demands = entry.demands();
    let at = field_at(text, head, "demands").unwrap();
    for demand in &demands {
        let rest: Vec<&String> = demands.iter().filter(|other| *other != demand).collect();
        let text = put(text, at.clone(), &format!("demands = {rest:?}\n"));
        slips.push(slip("a demand", demand.to_string(), text));
    }
    slips
}

/// Where the steps of a variation stand, or its word that it keeps those of the exercise.
fn steps_at(text: &str, block: Range<usize>) -> Option<Range<usize>> {
    let at =
        field_at(text, block.clone(), "steps").or_else(|| field_at(text, block.clone(), "keeps_steps"))?;
    if text[at.clone()].trim_end() != "steps = [" {
        return Some(at);
    }
    // Its items stand in the lines below.
    Some(at.start..at.start + text[at.start..block.end].find("\n]\n").unwrap() + "\n]\n".len())
}

/// What people with each precaution get of each exercise, or of the one.
fn forms(model: &Model, only: Option<&str>) -> BTreeMap<(String, String), Got> {
    let mut all = BTreeMap::new();
    for exercise in model.exercises.values().filter(|e| only.is_none_or(|id| id == e.id)) {
        for precaution in model.site.catalogue.precautions.keys() {
            let form = choose(exercise, None, &Need::only(&[precaution]), model).form();
            let got =
                form.map(|form| (form.exercise.id.clone(), form.variation.map(|v| v.title.value.clone())));
            all.insert((exercise.id.clone(), precaution.clone()), got);
        }
    }
    all
}

/// Which form is safe for people with which precaution. To be left out is safe for everybody.
fn safe(model: &Model) -> BTreeSet<(String, Got)> {
    let mut all = BTreeSet::new();
    for precaution in model.site.catalogue.precautions.keys() {
        all.insert((precaution.clone(), None));
        for form in model.exercises.values().flat_map(Form::all) {
            if refusals(&Offer { form, link: None, changed: None }, &[precaution], model).is_empty() {
                let title = form.variation.map(|v| v.title.value.clone());
                all.insert((precaution.clone(), Some((form.exercise.id.clone(), title))));
            }
        }
    }
    all
}
