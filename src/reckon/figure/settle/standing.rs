//! Standing: the hips over the feet so that these carry the weight.

use glam::{DMat3, DVec2, DVec3};

use super::{Ground, SIDES, Settled, free, leg_length, mean};
use crate::model::figure::{Foot, Joint, Motion, Pair, Pose, Rest, Side, Weight};
use crate::model::vocabulary::Position;
use crate::reckon::figure::body::{Leg, Root, sign};
use crate::reckon::figure::mass;
use crate::reckon::figure::props;
use crate::reckon::figure::segments::{BALL, FOOT_LENGTH, HEEL, HIP_JOINT, SHANK, THIGH};

/// A standing knee that nobody speaks of is soft, not locked.
const SOFT_KNEE: f64 = 0.07;
/// How far the middle of a foot that carries weight lies before its ankle.
const MID_FOOT: f64 = (FOOT_LENGTH - HEEL - HEEL) / 2.0;
/// The share of the weight on the foot that carries it; the other one steadies; ours.
const WEIGHTED: f64 = 0.92;
/// Each round brings the center of mass ten times nearer to where the feet carry it.
const ROUNDS: usize = 9;

impl Ground<'_, '_> {
    pub(super) fn standing(&self, pose: &Pose, places: &Pair<DVec2>) -> Settled {
        let angles = self.angles(pose);
        let feet = Pair::from_fn(|side| pose.feet.of(side).map_or(Foot::Flat, |f| f.value));
        let stands = |side: Side| *feet.of(side) != Foot::Lifted;
        let raised = pose.jump.map_or(0.0, |j| props::cm(j.value));
        let planted = Pair::from_fn(|side| {
            let foot = *feet.of(side);
            let DVec2 { x, y } = *places.of(side);
            let ground = if foot == Foot::Step { props::step(self.drawing) } else { raised };
            self.planted(pose, side, foot, x, y, ground)
        });
        let share = Pair::from_fn(|side| match pose.weight.map(|w| w.value) {
            _ if !stands(side) => 0.0,
            _ if !stands(side.other()) => 1.0,
            Some(Weight::Left) if side == Side::Left => WEIGHTED,
            Some(Weight::Right) if side == Side::Right => WEIGHTED,
            Some(Weight::Left | Weight::Right) => 1.0 - WEIGHTED,
            Some(Weight::Even) | None => 0.5,
        });
        let under = |side: Side| match feet.of(side) {
            Foot::Toes => BALL + 0.012,
            Foot::Heel => -HEEL + 0.01,
            _ => MID_FOOT,
        };
        let carries: Vec<Side> = SIDES.into_iter().filter(|s| *share.of(*s) > 0.0).collect();
        let target = carries.iter().fold(DVec3::ZERO, |sum, side| {
            // The ankle of a foot on its toes has moved; what it stands on has not.
            sum + (places.of(*side).extend(0.0) + DVec3::X * under(*side)) * *share.of(*side)
        });
        let knee = |side: Side| angles.on(Joint::Knee, side, Motion::Flexion).unwrap_or(SOFT_KNEE);
        let hip_bend = mean(carries.iter().filter_map(|s| angles.on(Joint::Hip, *s, Motion::Flexion)));
        // An ankle that the author turns sets the lean of the body; otherwise the weight does.
        let lean = carries.iter().find_map(|side| {
            let flat = matches!(feet.of(*side), Foot::Flat | Foot::Step);
            let said = angles.on(Joint::Ankle, *side, Motion::Dorsiflexion).filter(|_| flat);
            let lean = said.or_else(|| match hip_bend {
                Some(bend) => at_wall(pose).then(|| knee(*side) - bend),
                None => at_wall(pose).then(|| self.lean_at_wall(knee(*side))),
            })?;
            Some((*side, lean))
        });
        // Hands go along with feet that have moved, and stay where they are while the weight moves over them.
        let middle = places.left.midpoint(places.right).y;
        let mut hips = DVec3::new(target.x - 0.02, target.y, 0.0);
        let mut pitch = 0.0;
        let mut round = || {
            let pelvis = DMat3::from_rotation_y(pitch);
            let socket = |side: Side| DVec3::new(0.0, sign(side) * HIP_JOINT, 0.0);
            if let Some((side, lean)) = lean {
                let ankle = planted.of(side).0.x;
                hips.x = ankle + SHANK * lean.sin() + THIGH * (lean - knee(side)).sin();
            }
            // The hips are as high as the leg lets them that has the least to give.
            hips.z = carries.iter().fold(f64::INFINITY, |least, side| {
                let length = leg_length(knee(*side));
                let way = planted.of(*side).0 - (hips + socket(*side));
                let up = (length * length - way.x * way.x - way.y * way.y).max(0.0).sqrt();
                least.min(planted.of(*side).0.z + up)
            });
            let hips_now =
                if hips.z.is_finite() { hips } else { DVec3::new(hips.x, hips.y, leg_length(0.0)) };
            let legs = Pair::from_fn(|side| {
                let hip = hips_now + pelvis * socket(side);
                if stands(side) {
                    let (ankle, foot) = *planted.of(side);
                    let leg = Leg::reaching(hip, ankle, DVec3::X, foot);
                    let on_toes = *feet.of(side) == Foot::Toes;
                    Leg { toes: if on_toes { DMat3::IDENTITY } else { foot }, ..leg }
                } else {
                    let usual = Root { flexion: 0.45, ..Root::default() };
                    self.free_leg(pose, side, hip, pelvis, &free(usual, 0.95, -0.05))
                }
            });
            pitch = match hip_bend {
                Some(bend) => {
                    let leans = carries.iter().map(|s| {
                        let thigh = legs.of(*s).hip - legs.of(*s).knee;
                        thigh.x.atan2(thigh.z)
                    });
                    mean(leans).unwrap_or(0.0) + bend
                }
                None => 0.0,
            };
            let now = self.above_at(pose, middle, hips_now, pelvis, legs, feet);
            let off = target - mass::center(&now.body);
            if lean.is_none() {
                hips.x += off.x * 0.9;
            }
            hips.y += off.y * 0.9;
            now
        };
        let mut settled = round();
        for _ in 1..ROUNDS {
            settled = round();
        }
        settled.foot_gaps = Pair::from_fn(|side| {
            if stands(side) { settled.body.legs.of(side).ankle.distance(planted.of(side).0) } else { 0.0 }
        });
        settled
    }

    /// How far the shin leans ahead when the back slides along a wall and the feet stay. The pose that sinks lowest has its
    /// shins upright; the others stand as far from the wall.
    fn lean_at_wall(&self, knee: f64) -> f64 {
        let poses = self.drawing.poses.iter().filter(|pose| at_wall(pose));
        let knees = poses.filter_map(|p| self.angles(p).on(Joint::Knee, Side::Right, Motion::Flexion));
        let deepest = knees.fold(knee, f64::max);
        let behind = -THIGH * deepest.sin();
        (behind / leg_length(knee)).clamp(-1.0, 1.0).asin()
            + (THIGH * knee.sin()).atan2(SHANK + THIGH * knee.cos())
    }
}

fn at_wall(pose: &Pose) -> bool {
    pose.base.value == Position::Standing && pose.back.is_some_and(|b| b.value == Rest::Wall)
}
