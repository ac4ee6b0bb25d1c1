//! A figure of an exercise, as it is written: a photo, or the few words of a drawing.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde_json::{Map, Value, json};

use super::each_required;
use super::values::{AnyText, Text, Whole, Word};
use crate::model::figure::{
    Foot, Hold, Joint, Layout, Motion, Pace, Place, Point, Rest, Side, Stance, Thing, View, Weight,
};
use crate::model::vocabulary::{Position, Vocabulary};

/// Centimeters.
type Centimeters = Whole<0, 250>;
/// Hundredths of a photo.
type Hundredths = Whole<0, 90>;

/// A photo (`file`), or a drawing that is made from a few words (`pose`).
#[derive(JsonSchema)]
#[schemars(
    deny_unknown_fields,
    extend("oneOf" = each_required(&["file", "pose"]), "dependentRequired" = belonging())
)]
pub(super) struct Figure {
    /// What it shows, in a sentence or two, for those who cannot see it. Every figure needs one.
    description: Option<AnyText>,
    /// The line below it.
    caption: Option<Text>,
    /// A photo: the file below content/, such as "media/heel-drop.jpg".
    file: Option<Text>,
    /// A photo: how much to cut off at its edges.
    crop: Option<Crop>,
    /// A drawing: one to three moments of the movement, from start to finish.
    #[schemars(length(min = 1, max = 3))]
    pose: Option<Vec<Pose>>,
    /// A drawing: from where it is seen; above is from the front as well, halfway up. On her back and on her front: from
    /// the side or above. On her side: from the front or above. On hands and knees: from the side only.
    view: Option<Word<View>>,
    /// A drawing that is seen from the side: which way she faces, right when left out. Facing left, her left side is near.
    faces: Option<Word<Side>>,
    /// A drawing: its poses beside each other, or the start in a lighter line under the finish.
    layout: Option<Word<Layout>>,
    /// A drawing: how far the upper back is rounded, in degrees.
    rounded_back: Option<Whole<0, 60>>,
    /// A drawing: the things she stands at, sits on or holds.
    props: Option<Vec<Prop>>,
    /// A drawing: points of the body whose way from start to finish is drawn as an arrow. Left out, it is what moves most;
    /// an empty list draws none.
    arrows: Option<Vec<Word<Point>>>,
    /// A drawing: words for points of the body, by numbers in the picture.
    #[schemars(length(max = 6))]
    labels: Option<Vec<Label>>,
}

/// The fields that only a photo has, and those that only a drawing has.
fn belonging() -> Value {
    use crate::entry::figure::{OF_A_DRAWING, OF_A_PHOTO};
    let photo = OF_A_PHOTO.map(|field| (field, "file"));
    let drawing = OF_A_DRAWING.map(|field| (field, "pose"));
    photo.into_iter().chain(drawing).map(|(field, needs)| (field.to_string(), json!([needs]))).collect()
}

/// What is cut off at each edge of a photo, in hundredths of its width or height.
#[derive(JsonSchema)]
#[schemars(deny_unknown_fields)]
struct Crop {
    /// Hundredths of its width, from the left.
    left: Option<Hundredths>,
    /// Hundredths of its width, from the right.
    right: Option<Hundredths>,
    /// Hundredths of its height, from the top.
    top: Option<Hundredths>,
    /// Hundredths of its height, from the bottom.
    bottom: Option<Hundredths>,
}

/// A word for a point of the body.
#[derive(JsonSchema)]
#[schemars(deny_unknown_fields)]
struct Label {
    /// The point.
    at: Word<Point>,
    /// A few words, such as "Over your foot".
    text: Text,
}

/// A thing by its name alone, or with where it stands.
struct Prop;

impl JsonSchema for Prop {
    fn schema_name() -> Cow<'static, str> {
        "Prop".into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let (name, placed) =
            (generator.subschema_for::<Word<Thing>>(), generator.subschema_for::<PlacedProp>());
        json_schema!({ "oneOf": [name, placed] })
    }
}

/// A thing with where it stands.
#[derive(JsonSchema)]
#[schemars(deny_unknown_fields)]
struct PlacedProp {
    /// What it is.
    thing: Word<Thing>,
    /// On which side of her it stands.
    place: Option<Word<Place>>,
    /// Centimeters from the ankle of the leg she stands on to the nearest face of the thing.
    distance: Option<Centimeters>,
    /// Centimeters from the floor to its upper side.
    height: Option<Centimeters>,
    /// A band: where one end is.
    from: Option<Word<Point>>,
    /// A band: where the other end is.
    to: Option<Word<Point>>,
    /// A cushion or a towel: the part of the body that lies on it.
    under: Option<Word<Point>>,
    /// A cushion, a towel or a ball: the knees, feet or hands that it is between.
    between: Option<Word<Point>>,
}

/// One moment of the movement. What is left out is as the position has it; a field of one side goes before that of both.
#[derive(JsonSchema)]
#[schemars(deny_unknown_fields)]
struct Pose {
    /// The position it is made from.
    #[schemars(extend("examples" = ["standing"]))]
    base: Word<Position>,
    /// Both hips. Standing, their flexion leans the trunk forward.
    hip: Option<Hip>,
    /// The left hip.
    left_hip: Option<Hip>,
    /// The right hip.
    right_hip: Option<Hip>,
    /// Both knees.
    knee: Option<Knee>,
    /// The left knee.
    left_knee: Option<Knee>,
    /// The right knee.
    right_knee: Option<Knee>,
    /// Both ankles. Left out on a foot that stands, the body leans so that its weight is carried.
    ankle: Option<Ankle>,
    /// The left ankle.
    left_ankle: Option<Ankle>,
    /// The right ankle.
    right_ankle: Option<Ankle>,
    /// Both shoulders.
    shoulder: Option<Shoulder>,
    /// The left shoulder.
    left_shoulder: Option<Shoulder>,
    /// The right shoulder.
    right_shoulder: Option<Shoulder>,
    /// Both elbows.
    elbow: Option<Elbow>,
    /// The left elbow.
    left_elbow: Option<Elbow>,
    /// The right elbow.
    right_elbow: Option<Elbow>,
    /// Both wrists.
    wrist: Option<Wrist>,
    /// The left wrist.
    left_wrist: Option<Wrist>,
    /// The right wrist.
    right_wrist: Option<Wrist>,
    /// Both shoulder blades.
    shoulder_blade: Option<ShoulderBlade>,
    /// The left shoulder blade.
    left_shoulder_blade: Option<ShoulderBlade>,
    /// The right shoulder blade.
    right_shoulder_blade: Option<ShoulderBlade>,
    /// The back, from the loin to the shoulders.
    spine: Option<Spine>,
    /// The neck.
    neck: Option<Neck>,
    /// How both feet touch.
    feet: Option<Word<Foot>>,
    /// How the left foot touches.
    left_foot: Option<Word<Foot>>,
    /// How the right foot touches.
    right_foot: Option<Word<Foot>>,
    /// What both hands rest on.
    hold: Option<Word<Hold>>,
    /// What the left hand rests on.
    left_hold: Option<Word<Hold>>,
    /// What the right hand rests on.
    right_hold: Option<Word<Hold>>,
    /// How high both hands hold, in centimeters over the floor.
    hold_at: Option<Centimeters>,
    /// How high the left hand holds, in centimeters over the floor.
    left_hold_at: Option<Centimeters>,
    /// How high the right hand holds, in centimeters over the floor.
    right_hold_at: Option<Centimeters>,
    /// What the back rests on.
    back: Option<Word<Rest>>,
    /// How the feet stand to each other.
    stance: Option<Word<Stance>>,
    /// The foot in front; the right one when left out.
    front_foot: Option<Word<Side>>,
    /// How far apart the feet are when the stance is wide or a step, in centimeters from ankle to ankle.
    stride: Option<Centimeters>,
    /// The foot that has moved since the pose before; the other one stands where it stood.
    moved: Option<Word<Side>>,
    /// The foot that carries the weight.
    weight: Option<Word<Weight>>,
    /// How high the hips are lifted from where they lie, in centimeters.
    hips_raised: Option<Centimeters>,
    /// How high both feet are over the floor, in centimeters.
    jump: Option<Centimeters>,
    /// How fast she comes here from the pose before: a drop or a stamp is quick.
    pace: Option<Word<Pace>>,
}

/// How far a joint is turned, one type for each joint.
macro_rules! turns {
    ($($joint:ident)+) => {$(
        struct $joint;

        impl JsonSchema for $joint {
            fn schema_name() -> Cow<'static, str> {
                stringify!($joint).into()
            }

            fn json_schema(_: &mut SchemaGenerator) -> Schema {
                turns(Joint::$joint)
            }
        }
    )+};
}

turns! { Hip Knee Ankle Shoulder Elbow Wrist ShoulderBlade Spine Neck }

/// The motions of a joint in degrees from the anatomical position, of two opposite ones only one.
fn turns(joint: Joint) -> Schema {
    let mut fields = Map::new();
    let mut opposites = Vec::new();
    for motion in joint.motions() {
        let (name, opposite) = (motion.word(), motion.opposite().word());
        let about = json!({ "description": about(*motion), "type": "integer", "minimum": 0, "maximum": 180 });
        if fields.contains_key(opposite) {
            opposites.push(json!({ "not": { "required": [opposite, name] } }));
        }
        fields.insert(name.to_string(), about);
    }
    json_schema!({
        "type": "object",
        "properties": fields,
        "additionalProperties": false,
        "allOf": opposites,
    })
}

fn about(motion: Motion) -> &'static str {
    match motion {
        Motion::Flexion => "Degrees it is bent; at the shoulder and the hip, forward.",
        Motion::Extension => "Degrees it is stretched past straight; at the shoulder and the hip, backward.",
        Motion::Abduction => "Degrees the limb is moved out to the side.",
        Motion::Adduction => "Degrees the limb is moved in, across the middle of the body.",
        Motion::InternalRotation => "Degrees the limb is turned in, about its own length.",
        Motion::ExternalRotation => "Degrees the limb is turned out, about its own length.",
        Motion::Dorsiflexion => {
            "Degrees the foot is drawn up; of a foot that stands, the shin leaned forward."
        }
        Motion::Plantarflexion => "Degrees the foot is pointed.",
        Motion::LateralFlexionLeft => "Degrees of a bend to the left side.",
        Motion::LateralFlexionRight => "Degrees of a bend to the right side.",
        Motion::RotationLeft => "Degrees of a turn to the left.",
        Motion::RotationRight => "Degrees of a turn to the right.",
        Motion::Protraction => "Degrees it is drawn forward.",
        Motion::Retraction => "Degrees it is drawn back.",
        Motion::Elevation => "Degrees it is lifted.",
        Motion::Depression => "Degrees it is lowered.",
    }
}
