//! The file of a client's days, which a page writes and reads: there is no reader of ours beside it.

use serde_json::json;

use super::*;

fn entry() -> Json {
    json!({
        "id": "2027-02-15 heel-drop", "exercise": "heel-drop", "title": "Heel drop at the counter",
        "series": "lantern-hill", "week": 7, "form": null, "on": "2027-02-15", "sets": 2, "effort": 5,
        "felt": "Light.\nNo pain.", "trouble": null, "how": "ticked", "changes": 3
    })
}

/// What the schema says against a file with this entry.
fn complaint(entry: &Json) -> Option<String> {
    let file = json!({ "steadyleaf": "practice", "version": 1, "days": [entry] });
    let validator = Validator::new(schema(SchemaKind::Practice));
    validator.schemas.validate(&file, validator.index).err().map(|e| format!("{e:#}"))
}

#[test]
fn what_is_not_known_is_null_or_left_out() {
    assert_eq!(complaint(&entry()), None);
    for name in ["series", "week", "form", "sets", "effort", "felt", "trouble", "changes"] {
        let mut with = entry();
        with[name] = Json::Null;
        assert_eq!(complaint(&with), None, "{name}");
        with.as_object_mut().unwrap().remove(name);
        assert_eq!(complaint(&with), None, "{name}");
    }
}

#[test]
fn what_no_page_writes_is_refused() {
    let broken = [
        ("id", json!(null)),
        ("id", json!(" ")),
        ("title", json!("x".repeat(201))),
        ("week", json!(0)),
        ("on", json!("15 February")),
        ("on", json!("2027-02-30")),
        ("sets", json!(1.5)),
        ("effort", json!(11)),
        ("effort", json!("5")),
        ("felt", json!("")),
        ("felt", json!("a\u{7}b")),
        ("trouble", json!("none")),
        ("how", json!("counted")),
        ("mood", json!("good")),
    ];
    for (name, value) in broken {
        let mut with = entry();
        with[name] = value.clone();
        assert!(complaint(&with).is_some(), "{name} = {value}");
    }
}

#[test]
fn every_field_is_described_and_known_to_the_page() {
    let root = schema(SchemaKind::Practice);
    let script = include_str!("../../../../themes/wideleaf/script/days.js");
    let known =
        script.split_once("const FIELDS = {").and_then(|(_, rest)| rest.split_once("\n  };")).unwrap().0;
    let mut names = BTreeSet::new();
    for (name, field) in root["$defs"]["Entry"]["properties"].as_object().unwrap() {
        assert!(field["description"].is_string(), "{name}");
        names.insert(name.as_str());
    }
    let known: BTreeSet<&str> =
        known.lines().filter_map(|line| line.trim().split_once(": ").map(|(name, _)| name)).collect();
    assert_eq!(names, known);
}
