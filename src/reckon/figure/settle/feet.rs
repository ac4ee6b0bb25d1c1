//! Where the feet of each pose stand on the ground, from its stance and from what has moved since the pose before.

use glam::DVec2;

use crate::model::figure::{Drawing, Foot, Pair, Place, Pose, Side, Stance};
use crate::reckon::figure::body::sign;
use crate::reckon::figure::props;
use crate::reckon::figure::segments::{FOOT_LENGTH, HEEL, HIP_JOINT};

/// How far in from its edge the nearer foot stands on a step at her side; ours.
const ON_STEP: f64 = 0.036;
/// How far the ankles are apart where the author gives no number: half of a wide stance, and a whole step; ours.
const WIDE: f64 = 0.125;
const STEP: f64 = 0.20;

/// The ankles of each pose over the ground, whether or not they stand.
pub(in crate::reckon::figure) fn places(drawing: &Drawing) -> Vec<Pair<DVec2>> {
    let mut all: Vec<Pair<DVec2>> = Vec::new();
    for pose in &drawing.poses {
        let own = Pair::from_fn(|side| place(drawing, pose, side));
        let stays = pose.moved.map(|moved| moved.value.other());
        let shift = match (stays, all.last()) {
            (Some(side), Some(before)) => *before.of(side) - *own.of(side),
            _ => DVec2::ZERO,
        };
        all.push(Pair::from_fn(|side| *own.of(side) + shift));
    }
    all
}

/// Where the stance by itself puts the ankle of a foot.
fn place(drawing: &Drawing, pose: &Pose, side: Side) -> DVec2 {
    let stance = pose.stance.map_or(Stance::HipWidth, |s| s.value);
    let in_front = pose.front_foot.map_or(Side::Right, |s| s.value) == side;
    let stride = pose.stride.map(|s| props::cm(s.value));
    let (ahead, apart) = match stance {
        Stance::Together => (0.0, 0.029),
        Stance::HipWidth => (0.0, HIP_JOINT),
        Stance::Wide => (0.0, stride.map_or(WIDE, |stride| stride / 2.0)),
        Stance::SemiTandem => (FOOT_LENGTH * 0.68, 0.030),
        Stance::Tandem => (FOOT_LENGTH + 0.008, 0.004),
        Stance::Step => (stride.unwrap_or(STEP), 0.045),
    };
    let out = sign(side);
    let on_step = pose.feet.of(side).is_some_and(|foot| foot.value == Foot::Step);
    match props::step_place(drawing) {
        _ if !on_step => DVec2::new(if in_front { ahead } else { 0.0 }, out * apart),
        Place::Left | Place::Right => {
            // The foot of that side stands farther in, so that there is room for the other beside it.
            let toward = if props::step_place(drawing) == Place::Left { 1.0 } else { -1.0 };
            let room = if out == toward { ON_STEP + HIP_JOINT * 2.0 } else { ON_STEP };
            DVec2::new(0.0, toward * (props::riser(drawing) + room))
        }
        Place::Ahead | Place::Behind => DVec2::new(props::riser(drawing) + HEEL + 0.02, out * apart),
    }
}
