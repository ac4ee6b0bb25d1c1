//! The moments between two poses: each segment turns from the one to the other, and what stays on the ground or on a
//! support stays there.

use glam::{DMat3, DQuat};

use super::body::{Arm, Body, Leg, Trunk};
use super::settle::Settled;
use crate::model::figure::{Foot, Pair, Side};

/// How far a foot or a hand may seem to move and still stay where it is, in fractions of stature.
const STAYS: f64 = 0.02;

/// The body a share of the way from one pose to another.
pub fn between(from: &Settled, to: &Settled, share: f64) -> Body {
    let turn = |a: DMat3, b: DMat3| DMat3::from_quat(DQuat::from_mat3(&a).slerp(DQuat::from_mat3(&b), share));
    let (a, b) = (&from.body, &to.body);
    let turned = [0, 1, 2].map(|i| turn(a.trunk.turned[i], b.trunk.turned[i]));
    let hips = a.trunk.hips().lerp(b.trunk.hips(), share);
    let neck = a.trunk.neck().lerp(b.trunk.neck(), share);
    let trunk = Trunk::of(hips, turned, neck, turn(a.trunk.head, b.trunk.head));
    let legs = Pair::from_fn(|side: Side| {
        let (x, y) = (a.legs.of(side), b.legs.of(side));
        let hip = trunk.hip(side);
        let foot = turn(x.foot, y.foot);
        let thigh = turn(x.thigh, y.thigh);
        let stands = |s: &Settled| *s.feet.of(side) != Foot::Lifted;
        if stands(from) && stands(to) && x.ankle.distance(y.ankle) < 4.0 * STAYS {
            let leg = Leg::reaching(hip, x.ankle.lerp(y.ankle, share), thigh.x_axis, foot);
            Leg { toes: turn(x.toes, y.toes), ..leg }
        } else {
            Leg { toes: turn(x.toes, y.toes), ..Leg::of(hip, thigh, turn(x.shank, y.shank), foot) }
        }
    });
    let arms = Pair::from_fn(|side: Side| {
        let (x, y) = (a.arms.of(side), b.arms.of(side));
        let out =
            |body: &Body, arm: &Arm| body.trunk.chest().transpose() * (arm.shoulder - body.trunk.shoulders());
        let shoulder = trunk.shoulders() + trunk.chest() * out(a, x).lerp(out(b, y), share);
        let hand = turn(x.hand, y.hand);
        let holds = from.holds.of(side).is_some() && from.holds.of(side) == to.holds.of(side);
        if holds && x.wrist.distance(y.wrist) < STAYS {
            let pole =
                (x.elbow - x.shoulder.midpoint(x.wrist)).lerp(y.elbow - y.shoulder.midpoint(y.wrist), share);
            Arm::reaching(shoulder, x.wrist.lerp(y.wrist, share), pole, -hand.z_axis)
        } else {
            Arm::of(shoulder, turn(x.upper, y.upper), turn(x.fore, y.fore), hand)
        }
    });
    Body { trunk, arms, legs }
}
