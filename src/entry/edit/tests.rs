//! Each kind of change in each spelling, and any change of the demonstration's own entries.
#![expect(clippy::disallowed_methods, reason = "tests read the entries of the demonstration")]

use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};
use toml::Value;

use super::*;
use crate::entry::parts;

fn entry(fields: &str) -> String {
    format!("```toml\n{fields}```\nWhy.\n\n## Move\n1. Rise.\n\n## Feel\nWarm.\n")
}

fn set(at: &str, value: impl Into<Value>) -> Change {
    Change::Set { at: at.parse().unwrap(), value: value.into() }
}

fn remove(at: &str) -> Change {
    Change::Remove { at: at.parse().unwrap() }
}

/// The same with either kind of line ends.
fn becomes(old: &str, change: Change, new: &str) {
    assert_eq!(changed(&entry(old), false, std::slice::from_ref(&change)), Ok(entry(new)), "{change:?}");
    let (old, new) = (entry(old).replace('\n', "\r\n"), entry(new).replace('\n', "\r\n"));
    assert_eq!(changed(&old, false, &[change]), Ok(new));
}

#[test]
fn a_field_has_another_value_in_its_place() {
    becomes(
        "title = 'A' # hers\n\nreps=5\n",
        set("title", "B \"b\" \\"),
        "title = \"B \\\"b\\\" \\\\\" # hers\n\nreps=5\n",
    );
    becomes("[dose] # much\nreps  =  5\n", set("dose.reps", "8-12"), "[dose] # much\nreps  =  \"8-12\"\n");
    becomes("dose.reps = 5\n", set("dose.reps", 6), "dose.reps = 6\n");
    becomes("dose = { reps = 5, sets = 2 }\n", set("dose.sets", 3), "dose = { reps = 5, sets = 3 }\n");
    let long = "a = \"\"\"\nb\nc\"\"\"\nd = 1\n";
    assert_eq!(changed(long, true, &[set("a", "x\ny")]).as_deref(), Ok("a = \"\"\"\nx\ny\"\"\"\nd = 1\n"));
    let long = long.replace('\n', "\r\n");
    assert_eq!(changed(&long, true, &[set("a", "x\ny")]).as_deref(), Ok("a = \"x\\ny\"\r\nd = 1\r\n"));
    becomes(
        "[[caution]]\ntext = \"A\"\n[[caution]]\ntext = \"B\"\n",
        set("caution.1.text", "C"),
        "[[caution]]\ntext = \"A\"\n[[caution]]\ntext = \"C\"\n",
    );
    becomes(
        "support = [] # none\n",
        set("support", vec!["wall", "rail"]),
        "support = [\"wall\", \"rail\"] # none\n",
    );
}

#[test]
fn a_field_that_is_not_there_never_falls_into_another_table() {
    becomes(
        "title = \"A\" # hers\n\n# how much\n[dose]\nreps = 5\n",
        set("position", "seated"),
        "title = \"A\" # hers\nposition = \"seated\"\n\n# how much\n[dose]\nreps = 5\n",
    );
    becomes("[[caution]]\ntext = \"A\"\n", set("title", "T"), "title = \"T\"\n[[caution]]\ntext = \"A\"\n");
    becomes(
        "title = \"A\"\n\n[[caution]]\ntext = \"A\"\n",
        set("dose.reps", 5),
        "title = \"A\"\n\n[dose]\nreps = 5\n\n[[caution]]\ntext = \"A\"\n",
    );
    becomes(
        "[dose]\nreps = 5\n\n[[caution]]\n",
        set("dose.sets", 2),
        "[dose]\nreps = 5\nsets = 2\n\n[[caution]]\n",
    );
    becomes("[dose] # soon\n[[caution]]\n", set("dose.sets", 2), "[dose] # soon\nsets = 2\n[[caution]]\n");
    becomes("dose.reps = 5\n", set("dose.sets", 2), "dose.reps = 5\ndose.sets = 2\n");
    becomes(
        "[[v]]\na = 1\n[v.dose]\nreps = 5\n[[v]]\na = 2\n",
        set("v.1.dose.reps", 6),
        "[[v]]\na = 1\n[v.dose]\nreps = 5\n[[v]]\na = 2\n\n[v.dose]\nreps = 6\n",
    );
    becomes(
        "[[v]]\na = 1\n[v.dose]\nreps = 5\n[[v]]\na = 2\n",
        set("v.0.b", 3),
        "[[v]]\na = 1\nb = 3\n[v.dose]\nreps = 5\n[[v]]\na = 2\n",
    );
    becomes(
        "exercises = [\n  { id = \"a\" }, # first\n]\n",
        set("exercises.0.dose.reps", 5),
        "exercises = [\n  { id = \"a\", dose = { reps = 5 } }, # first\n]\n",
    );
}

#[test]
fn what_goes_takes_nothing_else_along() {
    becomes("# What it is.\ntitle = \"A\" # hers\nreps = 5\n", remove("title"), "# What it is.\nreps = 5\n");
    becomes(
        "dose = { reps = 5, sets = 2, hold = \"5 s\" }\n",
        remove("dose.sets"),
        "dose = { reps = 5, hold = \"5 s\" }\n",
    );
    becomes("dose = { reps = 5, sets = 2 }\n", remove("dose.reps"), "dose = { sets = 2 }\n");
    becomes(
        "a = 1\n\n# one\n[[v]]\nb = 1\n[v.dose]\nreps = 5\n\n# two\n[[v]]\nb = 2\n",
        remove("v.0"),
        "a = 1\n\n# two\n[[v]]\nb = 2\n",
    );
    becomes(
        "e = [\n  { id = \"a\" }, # one\n  { id = \"b\" }, # two\n]\n",
        remove("e.1"),
        "e = [\n  { id = \"a\" }, # one\n]\n",
    );
    becomes("e = [{ id = \"a\" }, { id = \"b\" }]\n", remove("e.0"), "e = [{ id = \"b\" }]\n");
}

#[test]
fn a_new_table_comes_last_in_its_list() {
    let insert = |into: &str, id: &str| Change::Insert {
        into: into.parse().unwrap(),
        fields: vec![("id".to_string(), Value::String(id.to_string()))],
    };
    becomes(
        "a = 1\n[[v]]\nid = \"x\"\n[v.dose]\nreps = 5\n\n[[w]]\n",
        insert("v", "y"),
        "a = 1\n[[v]]\nid = \"x\"\n[v.dose]\nreps = 5\n\n[[v]]\nid = \"y\"\n\n[[w]]\n",
    );
    becomes("a = 1\n", insert("v", "y"), "a = 1\n\n[[v]]\nid = \"y\"\n");
    becomes(
        "e = [\n\t{ id = \"x\" } # one\n]\nb = 2\n",
        insert("e", "y"),
        "e = [\n\t{ id = \"x\" }, # one\n\t{ id = \"y\" },\n]\nb = 2\n",
    );
    becomes("e = []\nb = 2\n", insert("e", "y"), "e = [\n  { id = \"y\" },\n]\nb = 2\n");
    becomes("e = [{ id = \"x\" }]\n", insert("e", "y"), "e = [{ id = \"x\" }, { id = \"y\" }]\n");
}

#[test]
fn a_table_goes_to_another_number_with_all_that_is_its_own() {
    let moved = |at: &str, to| Change::Move { at: at.parse().unwrap(), to };
    becomes(
        "# one\n[[v]]\na = 1\n[v.dose]\nreps = 5\n\n# two\n[[v]]\na = 2\n",
        moved("v.1", 0),
        "# two\n[[v]]\na = 2\n\n# one\n[[v]]\na = 1\n[v.dose]\nreps = 5\n",
    );
    becomes(
        "e = [\n  { id = \"a\" }, # one\n  { id = \"b\" } # two\n]\n",
        moved("e.0", 1),
        "e = [\n  { id = \"b\" }, # two\n  { id = \"a\" }, # one\n]\n",
    );
    becomes(
        "e = [{ id = \"a\" }, { id = \"b\" }]\n",
        moved("e.0", 9),
        "e = [{ id = \"b\" }, { id = \"a\" }]\n",
    );
}

#[test]
fn a_section_has_other_words_and_the_rest_stays() {
    let section = |title: &str, text: Option<&str>| Change::Section {
        title: title.into(),
        text: text.map(str::to_string),
    };
    let text = entry("title = \"A\"\n");
    let told = |change| changed(&text, false, &[change]);
    assert_eq!(
        told(section("Move", Some("1. Sit.\n2. Rise."))),
        Ok(text.replace("1. Rise.", "1. Sit.\n2. Rise."))
    );
    assert_eq!(told(section("Finish", Some("Sit."))), Ok(format!("{text}\n## Finish\nSit.\n")));
    assert_eq!(told(section("Move", None)), Ok(text.replace("## Move\n1. Rise.\n\n", "")));
    assert_eq!(told(section("No", None)), Ok(text.clone()));
    assert_eq!(told(Change::Opening { text: "Because.".into() }), Ok(text.replace("Why.", "Because.")));
    let small = text.replace("## Move", "## move");
    assert_eq!(
        changed(&small, false, &[section("Move", Some("1. Sit."))]),
        Ok(small.replace("1. Rise.", "1. Sit."))
    );
    let deep = entry("title = \"A\"\n").replace("Why.", &"> ".repeat(20_000));
    assert!(changed(&deep, false, &[Change::Opening { text: "So.".into() }]).is_err());
    for other in ["## Other\nWords.", "Words\n---", "```\nnever closed", "# Title"] {
        let found = told(section("Move", Some(other)));
        assert!(found == Err(Unchanged::OtherProse) || other == "# Title", "{other}: {found:?}");
    }
}

#[test]
fn no_text_of_a_field_ends_the_block_of_fields() {
    for text in ["a\n```\nb", "```", "a\n~~~~\n", "a\n```"] {
        let new = changed(&entry("title = \"A\"\n"), false, &[set("summary", text)]).unwrap();
        assert_eq!(parts(&new, false).unwrap().fields["summary"].as_str(), Some(text), "{new}");
    }
}

#[test]
fn what_cannot_be_changed_safely_is_told() {
    assert_eq!(changed("Prose.", false, &[set("title", "A")]), Err(Unchanged::Unread));
    assert_eq!(changed(&entry("a = \n"), false, &[set("title", "A")]), Err(Unchanged::Unread));
    let place = |place: &str| Unchanged::NotThere { place: place.to_string() };
    assert_eq!(changed(&entry("a = 1\n"), false, &[remove("b")]), Err(place("b")));
    assert_eq!(changed(&entry("a = 1\n"), false, &[set("a.b", 1)]), Err(place("a.b")));
    assert_eq!(changed(&entry("[[v]]\n"), false, &[set("v.1.b", 1)]), Err(place("v.1.b")));
    assert!(matches!(changed("a = 1\r\nb = 2\n", true, &[set("a", 2)]), Err(Unchanged::ByHand { .. })));
    for wrong in ["", "0", "a..b", "a b", "a.", ".a"] {
        assert_eq!(wrong.parse::<Place>(), Err(NoPlace), "{wrong}");
    }
}

/// Every entry of the demonstration: its name and text.
fn demonstration() -> Vec<(String, String)> {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut found = Vec::new();
    let mut folders = vec![root.join("content")];
    while let Some(folder) = folders.pop() {
        for file in std::fs::read_dir(folder).unwrap() {
            let path = file.unwrap().path();
            let is_entry = path.extension().is_some_and(|end| end == "md" || end == "toml");
            if path.is_dir() {
                folders.push(path);
            } else if is_entry {
                found.push((path.display().to_string(), std::fs::read_to_string(&path).unwrap()));
            }
        }
    }
    found.push(("site.toml".to_string(), std::fs::read_to_string(root.join("site.toml")).unwrap()));
    found.sort();
    assert!(found.len() > 50);
    found
}

/// Every place that holds a value, with it.
fn held(value: &Value, at: &str, all: &mut Vec<(String, Value)>) {
    let below = |name: &str| if at.is_empty() { name.to_string() } else { format!("{at}.{name}") };
    match value {
        Value::Table(table) => table.iter().for_each(|(name, value)| held(value, &below(name), all)),
        Value::Array(items) if items.iter().any(Value::is_table) => {
            items.iter().enumerate().for_each(|(at, value)| held(value, &below(&at.to_string()), all));
        }
        other => all.push((at.to_string(), other.clone())),
    }
}

#[test]
fn opened_and_saved_every_entry_is_byte_for_byte_as_before() {
    for (name, text) in demonstration() {
        let is_toml = name.ends_with(".toml");
        let parts = parts(&text, is_toml).unwrap_or_else(|| panic!("{name}"));
        let mut all = Vec::new();
        held(&Value::Table(parts.fields), "", &mut all);
        let mut changes: Vec<Change> = all.into_iter().map(|(at, value)| set(&at, value)).collect();
        changes.extend(
            parts.sections.into_iter().map(|s| Change::Section { title: s.title, text: Some(s.text) }),
        );
        changes.push(Change::Opening { text: parts.opening });
        assert_eq!(changed(&text, is_toml, &changes).as_deref(), Ok(text.as_str()), "{name}");
    }
}

fn cases() -> u32 {
    std::env::var("STEADYLEAF_EDITS_OF_FIELDS").ok().and_then(|n| n.parse().ok()).unwrap_or(300)
}

/// Random edits of the demonstration's entries: read back, the fields have the change and nothing else, and all lines but
/// those of the field are as they were.
#[test]
fn any_field_can_be_changed_and_nothing_else_changes() {
    let entries = demonstration();
    let words = "[ -~éñ“”‘’\\\\\"\n\t]{0,60}";
    let value = prop_oneof![
        words.prop_map(Value::String),
        any::<i32>().prop_map(|n| Value::Integer(n.into())),
        proptest::collection::vec("[a-z “”\"\\\\-]{0,20}", 0..8)
            .prop_map(|items| Value::Array(items.into_iter().map(Value::String).collect())),
    ];
    let mut runner = TestRunner::new_with_rng(
        Config { cases: cases(), failure_persistence: None, ..Config::default() },
        proptest::test_runner::TestRng::deterministic_rng(proptest::test_runner::RngAlgorithm::ChaCha),
    );
    let input = (any::<prop::sample::Index>(), any::<prop::sample::Index>(), value, 0..3u8, any::<bool>());
    runner
        .run(&input, |(entry, place, value, kind, crlf)| {
            let (name, text) = entry.get(&entries);
            let text = if crlf { text.replace('\n', "\r\n") } else { text.clone() };
            let is_toml = name.ends_with(".toml");
            let before = parts(&text, is_toml).unwrap();
            let mut all = Vec::new();
            held(&Value::Table(before.fields.clone()), "", &mut all);
            let (at, _) = place.get(&all);
            // Of a list with items of several kinds the others would move up.
            let is_item = at.ends_with(|c: char| c.is_ascii_digit());
            let kind = if is_item { 2 } else { kind };
            let change = match kind {
                0 => remove(at),
                1 => set(&format!("{}x_new", &at[..at.rfind('.').map_or(0, |dot| dot + 1)]), value.clone()),
                _ => set(at, value.clone()),
            };
            let new = match changed(&text, is_toml, std::slice::from_ref(&change)) {
                Ok(new) => new,
                // An item of a plain list has no name; those are set as a whole.
                Err(why) => return Err(TestCaseError::fail(format!("{name} {change:?}: {why}"))),
            };
            let after = parts(&new, is_toml).unwrap();
            let mut now = Vec::new();
            held(&Value::Table(after.fields), "", &mut now);
            let other = |all: &[(String, Value)]| -> Vec<(String, Value)> {
                all.iter().filter(|(place, _)| place != at && !place.ends_with("x_new")).cloned().collect()
            };
            prop_assert_eq!(other(&all), other(&now), "{} {:?}", name, change);
            let found =
                now.iter().find(|(place, _)| if kind == 1 { place.ends_with("x_new") } else { place == at });
            prop_assert_eq!(found.map(|(_, value)| value.clone()), (kind != 0).then_some(value));
            // What is before and after the place is byte for byte the same.
            let same_start = text.bytes().zip(new.bytes()).take_while(|(a, b)| a == b).count();
            let same_end = text.bytes().rev().zip(new.bytes().rev()).take_while(|(a, b)| a == b).count();
            let (_, span) = before.places.iter().find(|(place, _)| place == at).unwrap();
            let lines = 400 + span.len();
            prop_assert!(text.len().saturating_sub(same_start + same_end) <= lines, "{} {:?}", name, change);
            prop_assert_eq!(before.sections.len(), after.sections.len());
            prop_assert_eq!(before.opening, after.opening);
            Ok(())
        })
        .unwrap();
}

/// Of a text that somebody has damaged comes the same text, one that says what was meant, or a reason.
#[test]
fn damaged_entries_are_changed_rightly_or_not_at_all() {
    let entries = demonstration();
    let mut runner = TestRunner::new_with_rng(
        Config { cases: cases().max(1000), failure_persistence: None, ..Config::default() },
        proptest::test_runner::TestRng::deterministic_rng(proptest::test_runner::RngAlgorithm::ChaCha),
    );
    let input = (any::<prop::sample::Index>(), any::<prop::sample::Index>(), "[`#\\[\\]\"'=\n{}, a]{0,4}");
    runner
        .run(&input, |(entry, place, damage)| {
            let (name, text) = entry.get(&entries);
            let at = text.floor_char_boundary(place.index(text.len()));
            let to = text.ceil_char_boundary(at + damage.len() % 3);
            let text = format!("{}{damage}{}", &text[..at], &text[to..]);
            let is_toml = name.ends_with(".toml");
            if let Some(parts) = parts(&text, is_toml) {
                let mut all = Vec::new();
                held(&Value::Table(parts.fields), "", &mut all);
                let plain = all
                    .into_iter()
                    .filter_map(|(at, value)| Some(Change::Set { at: at.parse().ok()?, value }));
                let same: Vec<Change> = plain.collect();
                if let Ok(new) = changed(&text, is_toml, &same) {
                    prop_assert_eq!(&new, &text, "{}", name);
                }
            }
            let _ = changed(&text, is_toml, &[set("title", "T"), remove("summary")]);
            let _ = changed(
                &text,
                is_toml,
                &[Change::Section { title: "Move".into(), text: Some("1. Sit.".into()) }],
            );
            Ok(())
        })
        .unwrap();
}
