//! What carries a pose: what touches, what should and does not, and whether the weight falls where it is carried.

use glam::{DVec2, DVec3};

use super::Scene;
use super::body::{BEHIND_THE_CHEST, BEHIND_THE_HIPS};
use super::mass;
use super::measured::is_knelt;
use super::props::{Reach, held};
use super::segments::{FOOT_BREADTH, HIP_WIDTH, STATURE_CM, THIGH};
use crate::model::figure::{Foot, Hold, Place, Rest, Side, Thing};
use crate::model::vocabulary::Position;

/// Something that should touch and does not.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Loose {
    /// The whole body hangs in the air.
    Body,
    /// It sits, and there is nothing to sit on.
    Seat,
    /// A foot that stands ends this far from the ground.
    Foot(Side, f64),
    /// A foot stands on a step that is not there.
    Step(Side),
    /// A hand ends this far from what it holds.
    Hand(Side, Hold, f64),
    /// A hand holds a thing that is not there.
    Missing(Side, Hold, Thing),
    /// A hand cannot hold a thing that stands there.
    OutOfPlace(Side, Hold, Place),
    /// The back rests on a thing that is not there.
    Back(Rest),
}

/// A gap of a centimeter: less cannot be seen in a picture as large as a hand.
const SEEN: f64 = 1.0 / STATURE_CM;
/// How far the weight may fall outside what carries it: the masses are means, and so are the feet.
const SWAY: f64 = 2.0 / STATURE_CM;
const SIDES: [Side; 2] = [Side::Left, Side::Right];

impl Scene<'_> {
    /// What of a pose should touch and does not.
    pub fn loose(&self, index: usize) -> Vec<Loose> {
        let (pose, settled) = (&self.drawing.poses[index], &self.poses[index]);
        let mut all = Vec::new();
        if pose.base.value == Position::Seated && !self.has(Thing::Chair) && !self.has(Thing::Bed) {
            all.push(Loose::Seat);
        }
        if let Some(rest) = pose.back.map(|b| b.value) {
            let thing = match rest {
                Rest::Wall => Thing::Wall,
                Rest::Chair => Thing::Chair,
            };
            if !self.has(thing) {
                all.push(Loose::Back(rest));
            }
        }
        for side in SIDES {
            let gap = *settled.foot_gaps.of(side);
            if *settled.feet.of(side) == Foot::Step && !self.has(Thing::Step) {
                all.push(Loose::Step(side));
            } else if gap > SEEN {
                all.push(Loose::Foot(side, gap));
            }
            if let Some(hold) = pose.holds.of(side).map(|h| h.value) {
                let thing = thing_of(hold);
                let gap = *settled.hand_gaps.of(side);
                match thing {
                    Some(thing) if !self.has(thing) => all.push(Loose::Missing(side, hold, thing)),
                    Some(thing) if !self.can_hold(index, side, hold) => {
                        let place =
                            self.things.iter().find(|t| t.thing == thing).map_or(Place::Ahead, |t| t.place);
                        all.push(Loose::OutOfPlace(side, hold, place));
                    }
                    _ if gap > SEEN => all.push(Loose::Hand(side, hold, gap)),
                    _ => {}
                }
            }
        }
        if self.is_in_the_air(index) {
            all.push(Loose::Body);
        }
        all
    }

    /// True when a pose touches neither floor nor seat nor support, and does not jump.
    fn is_in_the_air(&self, index: usize) -> bool {
        let (pose, settled) = (&self.drawing.poses[index], &self.poses[index]);
        let raised = pose.hips_raised.is_some_and(|h| h.value > 0);
        match pose.base.value {
            Position::Standing if pose.jump.is_none() => {
                let stands = |side: Side| *settled.feet.of(side) != Foot::Lifted;
                !SIDES.into_iter().any(|s| stands(s) || self.hand_on(index, s).is_some())
            }
            // Only a body on its back rests on its shoulders when its hips are lifted.
            Position::Prone | Position::SideLying => raised,
            _ => false,
        }
    }

    /// The ground that carries a pose, as the hull of all that touches; empty for a body that lies or jumps.
    fn base_of_support(&self, index: usize, hands: bool) -> Vec<DVec2> {
        let (pose, settled) = (&self.drawing.poses[index], &self.poses[index]);
        let body = &settled.body;
        if matches!(pose.base.value, Position::Lying | Position::SideLying | Position::Prone)
            || pose.jump.is_some()
        {
            return Vec::new();
        }
        let mut points = Vec::new();
        let mut around = |at: DVec3, aside: DVec3| {
            points.extend([at + aside, at - aside].map(|p| DVec2::new(p.x, p.y)));
        };
        for side in SIDES {
            let leg = body.legs.of(side);
            let half = leg.foot.y_axis * (FOOT_BREADTH / 2.0);
            match settled.feet.of(side) {
                _ if is_knelt(pose, settled, side) => {
                    around(leg.knee, half);
                    around(leg.ankle, half);
                }
                Foot::Flat | Foot::Step => {
                    around(leg.heel(), half);
                    around(leg.toe(), half);
                }
                Foot::Toes => {
                    around(leg.ball(), half);
                    around(leg.toe(), half);
                }
                Foot::Heel => around(leg.heel(), half * 0.7),
                Foot::Lifted => {}
            }
            if let Some(wrist) = self.hand_on(index, side).filter(|_| hands) {
                around(wrist, DVec3::ZERO);
            }
        }
        let across = DVec3::Y * (HIP_WIDTH / 2.0);
        if pose.base.value == Position::Seated {
            around(body.trunk.hips() - DVec3::X * BEHIND_THE_HIPS, across);
            for side in SIDES {
                let leg = body.legs.of(side);
                around(
                    leg.hip + (leg.knee - leg.hip) * (0.5 * THIGH / leg.hip.distance(leg.knee)),
                    DVec3::ZERO,
                );
            }
        }
        if pose.back.is_some() {
            around(body.trunk.hips() - body.trunk.pelvis().x_axis * BEHIND_THE_HIPS, across);
            around(body.trunk.points[2] - body.trunk.chest().x_axis * BEHIND_THE_CHEST, across);
        }
        mass::hull(points)
    }

    /// How far, and which way, the weight of a pose falls outside what carries it; `None` where it is carried.
    pub fn tips(&self, index: usize) -> Option<(f64, Place)> {
        self.falls(&self.base_of_support(index, true), index)
    }

    /// The same, if the hands let go of what they rest on.
    pub(super) fn tips_without_hands(&self, index: usize) -> Option<(f64, Place)> {
        self.falls(&self.base_of_support(index, false), index)
    }

    fn falls(&self, base: &[DVec2], index: usize) -> Option<(f64, Place)> {
        let center = mass::center(&self.poses[index].body);
        let center = DVec2::new(center.x, center.y);
        let by = mass::outside(base, center);
        if base.is_empty() || by <= SWAY {
            return None;
        }
        let (low, high) = base.iter().fold((base[0], base[0]), |(l, h), p| (l.min(*p), h.max(*p)));
        let ways = [
            (center.x - high.x, Place::Ahead),
            (low.x - center.x, Place::Behind),
            (center.y - high.y, Place::Left),
            (low.y - center.y, Place::Right),
        ];
        let way =
            ways.into_iter().max_by(|a, b| a.0.total_cmp(&b.0)).map_or(Place::Ahead, |(_, place)| place);
        Some((by, way))
    }

    /// Where a hand rests on a thing that bears weight; `None` for one that is free, on the body, or does not reach.
    pub(super) fn hand_on(&self, index: usize, side: Side) -> Option<DVec3> {
        let settled = &self.poses[index];
        let hold = (*settled.holds.of(side))?;
        let bears = hold == Hold::Floor || thing_of(hold).is_some_and(|thing| self.has(thing));
        let reaches = *settled.hand_gaps.of(side) <= SEEN && self.can_hold(index, side, hold);
        (bears && reaches).then_some(settled.body.arms.of(side).wrist)
    }

    pub(super) fn has(&self, thing: Thing) -> bool {
        self.things.iter().any(|t| t.thing == thing)
    }

    fn can_hold(&self, index: usize, side: Side, hold: Hold) -> bool {
        let shoulder = self.poses[index].body.arms.of(side).shoulder;
        let view = self.drawing.view.value;
        let reach = Reach { shoulder, middle: 0.0, ground: 0.0 };
        held(hold, side, &self.drawing.poses[index], view, &self.things, &reach).is_some()
    }
}

/// The thing that has to be there for a hold.
fn thing_of(hold: Hold) -> Option<Thing> {
    match hold {
        Hold::Counter => Some(Thing::Counter),
        Hold::Wall => Some(Thing::Wall),
        Hold::Chair => Some(Thing::Chair),
        Hold::Rail => Some(Thing::Rail),
        Hold::Bed => Some(Thing::Bed),
        Hold::Floor | Hold::Thigh | Hold::Hip | Hold::HipCrease | Hold::Chest => None,
    }
}
