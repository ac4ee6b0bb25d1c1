//! The joints of a pose as its author turned them, in radians.

use super::body::{Root, TrunkTurns};
use super::idle::Heeded;
use crate::model::figure::{Joint, Motion, Pose, Side};

/// The turns of a pose, asked for joint by joint.
#[derive(Clone, Copy)]
pub(super) struct Angles<'p> {
    pose: &'p Pose,
    heeded: &'p Heeded,
}

impl<'p> Angles<'p> {
    /// Every turn that is asked for is noted.
    pub(super) fn of(pose: &'p Pose, heeded: &'p Heeded) -> Angles<'p> {
        Angles { pose, heeded }
    }

    /// How far a joint is turned by a motion, negative for its opposite; `None` when the author did not say.
    pub(super) fn get(&self, joint: Joint, side: Option<Side>, motion: Motion) -> Option<f64> {
        let said = self.pose.turns.iter().filter(|t| t.joint == joint && t.side == side);
        let mut degrees = said.filter_map(|t| match t.motion {
            m if m == motion => Some((t.degrees.value, t.degrees.span)),
            m if m == motion.opposite() => Some((-t.degrees.value, t.degrees.span)),
            _ => None,
        });
        let (degrees, span) = degrees.next_back()?;
        self.heeded.note(span);
        Some(f64::from(degrees).to_radians())
    }

    pub(super) fn on(&self, joint: Joint, side: Side, motion: Motion) -> Option<f64> {
        self.get(joint, Some(side), motion)
    }

    /// True when the author turned this joint in any way.
    pub(super) fn says(&self, joint: Joint, side: Side) -> bool {
        self.pose.turns.iter().any(|t| t.joint == joint && t.side == Some(side))
    }

    fn or_zero(&self, joint: Joint, motion: Motion) -> f64 {
        self.get(joint, None, motion).unwrap_or(0.0)
    }

    pub(super) fn trunk(&self, rounding: f64) -> TrunkTurns {
        TrunkTurns {
            flexion: self.or_zero(Joint::Spine, Motion::Flexion),
            bend_right: self.or_zero(Joint::Spine, Motion::LateralFlexionRight),
            turn_left: self.or_zero(Joint::Spine, Motion::RotationLeft),
            rounding,
            neck_flexion: self.or_zero(Joint::Neck, Motion::Flexion),
            neck_bend_right: self.or_zero(Joint::Neck, Motion::LateralFlexionRight),
            neck_turn_left: self.or_zero(Joint::Neck, Motion::RotationLeft),
            neck_protraction: self.or_zero(Joint::Neck, Motion::Protraction),
        }
    }

    /// A hip or a shoulder, with the base's turns where the author did not say.
    pub(super) fn root(&self, joint: Joint, side: Side, base: Root) -> Root {
        Root {
            flexion: self.on(joint, side, Motion::Flexion).unwrap_or(base.flexion),
            abduction: self.on(joint, side, Motion::Abduction).unwrap_or(base.abduction),
            outward: self.on(joint, side, Motion::ExternalRotation).unwrap_or(base.outward),
        }
    }

    /// How far the shoulder blade is drawn forward and lifted.
    pub(super) fn blade(&self, side: Side) -> (f64, f64) {
        let of = |motion| self.on(Joint::ShoulderBlade, side, motion).unwrap_or(0.0);
        (of(Motion::Protraction), of(Motion::Elevation))
    }
}
