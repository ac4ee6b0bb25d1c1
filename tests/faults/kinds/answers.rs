//! Faults that leave somebody without a safe way.

use std::collections::BTreeSet;
use std::ops::Range;

use toml::Table;

use crate::demonstration::{Demonstration, Entry, SERIES, tables_of, texts_of};
use crate::draw::Draw;
use crate::edit::{blocks_at, cut, field_at, fields_at, fields_of, lines_at, put, take_out};
use crate::fault::{Edits, Fault};

/// The published list of what precautions restrict, as data.
const PRECAUTIONS: &str = include_str!("../../../src/model/precautions.toml");

/// Every demand that a precaution restricts, with how.
pub(super) fn restricted(precaution: &str) -> Vec<(String, String)> {
    let list: Table = PRECAUTIONS.parse().unwrap();
    let precautions = tables_of(&list, "precaution");
    let it = precautions.into_iter().find(|p| p["id"].as_str() == Some(precaution)).unwrap();
    let text = |row: &Table, field: &str| row[field].as_str().unwrap().to_string();
    tables_of(it, "restricts").into_iter().map(|row| (text(row, "demand"), text(row, "by"))).collect()
}

/// The demands of an exercise that a precaution restricts and that no form answers, as far as it can be told from the
/// fields alone: each form asks something that is to be avoided or asked about, or that is to be modified where no caution
/// says how. An exercise that is easier may answer too: an exercise that leads to one is left alone here.
fn unanswered(fields: &Table, serves: &[String]) -> BTreeSet<(String, String)> {
    let mut open = BTreeSet::new();
    if leads_elsewhere(fields) {
        return open;
    }
    let base: BTreeSet<String> = texts_of(fields, "demands").into_iter().collect();
    let mut forms = vec![base.clone()];
    for variation in tables_of(fields, "variation") {
        let removed = texts_of(variation, "removes");
        let kept = base.iter().filter(|demand| !removed.contains(demand)).cloned();
        forms.push(kept.chain(texts_of(variation, "adds")).collect());
    }
    for precaution in serves {
        let rows = restricted(precaution);
        let is_open = |demand: &String| {
            rows.iter()
                .any(|(of, by)| of == demand && (by != "modify" || !says_how(fields, precaution, demand)))
        };
        if forms.iter().all(|form| form.iter().any(is_open)) {
            open.extend(
                base.iter().filter(|demand| is_open(demand)).map(|d| (d.clone(), precaution.clone())),
            );
        }
    }
    open
}

/// True where a caution for a precaution says how to change what a demand asks.
fn says_how(fields: &Table, precaution: &str, demand: &str) -> bool {
    tables_of(fields, "caution").iter().any(|caution| {
        let about = texts_of(caution, "about");
        texts_of(caution, "for").iter().any(|named| named == precaution)
            && caution["level"].as_str() == Some("adapt")
            && !caution.contains_key("use")
            && (about.is_empty() || about.iter().any(|named| named == demand))
    })
}

fn leads_elsewhere(fields: &Table) -> bool {
    tables_of(fields, "regression").iter().any(|regression| regression.contains_key("exercise"))
}

fn versions_at(text: &str) -> Vec<Range<usize>> {
    ["[[variation]]", "[[regression]]"].iter().flat_map(|heading| blocks_at(text, heading)).collect()
}

/// No version takes a demand away any more, so that its cautions alone answer it: the ground. Then one of them goes.
pub(super) fn only_caution(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for exercise in used(d) {
        for demand in exercise.demands() {
            let ground = take_out(&exercise.text, &versions_at(&exercise.text), "removes", &demand);
            if !unanswered(&fields_of(&ground), &d.serves).is_empty() {
                continue;
            }
            for block in blocks_at(&ground, "[[caution]]") {
                let text = cut(&ground, vec![block.clone()]);
                if !unanswered(&fields_of(&text), &d.serves).is_empty() {
                    let what =
                        format!("without the caution for {demand}: {}", ground[block].replace('\n', " "));
                    faults.push(
                        Fault::inside(&exercise.file, what, text)
                            .on(Edits::of(&exercise.file, ground.clone())),
                    );
                }
            }
        }
    }
    faults
}

/// A caution is for somebody else, and one variation alone takes the demand away: the ground. Then it goes.
pub(super) fn only_variation(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    for exercise in used(d) {
        for (demand, precaution) in restricted_of(exercise, d) {
            let cautions = blocks_at(&exercise.text, "[[caution]]");
            let silent = name_another(&exercise.text, &cautions, &precaution);
            let variations = blocks_at(&silent, "[[variation]]");
            for (at, _) in variations.iter().enumerate() {
                let others: Vec<_> =
                    versions_at(&silent).into_iter().filter(|v| *v != variations[at]).collect();
                let ground = take_out(&silent, &others, "removes", &demand);
                let text = cut(&ground, vec![blocks_at(&ground, "[[variation]]").remove(at)]);
                let sound = unanswered(&fields_of(&ground), &d.serves).is_empty();
                if sound && !unanswered(&fields_of(&text), &d.serves).is_empty() {
                    let what = format!("without variation {at}, the answer to {demand} for {precaution}");
                    faults.push(
                        Fault::inside(&exercise.file, what, text).on(Edits::of(&exercise.file, ground)),
                    );
                }
            }
        }
    }
    faults
}

/// The text with cautions that name a precaution naming one that is not served in its place.
fn name_another(text: &str, cautions: &[Range<usize>], precaution: &str) -> String {
    let mut new = text.to_string();
    for block in cautions.iter().rev() {
        let Some(line) = field_at(&new, block.clone(), "for") else { continue };
        let named = new[line.clone()].replace(&format!("\"{precaution}\""), "\"spinal-stenosis\"");
        new = put(&new, line, &named);
    }
    new
}

fn restricted_of(exercise: &Entry, d: &Demonstration) -> Vec<(String, String)> {
    let demands = exercise.demands();
    let of =
        |p: &String| restricted(p).into_iter().map(|(demand, _)| (demand, p.clone())).collect::<Vec<_>>();
    d.serves.iter().flat_map(of).filter(|(demand, _)| demands.contains(demand)).collect()
}

/// A demand that the exercise turns out to make, or a precaution that the series is to serve as well, to which nothing
/// is an answer.
pub(super) fn demand_added(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    let all: BTreeSet<String> =
        d.serves.iter().flat_map(|p| restricted(p)).map(|(demand, _)| demand).collect();
    let all: Vec<String> = all.into_iter().collect();
    for exercise in used(d) {
        let demand = draw.one(&all);
        let list = exercise
            .demands()
            .iter()
            .chain([demand])
            .map(|d| format!("\"{d}\""))
            .collect::<Vec<_>>()
            .join(", ");
        let at = field_at(&exercise.text, fields_at(&exercise.text), "demands").unwrap();
        let text = put(&exercise.text, at, &format!("demands = [{list}]\n"));
        if !exercise.demands().contains(demand) && !unanswered(&fields_of(&text), &d.serves).is_empty() {
            faults.push(Fault::inside(&exercise.file, format!("with {demand}"), text));
        }
    }
    let list: Table = PRECAUTIONS.parse().unwrap();
    for precaution in tables_of(&list, "precaution") {
        let id = precaution["id"].as_str().unwrap().to_string();
        let open = used(d).filter(|e| !unanswered(&e.fields, std::slice::from_ref(&id)).is_empty());
        let files: Vec<String> = open.map(|e| e.file.clone()).collect();
        if !files.is_empty() && !d.serves.contains(&id) {
            let series = &d.texts[SERIES];
            let edits = Edits::of(SERIES, series.replace("serves = [", &format!("serves = [\"{id}\", ")));
            faults.push(Fault { what: format!("serves {id}"), ground: Edits::default(), edits, files });
        }
    }
    faults
}

pub(super) fn no_caution(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let without = |e: &Entry| cut(&e.text, blocks_at(&e.text, "[[caution]]"));
    d.exercises.values().map(|e| Fault::inside(&e.file, "no caution", without(e))).collect()
}

pub(super) fn no_easier_way(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let without = |e: &Entry| cut(&e.text, versions_at(&e.text));
    d.exercises.values().map(|e| Fault::inside(&e.file, "nothing easier", without(e))).collect()
}

/// In a balance exercise, or in one on one leg or with the feet close together.
pub(super) fn no_support(d: &Demonstration, _: &mut Draw) -> Vec<Fault> {
    let unsteady = |e: &&Entry| {
        let demands = e.demands();
        e.text_of("component") == "balance"
            || ["single-leg-stance", "narrow-stance"].iter().any(|u| demands.contains(&u.to_string()))
    };
    let without = |e: &Entry| {
        let lines = lines_at(&e.text, fields_at(&e.text), |line| line.starts_with("support = "));
        cut(&e.text, lines)
    };
    d.exercises.values().filter(unsteady).map(|e| Fault::inside(&e.file, "no support", without(e))).collect()
}

/// On the floor already: its versions off the floor go. Else it is put there, and its versions with it.
pub(super) fn floor_only(d: &Demonstration, draw: &mut Draw) -> Vec<Fault> {
    let mut faults = Vec::new();
    // A form off the floor may be that of an easier exercise.
    for exercise in d.exercises.values().filter(|e| !leads_elsewhere(&e.fields)) {
        let text = &exercise.text;
        if exercise.text_of("position") == "lying" {
            let off = |at: &Range<usize>| !text[at.clone()].contains("position = \"lying\"");
            let gone = blocks_at(text, "[[variation]]").into_iter().filter(off).collect();
            faults.push(Fault::inside(&exercise.file, "no version off the floor", cut(text, gone)));
        } else {
            let floor = draw.one(&["lying", "side-lying", "prone", "kneeling", "hands-and-knees"]);
            let lines = lines_at(text, fields_at(text), |line| line.starts_with("position = "));
            let line = format!("position = \"{floor}\"\n");
            let moved = lines.into_iter().rev().fold(text.clone(), |text, at| put(&text, at, &line));
            faults.push(Fault::inside(&exercise.file, format!("done {floor}, its versions too"), moved));
        }
    }
    faults
}

fn used(d: &Demonstration) -> impl Iterator<Item = &Entry> {
    let used = d.used();
    d.exercises.values().filter(move |e| used.contains(&e.id))
}
