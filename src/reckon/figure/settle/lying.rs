//! Lying on the back, the front or one side: the trunk along the ground, the legs as their joints say.

use glam::{DMat3, DVec3};

use super::{Ground, SQUARE, Settled, free, leg_length};
use crate::model::figure::{Drawing, Foot, Joint, Motion, Pair, Pose, Side, View};
use crate::model::vocabulary::Position;
use crate::reckon::figure::body::{Leg, Root, sign};
use crate::reckon::figure::props::{self, LYING};
use crate::reckon::figure::segments::{ANKLE_HEIGHT, HIP_JOINT, HIP_WIDTH, THIGH, TRUNK};

impl Ground<'_, '_> {
    pub(super) fn lying(&self, pose: &Pose) -> Settled {
        let angles = self.angles(pose);
        let base = pose.base.value;
        let ground = props::surface(self.drawing);
        let flat = |side: Side| pose.feet.of(side).is_some_and(|f| f.value == Foot::Flat);
        let feet = Pair::from_fn(|side| pose.feet.of(side).map_or(Foot::Lifted, |f| f.value));
        let raised = pose.hips_raised.map_or(0.0, |h| props::cm(h.value));
        // The shoulders stay where they lie when the hips are raised.
        let tilt = (raised / TRUNK).clamp(-0.9, 0.9).asin();
        let (pelvis, over) = match base {
            Position::Lying => (DMat3::from_cols(DVec3::Z, DVec3::Y, -DVec3::X), LYING),
            Position::Prone => (DMat3::from_cols(-DVec3::Z, -DVec3::Y, -DVec3::X), LYING),
            // Seen from the front: the head to the left of the picture, the left side up.
            _ => (DMat3::from_cols(DVec3::X, DVec3::Z, -DVec3::Y), HIP_WIDTH / 2.0 + 0.022),
        };
        let pelvis = if base == Position::Lying { DMat3::from_rotation_y(-tilt) * pelvis } else { pelvis };
        let shoulders_x = -TRUNK;
        let hips_x = match base {
            Position::Lying => shoulders_x + TRUNK * tilt.cos(),
            // Who sits on the edge of the bed in another pose lies where she sat.
            Position::SideLying if sits(self.drawing) => -THIGH - 0.04,
            _ => 0.0,
        };
        let across = self.drawing.view.value == View::Above && base != Position::SideLying;
        // On the same bed she lies where she does on her side.
        let aside = if across && sits(self.drawing) { THIGH + 0.04 } else { 0.0 };
        let hips = DVec3::new(hips_x, aside, ground + over + raised);
        let legs = Pair::from_fn(|side| {
            let hip = hips + pelvis.y_axis * sign(side) * HIP_JOINT;
            let knee = angles.on(Joint::Knee, side, Motion::Flexion);
            if flat(side) && base == Position::Lying {
                // The foot stands where the knee's bend has it while the hips lie.
                let length = leg_length(knee.unwrap_or(1.75));
                let down = LYING - ANKLE_HEIGHT;
                let ankle_x = (length * length - down * down).max(0.0).sqrt();
                let ankle = DVec3::new(ankle_x, hip.y, ground + ANKLE_HEIGHT);
                Leg::reaching(hip, ankle, DVec3::Z, DMat3::IDENTITY)
            } else {
                let (root, knee, ankle) = match base {
                    Position::SideLying => (Root { flexion: 0.7, ..Root::default() }, 1.2, -0.2),
                    Position::Prone => (Root { flexion: 0.06, ..Root::default() }, 0.03, -0.9),
                    // Straight legs lie on their heels.
                    _ => (Root { flexion: -0.02, ..Root::default() }, 0.02, -0.25),
                };
                self.free_leg(pose, side, hip, pelvis, &free(root, knee, ankle))
            }
        });
        let settled = self.above(pose, hips, pelvis, legs, feet);
        // Seen from above she lies across the picture, as she does on her side.
        match across {
            true => Settled { body: settled.body.turned(DMat3::from_rotation_z(SQUARE)), ..settled },
            false => settled,
        }
    }
}

fn sits(drawing: &Drawing) -> bool {
    drawing.poses.iter().any(|pose| pose.base.value == Position::Seated)
}
