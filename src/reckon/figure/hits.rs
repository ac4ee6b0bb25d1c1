//! Where a body enters a thing or the floor, as no body can.

use glam::DVec3;

use super::Scene;
use super::body::Body;
use super::props::{PlacedThing, Solid};
use super::segments::STATURE_CM;
use crate::model::figure::{Place, Side, Thing};
use crate::model::vocabulary::Position;

/// A part of the body that enters something.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hit {
    pub part: BodyPart,
    /// What it enters, by its place in [`Scene::things`]; `None` for the floor.
    pub thing: Option<usize>,
    /// In fractions of stature.
    pub depth: f64,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BodyPart {
    Head,
    Trunk,
    Thigh(Side),
    Knee(Side),
    Shank(Side),
    Foot(Side),
    UpperArm(Side),
    Elbow(Side),
    Forearm(Side),
    Hand(Side),
}

/// A part may enter by a centimeter before it counts: clothes and cushions give way as much.
const GIVES_WAY: f64 = 1.0 / STATURE_CM;
/// The part of a limb's radius that does not give way where it rests on something; ours.
const CORE: f64 = 0.6;
/// A wall goes on behind its face, farther than any body reaches.
const BEHIND_THE_WALL: f64 = 2.0;

impl Scene<'_> {
    /// The deepest hit of a pose with each thing, and with the floor.
    pub fn hits(&self, index: usize) -> Vec<Hit> {
        let sits = self.drawing.poses[index].base.value == Position::Seated;
        self.hits_of(&self.poses[index].body, sits)
    }

    /// The same of any body in this picture; `sits` where what is sat on gives way.
    pub(super) fn hits_of(&self, body: &Body, sits: bool) -> Vec<Hit> {
        let balls = balls(body);
        let deepest = |thing: Option<usize>, depth: &dyn Fn(&Ball) -> f64| {
            let hits = balls.iter().map(|ball| Hit { part: ball.part, thing, depth: depth(ball) });
            hits.max_by(|a, b| a.depth.total_cmp(&b.depth)).filter(|hit| hit.depth > GIVES_WAY)
        };
        // A line lies on the floor, which is looked at by itself.
        let solid = self.things.iter().enumerate().filter(|(_, thing)| thing.thing != Thing::Line);
        let things = solid.filter_map(|(at, thing)| {
            let sat_on = sits && matches!(thing.thing, Thing::Chair | Thing::Bed);
            deepest(Some(at), &|ball: &Ball| {
                // A thigh slopes over the edge of what is sat on, which gives way or is round, and an arm that is drawn
                // back passes beside the back of the chair.
                let beside = matches!(
                    ball.part,
                    BodyPart::UpperArm(_) | BodyPart::Elbow(_) | BodyPart::Forearm(_) | BodyPart::Hand(_)
                );
                match ball.part {
                    BodyPart::Thigh(_) if sat_on => 0.0,
                    _ if sat_on && beside => 0.0,
                    _ => depth(thing, ball),
                }
            })
        });
        let floor = deepest(None, &|ball| ball.radius - ball.at.z);
        things.chain(floor).collect()
    }
}

fn depth(thing: &PlacedThing<'_>, ball: &Ball) -> f64 {
    let solid =
        |part: &Solid| if thing.thing == Thing::Wall { without_end(*part, thing.place) } else { *part };
    thing.parts.iter().map(|part| solid(part).depth(ball.at, ball.radius)).fold(0.0, f64::max)
}

fn without_end(mut wall: Solid, place: Place) -> Solid {
    match place {
        Place::Ahead => wall.high.x += BEHIND_THE_WALL,
        Place::Behind => wall.low.x -= BEHIND_THE_WALL,
        Place::Left => wall.high.y += BEHIND_THE_WALL,
        Place::Right => wall.low.y -= BEHIND_THE_WALL,
    }
    wall
}

struct Ball {
    part: BodyPart,
    at: DVec3,
    radius: f64,
}

/// The cores of a body's parts. Breadths as they are drawn; soles and palms have none, since they touch.
fn balls(body: &Body) -> Vec<Ball> {
    let mut all = Vec::new();
    let mut put = |part: BodyPart, at: DVec3, radius: f64| all.push(Ball { part, at, radius: radius * CORE });
    let trunk = &body.trunk;
    put(BodyPart::Head, trunk.head_at(-0.004, 0.0, 0.075), 0.057);
    put(BodyPart::Trunk, trunk.hips(), 0.052);
    put(BodyPart::Trunk, trunk.points[1], 0.052);
    put(BodyPart::Trunk, trunk.points[2], 0.056);
    put(BodyPart::Trunk, trunk.points[2].lerp(trunk.points[3], 0.6), 0.056);
    for side in [Side::Left, Side::Right] {
        let (leg, arm) = (body.legs.of(side), body.arms.of(side));
        for share in [0.25, 0.5, 0.75] {
            put(BodyPart::Thigh(side), leg.hip.lerp(leg.knee, share), 0.042);
            put(BodyPart::Shank(side), leg.knee.lerp(leg.ankle, share), 0.031);
            put(BodyPart::UpperArm(side), arm.shoulder.lerp(arm.elbow, share), 0.026);
            put(BodyPart::Forearm(side), arm.elbow.lerp(arm.wrist, share), 0.018);
        }
        put(BodyPart::Knee(side), leg.knee, 0.034);
        put(BodyPart::Elbow(side), arm.elbow, 0.020);
        for sole in [leg.heel(), leg.ball(), leg.toe()] {
            put(BodyPart::Foot(side), sole, 0.0);
        }
        put(BodyPart::Hand(side), arm.wrist, 0.0);
        put(BodyPart::Hand(side), arm.wrist.lerp(arm.tip, 0.5), 0.0);
    }
    all
}
