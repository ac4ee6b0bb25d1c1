//! Figures as bodies in space: where a described pose puts each joint, whether its weight is carried, whether a body can
//! do it, and what it asks of a body. Never how it looks.

mod angles;
mod asks;
mod between;
mod body;
mod contact;
mod hits;
mod mass;
mod measured;
mod props;
mod ranges;
mod segments;
mod settle;
#[cfg(test)]
mod tests;

pub use asks::{Ask, Sign};
pub use between::between;
pub use body::{Arm, Body, Leg, Trunk, sign};
pub use contact::Loose;
pub use hits::BodyPart;
pub use mass::center;
pub use measured::{Measured, measured};
pub use props::{PlacedThing, Solid, cm, seat, surface};
pub use ranges::{MEASURING, Range, range};
pub use segments::STATURE_CM;
pub use settle::Settled;

use crate::model::figure::{Drawing, View};
use crate::model::vocabulary::Position;
use settle::Ground;

/// A drawing in space.
#[derive(Clone, Debug)]
pub struct Scene<'d> {
    pub drawing: &'d Drawing,
    /// One for each pose.
    pub poses: Vec<Settled>,
    pub things: Vec<PlacedThing<'d>>,
}

impl<'d> Scene<'d> {
    /// Places every pose and every thing. All poses share one ground, so that what stays put does.
    pub fn of(drawing: &'d Drawing) -> Scene<'d> {
        // First without things, to learn where what the figure sits, lies and leans on has to stand.
        let bare = Ground { drawing, things: &[] };
        let free: Vec<Settled> = drawing.poses.iter().map(|pose| bare.settle(pose)).collect();
        let clues = props::Clues::of(drawing, &free);
        let things = props::stand(drawing, clues);
        let ground = Ground { drawing, things: &things };
        let poses = drawing.poses.iter().map(|pose| ground.settle(pose)).collect();
        Scene { drawing, poses, things }
    }
}

impl props::Clues {
    fn of(drawing: &Drawing, poses: &[Settled]) -> props::Clues {
        let each = || drawing.poses.iter().zip(poses);
        let lies = |p: Position| p.is_on_floor() && p != Position::Kneeling;
        let seated = each().find(|(pose, _)| pose.base.value == Position::Seated);
        let rests = each().find(|(pose, _)| pose.back.is_some());
        let lying = each().find(|(pose, _)| lies(pose.base.value));
        props::Clues {
            seated: seated.map(|(_, s)| s.body.trunk.hips()),
            back: rests.map(|(_, s)| s.body.trunk.back()),
            lying: lying.map(|(_, s)| {
                let body = &s.body;
                let front = drawing.view.value == View::Front;
                let at = |p: glam::DVec3| if front { p.y } else { p.x };
                let ends = [
                    at(body.trunk.top()),
                    at(body.legs.left.ankle),
                    at(body.legs.right.ankle),
                    at(body.trunk.hips()),
                ];
                let low = ends.iter().copied().fold(f64::INFINITY, f64::min);
                let high = ends.iter().copied().fold(f64::NEG_INFINITY, f64::max);
                (low - 0.12, high + 0.16)
            }),
        }
    }
}
