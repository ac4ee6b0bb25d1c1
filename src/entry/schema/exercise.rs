//! An exercise, as it is written.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};

use super::dose::Dose;
use super::each_required;
use super::figure::Figure;
use super::values::{Date, Demand, Precaution, Text, Word};
use crate::model::vocabulary::{CautionLevel, Component, Position, Support};

/// One movement. The fields stand in the block that opens the file, the prose below it.
#[derive(JsonSchema)]
#[schemars(title = "An exercise", deny_unknown_fields)]
pub(super) struct Exercise {
    /// What clients call it.
    title: Text,
    /// One sentence that says what she does.
    summary: Text,
    /// The training component it belongs to.
    component: Word<Component>,
    /// The position it is done in.
    position: Word<Position>,
    /// What the hands hold.
    support: Option<Vec<Word<Support>>>,
    /// What it needs, in words.
    equipment: Option<Vec<Text>>,
    /// What the movement asks of the body; [] when none of the demands fits. Every demand that a served precaution
    /// restricts must be answered.
    demands: Vec<Demand>,
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
#[schemars(deny_unknown_fields)]
struct Variation {
    /// What clients call it, such as "Seated heel stamp".
    title: Text,
    /// How it is done.
    text: Text,
    /// The position, where it differs.
    position: Option<Word<Position>>,
    /// What the hands hold, where that differs.
    support: Option<Vec<Word<Support>>>,
    /// Demands of the exercise that this way does not make.
    removes: Option<Vec<Demand>>,
    /// Demands that this way makes beside those of the exercise.
    adds: Option<Vec<Demand>>,
    /// The fields of the dose that differ.
    dose: Option<Dose>,
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
#[schemars(deny_unknown_fields)]
struct Caution {
    /// Whom it is for: "everyone", or a list of precautions.
    #[schemars(rename = "for")]
    applies: Applies,
    /// What they must do: stop, not do this exercise; adapt, do it the way the text says; ask, ask their clinician first.
    level: Word<CautionLevel>,
    /// The caution in plain words.
    text: Text,
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
                { "type": "string", "const": "everyone" },
                { "type": "array", "items": precaution, "minItems": 1 },
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
}

/// A reasoned exception to a finding.
#[derive(JsonSchema)]
#[schemars(deny_unknown_fields)]
pub(super) struct Accept {
    /// The rule; where it finds several things here, with words of the one that is meant.
    finding: Text,
    /// The reason, in a sentence.
    because: Text,
}
