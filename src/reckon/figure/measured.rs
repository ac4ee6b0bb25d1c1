//! The angles of a pose as it is drawn: those that its author gives, and those that follow from where feet and hands are.

use glam::DVec3;

use super::body::{Arm, Leg, Root};
use super::settle::Settled;
use crate::model::figure::{Foot, Joint, Motion, Pose, Side};
use crate::model::vocabulary::Position;

/// A joint of a pose, turned by so many degrees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured {
    pub joint: Joint,
    /// `None` for a joint of the midline.
    pub side: Option<Side>,
    pub motion: Motion,
    pub degrees: f64,
    /// The body's weight pushes the joint there.
    pub under_weight: bool,
}

const SIDES: [Side; 2] = [Side::Left, Side::Right];

/// Every joint that is turned, at most once for each of its movements: what the author wrote, or what is drawn where
/// that is more.
pub fn measured(pose: &Pose, settled: &Settled) -> Vec<Measured> {
    let mut all: Vec<Measured> = Vec::new();
    let mut take = |new: Measured| {
        let same = |m: &&mut Measured| m.joint == new.joint && m.side == new.side && m.motion == new.motion;
        match all.iter_mut().find(same) {
            Some(old) => {
                old.degrees = old.degrees.max(new.degrees);
                old.under_weight |= new.under_weight;
            }
            None => all.push(new),
        }
    };
    for turn in &pose.turns {
        let degrees = f64::from(turn.degrees.value);
        let (joint, side, motion) = (turn.joint, turn.side, turn.motion);
        take(Measured { joint, side, motion, degrees, under_weight: false });
    }
    for side in SIDES {
        let leg = settled.body.legs.of(side);
        let knelt = is_knelt(pose, settled, side);
        let planted = *settled.feet.of(side) != Foot::Lifted && !knelt;
        let mut add = |joint, motion: Motion, radians: f64, under_weight| {
            let motion = if radians < 0.0 { motion.opposite() } else { motion };
            let degrees = radians.abs().to_degrees();
            take(Measured { joint, side: Some(side), motion, degrees, under_weight });
        };
        let carries = planted && pose.base.value == Position::Standing;
        add(Joint::Knee, Motion::Flexion, knee_flexion(leg), carries || knelt);
        let root = Root::of(leg.knee - leg.hip, settled.body.trunk.pelvis(), side);
        if root.abduction.abs() < STEEP {
            add(Joint::Hip, Motion::Flexion, root.flexion, carries || knelt);
        }
        if planted {
            add(Joint::Hip, Motion::Abduction, root.abduction, carries);
            // The floor bends an ankle on, whoever carries the weight. (The foot of a leg that is knelt on lies on its back,
            // bent in more joints than this one.)
            add(Joint::Ankle, Motion::Dorsiflexion, leg.dorsiflexion(), true);
        }
        if settled.holds.of(side).is_some() {
            let arm = settled.body.arms.of(side);
            add(Joint::Elbow, Motion::Flexion, arm.elbow_flexion(), false);
            add(Joint::Shoulder, Motion::Extension, behind(arm, settled).max(0.0), false);
        }
    }
    all
}

/// Beyond this abduction, in radians, the flexion of a hip says nothing: the thigh points to the side.
const STEEP: f64 = 1.2;

/// True for a leg whose shank lies on the ground under its knee.
pub(super) fn is_knelt(pose: &Pose, settled: &Settled, side: Side) -> bool {
    match pose.base.value {
        // The first foot that stands belongs to the leg in front; the other kneels.
        Position::Kneeling => SIDES.into_iter().find(|s| *settled.feet.of(*s) == Foot::Flat) != Some(side),
        Position::HandsAndKnees => *settled.feet.of(side) != Foot::Lifted,
        _ => false,
    }
}

/// The angle at the knee, in radians, negative when it is bent the wrong way.
fn knee_flexion(leg: &Leg) -> f64 {
    let local = leg.thigh.transpose() * leg.shank * DVec3::Z;
    local.x.atan2(local.z)
}

/// How far an arm that hangs points behind the trunk, in radians.
fn behind(arm: &Arm, settled: &Settled) -> f64 {
    let along = settled.body.trunk.chest().transpose() * (arm.elbow - arm.shoulder).normalize_or_zero();
    if along.z > 0.0 { 0.0 } else { (-along.x).clamp(-1.0, 1.0).asin() }
}
