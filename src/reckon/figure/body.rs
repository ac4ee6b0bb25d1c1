//! A body in space: where each joint is, and how each segment is turned.
//!
//! Lengths are fractions of stature. The axes of space are forward, left and up; those of a segment are the same when
//! it stands in the anatomical position, so that the columns of its rotation are its front, its left and its top.

use glam::{DMat3, DVec3};

use super::segments::{
    ANKLE_HEIGHT, BALL, FOOT_LENGTH, FOREARM, HAND, HEAD, HEEL, HIP_JOINT, NECK, SHANK, SHOULDER_JOINT,
    THIGH, TRUNK_PARTS, UPPER_ARM,
};
use crate::model::figure::{Pair, Side};

/// A body whose place in space is settled.
#[derive(Clone, Debug)]
pub struct Body {
    pub trunk: Trunk,
    pub arms: Pair<Arm>,
    pub legs: Pair<Leg>,
}

impl Body {
    /// The same body, turned about the middle of space.
    pub(super) fn turned(mut self, by: DMat3) -> Body {
        let Trunk { points, turned, nape, head } = &mut self.trunk;
        points.iter_mut().chain([nape]).for_each(|point| *point = by * *point);
        turned.iter_mut().chain([head]).for_each(|part| *part = by * *part);
        for side in [Side::Left, Side::Right] {
            let Arm { shoulder, elbow, wrist, tip, upper, fore, hand } = self.arms.of_mut(side);
            [shoulder, elbow, wrist, tip].into_iter().for_each(|point| *point = by * *point);
            [upper, fore, hand].into_iter().for_each(|part| *part = by * *part);
            let Leg { hip, knee, ankle, thigh, shank, foot, toes } = self.legs.of_mut(side);
            [hip, knee, ankle].into_iter().for_each(|point| *point = by * *point);
            [thigh, shank, foot, toes].into_iter().for_each(|part| *part = by * *part);
        }
        self
    }
}

#[derive(Clone, Copy, Debug)]
pub struct Trunk {
    /// From the middle of the hip joints up to the middle of the shoulder joints.
    pub points: [DVec3; 4],
    /// How the pelvis, the loin and the chest are turned.
    pub turned: [DMat3; 3],
    /// Where the head turns on the neck.
    pub nape: DVec3,
    pub head: DMat3,
}

#[derive(Clone, Copy, Debug)]
pub struct Arm {
    pub shoulder: DVec3,
    pub elbow: DVec3,
    pub wrist: DVec3,
    pub tip: DVec3,
    pub upper: DMat3,
    pub fore: DMat3,
    pub hand: DMat3,
}

#[derive(Clone, Copy, Debug)]
pub struct Leg {
    pub hip: DVec3,
    pub knee: DVec3,
    pub ankle: DVec3,
    pub thigh: DMat3,
    pub shank: DMat3,
    pub foot: DMat3,
    /// The toes, which stay on the ground when the heel is lifted.
    pub toes: DMat3,
}

/// The turns of a trunk, in radians.
#[derive(Clone, Copy, Debug, Default)]
pub struct TrunkTurns {
    pub flexion: f64,
    pub bend_right: f64,
    pub turn_left: f64,
    pub rounding: f64,
    pub neck_flexion: f64,
    pub neck_bend_right: f64,
    pub neck_turn_left: f64,
    pub neck_protraction: f64,
}

/// How far the buttocks and the back of the chest stand behind the middle of the trunk; ours.
pub(super) const BEHIND_THE_HIPS: f64 = 0.064;
pub(super) const BEHIND_THE_CHEST: f64 = 0.060;
/// How far above the line of the shoulders the head turns on the neck; the rest of the neck belongs to the head.
const NAPE: f64 = 0.046;
/// How much of a bent spine bends in the loin; the rest bends below the chest. Ours.
const IN_THE_LOIN: f64 = 0.5;
/// The natural lean of a neck, which carries the ears over the shoulders; ours.
const NECK_LEAN: f64 = 0.24;

impl Trunk {
    /// A trunk on a pelvis at the middle of the hip joints.
    pub fn on(hips: DVec3, pelvis: DMat3, turns: &TrunkTurns) -> Trunk {
        let bend = |share: f64| {
            DMat3::from_rotation_z(turns.turn_left * share)
                * DMat3::from_rotation_x(turns.bend_right * share)
                * DMat3::from_rotation_y(turns.flexion * share)
        };
        let loin = pelvis * bend(IN_THE_LOIN);
        let chest = loin * bend(1.0 - IN_THE_LOIN) * DMat3::from_rotation_y(turns.rounding);
        // A rounded back carries the neck forward, and the head is lifted again to look ahead.
        let lean = NECK_LEAN + turns.rounding * 0.2 + turns.neck_flexion * 0.5 + turns.neck_protraction;
        let head = chest
            * DMat3::from_rotation_z(turns.neck_turn_left)
            * DMat3::from_rotation_x(turns.neck_bend_right)
            * DMat3::from_rotation_y(turns.neck_flexion - turns.rounding * 0.8);
        Trunk::of(hips, [pelvis, loin, chest], DVec3::new(lean.sin(), 0.0, lean.cos()), head)
    }

    /// A trunk whose segments are turned so in space; `neck` points up the neck, as the chest sees it.
    pub fn of(hips: DVec3, turned: [DMat3; 3], neck: DVec3, head: DMat3) -> Trunk {
        let mut points = [hips; 4];
        for (index, (part, length)) in turned.iter().zip(TRUNK_PARTS).enumerate() {
            points[index + 1] = points[index] + part.z_axis * length;
        }
        let nape = points[3] + turned[2] * neck.normalize_or(DVec3::Z) * NAPE;
        Trunk { points, turned, nape, head }
    }

    /// Where the neck points, as the chest sees it.
    pub fn neck(&self) -> DVec3 {
        (self.chest().transpose() * (self.nape - self.shoulders())).normalize_or(DVec3::Z)
    }

    pub fn pelvis(&self) -> DMat3 {
        self.turned[0]
    }

    pub fn chest(&self) -> DMat3 {
        self.turned[2]
    }

    pub fn hips(&self) -> DVec3 {
        self.points[0]
    }

    /// The middle of the shoulder joints.
    pub fn shoulders(&self) -> DVec3 {
        self.points[3]
    }

    /// A point of the head: so far before its middle line, to its left, and over its chin.
    pub fn head_at(&self, front: f64, left: f64, over_chin: f64) -> DVec3 {
        self.nape + self.head * DVec3::new(front, left, over_chin + NECK - NAPE)
    }

    pub fn top(&self) -> DVec3 {
        self.head_at(0.0, 0.0, HEAD)
    }

    /// How far back the trunk reaches.
    pub fn back(&self) -> f64 {
        let behind = |point: DVec3, turned: DMat3, depth: f64| (point - turned.x_axis * depth).x;
        let points = [
            behind(self.points[0], self.turned[0], BEHIND_THE_HIPS),
            behind(self.points[2].lerp(self.points[3], 0.55), self.turned[2], BEHIND_THE_CHEST),
        ];
        points.into_iter().fold(f64::INFINITY, f64::min)
    }

    /// The ear canal.
    pub fn ear(&self) -> DVec3 {
        self.head_at(0.0, 0.0, HEAD * 0.5)
    }

    /// Where a shoulder joint stands, with its blade drawn forward and lifted by so many radians.
    pub fn shoulder(&self, side: Side, forward: f64, lifted: f64) -> DVec3 {
        let out = sign(side);
        let along =
            DVec3::new(forward.sin(), out * forward.cos() * lifted.cos(), forward.cos() * lifted.sin());
        self.shoulders() + self.chest() * along * SHOULDER_JOINT
    }

    pub fn hip(&self, side: Side) -> DVec3 {
        self.hips() + self.pelvis().y_axis * sign(side) * HIP_JOINT
    }
}

/// Left is ahead on the second axis.
pub fn sign(side: Side) -> f64 {
    match side {
        Side::Left => 1.0,
        Side::Right => -1.0,
    }
}

/// The turns of the upper limb's root, in radians: a hip's or a shoulder's.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Root {
    pub flexion: f64,
    pub abduction: f64,
    pub outward: f64,
}

impl Root {
    /// How a limb's upper part is turned in space, on a trunk that is turned so.
    pub fn on(self, trunk: DMat3, side: Side) -> DMat3 {
        let out = sign(side);
        trunk
            * DMat3::from_rotation_y(-self.flexion)
            * DMat3::from_rotation_x(out * self.abduction)
            * DMat3::from_rotation_z(out * self.outward)
    }

    /// The turns that point a limb along `along`; it is not turned about its own length.
    pub fn of(along: DVec3, trunk: DMat3, side: Side) -> Root {
        let local = trunk.transpose() * along;
        Root {
            flexion: local.x.atan2(-local.z),
            abduction: (sign(side) * local.y).clamp(-1.0, 1.0).asin(),
            outward: 0.0,
        }
    }
}

impl Leg {
    /// A leg that hangs from its hip with these turns, in radians; `ankle` is its dorsiflexion.
    pub fn turned(hip: DVec3, pelvis: DMat3, side: Side, root: Root, knee: f64, ankle: f64) -> Leg {
        let thigh = root.on(pelvis, side);
        let shank = thigh * DMat3::from_rotation_y(knee);
        Leg::of(hip, thigh, shank, shank * DMat3::from_rotation_y(-ankle))
    }

    /// A leg whose segments are turned so in space.
    pub fn of(hip: DVec3, thigh: DMat3, shank: DMat3, foot: DMat3) -> Leg {
        let knee = hip - thigh.z_axis * THIGH;
        Leg { hip, knee, ankle: knee - shank.z_axis * SHANK, thigh, shank, foot, toes: foot }
    }

    /// A leg from its hip to an ankle that stays where it is, its knee toward `pole`. Where the ankle is out of reach
    /// the leg is straight and ends before it.
    pub fn reaching(hip: DVec3, ankle: DVec3, pole: DVec3, foot: DMat3) -> Leg {
        let (at_knee, at_ankle) = two_bones(hip, ankle, THIGH, SHANK, pole);
        let thigh = frame(hip - at_knee, pole);
        let shank = frame(at_knee - at_ankle, pole);
        Leg { hip, knee: at_knee, ankle: at_ankle, thigh, shank, foot, toes: foot }
    }

    /// The angle of the foot on the shank, in radians, 0 when square.
    pub fn dorsiflexion(&self) -> f64 {
        let up = (self.knee - self.ankle).normalize();
        up.dot(self.foot.x_axis).clamp(-1.0, 1.0).asin()
    }

    pub fn heel(&self) -> DVec3 {
        self.ankle + self.foot * DVec3::new(-HEEL, 0.0, -ANKLE_HEIGHT)
    }

    /// The ball of the foot.
    pub fn ball(&self) -> DVec3 {
        self.ankle + self.foot * DVec3::new(BALL, 0.0, -ANKLE_HEIGHT)
    }

    pub fn toe(&self) -> DVec3 {
        self.ball() + self.toes.x_axis * (FOOT_LENGTH - HEEL - BALL)
    }
}

impl Arm {
    /// An arm that hangs from its shoulder with these turns, in radians; `wrist` is its extension.
    pub fn turned(shoulder: DVec3, chest: DMat3, side: Side, root: Root, elbow: f64, wrist: f64) -> Arm {
        let upper = root.on(chest, side);
        let fore = upper * DMat3::from_rotation_y(-elbow);
        Arm::of(shoulder, upper, fore, fore * DMat3::from_rotation_y(-wrist))
    }

    /// An arm whose segments are turned so in space.
    pub fn of(shoulder: DVec3, upper: DMat3, fore: DMat3, hand: DMat3) -> Arm {
        let elbow = shoulder - upper.z_axis * UPPER_ARM;
        let wrist = elbow - fore.z_axis * FOREARM;
        Arm { shoulder, elbow, wrist, tip: wrist - hand.z_axis * HAND, upper, fore, hand }
    }

    /// An arm from its shoulder to a wrist that stays where it is, its elbow toward `pole`, its hand along `hand`.
    /// Where the wrist is out of reach the arm is straight and ends before it.
    pub fn reaching(shoulder: DVec3, wrist: DVec3, pole: DVec3, hand: DVec3) -> Arm {
        let (elbow, at_wrist) = two_bones(shoulder, wrist, UPPER_ARM, FOREARM, pole);
        let upper = frame(shoulder - elbow, at_wrist - elbow);
        let fore = frame(elbow - at_wrist, shoulder - elbow);
        Arm::of(shoulder, upper, fore, frame(-hand, fore.x_axis))
    }

    /// The angle at the elbow, in radians, 0 when straight.
    pub fn elbow_flexion(&self) -> f64 {
        (self.elbow - self.shoulder).angle_between(self.wrist - self.elbow)
    }
}

/// The middle and the end of a limb of two bones from `root` toward `end`, bent toward `pole`.
fn two_bones(root: DVec3, end: DVec3, upper: f64, lower: f64, pole: DVec3) -> (DVec3, DVec3) {
    let way = end - root;
    let along = way.normalize_or(-DVec3::Z);
    // A limb is never quite straight, so that its middle always has a side to bend to.
    let distance = way.length().clamp((upper - lower).abs() + 1e-6, (upper + lower) * (1.0 - 1e-9));
    let share = (upper * upper - lower * lower + distance * distance) / (2.0 * distance);
    let out = (upper * upper - share * share).max(0.0).sqrt();
    let aside = square_to(pole, along);
    (root + along * share + aside * out, root + along * distance)
}

/// The rotation of a segment whose top points along `up` and whose front looks toward `front`.
fn frame(up: DVec3, front: DVec3) -> DMat3 {
    let top = up.normalize_or(DVec3::Z);
    let ahead = square_to(front, top);
    DMat3::from_cols(ahead, top.cross(ahead), top)
}

/// The direction nearest to `wanted` at a right angle to `along`, or any where `wanted` points along it: what is left of
/// it then is rounding.
fn square_to(wanted: DVec3, along: DVec3) -> DVec3 {
    let aside = wanted - along * wanted.dot(along);
    if aside.length() > 1e-6 * wanted.length() { aside.normalize() } else { along.any_orthonormal_vector() }
}
