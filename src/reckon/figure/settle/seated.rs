//! Seated: the hips on the seat, the feet where the knees bring them.

use glam::{DMat3, DVec3};

use super::{Ground, SIDES, SQUARE, Settled, free, mean};
use crate::model::figure::{Foot, Joint, Motion, Pair, Pose, Side, Stance};
use crate::reckon::figure::body::{Leg, Root, sign};
use crate::reckon::figure::props::{self, SEATED};
use crate::reckon::figure::segments::{HIP_JOINT, SHANK, THIGH};

impl Ground<'_, '_> {
    pub(super) fn seated(&self, pose: &Pose) -> Settled {
        let angles = self.angles(pose);
        let feet = Pair::from_fn(|side| pose.feet.of(side).map_or(Foot::Flat, |f| f.value));
        let stands = |side: Side| *feet.of(side) != Foot::Lifted;
        let height = props::seat(self.drawing) + SEATED;
        let knee = |side: Side| angles.on(Joint::Knee, side, Motion::Flexion).unwrap_or(SQUARE);
        // The thigh that brings the foot to the ground: how far the knee drops below the hip, as an angle.
        let drop = |side: Side| {
            let (ankle, _) = self.planted(pose, side, *feet.of(side), 0.0, 0.0, 0.0);
            drop_of_thigh(height - ankle.z, knee(side))
        };
        let ahead = |side: Side| {
            let drop = drop(side);
            THIGH * drop.cos() + SHANK * (drop + knee(side)).cos()
        };
        // The standing foot of the figure is where its other poses have it: under the seat's front.
        let reference = SIDES.into_iter().rev().find(|s| stands(*s));
        let hips_x = reference.map_or(-THIGH, |side| {
            let (ankle, _) = self.planted(pose, side, *feet.of(side), 0.0, 0.0, 0.0);
            ankle.x - ahead(side)
        });
        let hips = DVec3::new(hips_x, 0.0, height);
        let bends = SIDES.into_iter().filter(|s| stands(*s) || reference.is_none());
        let bend = mean(bends.filter_map(|s| {
            angles
                .on(Joint::Hip, s, Motion::Flexion)
                .map(|h| h - SQUARE + if stands(s) { drop(s) } else { 0.0 })
        }));
        let pelvis = DMat3::from_rotation_y(bend.filter(|_| reference.is_some()).unwrap_or(0.0));
        let legs = Pair::from_fn(|side| {
            let hip = hips + pelvis.y_axis * sign(side) * HIP_JOINT;
            if stands(side) {
                let foot = *feet.of(side);
                let apart = match pose.stance.map(|s| s.value) {
                    Some(Stance::Wide) => 0.11,
                    Some(Stance::Together) => 0.029,
                    _ => HIP_JOINT,
                };
                let ankle_z = self.planted(pose, side, foot, 0.0, 0.0, 0.0).0.z;
                let (_, turned) = self.planted(pose, side, foot, 0.0, 0.0, 0.0);
                let ankle = DVec3::new(hip.x + ahead(side), sign(side) * apart, ankle_z);
                let leg = Leg::reaching(hip, ankle, DVec3::X + DVec3::Z, turned);
                Leg { toes: if foot == Foot::Toes { DMat3::IDENTITY } else { turned }, ..leg }
            } else {
                let usual = Root { flexion: SQUARE, ..Root::default() };
                self.free_leg(pose, side, hip, pelvis, &free(usual, SQUARE, 0.0))
            }
        });
        self.above(pose, hips, pelvis, legs, feet)
    }
}

/// How far the knee drops below a hip that is `over` above the ankle, as the angle of the thigh below the level, for a
/// knee that is bent so far.
fn drop_of_thigh(over: f64, knee: f64) -> f64 {
    let height = |t: f64| THIGH * t.sin() + SHANK * (t + knee).sin();
    let (mut low, mut high) = (-1.3_f64, 1.3_f64);
    for _ in 0..40 {
        let middle = (low + high) / 2.0;
        if height(middle) < over { low = middle } else { high = middle }
    }
    (low + high) / 2.0
}
