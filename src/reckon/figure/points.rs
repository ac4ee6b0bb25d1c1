//! The points of a body that an author can name.

use glam::DVec3;

use super::body::Body;
use crate::model::figure::{Point, Side};

/// Where a point of a body is; the middle of both where it is a pair.
pub fn point(body: &Body, at: Point) -> DVec3 {
    let hand = |side: Side| body.arms.of(side).wrist.lerp(body.arms.of(side).tip, 0.42);
    match at {
        Point::Head => body.trunk.head_at(0.0, 0.0, 0.09),
        Point::Chin => body.trunk.head_at(0.05, 0.0, 0.01),
        Point::Hips => body.trunk.hips(),
        Point::Back => body.trunk.points[2],
        Point::Belly => body.trunk.points[1] + body.trunk.turned[1].x_axis * 0.05,
        Point::Hands | Point::Feet | Point::Knees => middle(body, at),
        Point::LeftHand => hand(Side::Left),
        Point::RightHand => hand(Side::Right),
        Point::LeftFoot => body.legs.left.ankle,
        Point::RightFoot => body.legs.right.ankle,
        Point::LeftKnee => body.legs.left.knee,
        Point::RightKnee => body.legs.right.knee,
        Point::LeftElbow => body.arms.left.elbow,
        Point::RightElbow => body.arms.right.elbow,
        Point::LeftHeel => body.legs.left.heel(),
        Point::RightHeel => body.legs.right.heel(),
        Point::LeftShoulder => body.arms.left.shoulder,
        Point::RightShoulder => body.arms.right.shoulder,
    }
}

/// Both points of a pair, the left one first, or the one.
pub fn points(body: &Body, at: Point) -> Vec<DVec3> {
    let pair = match at {
        Point::Hands => [Point::LeftHand, Point::RightHand],
        Point::Feet => [Point::LeftFoot, Point::RightFoot],
        Point::Knees => [Point::LeftKnee, Point::RightKnee],
        one => return vec![point(body, one)],
    };
    pair.map(|one| point(body, one)).to_vec()
}

/// The middle of a pair, or the one point.
pub fn middle(body: &Body, at: Point) -> DVec3 {
    let all = points(body, at);
    all.iter().fold(DVec3::ZERO, |sum, p| sum + *p) / all.len().max(1) as f64
}
