//! An exercise, as it is written.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde_json::{Value, json};

use super::dose::Dose;
use super::each_required;
use super::figure::Figure;
use super::values::{Date, Demand, Precaution, Text, Word};
use crate::model::vocabulary::{CautionLevel, Component, Position, Region, Support, Surface};

/// One movement. The fields stand in the block that opens the file, the prose below it.
#[derive(JsonSchema)]
#[schemars(title = "An exercise", deny_unknown_fields, extend("allOf" = [surface_has_a_position(), strength_trains()]))]
pub(super) struct Exercise {
    /// What clients call it.
    title: Text,
    /// Other names by which people know it: the library finds it by them, and they stand under its title.
    also_called: Option<Vec<Text>>,
    /// One sentence that says what she does.
    summary: Text,
    /// The training component it belongs to.
    component: Word<Component>,
    /// The position it is done in.
    position: Word<Position>,
    /// What it is done on, where it is done lying, kneeling or on hands and knees: the floor unless it says so.
    surface: Option<Word<Surface>>,
    /// What the hands hold.
    support: Option<Vec<Word<Support>>>,
    /// What it needs, in words.
    equipment: Option<Vec<Text>>,
    /// What the movement asks of the body; [] when none of the demands fits. Every demand that a served precaution
    /// restricts must be answered.
    demands: Vec<Demand>,
    /// The regions of the body that it trains; required for strength.
    trains: Option<Vec<Word<Region>>>,
    /// How much and how often: at least one of reps, hold and time.
    #[schemars(extend("anyOf" = each_required(&["reps", "hold", "time"])))]
    dose: Dose,
    /// The same movement done another safe way. An exercise has at least one variation or regression.
    variation: Option<Vec<Variation>>,
    /// Easier: another exercise, or a change in words.
    regression: Option<Vec<Change>>,
    /// Harder: another exercise, or a change in words.
    progression: Option<Vec<Change>>,
    /// Who must take care, and how. An exercise has at least one.
    caution: Option<Vec<Caution>>,
    /// Photos, and drawings that the program makes from a few words.
    figure: Option<Vec<Figure>>,
    /// Who approved it clinically, and when.
    reviewed: Option<Reviewed>,
    /// Findings that are accepted, each with its reason.
    accept: Option<Vec<Accept>>,
}

/// Another safe way. Fields that are left out are those of the exercise.
#[derive(JsonSchema)]
#[schemars(deny_unknown_fields, extend("allOf" = [either_steps_or_kept(), surface_has_a_position()]))]
struct Variation {
    /// What clients call it, such as "Seated heel stamp".
    title: Text,
    /// What it is, in a sentence; with keeps_steps, the one change.
    text: Text,
    /// Its own steps, from the start to the end: either these or keeps_steps.
    #[schemars(length(min = 1))]
    steps: Option<Vec<Text>>,
    /// The steps of the exercise hold, but for the one change that the text says.
    keeps_steps: Option<bool>,
    /// The position, where it differs.
    position: Option<Word<Position>>,
    /// What it is done on, where that differs.
    surface: Option<Word<Surface>>,
    /// What the hands hold, where that differs; [] for nothing.
    support: Option<Vec<Word<Support>>>,
    /// What it needs, where that differs; [] for nothing.
    equipment: Option<Vec<Text>>,
    /// Demands of the exercise that this form does not make.
    removes: Option<Vec<Demand>>,
    /// Demands that this form makes beside those of the exercise.
    adds: Option<Vec<Demand>>,
    /// The fields of the dose that differ.
    dose: Option<Dose>,
    /// Pictures of this form.
    figure: Option<Vec<Figure>>,
}

/// An easier or a harder way: another exercise or a change in words, or both.
#[derive(JsonSchema)]
#[schemars(deny_unknown_fields, extend("anyOf" = each_required(&["exercise", "text"])))]
struct Change {
    /// The id of the other exercise: the name of its file without .md.
    exercise: Option<Text>,
    /// What to change.
    text: Option<Text>,
    /// Demands that fall away.
    removes: Option<Vec<Demand>>,
    /// Demands that are added.
    adds: Option<Vec<Demand>>,
    /// The fields of the dose that differ.
    dose: Option<Dose>,
}

/// A written safety note.
#[derive(JsonSchema)]
#[schemars(deny_unknown_fields, extend("allOf" = [everyone_adapts()]))]
struct Caution {
    /// Whom it is for: "everyone", or a list of precautions.
    #[schemars(rename = "for")]
    applies: Applies,
    /// What they must do: stop, not do this exercise; adapt, do it the way the text says; ask, ask their clinician first.
    level: Word<CautionLevel>,
    /// The caution in plain words.
    text: Text,
    /// The demands that it speaks of; needed where a precaution that it names restricts several demands of the exercise.
    about: Option<Vec<Demand>>,
    /// The form to do instead: the title of a variation, or the id of an exercise that a regression leads to.
    #[schemars(rename = "use")]
    instead: Option<Text>,
    /// What it changes of the dose, for those it names.
    dose: Option<Dose>,
    /// The title of the one variation that it belongs to.
    form: Option<Text>,
}

/// What is done sitting or standing is done on no surface.
fn surface_has_a_position() -> Value {
    json!({
        "if": { "properties": { "position": { "enum": ["seated", "standing"] } }, "required": ["position"] },
        "then": { "not": { "required": ["surface"] } },
    })
}

fn strength_trains() -> Value {
    json!({
        "if": { "properties": { "component": { "const": "strength" } }, "required": ["component"] },
        "then": { "required": ["trains"], "properties": { "trains": { "minItems": 1 } } },
    })
}

fn either_steps_or_kept() -> Value {
    json!({ "not": { "required": ["steps", "keeps_steps"] } })
}

/// A caution for everyone bars nobody.
fn everyone_adapts() -> Value {
    json!({
        "if": { "properties": { "for": { "const": "everyone" } }, "required": ["for"] },
        "then": { "not": { "required": ["use"] }, "properties": { "level": { "const": "adapt" } } },
    })
}

/// Whom a caution is for.
struct Applies;

impl JsonSchema for Applies {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        "Applies".into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let precaution = generator.subschema_for::<Precaution>();
        json_schema!({
            "anyOf": [
                { "type": "array", "items": precaution, "minItems": 1 },
                { "type": "string", "const": "everyone" },
            ],
        })
    }
}

/// A clinical review.
#[derive(JsonSchema)]
#[schemars(deny_unknown_fields)]
struct Reviewed {
    /// Name and profession, such as "A. Reviewer, PT".
    by: Text,
    /// The day.
    on: Date,
    /// The fingerprint of what was reviewed; the command approve writes it.
    of: Option<Text>,
}

/// A reasoned exception to a finding.
#[derive(JsonSchema)]
#[schemars(deny_unknown_fields)]
pub(super) struct Accept {
    /// The rule; where it finds several things here, with words of the one that is meant.
    finding: Text,
    /// The reason, in a sentence.
    because: Text,
    /// Who accepted it; needed for a rule of safety.
    by: Option<Text>,
    /// The day; needed for a rule of safety.
    on: Option<Date>,
}
