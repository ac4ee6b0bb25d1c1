//! Draws exercises in a few words for tests, and shows a choice in a few lines.
//!
//! ```text
//! low-jump: impact-moderate
//!   variation Seated press: -impact-moderate
//!   variation At the wall: keep
//!   regression heel-drop: +impact-low
//!   words: -impact-moderate
//!   caution spine-fracture unsteady: ask about:impact-moderate use:Seated_press
//!   slip demands:
//! heel-drop: impact-low
//! ```
//!
//! `keep` keeps the steps, without it a variation has its own. A field that is written as it stands in an entry begins
//! with `=`: `=: hold = "20 s"` is one of the dose, `=: position = "lying"` one of the exercise, and behind `variation` or
//! `caution` fields of these: `variation V: -kneeling =position = "seated"`.

use std::collections::BTreeMap;
use std::fmt::Write;

use super::{Choice, Need, choose};
use crate::model::Model;
use crate::review::testing::edition;
use crate::workspace::sample;

/// The model of drawn exercises. They are written out as entries and read, as an author's are.
pub(crate) fn model(drawn: &str) -> Model {
    let mut entries: BTreeMap<String, String> = BTreeMap::new();
    let mut last = None;
    for line in drawn.lines().filter(|l| !l.trim().is_empty()) {
        let (head, tail) = line.split_once(':').unwrap_or_else(|| panic!("no colon in {line}"));
        if !line.starts_with(' ') {
            last = Some(head.to_string());
            let demands = list(tail.split_whitespace());
            entries.insert(head.to_string(), opening(head, &demands));
            continue;
        }
        let entry = last.as_ref().and_then(|id| entries.get_mut(id)).expect("an exercise above");
        part(head.trim(), tail, entry);
    }
    read(entries.into_iter().map(|(id, fields)| (id, format!("```toml\n{fields}```\n"))).collect())
}

/// The model of whole entries, by id.
pub(crate) fn read(entries: Vec<(String, String)>) -> Model {
    let mut files = vec![("site.toml".to_string(), sample::text("site.toml").unwrap().to_string())];
    files.extend(entries.into_iter().map(|(id, text)| (format!("content/exercises/{id}.md"), text)));
    let edition = edition(files);
    let site = edition.model().site.file;
    assert!(edition.found_while_reading().iter().all(|f| f.span.file != site));
    edition.into_parts().0
}

pub(crate) fn opening(id: &str, demands: &str) -> String {
    format!(
        "title = \"{id}\"\ncomponent = \"strength\"\ntrains = [\"hips\"]\nposition = \"standing\"\nsummary = \"Move.\"\n\
         demands = {demands}\ndose = {{ reps = 10, sets = 2, days = 3 }}\n"
    )
}

fn part(head: &str, tail: &str, entry: &mut String) {
    let (kind, rest) = head.split_once(' ').unwrap_or((head, ""));
    if kind == "=" {
        return field(tail.trim(), entry);
    }
    // Fields as they stand in an entry come last.
    let (tail, fields) =
        tail.split_once('=').filter(|(t, _)| t.is_empty() || t.ends_with(' ')).unwrap_or((tail, ""));
    let with = |sign: char| list(tail.split_whitespace().filter_map(|word| word.strip_prefix(sign)));
    let changes = format!("removes = {}\nadds = {}\n", with('-'), with('+'));
    match kind {
        "variation" => {
            let keeps = tail.split_whitespace().any(|word| word == "keep");
            let steps = if keeps { "keeps_steps = true" } else { "steps = [\"Sit.\"]" };
            write!(entry, "[[variation]]\ntitle = \"{rest}\"\ntext = \"Sit.\"\n{steps}\n{changes}{fields}\n")
                .unwrap();
        }
        "regression" => write!(entry, "[[regression]]\nexercise = \"{rest}\"\n{changes}").unwrap(),
        "words" => write!(entry, "[[regression]]\ntext = \"Do less.\"\n{changes}").unwrap(),
        "caution" => {
            let for_ = if rest == "everyone" { "\"everyone\"".to_string() } else { list(rest.split(' ')) };
            let mut words = tail.split_whitespace();
            let level = words.next().expect("a level");
            write!(entry, "[[caution]]\nfor = {for_}\nlevel = \"{level}\"\ntext = \"Mind.\"\n").unwrap();
            for word in words {
                let (name, value) = word.split_once(':').expect("a name and a value");
                match name {
                    "about" => writeln!(entry, "about = {}", list(value.split(','))).unwrap(),
                    _ => writeln!(entry, "{name} = \"{}\"", value.replace('_', " ")).unwrap(),
                }
            }
            writeln!(entry, "{fields}").unwrap();
        }
        "slip" => slip(rest, entry),
        other => panic!("no part of an exercise is called {other}"),
    }
}

/// A field of the exercise as it stands in an entry, or one of its dose.
fn field(field: &str, entry: &mut String) {
    let (old, new) = match field {
        dose if ["hold", "sets"].iter().any(|name| dose.starts_with(name)) => {
            ("days = 3", format!("days = 3, {dose}"))
        }
        position if position.starts_with("position") => ("position = \"standing\"", position.to_string()),
        other => ("summary", format!("{other}\nsummary")),
    };
    *entry = entry.replacen(old, &new, 1);
}

/// A slip of the finger in this field: some of it cannot be read.
fn slip(field: &str, entry: &mut String) {
    match field {
        "demands" => *entry = entry.replacen("demands = [", "demands = [\"impact-hihg\", ", 1),
        "caution" => entry.push_str("[[caution]]\nfor = 3\nlevel = \"ask\"\ntext = \"Mind.\"\n"),
        "variation" => entry.push_str("[[variation]]\ntitle = \"V\"\ntext = \"Sit.\"\nadd = []\n"),
        "regression" => entry.push_str("[[regression]]\nexercise = \"b\"\nadd = []\n"),
        other => panic!("no slip is made in {other}"),
    }
}

fn list<'a>(words: impl Iterator<Item = &'a str>) -> String {
    format!("{:?}", words.collect::<Vec<_>>())
}

/// The choice for the first of the drawn exercises: each refused form with its weightiest reason, then
/// the form that was chosen.
pub(crate) fn chosen(drawn: &str, precautions: &[&'static str]) -> String {
    let model = model(drawn);
    let first = drawn.trim_start().split(':').next().unwrap();
    show(&choose(&model.exercises[first], None, &Need::only(precautions), &model))
}

pub(crate) fn show(choice: &Choice<'_>) -> String {
    let mut shown = String::new();
    for refused in &choice.refused {
        writeln!(shown, "{}: {}", refused.offer.form, refused.why[0]).unwrap();
    }
    match choice.form() {
        Some(form) => write!(shown, "-> {form}").unwrap(),
        None => write!(shown, "-> left out").unwrap(),
    }
    shown
}
