//! The schemas beside the reader: what it asks for they know, what they refuse it refuses, and what it refuses they
//! refuse too, as far as a schema can tell.

mod agreement;
mod fields;
mod patterns;
mod practice;

use std::collections::BTreeSet;

use serde_json::Value as Json;
use toml::{Table, Value};

use super::{SchemaKind, of};
use crate::entry::{Known, Origin, exercise, page, read_client, read_site, series, week};
use crate::model::catalogue::Catalogue;
use crate::model::finding::Finding;
use crate::model::source::FileId;
use crate::model::vocabulary::Vocabulary;
use crate::review::rules;
use crate::workspace::{Bytes, Texts};

/// The kinds that authors write; a page writes the rest.
fn authored() -> Vec<SchemaKind> {
    SchemaKind::ALL.iter().copied().filter(|kind| *kind != SchemaKind::Practice).collect()
}

/// The schema of a kind as JSON, with the rules that a site may change.
fn schema(kind: SchemaKind) -> Json {
    of(kind, &rules::changeable()).to_value()
}

/// Says whether fields pass a schema.
struct Validator {
    schemas: boon::Schemas,
    index: boon::SchemaIndex,
}

impl Validator {
    fn new(schema: Json) -> Validator {
        let mut compiler = boon::Compiler::new();
        compiler.enable_format_assertions();
        compiler.add_resource("file:///schema.json", schema).unwrap();
        let mut schemas = boon::Schemas::new();
        let index = compiler.compile("file:///schema.json", &mut schemas).unwrap();
        Validator { schemas, index }
    }

    /// What the schema says against the fields; nothing when they pass.
    fn complaint(&self, fields: &Value) -> Option<String> {
        self.schemas.validate(&json(fields), self.index).err().map(|e| format!("{e:#}"))
    }
}

/// TOML as JSON, dates as texts.
fn json(value: &Value) -> Json {
    match value {
        Value::String(text) => text.as_str().into(),
        Value::Integer(n) => (*n).into(),
        Value::Float(n) => (*n).into(),
        Value::Boolean(b) => (*b).into(),
        Value::Datetime(date) => date.to_string().into(),
        Value::Array(list) => list.iter().map(json).collect(),
        Value::Table(table) => {
            Json::Object(table.iter().map(|(key, value)| (key.clone(), json(value))).collect())
        }
    }
}

/// What the reader finds in the fields of a kind.
fn read(kind: SchemaKind, fields: &Value) -> Vec<Finding> {
    let text = toml::to_string(fields).unwrap();
    let entry = format!("```toml\n{text}```\n");
    let catalogue = Catalogue::built_in();
    let known = Known { catalogue: &catalogue, sections: Vec::new() };
    let file = FileId(0);
    let origin = Origin { file, name: "" };
    match kind {
        SchemaKind::Site => {
            let site = (String::from("site.toml"), Bytes::of(text.into_bytes()));
            read_site(&Texts::sorted(vec![site], BTreeSet::new())).1
        }
        SchemaKind::Series => series::read(&text, file, "lantern-hill", &known).1,
        SchemaKind::Exercise => exercise::read(&entry, origin, "heel-drop", &known).1,
        SchemaKind::Week => week::read(&entry, origin, "week-01", &known).1,
        SchemaKind::Page => page::read(&entry, origin, "about", &known).1,
        SchemaKind::Client => read_client(&text, file, &catalogue).1,
        SchemaKind::Practice => panic!("a page reads it"),
    }
}

/// A table with every field that the schema knows, all of them right. Of fields that exclude each other it has the
/// first; a list has an item for each of the alternatives that its items have.
fn whole(kind: SchemaKind) -> Value {
    let schema = schema(kind);
    sample(&schema, &schema, 0)
}

/// A value that passes a schema. Where the schema has alternatives, those of this number are taken.
fn sample(root: &Json, schema: &Json, number: usize) -> Value {
    let schema = resolved(root, schema);
    if let Some(example) = schema["examples"].get(0) {
        return scalar(schema, example);
    }
    if let Some(value) = schema.get("const").or(schema["enum"].get(0)) {
        return scalar(schema, value);
    }
    match schema["type"].as_str() {
        Some("object") => {
            let excluded = excluded(schema, number);
            let fields = schema["properties"].as_object().into_iter().flatten();
            let fields = fields.filter(|(name, _)| !excluded.contains(name.as_str()));
            Value::Table(fields.map(|(name, field)| (name.clone(), sample(root, field, number))).collect())
        }
        Some("array") => {
            let items = &schema["items"];
            let count = alternatives(root, items);
            Value::Array((0..count).map(|number| sample(root, items, number)).collect())
        }
        Some("boolean") => Value::Boolean(true),
        Some("integer") => Value::Integer(schema["minimum"].as_i64().unwrap()),
        None if schema.get("minimum").is_some() => Value::Integer(schema["minimum"].as_i64().unwrap()),
        _ => match schema["oneOf"].get(number).or(schema["anyOf"].get(0)) {
            Some(one) => sample(root, one, number),
            None => Value::String("words".to_string()),
        },
    }
}

/// The fields that a table lacks when it takes the alternative of this number: what other alternatives ask for, with
/// what depends on that, and of each two that exclude each other the other one.
fn excluded(schema: &Json, number: usize) -> BTreeSet<&str> {
    let alternatives = schema["oneOf"].as_array().into_iter().flatten().enumerate();
    let mut excluded: BTreeSet<&str> = alternatives
        .filter(|(n, _)| *n != number)
        .filter_map(|(_, one)| one["required"][0].as_str())
        .chain(pairs(schema).filter_map(|pair| pair[usize::from(number == 0)].as_str()))
        .collect();
    for (name, needs) in schema["dependentRequired"].as_object().into_iter().flatten() {
        if needs.as_array().unwrap().iter().any(|field| excluded.contains(field.as_str().unwrap())) {
            excluded.insert(name);
        }
    }
    excluded
}

/// The fields of a table that exclude each other, two by two.
fn pairs(schema: &Json) -> impl Iterator<Item = &Json> {
    let all = schema["allOf"].as_array().into_iter().flatten();
    all.map(|one| &one["not"]["required"]).filter(|pair| pair.is_array())
}

/// How many samples show all that a schema takes; a list within it is a sample of its own.
fn alternatives(root: &Json, schema: &Json) -> usize {
    let schema = resolved(root, schema);
    let own = schema["oneOf"].as_array().map_or(1, Vec::len).max(if pairs(schema).next().is_some() {
        2
    } else {
        1
    });
    let fields = schema["properties"].as_object().into_iter().flatten();
    fields.map(|(_, field)| alternatives(root, field)).fold(own, usize::max)
}

fn scalar(schema: &Json, value: &Json) -> Value {
    match value {
        Json::String(text) if schema["format"] == "date" => Value::Datetime(text.parse().unwrap()),
        Json::String(text) => Value::String(text.clone()),
        Json::Number(n) => Value::Integer(n.as_i64().unwrap()),
        other => panic!("no sample of {other}"),
    }
}

/// The schema itself, or the one below `$defs` that it stands for.
fn resolved<'s>(root: &'s Json, schema: &'s Json) -> &'s Json {
    match schema["$ref"].as_str() {
        Some(path) => root.pointer(path.trim_start_matches('#')).unwrap(),
        None => schema,
    }
}

/// One step down into fields.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Step {
    Field(String),
    /// An item of a list.
    Item(usize),
}

/// Every place in the fields, the whole first, with the schema of each that has one.
fn places(kind: SchemaKind) -> Vec<(Vec<Step>, Json)> {
    let root = schema(kind);
    let mut found = Vec::new();
    walk(&root, &root, &whole(kind), &mut Vec::new(), &mut found);
    found
}

fn walk(root: &Json, schema: &Json, value: &Value, at: &mut Vec<Step>, found: &mut Vec<(Vec<Step>, Json)>) {
    let schema = resolved(root, schema);
    found.push((at.clone(), schema.clone()));
    match value {
        Value::Table(table) => {
            for (name, value) in table {
                at.push(Step::Field(name.clone()));
                walk(root, &schema["properties"][name], value, at, found);
                at.pop();
            }
        }
        Value::Array(list) => {
            let lists = schema["anyOf"].as_array().into_iter().flatten().find(|one| one["type"] == "array");
            for (index, item) in list.iter().enumerate() {
                let items = resolved(root, &lists.unwrap_or(schema)["items"]);
                // Items of a list that are written in several ways have one sample each.
                let way =
                    items["oneOf"].get(index).filter(|way| way.get("type").or(way.get("$ref")).is_some());
                at.push(Step::Item(index));
                walk(root, way.unwrap_or(items), item, at, found);
                at.pop();
            }
        }
        _ => {}
    }
}

/// The value at a place.
fn at<'v>(value: &'v mut Value, place: &[Step]) -> &'v mut Value {
    place.iter().fold(value, |value, step| match step {
        Step::Field(name) => &mut value[name.as_str()],
        Step::Item(index) => &mut value[*index],
    })
}

fn table<'v>(value: &'v mut Value, place: &[Step]) -> &'v mut Table {
    at(value, place).as_table_mut().unwrap()
}
