//! JSON Schema (2020-12) of what authors write: the fields of each kind of file, for editors that check them while
//! they are typed. The types here mirror the files as they are written, not the model that is read from them;
//! tests hold them to what the reader asks for.
//!
//! A schema sees less than the reader: not whether a range has its low end first and its ends in bounds, whether a
//! demand or a precaution is known to the workspace, or whether a date stands in quotes. It never refuses what the
//! reader takes.

#![expect(dead_code, reason = "the fields of these types describe what authors write, and are never filled")]

mod client;
mod dose;
mod exercise;
mod figure;
mod page;
mod practice;
mod series;
mod site;
mod values;
mod week;

#[cfg(test)]
mod tests;

use schemars::generate::SchemaSettings;
use schemars::transform::RecursiveTransform;
use schemars::{JsonSchema, Schema};
use serde_json::{Value, json};

use crate::model::vocabulary::Vocabulary;

/// A kind of file whose fields have a schema.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SchemaKind {
    Site,
    Series,
    Exercise,
    Week,
    Page,
    Client,
    Practice,
}

impl Vocabulary for SchemaKind {
    const ALL: &'static [SchemaKind] = &[
        SchemaKind::Site,
        SchemaKind::Series,
        SchemaKind::Exercise,
        SchemaKind::Week,
        SchemaKind::Page,
        SchemaKind::Client,
        SchemaKind::Practice,
    ];

    fn word(self) -> &'static str {
        match self {
            SchemaKind::Site => "site",
            SchemaKind::Series => "series",
            SchemaKind::Exercise => "exercise",
            SchemaKind::Week => "week",
            SchemaKind::Page => "page",
            SchemaKind::Client => "client",
            SchemaKind::Practice => "practice",
        }
    }
}

impl SchemaKind {
    /// The files of this kind, and what they say.
    pub fn about(self) -> &'static str {
        match self {
            SchemaKind::Site => "site.toml: whose site it is, its language, its print sizes, its rules",
            SchemaKind::Series => {
                "content/series/ID/series.toml: title, audience, start, the precautions it serves"
            }
            SchemaKind::Exercise => "the block that opens content/exercises/ID.md",
            SchemaKind::Week => "the block that opens content/series/ID/week-NN.md",
            SchemaKind::Page => "the block that opens content/pages/ID.md",
            SchemaKind::Client => "clients/NAME.toml: one person's profile",
            SchemaKind::Practice => "a client's days, as the page \"My days\" saves them to a file",
        }
    }
}

/// The schema of a kind. `rules` are those whose level a site may change, each with what it finds: the review
/// knows them.
pub fn of(kind: SchemaKind, rules: &[(&str, String)]) -> Schema {
    match kind {
        SchemaKind::Site => site::with_rules(root::<site::Site>(), rules),
        SchemaKind::Series => root::<series::Series>(),
        SchemaKind::Exercise => root::<exercise::Exercise>(),
        SchemaKind::Week => root::<week::Week>(),
        SchemaKind::Page => root::<page::Page>(),
        SchemaKind::Client => root::<client::Client>(),
        SchemaKind::Practice => nullable::<practice::Practice>(),
    }
}

fn root<T: JsonSchema>() -> Schema {
    let settings = SchemaSettings::draft2020_12()
        .with_transform(RecursiveTransform(without_null))
        .with_transform(RecursiveTransform(on_one_line));
    settings.into_generator().into_root_schema_for::<T>()
}

/// The schema of a file in JSON, which says null for what is not known.
fn nullable<T: JsonSchema>() -> Schema {
    let settings = SchemaSettings::draft2020_12().with_transform(RecursiveTransform(on_one_line));
    settings.into_generator().into_root_schema_for::<T>()
}

/// A description has the line ends of the comment it is from; an editor breaks lines where it needs to.
fn on_one_line(schema: &mut Schema) {
    if let Some(Value::String(description)) = schema.get_mut("description") {
        *description = description.replace('\n', " ");
    }
}

/// The files know no null: what may be left out is only absent.
fn without_null(schema: &mut Schema) {
    if let Some(Value::Array(types)) = schema.get_mut("type") {
        types.retain(|kind| kind != "null");
        if let [only] = types.as_slice() {
            let only = only.clone();
            schema.insert("type".to_string(), only);
        }
    }
    if let Some(Value::Array(values)) = schema.get_mut("enum") {
        values.retain(|value| !value.is_null());
    }
    if let Some(Value::Array(any)) = schema.get_mut("anyOf") {
        any.retain(|schema| schema != &json!({ "type": "null" }));
        if let [Value::Object(only)] = any.as_slice() {
            let only = only.clone();
            schema.remove("anyOf");
            only.into_iter().for_each(|(keyword, value)| {
                schema.insert(keyword, value);
            });
        }
    }
}

/// One subschema for each of these fields, which asks for it.
fn each_required(fields: &[&str]) -> Value {
    fields.iter().map(|field| json!({ "required": [field] })).collect()
}
