//! Whole files, right and wrong, before the schema and the reader.

use proptest::prelude::*;
use proptest::sample::{Index, select};

use super::*;
use crate::model::vocabulary::Vocabulary;

/// A change of one value, wherever it stands.
#[derive(Clone, Debug)]
enum Change {
    Put(Value),
    Remove,
    Add(&'static str, Value),
    Twice,
}

/// Values that are right somewhere, and values that are right nowhere. None of them is something that a schema
/// cannot see, which the table below has.
fn value() -> impl Strategy<Value = Value> {
    let text = |text: &str| Value::String(text.to_string());
    let numbers = [-1, 0, 1, 7, 8, 18, 24, 32, 180, 181, 500, 501, 520, 521, 1000, 1001].map(Value::Integer);
    let texts = [
        "",
        " ",
        "words",
        "1-2",
        "1 – 2",
        "1-",
        "20 s",
        "1.5 min",
        "10-20 s",
        "20 sec",
        "2",
        "1:05",
        "1:5",
        "1:02:30",
        "monday",
        "everyone",
        "standing",
        "Standing",
        "both-together",
        "stop",
        "avoid",
        "none",
        "a4",
        "off",
        "media/x.jpg",
        "https://a.example/x",
        "https://a.example//x",
        "ftp://a.example",
        "a\u{7}b",
        "two\nlines",
    ];
    let others = [
        Value::Float(1.5),
        Value::Boolean(true),
        Value::Array(Vec::new()),
        Value::Array(vec![text("words")]),
        Value::Array(vec![Value::Integer(18)]),
        Value::Table(Table::new()),
        Value::Table(Table::from_iter([("id".to_string(), text("words"))])),
        Value::Array(vec![Value::Table(Table::new())]),
    ];
    let all: Vec<Value> = numbers.into_iter().chain(texts.map(text)).chain(others).collect();
    select(all)
}

fn change() -> impl Strategy<Value = Change> {
    let name = select(&["text", "titel", "reps", "x", "id", "exercise", "file", "label", "summary"][..]);
    prop_oneof![
        6 => value().prop_map(Change::Put),
        2 => Just(Change::Remove),
        2 => (name, value()).prop_map(|(name, value)| Change::Add(name, value)),
        1 => Just(Change::Twice),
    ]
}

fn apply(fields: &mut Value, place: &[Step], change: &Change) {
    let [above @ .., last] = place else { return };
    match (change, last) {
        (Change::Put(value), _) => *at(fields, place) = value.clone(),
        (Change::Remove, Step::Field(name)) => {
            table(fields, above).remove(name);
        }
        (Change::Remove, Step::Item(index)) => {
            at(fields, above).as_array_mut().unwrap().remove(*index);
        }
        // What names of rules there are, only the review knows.
        (Change::Add(..), Step::Field(_)) if above == [Step::Field("rules".to_string())] => {}
        (Change::Add(name, value), Step::Field(_)) => {
            table(fields, above).insert(name.to_string(), value.clone());
        }
        (Change::Add(..), Step::Item(_)) => {}
        (Change::Twice, Step::Item(_)) => {
            let copy = at(fields, place).clone();
            at(fields, above).as_array_mut().unwrap().push(copy);
        }
        (Change::Twice, Step::Field(_)) => {}
    }
}

/// Whether a demand or a precaution is known to the workspace, a schema cannot see.
fn can_be_seen(finding: &&Finding) -> bool {
    !finding.message.starts_with("expected the name of a ")
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(60) })]

    #[test]
    fn a_changed_file_passes_the_schema_when_the_reader_takes_it_and_not_otherwise(
        kind in select(Kind::ALL),
        changes in prop::collection::vec((any::<Index>(), change()), 12),
    ) {
        let (places, whole) = (places(kind), whole(kind));
        let validator = Validator::new(schema(kind));
        for (index, change) in changes {
            let (place, _) = index.get(&places);
            let mut fields = whole.clone();
            apply(&mut fields, place, &change);
            let complaint = validator.complaint(&fields);
            let findings = read(kind, &fields);
            if complaint.is_some() {
                prop_assert!(!findings.is_empty(), "{:?} {:?}: {:?}", place, change, complaint);
            } else {
                let seen: Vec<_> = findings.iter().filter(can_be_seen).collect();
                prop_assert!(seen.is_empty(), "{:?} {:?}: {:#?}", place, change, seen);
            }
        }
    }
}

/// The fields of a kind with one value in another's place.
fn with(kind: Kind, path: &str, value: &str) -> Value {
    let mut fields = whole(kind);
    let place: Vec<Step> =
        path.split('.').map(|step| step.parse().map_or(Step::Field(step.to_string()), Step::Item)).collect();
    let value = format!("value = {value}").parse::<Table>().unwrap().remove("value").unwrap();
    let [above @ .., Step::Field(name)] = place.as_slice() else {
        *at(&mut fields, &place) = value;
        return fields;
    };
    table(&mut fields, above).insert(name.clone(), value);
    fields
}

#[test]
fn these_pass_neither_the_schema_nor_the_reader() {
    for (kind, path, value) in [
        (Kind::Exercise, "component", "\"Power\""),
        (Kind::Exercise, "position", "\"sitting\""),
        (Kind::Exercise, "support", "\"counter\""),
        (Kind::Exercise, "demands", "[\"Impact low\"]"),
        (Kind::Exercise, "dose", "{ sets = 2 }"),
        (Kind::Exercise, "dose.reps", "0"),
        (Kind::Exercise, "dose.hold", "\"20 sec\""),
        (Kind::Exercise, "dose.hold", "20"),
        (Kind::Exercise, "dose.days", "8"),
        (Kind::Exercise, "dose.rep", "10"),
        (Kind::Exercise, "regression", "[{ removes = [] }]"),
        (Kind::Exercise, "caution.0.for", "[]"),
        (Kind::Exercise, "caution.0.for", "\"spine-fracture\""),
        (Kind::Exercise, "caution.0.level", "\"warn\""),
        (Kind::Exercise, "caution", "{ for = \"everyone\", level = \"stop\", text = \"Stop.\" }"),
        (Kind::Exercise, "reviewed.on", "2026-01-05T10:00:00"),
        (Kind::Exercise, "reviewed.on", "\"last spring\""),
        (Kind::Exercise, "progresion", "[]"),
        (Kind::Exercise, "figure", "[{ description = \"She stands.\" }]"),
        (Kind::Exercise, "figure.0.pose", "[{ base = \"standing\" }]"),
        (Kind::Exercise, "figure.0.view", "\"side\""),
        (Kind::Exercise, "figure.0.crop.left", "91"),
        (Kind::Exercise, "figure.1.crop", "{ left = 10 }"),
        (Kind::Exercise, "figure.1.pose", "[]"),
        (Kind::Exercise, "figure.1.pose.0.base", "\"sitting\""),
        (Kind::Exercise, "figure.1.pose.0.hip", "{ flexion = 20, extension = 0 }"),
        (Kind::Exercise, "figure.1.pose.0.knee", "{ abduction = 20 }"),
        (Kind::Exercise, "figure.1.pose.0.knee.flexion", "181"),
        (Kind::Exercise, "figure.1.pose.0.knee", "20"),
        (Kind::Exercise, "figure.1.props", "[\"sofa\"]"),
        (Kind::Exercise, "figure.1.props", "[{ place = \"behind\" }]"),
        (Kind::Exercise, "figure.1.labels", "[{ at = \"right-knee\" }]"),
        (Kind::Week, "week", "0"),
        (Kind::Week, "exercises.0.at", "\"8:5\""),
        (Kind::Week, "video.file", "\"media/week-01.mp4\""),
        (Kind::Week, "video.address", "\"video.example\""),
        (Kind::Series, "serves", "[]"),
        (Kind::Series, "targets.balance_days", "8"),
        (Kind::Page, "order", "-1"),
        (Kind::Site, "print.sizes", "[20]"),
        (Kind::Site, "rules.hard-to-read", "\"on\""),
        (Kind::Site, "address", "\"https://lantern-hill.example/?a\""),
        (Kind::Site, "precaution", "[{ id = \"hip-fracture\" }]"),
        (Kind::Site, "precaution.0.restricts.0.by", "\"forbid\""),
        (Kind::Client, "precautions", "[\"unsteady\", \"unsteady\"]"),
        (Kind::Client, "precautions", "[\"everyone\"]"),
        (Kind::Client, "days", "[]"),
        (Kind::Client, "size", "\"24\""),
    ] {
        let fields = with(kind, path, value);
        assert!(
            Validator::new(schema(kind)).complaint(&fields).is_some(),
            "{kind:?} {path} = {value} passes the schema"
        );
        assert!(!read(kind, &fields).is_empty(), "{kind:?} {path} = {value} is read");
    }
}

/// What a schema cannot see, so that nobody takes its silence for a review.
#[test]
fn these_pass_the_schema_and_give_a_finding() {
    for (kind, path, value) in [
        (Kind::Exercise, "dose.reps", "\"12-8\""),
        (Kind::Exercise, "dose.reps", "\"8-800\""),
        (Kind::Exercise, "dose.hold", "\"20-10 s\""),
        (Kind::Exercise, "dose.hold", "\"0 s\""),
        (Kind::Exercise, "dose.time", "\"3000 min\""),
        (Kind::Exercise, "dose.reps", "10.0"),
        (Kind::Exercise, "demands", "[\"stairs\"]"),
        (Kind::Exercise, "title", "2026-01-05"),
        (Kind::Exercise, "reviewed.on", "\"2026-01-05\""),
        (Kind::Exercise, "figure.0.crop", "{ left = 50, right = 45 }"),
        (Kind::Exercise, "figure.1.pose.1.base", "\"side-lying\""),
        (Kind::Site, "precaution", "[{ id = \"spine-fractures\", label = \"a broken back\" }]"),
        (Kind::Client, "precautions", "[\"broken-back\"]"),
    ] {
        let fields = with(kind, path, value);
        assert_eq!(Validator::new(schema(kind)).complaint(&fields), None, "{kind:?} {path} = {value}");
        assert!(!read(kind, &fields).is_empty(), "{kind:?} {path} = {value} is read");
    }
}
