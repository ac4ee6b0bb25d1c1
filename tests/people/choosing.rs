//! A table of cases of choosing that a clinician can read: who asks for what, what she is to get, and why. It was written
//! from the entries and the published advice, not from what the program does.

use jiff::civil::date;
use steadyleaf::entry;
use steadyleaf::model::form::Form;
use steadyleaf::model::source::FileId;
use steadyleaf::reckon::choice::{Need, choose};

use crate::DEMONSTRATION;

const CASES: &str = include_str!("choosing.txt");

/// One line: `precautions; further facts | exercise | expected | reason`.
struct Case<'t> {
    person: &'t str,
    exercise: &'t str,
    expected: &'t str,
}

#[test]
fn every_case_gets_the_form_that_it_should() {
    let model = DEMONSTRATION.model();
    // What everybody in the series has, each of these people has too.
    let all_have = model.series.values().flat_map(|series| &series.all_have);
    let all_have: Vec<&str> = all_have.map(|precaution| precaution.value.as_str()).collect();
    let mut faults = Vec::new();
    for case in cases() {
        let profile = profile(case.person, case.exercise);
        let (client, findings) = entry::read_client(&profile, FileId(0), &model.site.catalogue);
        assert!(findings.is_empty(), "{}: {findings:?}", case.person);
        let client = client.unwrap();
        let need = Need::of(&client, &all_have, date(2027, 2, 15));
        let chosen = choose(&model.exercises[case.exercise], None, &need, model).form();
        let got = chosen.map_or("left out".to_string(), |form| told(&form, case.exercise));
        if got != case.expected {
            faults
                .push(format!("{} | {}: expected {}, got {got}", case.person, case.exercise, case.expected));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn the_table_holds_every_exercise_and_every_precaution() {
    let model = DEMONSTRATION.model();
    let all: Vec<Case<'_>> = cases().collect();
    assert!(all.len() >= 120, "{}", all.len());
    for id in model.exercises.keys() {
        assert!(all.iter().any(|case| case.exercise == id), "{id}");
    }
    for precaution in model.site.catalogue.precautions.keys() {
        assert!(all.iter().any(|case| case.person.contains(precaution.as_str())), "{precaution}");
    }
}

fn cases<'t>() -> impl Iterator<Item = Case<'t>> {
    CASES.lines().filter(|line| !line.is_empty() && !line.starts_with('#')).map(|line| {
        let parts: Vec<&str> = line.split(" | ").map(str::trim).collect();
        let [person, exercise, expected, _reason] = parts[..] else { panic!("no four parts in {line}") };
        Case { person, exercise, expected }
    })
}

/// The profile of a person as a case describes her.
fn profile(person: &str, exercise: &str) -> String {
    let mut facts = person.split(';').map(str::trim);
    let precautions: Vec<&str> = list(facts.next().filter(|list| *list != "-").unwrap_or_default());
    let (mut fields, mut tables) =
        (format!("name = \"Q. R.\"\nprecautions = {precautions:?}\n"), String::new());
    for fact in facts {
        if let Some(things) = fact.strip_prefix("has ") {
            fields += &format!("equipment = {:?}\n", list(things));
        } else if let Some(form) = fact.strip_prefix("prefer ") {
            let form = form.trim_matches('"');
            tables += &format!(
                "[[prefer]]\nexercise = \"{exercise}\"\nform = \"{form}\"\nbecause = \"She likes it.\"\n"
            );
        } else if let Some(cleared) = fact.strip_prefix("cleared ") {
            tables += &clearance(cleared, exercise);
        } else {
            panic!("no fact is written `{fact}`");
        }
    }
    fields + &tables
}

/// `exercise of P, P`, `demand D of P`, then `until DAY` and `on DAY`.
fn clearance(fact: &str, exercise: &str) -> String {
    let (what, rest) = fact.split_once(" of ").expect("whose clearance it is");
    let what = match what.strip_prefix("demand ") {
        Some(demand) => format!("demand = \"{demand}\""),
        None => format!("exercise = \"{exercise}\""),
    };
    let day = |word: &str| rest.split_once(word).map(|(_, day)| day.split_whitespace().next().unwrap());
    let of = rest.split(" until ").next().and_then(|of| of.split(" on ").next()).unwrap();
    let until = day(" until ").map(|day| format!("until = {day}\n")).unwrap_or_default();
    let on = day(" on ").unwrap_or("2027-01-11");
    format!("[[cleared]]\n{what}\nof = {:?}\nby = \"B. Clinician\"\non = {on}\n{until}", list(of))
}

fn list(words: &str) -> Vec<&str> {
    words.split(',').map(str::trim).filter(|word| !word.is_empty()).collect()
}

/// A form as the table calls it.
fn told(form: &Form<'_>, asked: &str) -> String {
    let id = &form.exercise.id;
    match form.variation {
        None if id == asked => "base".to_string(),
        None => id.clone(),
        Some(variation) if id == asked => format!("\"{}\"", variation.title.value),
        Some(variation) => format!("{id} \"{}\"", variation.title.value),
    }
}
