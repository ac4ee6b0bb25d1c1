//! A picture of an exercise: a photo, or a figure that is drawn from a few words.

use std::sync::OnceLock;

use serde::{Deserialize, Serialize};

use super::source::{Span, Spanned};
use super::vocabulary::{Position, Vocabulary, vocabulary};

/// One `[[figure]]` of an exercise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Figure {
    pub span: Span,
    /// Empty when the author gave none; the review reports that.
    pub description: Spanned<String>,
    pub caption: Option<Spanned<String>>,
    pub shows: Shows,
}

impl Figure {
    pub fn photo(&self) -> Option<&Photo> {
        match &self.shows {
            Shows::Photo(photo) => Some(photo),
            Shows::Drawing(_) => None,
        }
    }

    pub fn drawing(&self) -> Option<&Drawing> {
        match &self.shows {
            Shows::Photo(_) => None,
            Shows::Drawing(drawing) => Some(drawing),
        }
    }
}

/// What a figure is made of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Shows {
    Photo(Photo),
    Drawing(Drawing),
}

/// A photo, by its name below `content/`, such as `media/heel-drop.jpg`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Photo {
    pub file: Spanned<String>,
    pub crop: Option<Crop>,
}

/// How much of a photo is cut off at each edge, in hundredths of its width or height.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Crop {
    pub left: u8,
    pub right: u8,
    pub top: u8,
    pub bottom: u8,
}

/// A figure to be drawn.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Drawing {
    pub span: Span,
    pub view: Spanned<View>,
    /// Which way she faces where she is seen from the side; right when the author did not say.
    pub faces: Option<Spanned<Side>>,
    pub layout: Layout,
    /// How much the upper back is rounded, in degrees.
    pub rounded_back: i16,
    /// From start to finish: one, two or three.
    pub poses: Vec<Pose>,
    pub props: Vec<Prop>,
    /// The points of the body whose way from the first to the last pose is drawn as an arrow; `None` leaves it to what
    /// moves most.
    pub arrows: Option<Vec<Spanned<Point>>>,
    pub labels: Vec<Label>,
    /// What its poses ask of the body, once `reckon` has worked it out.
    pub asked: Asked,
}

/// The demands that the poses of a drawing show, each with the pose; where a picture cannot tell which of several it is,
/// all of these. A drawing does not change once it is read, and its bodies in space are dear, so this is kept.
#[derive(Clone, Debug, Default)]
pub struct Asked(OnceLock<Vec<(usize, &'static [&'static str])>>);

impl Asked {
    pub fn get_or_reckon(
        &self,
        reckon: impl FnOnce() -> Vec<(usize, &'static [&'static str])>,
    ) -> &[(usize, &'static [&'static str])] {
        self.0.get_or_init(reckon)
    }
}

/// What was worked out of a drawing is no part of what it is.
impl PartialEq for Asked {
    fn eq(&self, _: &Asked) -> bool {
        true
    }
}

impl Eq for Asked {}

/// A word for a point of the body.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Label {
    pub span: Span,
    pub at: Point,
    pub text: Spanned<String>,
}

/// One moment of the movement.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pose {
    pub span: Span,
    pub base: Spanned<Position>,
    /// The joints that differ from the base.
    pub turns: Vec<Turn>,
    /// How each foot touches, left and right; `None` leaves it to the base.
    pub feet: Pair<Option<Spanned<Foot>>>,
    /// What each hand rests on or holds; `None` leaves it to the joints of the arm.
    pub holds: Pair<Option<Spanned<Hold>>>,
    /// Where each hand holds, in centimeters over the floor.
    pub hold_at: Pair<Option<Spanned<i16>>>,
    pub back: Option<Spanned<Rest>>,
    pub stance: Option<Spanned<Stance>>,
    pub front_foot: Option<Spanned<Side>>,
    /// How far apart the feet are in a stance that is wide or a step, in centimeters from ankle to ankle.
    pub stride: Option<Spanned<i16>>,
    /// The foot that has moved since the pose before: the other one stands where it stood.
    pub moved: Option<Spanned<Side>>,
    /// The foot that carries the weight.
    pub weight: Option<Spanned<Weight>>,
    /// How high the hips are lifted from where they lie, in centimeters.
    pub hips_raised: Option<Spanned<i16>>,
    /// How high both feet are over the floor, in centimeters.
    pub jump: Option<Spanned<i16>>,
    /// How fast she comes here from the pose before.
    pub pace: Option<Spanned<Pace>>,
}

/// A value for each side of the body.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Pair<T> {
    pub left: T,
    pub right: T,
}

impl<T> Pair<T> {
    pub fn of(&self, side: Side) -> &T {
        match side {
            Side::Left => &self.left,
            Side::Right => &self.right,
        }
    }

    pub fn of_mut(&mut self, side: Side) -> &mut T {
        match side {
            Side::Left => &mut self.left,
            Side::Right => &mut self.right,
        }
    }

    /// What the function makes of each side.
    pub fn from_fn(mut make: impl FnMut(Side) -> T) -> Pair<T> {
        Pair { left: make(Side::Left), right: make(Side::Right) }
    }
}

/// One joint turned by so many degrees from the anatomical position.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Turn {
    pub joint: Joint,
    /// `None` for a joint of the midline.
    pub side: Option<Side>,
    pub motion: Motion,
    pub degrees: Spanned<i16>,
}

/// A thing in the picture.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Prop {
    pub thing: Spanned<Thing>,
    pub place: Option<Spanned<Place>>,
    /// From the ankle of the standing leg to the nearest face of the thing, in centimeters.
    pub distance: Option<Spanned<i16>>,
    /// Of its upper side over the floor, in centimeters.
    pub height: Option<Spanned<i16>>,
    /// For a band: where its ends are.
    pub from: Option<Spanned<Point>>,
    pub to: Option<Spanned<Point>>,
    /// For a cushion or a towel: the part of the body that lies on it.
    pub under: Option<Spanned<Point>>,
    /// For a cushion, a towel or a ball: the parts of the body that it is between.
    pub between: Option<Spanned<Point>>,
}

vocabulary! {
    /// From where the figure is seen; from above is from the front as well, halfway up.
    View { Side = "side", Front = "front", Above = "above" }
}

vocabulary! {
    /// How several poses share the picture.
    Layout { Beside = "beside", Over = "over" }
}

vocabulary! {
    Side { Left = "left", Right = "right" }
}

impl Side {
    pub fn other(self) -> Side {
        match self {
            Side::Left => Side::Right,
            Side::Right => Side::Left,
        }
    }
}

vocabulary! {
    /// A joint, or what moves like one.
    Joint {
        Hip = "hip", Knee = "knee", Ankle = "ankle", Shoulder = "shoulder", Elbow = "elbow", Wrist = "wrist",
        ShoulderBlade = "shoulder_blade", Spine = "spine", Neck = "neck",
    }
}

vocabulary! {
    /// A movement of a joint, in the trade's terms.
    Motion {
        Flexion = "flexion", Extension = "extension", Abduction = "abduction", Adduction = "adduction",
        InternalRotation = "internal_rotation", ExternalRotation = "external_rotation",
        Dorsiflexion = "dorsiflexion", Plantarflexion = "plantarflexion",
        LateralFlexionLeft = "lateral_flexion_left", LateralFlexionRight = "lateral_flexion_right",
        RotationLeft = "rotation_left", RotationRight = "rotation_right",
        Protraction = "protraction", Retraction = "retraction",
        Elevation = "elevation", Depression = "depression",
    }
}

impl Motion {
    /// The movement the other way, which makes the same angle negative.
    pub fn opposite(self) -> Motion {
        use Motion::*;
        match self {
            Flexion => Extension,
            Extension => Flexion,
            Abduction => Adduction,
            Adduction => Abduction,
            InternalRotation => ExternalRotation,
            ExternalRotation => InternalRotation,
            Dorsiflexion => Plantarflexion,
            Plantarflexion => Dorsiflexion,
            LateralFlexionLeft => LateralFlexionRight,
            LateralFlexionRight => LateralFlexionLeft,
            RotationLeft => RotationRight,
            RotationRight => RotationLeft,
            Protraction => Retraction,
            Retraction => Protraction,
            Elevation => Depression,
            Depression => Elevation,
        }
    }
}

impl Joint {
    /// True for a joint that each side of the body has.
    pub fn is_paired(self) -> bool {
        !matches!(self, Joint::Spine | Joint::Neck)
    }

    /// The movements it has, each with its opposite behind it.
    pub fn motions(self) -> &'static [Motion] {
        use Motion::*;
        match self {
            Joint::Hip | Joint::Shoulder => {
                &[Flexion, Extension, Abduction, Adduction, ExternalRotation, InternalRotation]
            }
            Joint::Knee | Joint::Elbow | Joint::Wrist => &[Flexion, Extension],
            Joint::Ankle => &[Dorsiflexion, Plantarflexion],
            Joint::ShoulderBlade => &[Protraction, Retraction, Elevation, Depression],
            Joint::Spine => {
                &[Flexion, Extension, LateralFlexionLeft, LateralFlexionRight, RotationLeft, RotationRight]
            }
            Joint::Neck => &[
                Flexion,
                Extension,
                LateralFlexionLeft,
                LateralFlexionRight,
                RotationLeft,
                RotationRight,
                Protraction,
                Retraction,
            ],
        }
    }
}

vocabulary! {
    /// How a foot touches.
    Foot { Flat = "flat", Toes = "toes", Heel = "heel", Step = "step", Lifted = "lifted" }
}

vocabulary! {
    /// What a hand rests on.
    Hold {
        Counter = "counter", Wall = "wall", Chair = "chair", Rail = "rail", Floor = "floor", Bed = "bed",
        Thigh = "thigh", Hip = "hip", HipCrease = "hip-crease", Chest = "chest",
    }
}

vocabulary! {
    /// What the back rests on.
    Rest { Wall = "wall", Chair = "chair" }
}

vocabulary! {
    /// How the feet stand to each other.
    Stance {
        Together = "together", HipWidth = "hip-width", Wide = "wide", SemiTandem = "semi-tandem",
        Tandem = "tandem", Step = "step",
    }
}

vocabulary! {
    /// Which foot carries the weight.
    Weight { Even = "even", Left = "left", Right = "right" }
}

vocabulary! {
    /// How fast a pose is reached.
    Pace { Steady = "steady", Quick = "quick" }
}

vocabulary! {
    /// A thing that a figure stands at, sits on or holds.
    Thing {
        Chair = "chair", Wall = "wall", Counter = "counter", Floor = "floor", Step = "step", Rail = "rail",
        Bed = "bed", Cushion = "cushion", Towel = "towel", Band = "band", Ball = "ball", Weights = "weights",
        Line = "line",
    }
}

vocabulary! {
    /// On which side of the body a thing stands.
    Place { Ahead = "ahead", Behind = "behind", Left = "left", Right = "right" }
}

vocabulary! {
    /// A point of the body.
    Point {
        Head = "head", Chin = "chin", Hips = "hips", Back = "back", Belly = "belly", Hands = "hands", Feet = "feet", Knees = "knees",
        LeftHand = "left-hand", RightHand = "right-hand", LeftFoot = "left-foot", RightFoot = "right-foot",
        LeftKnee = "left-knee", RightKnee = "right-knee", LeftElbow = "left-elbow", RightElbow = "right-elbow",
        LeftHeel = "left-heel", RightHeel = "right-heel", LeftShoulder = "left-shoulder",
        RightShoulder = "right-shoulder",
    }
}
