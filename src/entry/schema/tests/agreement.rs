//! Whole files, right and wrong, before the schema and the reader.

use proptest::prelude::*;
use proptest::sample::{Index, select};

use super::*;

/// A change of one value, wherever it stands.
#[derive(Clone, Debug)]
enum Mutation {
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

fn change() -> impl Strategy<Value = Mutation> {
    let name = select(&["text", "titel", "reps", "x", "id", "exercise", "file", "label", "summary"][..]);
    prop_oneof![
        6 => value().prop_map(Mutation::Put),
        2 => Just(Mutation::Remove),
        2 => (name, value()).prop_map(|(name, value)| Mutation::Add(name, value)),
        1 => Just(Mutation::Twice),
    ]
}

fn apply(fields: &mut Value, place: &[Step], change: &Mutation) {
    let [above @ .., last] = place else { return };
    match (change, last) {
        (Mutation::Put(value), _) => *at(fields, place) = value.clone(),
        (Mutation::Remove, Step::Field(name)) => {
            table(fields, above).remove(name);
        }
        (Mutation::Remove, Step::Item(index)) => {
            at(fields, above).as_array_mut().unwrap().remove(*index);
        }
        // What names of rules there are, only the review knows.
        (Mutation::Add(..), Step::Field(_)) if above == [Step::Field("rules".to_string())] => {}
        (Mutation::Add(name, value), Step::Field(_)) => {
            table(fields, above).insert(name.to_string(), value.clone());
        }
        (Mutation::Add(..), Step::Item(_)) => {}
        (Mutation::Twice, Step::Item(_)) => {
            let copy = at(fields, place).clone();
            at(fields, above).as_array_mut().unwrap().push(copy);
        }
        (Mutation::Twice, Step::Field(_)) => {}
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
        kind in select(authored()),
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
fn with(kind: SchemaKind, path: &str, value: &str) -> Value {
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
        (SchemaKind::Exercise, "component", "\"Power\""),
        (SchemaKind::Exercise, "position", "\"sitting\""),
        (SchemaKind::Exercise, "support", "\"counter\""),
        (SchemaKind::Exercise, "demands", "[\"Impact low\"]"),
        (SchemaKind::Exercise, "dose", "{ sets = 2 }"),
        (SchemaKind::Exercise, "dose.reps", "0"),
        (SchemaKind::Exercise, "dose.hold", "\"20 sec\""),
        (SchemaKind::Exercise, "dose.hold", "20"),
        (SchemaKind::Exercise, "dose.days", "8"),
        (SchemaKind::Exercise, "dose.rep", "10"),
        (SchemaKind::Exercise, "regression", "[{ removes = [] }]"),
        (SchemaKind::Exercise, "caution.0.for", "[]"),
        (SchemaKind::Exercise, "caution.0.for", "\"spine-fracture\""),
        (SchemaKind::Exercise, "caution.0.level", "\"warn\""),
        (SchemaKind::Exercise, "caution", "{ for = \"everyone\", level = \"stop\", text = \"Stop.\" }"),
        (SchemaKind::Exercise, "reviewed.on", "2026-01-05T10:00:00"),
        (SchemaKind::Exercise, "reviewed.on", "\"last spring\""),
        (SchemaKind::Exercise, "progresion", "[]"),
        (SchemaKind::Exercise, "figure", "[{ description = \"She stands.\" }]"),
        (SchemaKind::Exercise, "figure.0.pose", "[{ base = \"standing\" }]"),
        (SchemaKind::Exercise, "figure.0.view", "\"side\""),
        (SchemaKind::Exercise, "figure.0.crop.left", "91"),
        (SchemaKind::Exercise, "figure.1.crop", "{ left = 10 }"),
        (SchemaKind::Exercise, "figure.1.pose", "[]"),
        (SchemaKind::Exercise, "figure.1.pose.0.base", "\"sitting\""),
        (SchemaKind::Exercise, "figure.1.pose.0.hip", "{ flexion = 20, extension = 0 }"),
        (SchemaKind::Exercise, "figure.1.pose.0.knee", "{ abduction = 20 }"),
        (SchemaKind::Exercise, "figure.1.pose.0.knee.flexion", "181"),
        (SchemaKind::Exercise, "figure.1.pose.0.knee", "20"),
        (SchemaKind::Exercise, "figure.1.props", "[\"sofa\"]"),
        (SchemaKind::Exercise, "figure.1.props", "[{ place = \"behind\" }]"),
        (SchemaKind::Exercise, "figure.1.labels", "[{ at = \"right-knee\" }]"),
        (SchemaKind::Week, "week", "0"),
        (SchemaKind::Week, "exercises.0.at", "\"8:5\""),
        (SchemaKind::Week, "video.file", "\"media/week-01.mp4\""),
        (SchemaKind::Week, "video.address", "\"video.example\""),
        (SchemaKind::Series, "serves", "[]"),
        (SchemaKind::Series, "targets.balance_days", "8"),
        (SchemaKind::Page, "order", "-1"),
        (SchemaKind::Site, "print.sizes", "[20]"),
        (SchemaKind::Site, "rules.hard-to-read", "\"on\""),
        (SchemaKind::Site, "address", "\"https://lantern-hill.example/?a\""),
        (SchemaKind::Site, "precaution", "[{ id = \"hip-fracture\" }]"),
        (SchemaKind::Site, "precaution.0.restricts.0.by", "\"forbid\""),
        (SchemaKind::Client, "precautions", "[\"unsteady\", \"unsteady\"]"),
        (SchemaKind::Client, "precautions", "[\"everyone\"]"),
        (SchemaKind::Client, "days", "[]"),
        (SchemaKind::Client, "size", "\"24\""),
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
        (SchemaKind::Exercise, "dose.reps", "\"12-8\""),
        (SchemaKind::Exercise, "dose.reps", "\"8-800\""),
        (SchemaKind::Exercise, "dose.hold", "\"20-10 s\""),
        (SchemaKind::Exercise, "dose.hold", "\"0 s\""),
        (SchemaKind::Exercise, "dose.time", "\"3000 min\""),
        (SchemaKind::Exercise, "dose.reps", "10.0"),
        (SchemaKind::Exercise, "demands", "[\"stairs\"]"),
        (SchemaKind::Exercise, "title", "2026-01-05"),
        (SchemaKind::Exercise, "reviewed.on", "\"2026-01-05\""),
        (SchemaKind::Exercise, "figure.0.crop", "{ left = 50, right = 45 }"),
        (SchemaKind::Exercise, "figure.1.pose.1.base", "\"side-lying\""),
        (SchemaKind::Site, "precaution", "[{ id = \"spine-fractures\", label = \"a broken back\" }]"),
        (SchemaKind::Client, "precautions", "[\"broken-back\"]"),
    ] {
        let fields = with(kind, path, value);
        assert_eq!(Validator::new(schema(kind)).complaint(&fields), None, "{kind:?} {path} = {value}");
        assert!(!read(kind, &fields).is_empty(), "{kind:?} {path} = {value} is read");
    }
}
