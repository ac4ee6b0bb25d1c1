//! Every sheet of every week of the demonstration for everybody: nobody, each precaution, each pair of them.

use std::collections::BTreeSet;

use jiff::civil::date;
use serde_json::Value;
use steadyleaf::edition::SiteFacts;
use steadyleaf::model::form::Form;
use steadyleaf::model::vocabulary::{Extent, Paper};
use steadyleaf::print::{Order, Person, Photos, Subject};

use crate::DEMONSTRATION;

#[test]
fn no_sheet_names_a_form_that_is_not_on_it() {
    let d = &*DEMONSTRATION;
    let (model, sources) = (d.model(), d.0.sources());
    let facts = SiteFacts { today: date(2027, 2, 15), draft: false, program: blake3::hash(b"test") };
    let photos = Photos::default();
    let press = d.0.press(&facts, &photos).unwrap();
    let titles: BTreeSet<&str> =
        model.exercises.values().flat_map(Form::all).map(|form| form.title().value.as_str()).collect();
    let (mut sheets, mut faults) = (0, BTreeSet::new());
    // Many people get the same forms with the same cautions, and then the same words.
    let mut seen = BTreeSet::new();
    for precautions in d.everybody() {
        let client = d.person(&precautions);
        for (series, week) in model.weeks() {
            let subject = Subject::Week(series, week);
            let person = Person::of(&client, &subject, model, facts.today);
            let shown: Vec<String> =
                person.shown().map(|chosen| chosen.title().value.to_lowercase()).collect();
            sheets += 1;
            let words_of = |c: &&steadyleaf::model::exercise::Caution| (c.span.file.0, c.span.start);
            let forms: Vec<_> = person
                .shown()
                .map(|c| (c.title().span.start, c.cautions.iter().map(words_of).collect::<Vec<_>>()))
                .collect();
            if !seen.insert((&week.id, forms)) {
                continue;
            }
            let order = Order { person: Some(person), ..Order::of(subject, Extent::Full, 18, Paper::A4) };
            let sheet = press.handout(&order).unwrap();
            for fault in sheet.absent() {
                let file = &sources.get(fault.span.file).name;
                let line = sources.positions(fault.span).0.line;
                faults.insert(format!("{file}:{line}: {} ({precautions:?})", fault.message));
            }
            // A second look, by whole titles and without the code that looks when a sheet is printed.
            for text in texts(sheet.said()) {
                let text = text.to_lowercase();
                let named =
                    titles.iter().map(|title| title.to_lowercase()).filter(|title| text.contains(title));
                for title in named.filter(|title| !shown.iter().any(|known| known.contains(title.as_str()))) {
                    let inside =
                        shown.iter().any(|known| text.contains(known.as_str()) && known.contains(&title));
                    if !inside && title.contains(' ') {
                        faults.insert(format!("{}: `{title}` in `{text}` ({precautions:?})", week.id));
                    }
                }
            }
        }
    }
    let first: Vec<_> = faults.iter().take(40).collect();
    assert!(faults.is_empty(), "{} faults on {sheets} sheets: {first:#?}", faults.len());
    assert!(sheets > 4_000, "{sheets}");
}

/// What is said on a sheet, but for what it says was left out.
fn texts(said: &[u8]) -> Vec<String> {
    fn collect(value: &Value, all: &mut Vec<String>) {
        match value {
            Value::String(text) => all.push(text.clone()),
            Value::Array(list) => list.iter().for_each(|item| collect(item, all)),
            Value::Object(fields) => {
                fields
                    .iter()
                    .filter(|(key, _)| *key != "left_out")
                    .for_each(|(_, value)| collect(value, all));
            }
            _ => {}
        }
    }
    let mut all = Vec::new();
    collect(&serde_json::from_slice(said).unwrap(), &mut all);
    all
}
