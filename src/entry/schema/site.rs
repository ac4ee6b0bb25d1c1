//! `site.toml`, as it is written.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde_json::{Map, Value, json};

use super::values::{
    Demand, Email, NewId, ParameterName, Phone, Points, SiteAddress, Text, Word, amount,
    built_in_precautions, words,
};
use crate::model::site::RuleSetting;
use crate::model::targets;
use crate::model::vocabulary::{Extent, Paper, Restriction};

/// The settings of a workspace: whose site it is, its language, its print sizes, its rules.
#[derive(JsonSchema)]
#[schemars(title = "A site", deny_unknown_fields)]
pub(super) struct Site {
    /// What the site is called.
    title: Text,
    /// One or two sentences on what it is.
    summary: Option<Text>,
    /// The language of the texts: "en" or "es", or another that the theme has words for.
    language: Text,
    /// The address that the site will have.
    address: SiteAddress,
    /// The theme: "wideleaf", or a folder below themes/.
    theme: Option<Text>,
    /// The name by which the address of a video elsewhere says a moment: "t" where ?t=65 leads to 1:05.
    time_parameter: Option<ParameterName>,
    /// Who prepares the series, and how to reach her.
    educator: Educator,
    /// Extents, sizes and papers of the handouts.
    print: Option<Print>,
    /// Weekly targets.
    targets: Option<Targets>,
    /// Levels of rules: rule-name = "off", "note", "warning" or "error".
    rules: Option<Rules>,
    /// Demands of your own.
    demand: Option<Vec<NewDemand>>,
    /// Precautions of your own, or other rows for a built-in one.
    precaution: Option<Vec<OwnPrecaution>>,
}

/// The person who prepares the series.
#[derive(JsonSchema)]
#[schemars(deny_unknown_fields)]
struct Educator {
    /// The name as clients know it.
    name: Text,
    /// Letters after the name, or the profession.
    credentials: Option<Text>,
    /// The name of the clinic.
    clinic: Option<Text>,
    /// The postal address, line by line.
    place: Option<Vec<Text>>,
    /// The telephone number.
    phone: Option<Phone>,
    /// The address for electronic mail.
    email: Option<Email>,
    /// The number to call in an emergency where the clients live.
    emergency: Option<Phone>,
    /// The mark of the clinic, SVG or PNG: its file in content, such as media/clinic.svg.
    logo: Option<Text>,
}

/// Extents, sizes and papers of the handouts.
#[derive(JsonSchema)]
#[schemars(deny_unknown_fields)]
struct Print {
    /// How much they say: each exercise on a card, everything that is known, or a week on one side; cards when left out.
    extents: Option<Vec<Word<Extent>>>,
    /// Sizes of the letters in points; 18 and 24 when left out.
    sizes: Option<Vec<Points>>,
    /// Papers; both when left out.
    papers: Option<Vec<Word<Paper>>>,
}

/// A demand of the workspace's own.
#[derive(JsonSchema)]
#[schemars(deny_unknown_fields)]
struct NewDemand {
    /// Small letters, digits and hyphens: what exercises name it by.
    id: NewId,
    /// What clients call it.
    label: Text,
}

/// A precaution of the workspace's own, which needs a label, or other rows for a built-in one.
#[derive(JsonSchema)]
#[schemars(deny_unknown_fields, extend("anyOf" = labeled_or_built_in()))]
struct OwnPrecaution {
    /// Small letters, digits and hyphens: what cautions, series and profiles name it by.
    id: NewId,
    /// What clients call it.
    label: Option<Text>,
    /// What it says about demands.
    restricts: Option<Vec<Row>>,
}

/// What a precaution says about one demand.
#[derive(JsonSchema)]
#[schemars(deny_unknown_fields)]
struct Row {
    /// The demand.
    demand: Demand,
    /// What the precaution says about it; "none" takes a row back.
    by: By,
    /// What to do instead.
    instead: Option<Text>,
    /// Where the row is from, or "common practice, no source".
    source: Text,
}

pub(super) struct Targets;
struct Rules;
struct By;

macro_rules! in_place {
    ($($name:ident => $schema:expr;)+) => {$(
        impl JsonSchema for $name {
            fn inline_schema() -> bool {
                true
            }

            fn schema_name() -> Cow<'static, str> {
                stringify!($name).into()
            }

            fn json_schema(_: &mut SchemaGenerator) -> Schema {
                $schema
            }
        }
    )+};
}

in_place! {
    Targets => json_schema!({ "type": "object", "properties": targets(), "additionalProperties": false });
    Rules => json_schema!({ "type": "object", "additionalProperties": { "enum": RuleSetting::WORDS } });
    By => json_schema!({ "type": "string", "enum": restrictions() });
}

fn targets() -> Map<String, Value> {
    let described = targets::ALL.iter().map(|target| {
        let mut schema = amount(target.bounds.0, target.bounds.1);
        let says = format!("When left out, {}: {}.", target.default, target.source_as_read());
        schema.insert("description".to_string(), says.into());
        (target.name.to_string(), schema.to_value())
    });
    described.collect()
}

fn restrictions() -> Vec<&'static str> {
    let mut words = words::<Restriction>();
    words.push("none");
    words
}

fn labeled_or_built_in() -> Value {
    json!([{ "required": ["label"] }, { "properties": { "id": { "enum": built_in_precautions() } } }])
}

/// The schema of the site with the names of the rules that a site may change.
pub(super) fn with_rules(mut site: Schema, rules: &[(&str, String)]) -> Schema {
    let named: Map<String, Value> = rules
        .iter()
        .map(|(name, finds)| (name.to_string(), json!({ "enum": RuleSetting::WORDS, "description": finds })))
        .collect();
    if let Some(Value::Object(schema)) = site.pointer_mut("/properties/rules") {
        schema.insert("properties".to_string(), Value::Object(named));
        schema.insert("additionalProperties".to_string(), false.into());
    }
    site
}
