//! Arrows: where a movement goes, drawn beside the body that does it.

#[cfg(test)]
mod tests;

use glam::DVec2;

use super::canvas::{Eye, Shape, Tone};
use super::things::seen_point;
use crate::model::figure::{Point, Side};
use crate::reckon::figure::{Body, Trunk, point};

/// The way of a point of the body.
#[derive(Clone, Debug)]
pub struct Arrow {
    pub points: Vec<DVec2>,
}

/// A shorter arrow cannot be seen.
const LEAST: f64 = 13.0;
/// What is left of a way where it ends before the body that it leads to.
const SHORTEST: f64 = 9.0;
/// Who moves less stays where she is: half a centimeter, nearly.
const STILL: f64 = 0.3;
/// Space between the body and the head of an arrow, and between the body and its shaft.
const HEAD_ROOM: f64 = 4.6;
const SHAFT_ROOM: f64 = 2.6;
/// How far a way may go on where it has met the body.
const GOES_ON: f64 = 11.0;
/// How far beside its way an arrow may be drawn.
const FARTHEST: usize = 34;
/// In how many directions it is tried.
const DIRECTIONS: usize = 16;
/// How much farther an arrow goes to lie beside a thing than before it.
const OVER_A_THING: f64 = 7.0;
/// Into how many pieces a way is divided.
const PIECES: usize = 24;

/// What an author says of a way.
pub(super) struct Said {
    /// The points whose way is wanted; `None` leaves it to what moves most.
    pub points: Option<Vec<Point>>,
    /// The foot that steps.
    pub moved: Option<Side>,
    /// She is in another position at its end, so that the whole body goes.
    pub changes: bool,
}

/// The arrows of a way from body to body that ends in these shapes.
pub(super) fn arrows(bodies: &[Body], eye: Eye, said: Said, shapes: &[&Shape]) -> Vec<Arrow> {
    let points = match said.points {
        Some(points) => points,
        None => moves_most(bodies, eye, said.moved, said.changes),
    };
    let crowd = Crowd::of(shapes);
    let mut all: Vec<Arrow> = Vec::new();
    for at in points {
        let way: Vec<DVec2> = bodies.iter().map(|body| eye.flat(seen_point(body, at, eye))).collect();
        all.extend(crowd.beside(way, eye, &all));
    }
    all
}

/// Parts of the body with what their way counts: a lifted hand says more than the elbow that goes with it, where the hips
/// go the whole body goes, and who rises on her toes is told by her heels.
const PARTS: [(Point, f64); 13] = [
    (Point::Hips, 1.5),
    (Point::RightHand, 1.0),
    (Point::LeftHand, 1.0),
    (Point::RightFoot, 1.1),
    (Point::LeftFoot, 1.1),
    (Point::RightHeel, 2.2),
    (Point::LeftHeel, 2.2),
    (Point::RightKnee, 1.0),
    (Point::LeftKnee, 1.0),
    (Point::RightElbow, 0.9),
    (Point::LeftElbow, 0.9),
    (Point::Head, 1.0),
    (Point::Chin, 1.0),
];

/// The point that moves most; with it the same of the other side, or of the other limbs, where that moves as well.
fn moves_most(bodies: &[Body], eye: Eye, moved: Option<Side>, changes: bool) -> Vec<Point> {
    let Some(first) = bodies.first() else { return Vec::new() };
    let reach = |at: Point| {
        let start = eye.flat(point(first, at));
        bodies.iter().map(|body| eye.flat(point(body, at)).distance(start)).fold(0.0, f64::max)
    };
    let most = |parts: &dyn Fn(Point) -> bool| {
        let ways = PARTS.iter().filter(|(at, _)| parts(*at)).map(|(at, counts)| (*at, reach(*at), counts));
        let way = ways.filter(|(_, reach, _)| *reach > STILL);
        // Of two that move as far, the first.
        way.reduce(|best, next| if next.1 * next.2 > best.1 * best.2 * 1.001 { next } else { best })
    };
    let foot = moved.map(|side| match side {
        Side::Left => Point::LeftFoot,
        Side::Right => Point::RightFoot,
    });
    if let Some(foot) = foot.filter(|foot| reach(*foot) > STILL) {
        return vec![foot];
    }
    if changes {
        let whole = [Point::Hips, Point::Head, Point::RightKnee, Point::LeftKnee];
        return most(&|part| whole.contains(&part)).map(|(at, ..)| at).into_iter().collect();
    }
    let Some((at, far, _)) = most(&|_| true) else { return Vec::new() };
    let mut all = vec![at];
    let seen_beside =
        |trunk: &Trunk| (eye.depth(trunk.hip(Side::Left)) - eye.depth(trunk.hip(Side::Right))).abs() < 0.05;
    match other_side(at) {
        Some(other) if reach(other) > 0.6 * far => {
            if bodies.last().is_some_and(|body| seen_beside(&body.trunk)) {
                all.push(other);
            } else if reach(other) > 0.9 * far {
                let nearer = |body: &Body| eye.depth(point(body, other)) < eye.depth(point(body, at));
                if bodies.last().is_some_and(nearer) {
                    all = vec![other];
                }
            }
        }
        _ => {}
    }
    let limb = limb(at);
    if limb.is_some() && reach(Point::Hips) < 0.3 * far {
        let elsewhere = |part: Point| self::limb(part).is_some() && self::limb(part) != limb;
        all.extend(most(&elsewhere).filter(|(_, reach, _)| *reach > 0.35 * far).map(|(at, ..)| at));
    }
    all
}

fn other_side(at: Point) -> Option<Point> {
    Some(match at {
        Point::RightHand => Point::LeftHand,
        Point::LeftHand => Point::RightHand,
        Point::RightFoot => Point::LeftFoot,
        Point::LeftFoot => Point::RightFoot,
        Point::RightHeel => Point::LeftHeel,
        Point::LeftHeel => Point::RightHeel,
        Point::RightKnee => Point::LeftKnee,
        Point::LeftKnee => Point::RightKnee,
        Point::RightElbow => Point::LeftElbow,
        Point::LeftElbow => Point::RightElbow,
        _ => return None,
    })
}

/// Whether a point belongs to an arm, or to a leg.
fn limb(at: Point) -> Option<bool> {
    match at {
        Point::RightHand | Point::LeftHand | Point::RightElbow | Point::LeftElbow => Some(true),
        Point::RightFoot | Point::LeftFoot | Point::RightHeel | Point::LeftHeel => Some(false),
        Point::RightKnee | Point::LeftKnee => Some(false),
        _ => None,
    }
}

/// What an arrow must not cover, and what it had better not.
struct Crowd {
    body: Vec<Obstacle>,
    things: Vec<Obstacle>,
}

/// A part of a shape, inside of a circle.
struct Obstacle {
    center: DVec2,
    radius: f64,
    outline: Vec<DVec2>,
}

impl Obstacle {
    fn of(part: &[DVec2]) -> Obstacle {
        let (low, high) = part.iter().fold((DVec2::INFINITY, DVec2::NEG_INFINITY), |(low, high), point| {
            (low.min(*point), high.max(*point))
        });
        let center = low.midpoint(high);
        let radius = part.iter().map(|point| point.distance(center)).fold(0.0, f64::max);
        // A round outline has more points than it needs here; a box has four.
        let every = if part.len() > 8 { 2 } else { 1 };
        Obstacle { center, radius, outline: part.iter().copied().step_by(every).collect() }
    }

    fn is_within(&self, wanted: f64, point: DVec2) -> bool {
        point.distance_squared(self.center) < (self.radius + wanted).powi(2)
            && away(&self.outline, point) < wanted - 1e-9
    }
}

impl Crowd {
    fn of(shapes: &[&Shape]) -> Crowd {
        let mut crowd = Crowd { body: Vec::new(), things: Vec::new() };
        for shape in shapes {
            if let Shape::Solid { tone, parts } = shape {
                let of = if *tone == Tone::Thing { &mut crowd.things } else { &mut crowd.body };
                of.extend(parts.iter().map(|part| Obstacle::of(part)));
            }
        }
        crowd
    }

    /// A way as an arrow: up to the body where it leads to it, else as near as there is room; `None` for a point that
    /// stays where it is.
    fn beside(&self, way: Vec<DVec2>, eye: Eye, others: &[Arrow]) -> Option<Arrow> {
        let way = long_enough(way)?;
        let floor = if eye.sees_floor_as_line() { -1.5 } else { f64::INFINITY };
        let way = over_floor(even(&way), floor);
        if let Some(before) = self.before(&way) {
            return Some(Arrow { points: bare(before) });
        }
        // One that is too long to lie beside the body shows its end alone.
        let end = over_floor(even(&end_of(&way)), floor);
        let beside = |way: &[DVec2]| {
            let shift = self.nearest(way, floor, others)?;
            Some(way.iter().map(|point| *point + shift).collect())
        };
        let points = beside(&way).or_else(|| beside(&end)).unwrap_or(end);
        Some(Arrow { points: bare(points) })
    }

    /// How far a way is shifted to lie where nothing is, over the floor.
    fn nearest(&self, way: &[DVec2], floor: f64, others: &[Arrow]) -> Option<DVec2> {
        let low = way.iter().map(|point| point.y).fold(f64::NEG_INFINITY, f64::max);
        let fits = |shift: DVec2| {
            low + shift.y <= floor + 1e-9
                && self.is_clear(way, shift)
                && others.iter().flat_map(|arrow| &arrow.points).all(|taken| {
                    way.iter().all(|point| (*point + shift).distance_squared(*taken) > HEAD_ROOM * HEAD_ROOM)
                })
        };
        let mut nearest: Option<(f64, DVec2)> = None;
        for far in (0..=FARTHEST).step_by(2).map(|far| far as f64) {
            if nearest.is_some_and(|(cost, _)| cost <= far) {
                break;
            }
            for at in 0..DIRECTIONS {
                let out = DVec2::from_angle(std::f64::consts::TAU * at as f64 / DIRECTIONS as f64) * far;
                if !fits(out) {
                    continue;
                }
                let over = way.iter().any(|point| within(&self.things, SHAFT_ROOM, *point + out));
                let cost = far + if over { OVER_A_THING } else { 0.0 };
                if nearest.is_none_or(|(least, _)| cost < least) {
                    nearest = Some((cost, out));
                }
            }
        }
        nearest.map(|(_, shift)| shift)
    }

    /// The part of a way from where it leaves the body to where it meets it again.
    fn before(&self, way: &[DVec2]) -> Option<Vec<DVec2>> {
        let end = way.iter().rposition(|point| !within(&self.body, HEAD_ROOM, *point))?;
        // One that goes on behind the body leads elsewhere.
        if length(&way[end..]) > GOES_ON {
            return None;
        }
        let start = way[..end].iter().rposition(|point| within(&self.body, SHAFT_ROOM, *point));
        let part = way.get(start.map_or(0, |at| at + 1)..=end)?.to_vec();
        (length(&part) >= SHORTEST && self.is_clear(&part, DVec2::ZERO)).then_some(part)
    }

    fn is_clear(&self, way: &[DVec2], shift: DVec2) -> bool {
        let Some(tip) = way.last() else { return false };
        way.iter().all(|point| {
            let wanted = if point.distance(*tip) < HEAD_ROOM { HEAD_ROOM } else { SHAFT_ROOM };
            !within(&self.body, wanted, *point + shift)
        })
    }
}

fn within(obstacles: &[Obstacle], wanted: f64, point: DVec2) -> bool {
    obstacles.iter().any(|obstacle| obstacle.is_within(wanted, point))
}

/// A short way is drawn longer, from where it comes.
fn long_enough(points: Vec<DVec2>) -> Option<Vec<DVec2>> {
    let (first, last) = (*points.first()?, *points.last()?);
    let way = last - first;
    if length(&points) < STILL {
        return None;
    }
    match length(&points) < LEAST && way.length() > STILL / 2.0 {
        true => Some(vec![last - way.normalize() * LEAST, last]),
        false => Some(points),
    }
}

/// The end of a way, straight.
fn end_of(way: &[DVec2]) -> Vec<DVec2> {
    let [.., before, _, _, last] = way else { return way.to_vec() };
    vec![*last - (*last - *before).normalize_or(DVec2::X) * LEAST, *last]
}

/// The same way in pieces of one length.
fn even(way: &[DVec2]) -> Vec<DVec2> {
    let step = length(way) / PIECES as f64;
    let mut points = Vec::with_capacity(PIECES + 1);
    let mut gone = 0.0;
    for pair in way.windows(2) {
        let piece = pair[0].distance(pair[1]);
        while points.len() < PIECES && gone + piece >= step * points.len() as f64 {
            let share = (step * points.len() as f64 - gone) / piece.max(f64::MIN_POSITIVE);
            points.push(pair[0].lerp(pair[1], share.clamp(0.0, 1.0)));
        }
        gone += piece;
    }
    points.extend(way.last());
    points
}

/// None goes under the floor.
fn over_floor(mut way: Vec<DVec2>, floor: f64) -> Vec<DVec2> {
    let low = way.iter().map(|point| point.y).fold(f64::NEG_INFINITY, f64::max);
    way.iter_mut().for_each(|point| point.y -= (low - floor).max(0.0));
    way
}

/// Without the points that a straight line needs not, and without those that the head covers.
fn bare(way: Vec<DVec2>) -> Vec<DVec2> {
    let Some(tip) = way.last().copied() else { return way };
    let last = way.len() - 1;
    let kept = way.iter().enumerate().filter(|(at, point)| {
        *at == 0 || *at == last || at % 3 == 0 && point.distance(tip) > HEAD_ROOM + 1.5
    });
    kept.map(|(_, point)| *point).collect()
}

fn length(way: &[DVec2]) -> f64 {
    way.windows(2).map(|pair| pair[0].distance(pair[1])).sum()
}

/// How far a point is from a shape without dents, negative inside of it.
fn away(shape: &[DVec2], point: DVec2) -> f64 {
    let edges = shape.iter().zip(shape.iter().cycle().skip(1));
    let (mut nearest, mut left, mut right) = (f64::INFINITY, false, false);
    for (from, to) in edges {
        let along = *to - *from;
        let turn = along.perp_dot(point - *from);
        left |= turn < 0.0;
        right |= turn > 0.0;
        let share = (point - *from).dot(along) / along.length_squared().max(f64::MIN_POSITIVE);
        nearest = nearest.min(point.distance(*from + along * share.clamp(0.0, 1.0)));
    }
    if left && right { nearest } else { -nearest }
}
