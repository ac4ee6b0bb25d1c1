//! The center of a body's mass, and the ground it is carried on.

use glam::{DVec2, DVec3};

use super::body::Body;
use super::segments::{
    FOOT_MASS, FOREARM_MASS, HAND, HAND_MASS, HEAD_AND_NECK_MASS, Mass, SHANK_MASS, THIGH_MASS, TRUNK_MASS,
    UPPER_ARM_MASS,
};
use crate::model::figure::Side;

/// The center of mass of the whole body, segment by segment (Winter, table 4.1).
pub fn center(body: &Body) -> DVec3 {
    let between = |from: DVec3, to: DVec3, mass: Mass| from.lerp(to, mass.center) * mass.share;
    let mut sum = body.trunk.ear() * HEAD_AND_NECK_MASS
        + along(&body.trunk.points, TRUNK_MASS.center) * TRUNK_MASS.share;
    for side in [Side::Left, Side::Right] {
        let arm = body.arms.of(side);
        let leg = body.legs.of(side);
        // The hand's segment ends at the knuckles, half of the way to the finger tips.
        let knuckles = arm.wrist + (arm.tip - arm.wrist).normalize_or_zero() * HAND * 0.5;
        sum += between(arm.shoulder, arm.elbow, UPPER_ARM_MASS)
            + between(arm.elbow, arm.wrist, FOREARM_MASS)
            + between(arm.wrist, knuckles, HAND_MASS)
            + between(leg.hip, leg.knee, THIGH_MASS)
            + between(leg.knee, leg.ankle, SHANK_MASS)
            + between(leg.ankle, leg.ball(), FOOT_MASS);
    }
    sum
}

/// The point a share of the way along a chain.
fn along(points: &[DVec3], share: f64) -> DVec3 {
    let length: f64 = points.windows(2).map(|pair| pair[0].distance(pair[1])).sum();
    let mut left = length * share;
    for pair in points.windows(2) {
        let step = pair[0].distance(pair[1]);
        if left <= step {
            return pair[0].lerp(pair[1], left / step.max(1e-12));
        }
        left -= step;
    }
    points.last().copied().unwrap_or(DVec3::ZERO)
}

/// The hull of points on the ground, in order around it.
pub(super) fn hull(mut points: Vec<DVec2>) -> Vec<DVec2> {
    points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    points.dedup_by(|a, b| a.distance(*b) < 1e-9);
    if points.len() < 3 {
        return points;
    }
    let half = |points: &mut dyn Iterator<Item = DVec2>| {
        let mut chain: Vec<DVec2> = Vec::new();
        for point in points {
            while let [.., a, b] = chain[..] {
                if (b - a).perp_dot(point - b) > 0.0 {
                    break;
                }
                chain.pop();
            }
            chain.push(point);
        }
        chain.pop();
        chain
    };
    let mut around = half(&mut points.iter().copied());
    around.extend(half(&mut points.iter().rev().copied()));
    around
}

/// How far a point lies outside a hull; 0 inside.
pub(super) fn outside(hull: &[DVec2], point: DVec2) -> f64 {
    let edges = || hull.iter().zip(hull.iter().cycle().skip(1));
    let inside = hull.len() > 2 && edges().all(|(a, b)| (*b - *a).perp_dot(point - *a) >= 0.0);
    if inside {
        return 0.0;
    }
    let to_edge = |(a, b): (&DVec2, &DVec2)| {
        let way = *b - *a;
        let share = ((point - *a).dot(way) / way.length_squared().max(1e-18)).clamp(0.0, 1.0);
        point.distance(*a + way * share)
    };
    edges().map(to_edge).fold(f64::INFINITY, f64::min)
}
