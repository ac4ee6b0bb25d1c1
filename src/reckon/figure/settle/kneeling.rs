//! Kneeling, and on hands and knees: the shanks on the ground, the hips over the knees.

use glam::{DMat3, DVec3};

use super::{Ground, SIDES, SQUARE, Settled, free};
use crate::model::figure::{Foot, Joint, Motion, Pair, Pose, Side};
use crate::reckon::figure::body::{Leg, Root, sign};
use crate::reckon::figure::props::{self, WRIST};
use crate::reckon::figure::segments::{ANKLE_HEIGHT, FOREARM, HIP_JOINT, SHANK, THIGH, TRUNK, UPPER_ARM};

/// How far the middle of a knee that is knelt on stands over the ground; ours.
const KNELT: f64 = 0.034;

impl Ground<'_, '_> {
    pub(super) fn kneeling(&self, pose: &Pose) -> Settled {
        let angles = self.angles(pose);
        let ground = props::surface(self.drawing);
        let feet = Pair::from_fn(|side| pose.feet.of(side).map_or(Foot::Toes, |f| f.value));
        let half = SIDES.into_iter().find(|s| *feet.of(*s) == Foot::Flat);
        let knelt = SIDES.into_iter().find(|s| Some(*s) != half).unwrap_or(Side::Right);
        let knee = angles.on(Joint::Knee, knelt, Motion::Flexion).unwrap_or(SQUARE);
        let back = SQUARE - knee;
        let hips = DVec3::new(THIGH * back.sin(), 0.0, ground + KNELT + THIGH * back.cos());
        let bend = angles.on(Joint::Hip, knelt, Motion::Flexion);
        let pelvis = DMat3::from_rotation_y(bend.map_or(0.0, |b| back + b));
        let legs = Pair::from_fn(|side| {
            let hip = hips + pelvis.y_axis * sign(side) * HIP_JOINT;
            if Some(side) == half {
                let ankle = DVec3::new(THIGH, hip.y, ground + ANKLE_HEIGHT);
                Leg::reaching(hip, ankle, DVec3::X + DVec3::Z, DMat3::IDENTITY)
            } else {
                let thigh = DMat3::from_rotation_y(back);
                self.knelt(hip, thigh)
            }
        });
        self.above(pose, hips, pelvis, legs, feet)
    }

    /// A leg that kneels: its shank lies on the ground behind the knee.
    fn knelt(&self, hip: DVec3, thigh: DMat3) -> Leg {
        let knee = hip - thigh.z_axis * THIGH;
        let shank = DMat3::from_rotation_y(SQUARE + 0.015);
        let ankle = knee - shank.z_axis * SHANK;
        let foot = shank * DMat3::from_rotation_y(1.25);
        Leg { hip, knee, ankle, thigh, shank, foot, toes: foot }
    }

    pub(super) fn hands_and_knees(&self, pose: &Pose) -> Settled {
        let angles = self.angles(pose);
        let ground = props::surface(self.drawing);
        let feet = Pair::from_fn(|side| pose.feet.of(side).map_or(Foot::Toes, |f| f.value));
        let lifted = |side: Side| *feet.of(side) == Foot::Lifted;
        let hips = DVec3::new(0.0, 0.0, ground + KNELT + THIGH);
        // Straight arms from the hands up carry the shoulders.
        let rise = (ground + WRIST + UPPER_ARM + FOREARM - 0.004 - hips.z) / TRUNK;
        let bend = angles.get(Joint::Spine, None, Motion::Flexion).unwrap_or(0.0);
        let pitch = SQUARE - rise.clamp(-0.9, 0.9).asin() - bend * 0.5;
        let pelvis = DMat3::from_rotation_y(pitch);
        let legs = Pair::from_fn(|side| {
            let hip = hips + pelvis.y_axis * sign(side) * HIP_JOINT;
            if lifted(side) {
                self.free_leg(pose, side, hip, pelvis, &free(Root::default(), 0.0, -0.5))
            } else {
                self.knelt(hip, DMat3::IDENTITY)
            }
        });
        self.above(pose, hips, pelvis, legs, feet)
    }
}
