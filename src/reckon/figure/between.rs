//! The moments between two poses: each segment turns from the one to the other, what stays on the ground or on a support
//! stays there, and what goes elsewhere is lifted over what is in its way.

use glam::{DMat3, DQuat, DVec3};

use super::Scene;
use super::body::{Arm, Body, Leg, Trunk};
use super::hits::Hit;
use super::segments::{ANKLE_HEIGHT, BALL, HEEL, SHANK, STATURE_CM, THIGH};
use super::settle::Settled;
use crate::model::figure::{Foot, Pair, Side, Thing};
use crate::model::vocabulary::Position;

/// How far a foot or a hand may seem to move and still stay where it is, in fractions of stature.
const STAYS: f64 = 0.02;
/// How far a foot slides along the floor; one that goes farther steps. Ours.
const SLIDES: f64 = 0.1;
/// How high a foot is lifted that is put down elsewhere; ours.
const STEP_OVER: f64 = 0.03;
/// How much further than in the poses themselves a moment may enter a thing or the floor: what no eye sees in passing.
const PASSES: f64 = 1.0 / STATURE_CM;
/// How much more who turns over in bed may sink into it.
const MATTRESS: f64 = 5.0 / STATURE_CM;
/// How high hands and feet are lifted on their way, tried in this order.
const LIFTS: [f64; 4] = [0.0, 0.05, 0.11, 0.18];
const SIDES: [Side; 2] = [Side::Left, Side::Right];

impl Scene<'_> {
    /// The bodies from the first pose to the last, so many for each pose after the first; `None` where there is no way
    /// from one to the next that passes through neither thing nor floor.
    pub fn moments(&self, steps: usize) -> Option<Vec<Body>> {
        let mut bodies: Vec<Body> = self.poses.first().map(|pose| pose.body.clone()).into_iter().collect();
        for at in 1..self.poses.len() {
            bodies.extend(LIFTS.iter().find_map(|lift| self.way(at, *lift, steps))?);
        }
        Some(bodies)
    }

    /// The way of a point from pose to pose, whatever stands in it.
    pub fn path(&self, steps: usize) -> Vec<Body> {
        let first = self.poses.first().map(|pose| pose.body.clone());
        let between = self.poses.windows(2).flat_map(|pair| {
            (1..=steps).map(|step| between(&pair[0], &pair[1], step as f64 / steps as f64, 0.0))
        });
        first.into_iter().chain(between).collect()
    }

    fn way(&self, at: usize, lift: f64, steps: usize) -> Option<Vec<Body>> {
        let (from, to) = (&self.poses[at - 1], &self.poses[at]);
        let sits = [at - 1, at].map(|pose| self.drawing.poses[pose].base.value == Position::Seated);
        let depth = |hit: &Hit| {
            let soft = hit.thing.is_some_and(|thing| self.things[thing].thing == Thing::Bed);
            hit.depth - if soft { MATTRESS } else { 0.0 }
        };
        let deepest =
            |body: &Body, sits: bool| self.hits_of(body, sits).iter().map(depth).fold(0.0, f64::max);
        let allowed = deepest(&from.body, sits[0]).max(deepest(&to.body, sits[1])) + PASSES;
        let bodies: Vec<Body> =
            (1..=steps).map(|step| between(from, to, step as f64 / steps as f64, lift)).collect();
        bodies.iter().all(|body| deepest(body, sits[0] || sits[1]) <= allowed).then_some(bodies)
    }
}

/// The body a share of the way from one pose to another, its hands and feet lifted so high on their way.
pub(super) fn between(from: &Settled, to: &Settled, share: f64, lift: f64) -> Body {
    let turn = |a: DMat3, b: DMat3| DMat3::from_quat(DQuat::from_mat3(&a).slerp(DQuat::from_mat3(&b), share));
    // None at both ends.
    let over = |height: f64| DVec3::Z * height * (std::f64::consts::PI * share).sin();
    let (a, b) = (&from.body, &to.body);
    let turned = [0, 1, 2].map(|i| turn(a.trunk.turned[i], b.trunk.turned[i]));
    let neck = a.trunk.neck().lerp(b.trunk.neck(), share);
    let feet = Pair::from_fn(|side: Side| {
        let (x, y) = (a.legs.of(side), b.legs.of(side));
        planted(x, y, [*from.feet.of(side), *to.feet.of(side)], turn(x.foot, y.foot), share, lift)
    });
    let mut hips = a.trunk.hips().lerp(b.trunk.hips(), share);
    // The hips are no higher than the feet that stay let them.
    for side in SIDES {
        if let Some(ankle) = *feet.of(side) {
            let hip =
                hips + turned[0] * (a.trunk.pelvis().transpose() * (a.trunk.hip(side) - a.trunk.hips()));
            let aside = (ankle - hip).with_z(0.0).length_squared();
            let reach = ((THIGH + SHANK).powi(2) - aside).max(0.0).sqrt();
            hips.z -= (hip.z - ankle.z - reach).max(0.0);
        }
    }
    let trunk = Trunk::of(hips, turned, neck, turn(a.trunk.head, b.trunk.head));
    let legs = Pair::from_fn(|side: Side| {
        let (x, y) = (a.legs.of(side), b.legs.of(side));
        let hip = trunk.hip(side);
        let foot = turn(x.foot, y.foot);
        let thigh = turn(x.thigh, y.thigh);
        let leg = match feet.of(side) {
            Some(ankle) => Leg::reaching(hip, *ankle, thigh.x_axis, foot),
            None => {
                let free = Leg::of(hip, thigh, turn(x.shank, y.shank), foot);
                let sinks = sinks(&free, x, y);
                match lift + sinks > 0.0 {
                    true => {
                        let ankle = free.ankle + over(lift) + DVec3::Z * sinks;
                        Leg::reaching(hip, ankle, thigh.x_axis, foot)
                    }
                    false => free,
                }
            }
        };
        Leg { toes: turn(x.toes, y.toes), ..leg }
    });
    let arms = Pair::from_fn(|side: Side| {
        let (x, y) = (a.arms.of(side), b.arms.of(side));
        let out =
            |body: &Body, arm: &Arm| body.trunk.chest().transpose() * (arm.shoulder - body.trunk.shoulders());
        let shoulder = trunk.shoulders() + trunk.chest() * out(a, x).lerp(out(b, y), share);
        let hand = turn(x.hand, y.hand);
        let free = Arm::of(shoulder, turn(x.upper, y.upper), turn(x.fore, y.fore), hand);
        let holds = from.holds.of(side).is_some() && from.holds.of(side) == to.holds.of(side);
        let wrist = match holds {
            true => x.wrist.lerp(y.wrist, share),
            false if lift > 0.0 && x.wrist.distance(y.wrist) > STAYS => free.wrist + over(lift),
            false => return free,
        };
        let pole =
            (x.elbow - x.shoulder.midpoint(x.wrist)).lerp(y.elbow - y.shoulder.midpoint(y.wrist), share);
        Arm::reaching(shoulder, wrist, pole, -hand.z_axis)
    });
    Body { trunk, arms, legs }
}

/// Where the ankle of a foot is on its way, where it stands in both poses: it stays, turns about what of it touches the
/// ground, or steps to another place. `None` for a foot that is lifted in one of them.
fn planted(x: &Leg, y: &Leg, feet: [Foot; 2], foot: DMat3, share: f64, lift: f64) -> Option<DVec3> {
    if feet.contains(&Foot::Lifted) {
        return None;
    }
    let pivot = match feet {
        [Foot::Toes, _] | [_, Foot::Toes] => DVec3::new(BALL, 0.0, -ANKLE_HEIGHT),
        [Foot::Heel, _] | [_, Foot::Heel] => DVec3::new(-HEEL, 0.0, -ANKLE_HEIGHT),
        _ => DVec3::new(0.0, 0.0, -ANKLE_HEIGHT),
    };
    let at = |leg: &Leg| leg.ankle + leg.foot * pivot;
    let (from, to) = (at(x), at(y));
    let slides = from.distance(to) < SLIDES;
    let lifted = if slides { 0.0 } else { (STEP_OVER + lift) * (std::f64::consts::PI * share).sin() };
    Some(from.lerp(to, share) + DVec3::Z * lifted - foot * pivot)
}

/// How far a foot on its way is lower than in the lower one of its poses.
fn sinks(leg: &Leg, x: &Leg, y: &Leg) -> f64 {
    let lowest = |leg: &Leg| leg.heel().z.min(leg.ball().z).min(leg.toe().z);
    (lowest(x).min(lowest(y)) - lowest(leg)).max(0.0)
}
