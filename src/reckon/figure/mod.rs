//! Figures as bodies in space: where a described pose puts each joint, whether its weight is carried, whether a body can
//! do it, and what it asks of a body. Never how it looks.

mod angles;
mod asks;
mod between;
mod body;
mod contact;
mod hits;
mod idle;
mod mass;
mod measured;
mod points;
mod props;
mod ranges;
mod segments;
mod settle;
#[cfg(test)]
mod tests;

pub use asks::{Ask, Sign};

pub use body::{Arm, Body, Leg, Trunk, sign};
pub use contact::Loose;
pub use hits::BodyPart;
pub use idle::{Because, Idle, Unseen};
pub use mass::center;
pub use measured::{Measured, measured};
pub use points::{middle, point, points};
pub use props::{PlacedThing, Solid, cm, seat, surface};
pub use ranges::{MEASURING, Range, range};
pub use segments::STATURE_CM;
pub use settle::Settled;

use crate::model::figure::{Drawing, View};
use crate::model::vocabulary::Position;
use idle::Heeded;
use settle::Ground;

/// A drawing in space.
#[derive(Clone, Debug)]
pub struct Scene<'d> {
    pub drawing: &'d Drawing,
    /// One for each pose.
    pub poses: Vec<Settled>,
    pub things: Vec<PlacedThing<'d>>,
    /// What of the turns that the author wrote the bodies are made from.
    heeded: Heeded,
}

impl<'d> Scene<'d> {
    /// Places every pose and every thing. All poses share one ground, so that what stays put does.
    pub fn of(drawing: &'d Drawing) -> Scene<'d> {
        // First without things, to learn where what the figure sits, lies and leans on has to stand.
        let places = settle::places(drawing);
        let free = Ground { drawing, things: &[], places: &places, heeded: &Heeded::default() }.settle();
        let clues = props::Clues::of(drawing, &free);
        let things = props::stand(drawing, clues, &places);
        let heeded = Heeded::default();
        let poses = Ground { drawing, things: &things, places: &places, heeded: &heeded }.settle();
        Scene { drawing, poses, things, heeded }
    }
}

impl props::Clues {
    fn of(drawing: &Drawing, poses: &[Settled]) -> props::Clues {
        let each = || drawing.poses.iter().zip(poses);
        let lies = |p: Position| p.is_on_floor() && p != Position::Kneeling;
        let seated = each().find(|(pose, _)| pose.base.value == Position::Seated);
        let rests = each().find(|(pose, _)| pose.back.is_some());
        let lying = || each().filter(|(pose, _)| lies(pose.base.value));
        let front = drawing.view.value != View::Side;
        let at = |p: glam::DVec3| if front { p.y } else { p.x };
        // Seen from above, she turns over in her bed: it is as long and as wide as all of her poses need.
        let count = if drawing.view.value == View::Above { drawing.poses.len() } else { 1 };
        let ends = |body: &Body| {
            let legs = &body.legs;
            [body.trunk.top(), legs.left.ankle, legs.right.ankle, body.trunk.hips()].map(at)
        };
        let ends: Vec<f64> = lying().take(count).flat_map(|(_, s)| ends(&s.body)).collect();
        let low = ends.iter().copied().fold(f64::INFINITY, f64::min);
        let high = ends.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let knees = lying().flat_map(|(_, s)| [s.body.legs.left.knee.x, s.body.legs.right.knee.x]);
        props::Clues {
            seated: seated.map(|(_, s)| s.body.trunk.hips()),
            back: rests.map(|(_, s)| s.body.trunk.back()),
            lying: (!ends.is_empty()).then_some((low - 0.12, high + 0.16)),
            knees: knees.fold(0.0, f64::max),
        }
    }
}
