//! Each table of the schemas beside what the reader asks that table for.

use super::*;

/// A name that is near to none.
const NO_FIELD: &str = "qqqqqqqqqqqqqqqqqqqqqqqq";

/// Every table of a kind, with its schema. The names below `[rules]` are those of the rules.
fn tables(kind: SchemaKind) -> Vec<(Vec<Step>, Json)> {
    let mut tables = places(kind);
    tables.retain(|(place, schema)| {
        schema["type"] == "object" && place.last() != Some(&Step::Field("rules".to_string()))
    });
    tables
}

#[test]
fn a_schema_knows_every_field_that_the_reader_asks_for_and_no_other() {
    let mut seen = 0;
    for kind in authored() {
        for (place, schema) in tables(kind) {
            let mut fields = whole(kind);
            table(&mut fields, &place).insert(NO_FIELD.to_string(), Value::Integer(0));
            let findings = read(kind, &fields);
            let told: Vec<&str> = findings.iter().map(|f| f.help.as_str()).collect();
            let [told] = told.as_slice() else { panic!("{kind:?} {place:?}: {findings:#?}") };
            let known = told.strip_prefix("known here are ").unwrap();
            let known: Vec<&str> = known.split(", ").map(|name| name.trim_matches('`')).collect();
            let mine: Vec<&String> = schema["properties"].as_object().unwrap().keys().collect();
            assert_eq!(mine, known, "{kind:?} {place:?}");
            assert_eq!(schema["additionalProperties"], false, "{kind:?} {place:?}");
            seen += 1;
        }
    }
    // The six kinds; seven doses, six groups of an exercise with two ways to write a variation, four exceptions, two lists
    // of targets, an exercise of a week, a video and a thanks, an educator, print, a demand, a precaution and its row, of a
    // person two clearances, a hold and a preference.
    let groups = 6 + 7 + 6 + 4 + 2 + 3 + 5 + 4;
    // A photo with its crop; a drawing with a prop and a label, and two poses with the 23 joints of each. The exercise and
    // each variation has them.
    let figures = 3 * (2 + 3 + 2 * (1 + 23));
    assert_eq!(seen, groups + figures);
}

#[test]
fn a_schema_asks_for_what_the_reader_misses_and_for_nothing_else() {
    for kind in authored() {
        let validator = Validator::new(schema(kind));
        for (place, schema) in tables(kind) {
            for name in table(&mut whole(kind), &place).keys() {
                let mut fields = whole(kind);
                table(&mut fields, &place).remove(name);
                let missed = read(kind, &fields).iter().any(|f| f.rule == "missing-field");
                assert_eq!(missed, validator.complaint(&fields).is_some(), "{kind:?} {place:?} {name}");
                let required =
                    schema["required"].as_array().is_some_and(|names| names.iter().any(|n| n == name));
                assert!(missed || !required, "{kind:?} {place:?} {name}");
            }
        }
    }
}

#[test]
fn the_bounds_of_numbers_are_the_reader_s() {
    let mut seen = 0;
    for kind in authored() {
        for (place, schema) in places(kind) {
            let (Some(least), Some(most)) = (schema["minimum"].as_i64(), schema["maximum"].as_i64()) else {
                continue;
            };
            for (number, fits) in [(least, true), (most, true), (least - 1, false), (most + 1, false)] {
                let mut fields = whole(kind);
                *at(&mut fields, &place) = Value::Integer(number);
                assert_eq!(read(kind, &fields).is_empty(), fits, "{kind:?} {place:?} {number}");
            }
            seen += 1;
        }
    }
    assert!(seen > 20, "{seen}");
}

#[test]
fn every_word_and_every_example_of_a_schema_is_read() {
    for kind in authored() {
        let validator = Validator::new(schema(kind));
        assert_eq!(validator.complaint(&whole(kind)), None, "{kind:?}");
        let findings = read(kind, &whole(kind));
        assert!(findings.is_empty(), "{kind:?}: {findings:#?}");
        for (place, schema) in places(kind) {
            let values = ["examples", "enum"].into_iter().filter_map(|keyword| schema[keyword].as_array());
            for value in values.flatten() {
                let mut fields = whole(kind);
                *at(&mut fields, &place) = scalar(&schema, value);
                make_room(&mut fields, &place);
                let findings = read(kind, &fields);
                assert!(findings.is_empty(), "{kind:?} {place:?} {value}: {findings:#?}");
            }
        }
    }
}

/// Takes out what does not go with a value that was just put in its place.
fn make_room(fields: &mut Value, place: &[Step]) {
    match place {
        // Some bases of a pose are seen from one side only, which is theirs when the author does not say.
        [figure @ .., Step::Field(pose), Step::Item(_), Step::Field(base)]
            if (pose.as_str(), base.as_str()) == ("pose", "base") =>
        {
            table(fields, figure).remove("view");
        }
        // What is done sitting or standing is done on no surface.
        [form @ .., Step::Field(position)] if position == "position" => {
            let form = table(fields, form);
            if matches!(form["position"].as_str(), Some("seated" | "standing")) {
                form.remove("surface");
            }
        }
        _ => {}
    }
}

#[test]
fn every_field_is_described_there_and_named_in_the_readme() {
    let readme = include_str!("../../../../README.md");
    let in_code = readme.split('`').skip(1).step_by(2);
    let named: BTreeSet<&str> =
        in_code.flat_map(|code| code.split(|c: char| !c.is_ascii_alphabetic() && c != '_')).collect();
    for kind in authored() {
        let root = schema(kind);
        assert!(root["description"].is_string() && root["title"].is_string(), "{kind:?}");
        for (_, schema) in tables(kind) {
            for (name, field) in schema["properties"].as_object().unwrap() {
                let described = field["description"].as_str().is_some_and(|says| !says.contains('\n'));
                assert!(described, "{kind:?} {name}");
                assert!(named.contains(name.as_str()), "{kind:?} {name} is not in the README");
            }
        }
    }
}
