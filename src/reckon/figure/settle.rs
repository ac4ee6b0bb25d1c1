//! Places a pose in space: from where the body touches, joint by joint, so that its weight is carried.

mod feet;
mod kneeling;
mod lying;
mod seated;
mod standing;

use glam::{DMat3, DVec2, DVec3};

use super::angles::Angles;
use super::body::{Arm, Body, Leg, Root, Trunk, sign};
use super::idle::Heeded;
use super::props::{self, PlacedThing, Reach, WRIST, held};
use super::segments::{ANKLE_HEIGHT, BALL, FOREARM, HEEL, SHANK, THIGH, UPPER_ARM};
use crate::model::figure::{Drawing, Foot, Hold, Joint, Motion, Pair, Pose, Side, View};
use crate::model::vocabulary::Position;

pub(super) use feet::places;

/// A pose in space, with what it could not reach.
#[derive(Clone, Debug)]
pub struct Settled {
    pub body: Body,
    /// How each foot touches.
    pub feet: Pair<Foot>,
    /// What each hand rests on.
    pub holds: Pair<Option<Hold>>,
    /// How far each hand stays from what it holds.
    pub hand_gaps: Pair<f64>,
    /// How far each foot stays from where it stands.
    pub foot_gaps: Pair<f64>,
}

/// How a head lies on its forehead when nobody speaks of the neck: lifted so far that there is room to breathe.
const FACE_DOWN: f64 = -0.5;
/// How arms rest before a body on its right side where they would be seen to hang over the edge of a bed: the upper one
/// before the belly, the lower one with its hand before the face; the shoulder, and the elbow.
const BENT_ARMS: Pair<(Root, f64)> = Pair {
    left: (Root { flexion: 0.75, abduction: -0.45, outward: 0.0 }, 0.7),
    right: (Root { flexion: 1.35, abduction: 0.0, outward: 0.0 }, 2.0),
};
const SIDES: [Side; 2] = [Side::Left, Side::Right];

/// How a leg that does not stand hangs in a base, in radians; `ankle` is its dorsiflexion.
struct FreeLeg {
    root: Root,
    knee: f64,
    ankle: f64,
}

fn free(root: Root, knee: f64, ankle: f64) -> FreeLeg {
    FreeLeg { root, knee, ankle }
}

/// What settling a pose needs to know of its drawing.
pub(super) struct Ground<'s, 'd> {
    pub(super) drawing: &'d Drawing,
    pub(super) things: &'s [PlacedThing<'d>],
    /// The ankles of each pose over the ground.
    pub(super) places: &'s [Pair<DVec2>],
    /// The turns that are drawn.
    pub(super) heeded: &'s Heeded,
}

impl Ground<'_, '_> {
    /// Every pose of the drawing, in its order.
    pub(super) fn settle(&self) -> Vec<Settled> {
        self.drawing.poses.iter().zip(self.places).map(|(pose, places)| self.pose(pose, places)).collect()
    }

    fn pose(&self, pose: &Pose, places: &Pair<DVec2>) -> Settled {
        match pose.base.value {
            Position::Standing => self.standing(pose, places),
            Position::Seated => self.seated(pose),
            Position::Kneeling => self.kneeling(pose),
            Position::HandsAndKnees => self.hands_and_knees(pose),
            Position::Lying | Position::SideLying | Position::Prone => self.lying(pose),
        }
    }

    fn angles<'p>(&'p self, pose: &'p Pose) -> Angles<'p> {
        Angles::of(pose, self.heeded)
    }

    fn rounding(&self) -> f64 {
        f64::from(self.drawing.rounded_back).to_radians()
    }

    /// The body on a pelvis whose place is known, with legs that are.
    fn above(&self, pose: &Pose, hips: DVec3, pelvis: DMat3, legs: Pair<Leg>, feet: Pair<Foot>) -> Settled {
        self.above_at(pose, 0.0, hips, pelvis, legs, feet)
    }

    /// The same, with what is ahead held at so much to the left.
    fn above_at(
        &self,
        pose: &Pose,
        middle: f64,
        hips: DVec3,
        pelvis: DMat3,
        legs: Pair<Leg>,
        feet: Pair<Foot>,
    ) -> Settled {
        let angles = self.angles(pose);
        let mut turns = angles.trunk(self.rounding());
        if angles.get(Joint::Neck, None, Motion::Flexion).is_none() {
            turns.neck_flexion = match pose.base.value {
                Position::Prone => FACE_DOWN,
                // The head stays where it lies when the hips are raised.
                Position::Lying => pelvis.z_axis.z.clamp(-1.0, 1.0).asin().abs(),
                _ => 0.0,
            };
        }
        let trunk = Trunk::on(hips, pelvis, &turns);
        let mut hand_gaps = Pair::from_fn(|_| 0.0);
        let mut holds = Pair::from_fn(|_| None);
        let arms = Pair::from_fn(|side| {
            let hold = pose.holds.of(side).map(|h| h.value).or_else(|| self.usual_hold(pose, side));
            *holds.of_mut(side) = hold;
            let (forward, lifted) = angles.blade(side);
            // The shoulder that is lain on gives way forward.
            let lain_on = pose.base.value == Position::SideLying && side == Side::Right;
            let shoulder = trunk.shoulder(side, forward + if lain_on { 0.6 } else { 0.0 }, lifted);
            let wanted = hold.and_then(|hold| {
                let reach = Reach { shoulder, middle, ground: props::surface(self.drawing) };
                self.wrist(pose, hold, side, &trunk, &legs, &reach)
            });
            match wanted {
                Some((wrist, hand)) => {
                    // Elbows hang down, a little out and back; before a wall there is no room behind them.
                    let chest = trunk.chest();
                    let (back, aside) = match hold {
                        Some(Hold::Chest) => (-0.5, 0.4),
                        _ if pose.back.is_some() => (-0.2, 1.6),
                        _ => (0.35, 0.4),
                    };
                    let pole = -chest.z_axis - chest.x_axis * back + chest.y_axis * sign(side) * aside;
                    let arm = Arm::reaching(shoulder, wrist, pole, hand);
                    *hand_gaps.of_mut(side) = arm.wrist.distance(wrist);
                    arm
                }
                None => {
                    let from_above =
                        pose.base.value == Position::SideLying && self.drawing.view.value == View::Above;
                    let lies = matches!(pose.base.value, Position::Lying | Position::Prone);
                    let base = match lies {
                        true => self.lain_arm(trunk.chest(), side, shoulder),
                        false => usual_arm(pose.base.value, side, from_above),
                    };
                    let root = angles.root(Joint::Shoulder, side, base);
                    let usual = match lies {
                        true => 0.03,
                        false if from_above && !angles.says(Joint::Shoulder, side) => BENT_ARMS.of(side).1,
                        false if angles.says(Joint::Shoulder, side) => 0.1,
                        false => 0.2,
                    };
                    let elbow = angles.on(Joint::Elbow, side, Motion::Flexion).unwrap_or(usual);
                    let wrist = angles.on(Joint::Wrist, side, Motion::Extension).unwrap_or(0.0);
                    Arm::turned(shoulder, trunk.chest(), side, root, elbow, wrist)
                }
            }
        });
        Settled {
            body: Body { trunk, arms, legs },
            feet,
            holds,
            hand_gaps,
            foot_gaps: Pair::from_fn(|_| 0.0),
        }
    }

    /// The turns of an arm that rests beside the body, on what the body lies on, however the hips are raised.
    fn lain_arm(&self, chest: DMat3, side: Side, shoulder: DVec3) -> Root {
        let length = UPPER_ARM + FOREARM;
        let drop = (shoulder.z - props::surface(self.drawing) - WRIST).max(0.0);
        let along = DVec3::new((length * length - drop * drop).max(0.0).sqrt(), 0.0, -drop) / length;
        Root { abduction: 0.16, ..Root::of(along, chest, side) }
    }

    fn wrist(
        &self,
        pose: &Pose,
        hold: Hold,
        side: Side,
        trunk: &Trunk,
        legs: &Pair<Leg>,
        reach: &Reach,
    ) -> Option<(DVec3, DVec3)> {
        let out = trunk.chest().y_axis * sign(side);
        match hold {
            Hold::Thigh => {
                let leg = legs.of(side);
                let along = leg.knee - leg.hip;
                Some((leg.hip + along * 0.55 + leg.thigh.x_axis * 0.052, along))
            }
            Hold::Hip => Some((
                trunk.hips() + trunk.pelvis().z_axis * 0.07 + out * 0.095 + trunk.pelvis().x_axis * 0.01,
                trunk.pelvis().x_axis - out * 0.8 - trunk.pelvis().z_axis * 0.3,
            )),
            // In the fold before the hip, where a hand feels it bend.
            Hold::HipCrease => {
                let thigh = legs.of(side).thigh.x_axis;
                let front = (trunk.pelvis().x_axis + thigh).normalize_or(thigh);
                Some((
                    trunk.hips() + front * 0.075 + out * 0.085 + trunk.pelvis().z_axis * 0.035,
                    -trunk.pelvis().z_axis - out * 0.9,
                ))
            }
            Hold::Chest => Some((
                trunk.shoulders() - trunk.chest().z_axis * 0.055 + trunk.chest().x_axis * 0.085 - out * 0.015,
                trunk.chest().z_axis * 0.5 - out,
            )),
            hold => held(hold, side, pose, self.drawing.view.value, self.things, reach),
        }
    }

    /// What a hand rests on that nobody speaks of.
    fn usual_hold(&self, pose: &Pose, side: Side) -> Option<Hold> {
        let angles = self.angles(pose);
        let said = angles.says(Joint::Shoulder, side) || angles.says(Joint::Elbow, side);
        match pose.base.value {
            _ if said => None,
            Position::Seated => Some(Hold::Thigh),
            Position::HandsAndKnees => Some(Hold::Floor),
            _ => None,
        }
    }

    /// Where the ankle of a foot is that touches the ground at this height, and how the foot is turned: its sole on the
    /// ground, its heel or its toes lifted by the turn of the ankle.
    fn planted(&self, pose: &Pose, side: Side, foot: Foot, x: f64, y: f64, ground: f64) -> (DVec3, DMat3) {
        let turn = self.angles(pose).on(Joint::Ankle, side, Motion::Plantarflexion);
        let flat = DVec3::new(x, y, ground + ANKLE_HEIGHT);
        match foot {
            Foot::Toes => {
                let foot = DMat3::from_rotation_y(turn.unwrap_or(0.6));
                let ball = flat + DVec3::new(BALL, 0.0, -ANKLE_HEIGHT);
                (ball - foot * DVec3::new(BALL, 0.0, -ANKLE_HEIGHT), foot)
            }
            Foot::Heel => {
                let foot = DMat3::from_rotation_y(turn.unwrap_or(-0.35));
                let heel = flat + DVec3::new(-HEEL, 0.0, -ANKLE_HEIGHT);
                (heel - foot * DVec3::new(-HEEL, 0.0, -ANKLE_HEIGHT), foot)
            }
            Foot::Flat | Foot::Step | Foot::Lifted => (flat, DMat3::IDENTITY),
        }
    }

    /// A leg that does not stand, with the base's turns where the author gives none.
    fn free_leg(&self, pose: &Pose, side: Side, hip: DVec3, pelvis: DMat3, base: &FreeLeg) -> Leg {
        let angles = self.angles(pose);
        let root = angles.root(Joint::Hip, side, base.root);
        let knee = angles.on(Joint::Knee, side, Motion::Flexion).unwrap_or(base.knee);
        let ankle = angles.on(Joint::Ankle, side, Motion::Dorsiflexion).unwrap_or(base.ankle);
        Leg::turned(hip, pelvis, side, root, knee, ankle)
    }
}

const SQUARE: f64 = std::f64::consts::FRAC_PI_2;

/// From the hip to the ankle of a leg whose knee is bent so far.
fn leg_length(knee: f64) -> f64 {
    (THIGH * THIGH + SHANK * SHANK + 2.0 * THIGH * SHANK * knee.cos()).sqrt()
}

fn mean(values: impl Iterator<Item = f64>) -> Option<f64> {
    let (sum, count) = values.fold((0.0, 0), |(sum, count), v| (sum + v, count + 1));
    (count > 0).then(|| sum / f64::from(count))
}

fn usual_arm(base: Position, side: Side, from_above: bool) -> Root {
    match base {
        Position::SideLying if from_above => BENT_ARMS.of(side).0,
        Position::SideLying => Root { flexion: 1.1, ..Root::default() },
        _ => Root { flexion: 0.05, abduction: 0.12, outward: 0.0 },
    }
}
