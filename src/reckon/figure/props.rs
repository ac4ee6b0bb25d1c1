//! Where the things of a figure stand: solids that it must not enter, and the places that hands hold.

use glam::{DVec2, DVec3};

use super::body::sign;
use super::segments::STATURE_CM;
use crate::model::figure::{Drawing, Foot, Hold, Pair, Place, Pose, Prop, Rest, Side, Stance, Thing, View};
use crate::model::vocabulary::Position;

/// A thing with its place in space, in fractions of stature.
#[derive(Clone, Debug)]
pub struct PlacedThing<'d> {
    pub prop: &'d Prop,
    pub thing: Thing,
    pub place: Place,
    /// Its solid parts.
    pub parts: Vec<Solid>,
}

/// A box with its sides along the axes of space.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Solid {
    pub low: DVec3,
    pub high: DVec3,
}

impl Solid {
    fn new(x: (f64, f64), y: (f64, f64), z: (f64, f64)) -> Solid {
        Solid { low: DVec3::new(x.0, y.0, z.0), high: DVec3::new(x.1, y.1, z.1) }
    }

    /// How deep a ball enters it, or how far away it is as a negative number.
    pub fn depth(&self, center: DVec3, radius: f64) -> f64 {
        let outside = (self.low - center).max(center - self.high);
        let apart = outside.max(DVec3::ZERO).length();
        if apart > 0.0 { radius - apart } else { radius - outside.max_element() }
    }
}

/// Heights over the floor that hold when the author gives none, in centimeters: common practice, no source.
mod usual {
    pub(super) const COUNTER: f64 = 90.0;
    pub(super) const CHAIR_BACK: f64 = 84.0;
    pub(super) const RAIL: f64 = 90.0;
    pub(super) const STEP: f64 = 15.0;
    pub(super) const BED: f64 = 45.0;
    pub(super) const WALL: f64 = 190.0;
}

/// So high that the thighs lie level when the feet stand flat and the knees are square.
pub(super) const SEAT: f64 = 0.285 - SEATED;
/// How far the hip joints stand over what a person sits on; ours.
pub(super) const SEATED: f64 = 0.052;
/// How far the hip joints stand over what a person lies on, on her back and on her front; ours.
pub(super) const LYING: f64 = 0.068;
/// How far the arms of a chair stand over its seat; ours.
const ARM: f64 = 0.125;
/// How wide a line on the floor is, and how far it reaches to both sides of her; ours.
const LINE: f64 = 0.025;
const LINE_ENDS: (f64, f64) = (-0.3, 0.3);
/// How far the wrist stands over the flat hand; ours.
pub(super) const WRIST: f64 = 0.014;

pub fn cm(value: i16) -> f64 {
    f64::from(value) / STATURE_CM
}

/// What the poses of a drawing tell about where its things stand.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Clues {
    /// The hips of the first pose that sits.
    pub seated: Option<DVec3>,
    /// How far back the figure reaches in the first pose whose back rests on something.
    pub back: Option<f64>,
    /// How far ahead and behind a figure reaches that lies, or is on hands and knees.
    pub lying: Option<(f64, f64)>,
    /// How far before her middle her knees are where she lies across the picture.
    pub knees: f64,
}

/// How high a body that lies, kneels or stands on hands and knees is carried.
pub fn surface(drawing: &Drawing) -> f64 {
    let bed = drawing.props.iter().find(|p| p.thing.value == Thing::Bed);
    bed.map_or(0.0, |p| p.height.map_or(usual::BED / STATURE_CM, |h| cm(h.value)))
}

/// How high the seat is.
pub fn seat(drawing: &Drawing) -> f64 {
    let chair = drawing.props.iter().find(|p| matches!(p.thing.value, Thing::Chair | Thing::Bed));
    match chair {
        Some(p) if p.thing.value == Thing::Bed => p.height.map_or(usual::BED / STATURE_CM, |h| cm(h.value)),
        Some(p) => p.height.map_or(SEAT, |h| cm(h.value)),
        None => SEAT,
    }
}

/// How high the step is.
pub(super) fn step(drawing: &Drawing) -> f64 {
    let step = drawing.props.iter().find(|p| p.thing.value == Thing::Step);
    step.and_then(|p| p.height).map_or(usual::STEP / STATURE_CM, |h| cm(h.value))
}

/// How far ahead of the standing foot, or beside her middle, the riser of a step stands.
pub(super) fn riser(drawing: &Drawing) -> f64 {
    let step = drawing.props.iter().find(|p| p.thing.value == Thing::Step);
    let usual = match step_place(drawing) {
        Place::Left | Place::Right => 0.095,
        Place::Ahead | Place::Behind => 0.15,
    };
    step.and_then(|p| p.distance).map_or(usual, |d| cm(d.value))
}

/// On which side of her a step stands: ahead of her, unless at her left or her right.
pub(super) fn step_place(drawing: &Drawing) -> Place {
    let step = drawing.props.iter().find(|p| p.thing.value == Thing::Step);
    let said = step.and_then(|p| p.place).map(|place| place.value);
    said.filter(|place| *place != Place::Behind).unwrap_or(Place::Ahead)
}

/// Everything in the picture, in the order in which the author names it.
pub(super) fn stand<'d>(drawing: &'d Drawing, clues: Clues, feet: &[Pair<DVec2>]) -> Vec<PlacedThing<'d>> {
    let sits = clues.seated.is_some();
    // What stands beside or before a person who steps ahead or aside reaches as far as she does.
    let ankles = || feet.iter().flat_map(|pair| [pair.left, pair.right]);
    let low = ankles().fold(DVec2::ZERO, DVec2::min);
    let high = ankles().fold(DVec2::ZERO, DVec2::max);
    let ahead: f64 = if steps_ahead(drawing) { 0.56 } else { 0.35 };
    let along = (low.x - 0.35, ahead.max(high.x + 0.24));
    let across = ((low.y + 0.125).min(0.0) - 0.5, (high.y - 0.125).max(0.0) + 0.5);
    drawing
        .props
        .iter()
        .map(|prop| {
            let thing = prop.thing.value;
            let place = prop.place.map_or(Place::Ahead, |p| p.value);
            let place = match (thing, prop.place) {
                (Thing::Wall, None) if clues.back.is_some() && rests_on(drawing, Rest::Wall) => Place::Behind,
                _ => place,
            };
            let away = |usual: f64| prop.distance.map_or(usual, |d| cm(d.value));
            let top = |usual: f64| prop.height.map_or(usual / STATURE_CM, |h| cm(h.value));
            let parts = match thing {
                Thing::Counter => {
                    let top = top(usual::COUNTER);
                    beside(place, away(0.20), 0.33, along, across, |deep, wide| {
                        vec![
                            Solid::new(deep, wide, (top - 0.022, top)),
                            Solid::new(inset(deep, place), wide, (0.0, top - 0.022)),
                        ]
                    })
                }
                Thing::Wall => {
                    let away = match (place, clues.back) {
                        (Place::Behind, Some(back)) if prop.distance.is_none() => -back,
                        (Place::Behind, _) => away(0.2),
                        _ => away(0.36),
                    };
                    beside(place, away, 0.05, along, across, |deep, wide| {
                        vec![Solid::new(deep, wide, (0.0, top(usual::WALL)))]
                    })
                }
                Thing::Rail => {
                    let top = top(usual::RAIL);
                    let usual = if matches!(place, Place::Left | Place::Right) { 0.18 } else { 0.26 };
                    beside(place, away(usual), 0.025, along, across, |deep, wide| {
                        vec![Solid::new(deep, wide, (top - 0.025, top))]
                    })
                }
                Thing::Step => {
                    let (near, far) = (riser(drawing), riser(drawing) + 0.34);
                    let high = (0.0, step(drawing));
                    let solid = match step_place(drawing) {
                        Place::Left => Solid::new((-0.2, 0.25), (near, far), high),
                        Place::Right => Solid::new((-0.2, 0.25), (-far, -near), high),
                        Place::Ahead | Place::Behind => Solid::new((near, far), (-0.3, 0.3), high),
                    };
                    vec![solid]
                }
                Thing::Chair
                    if sits || prop.place.is_none() && !holds(drawing, Position::Standing, Hold::Chair) =>
                {
                    let hips = clues.seated.unwrap_or(DVec3::new(-0.26, 0.0, 0.0));
                    let arms = holds(drawing, Position::Seated, Hold::Chair);
                    chair(hips.x, seat(drawing), arms)
                }
                Thing::Chair if matches!(place, Place::Left | Place::Right) => {
                    // It looks where she looks, and its back is within reach of her hand: near the wall that she leans on.
                    let y = away(0.15);
                    let deep = if place == Place::Left { (y, y + 0.29) } else { (-y - 0.29, -y) };
                    let back = clues.back.map_or(0.06, |wall| wall + 0.05);
                    let high = (SEAT, usual::CHAIR_BACK / STATURE_CM);
                    vec![
                        Solid::new((back, back + 0.27), deep, (SEAT - 0.03, SEAT)),
                        Solid::new((back, back + 0.022), deep, high),
                    ]
                }
                Thing::Chair => {
                    // Its back is turned to the person who holds it.
                    let at = away(0.19);
                    let back =
                        Solid::new((at, at + 0.022), (-0.14, 0.14), (SEAT, usual::CHAIR_BACK / STATURE_CM));
                    let seat = Solid::new((at, at + 0.27), (-0.14, 0.14), (SEAT - 0.03, SEAT));
                    vec![seat, back]
                }
                Thing::Line => {
                    let (near, far) = (away(0.25), away(0.25) + LINE);
                    let level = (-0.002, 0.0);
                    let solid = match place {
                        Place::Ahead => Solid::new((near, far), LINE_ENDS, level),
                        Place::Behind => Solid::new((-far, -near), LINE_ENDS, level),
                        Place::Left => Solid::new(LINE_ENDS, (near, far), level),
                        Place::Right => Solid::new(LINE_ENDS, (-far, -near), level),
                    };
                    vec![solid]
                }
                Thing::Bed => {
                    let top = if clues.lying.is_some() { surface(drawing) } else { seat(drawing) };
                    let (from, to) = clues.lying.unwrap_or((clues.seated.map_or(-0.3, |h| h.x) - 0.45, 0.0));
                    let to =
                        if clues.lying.is_some() { to } else { clues.seated.map_or(0.0, |h| h.x) + 0.16 };
                    let level = (top - 0.12, top);
                    match drawing.view.value {
                        View::Front if clues.lying.is_some() => {
                            let edge = clues.seated.map_or(0.2, |h| h.x + 0.16);
                            vec![Solid::new((edge - 0.4, edge), (from, to), level)]
                        }
                        View::Above if clues.lying.is_some() => {
                            let edge = clues.seated.map_or(clues.knees.max(0.2) + 0.06, |h| h.x + 0.16);
                            vec![Solid::new((edge - 0.56, edge), (from, to), level)]
                        }
                        _ => vec![Solid::new((from, to), (-0.28, 0.28), level)],
                    }
                }
                Thing::Floor | Thing::Cushion | Thing::Towel | Thing::Band | Thing::Ball | Thing::Weights => {
                    Vec::new()
                }
            };
            PlacedThing { prop, thing, place, parts }
        })
        .collect()
}

/// The body of a counter stands back from its top, where the toes are.
fn inset(deep: (f64, f64), place: Place) -> (f64, f64) {
    match place {
        Place::Behind => (deep.0, deep.1 - 0.03),
        _ => (deep.0 + 0.03, deep.1),
    }
}

/// A seat, its back and, where hands rest on it, its arms.
fn chair(hips: f64, seat: f64, arms: bool) -> Vec<Solid> {
    let (back, front) = (hips - 0.115, hips + 0.165);
    let mut parts = vec![
        Solid::new((back, front), (-0.145, 0.145), (seat - 0.03, seat)),
        Solid::new((back - 0.022, back), (-0.145, 0.145), (seat, seat + 0.30)),
    ];
    if arms {
        let arm = |y: (f64, f64)| Solid::new((back, hips + 0.13), y, (seat + ARM - 0.018, seat + ARM));
        parts.extend([arm((0.128, 0.150)), arm((-0.150, -0.128))]);
    }
    parts
}

/// A thing that is `thick` and stands `away` on one side: its parts by their extents along the way to it and across. At
/// her side it reaches `along` from behind her to ahead of her, before and behind her `across` from her right to her left.
fn beside(
    place: Place,
    away: f64,
    thick: f64,
    along: (f64, f64),
    across: (f64, f64),
    parts: impl Fn((f64, f64), (f64, f64)) -> Vec<Solid>,
) -> Vec<Solid> {
    match place {
        Place::Ahead => parts((away, away + thick), across),
        Place::Behind => parts((-away - thick, -away), across),
        Place::Left | Place::Right => parts((away, away + thick), across)
            .into_iter()
            .map(|s| {
                let (near, far) = (s.low.x, s.high.x);
                let y = if place == Place::Left { (near, far) } else { (-far, -near) };
                Solid::new(along, y, (s.low.z, s.high.z))
            })
            .collect(),
    }
}

fn steps_ahead(drawing: &Drawing) -> bool {
    drawing.poses.iter().any(|pose| {
        let stance = pose.stance.map(|s| s.value);
        let on_step = [pose.feet.left, pose.feet.right].iter().flatten().any(|f| f.value == Foot::Step);
        on_step || matches!(stance, Some(Stance::Step | Stance::Tandem))
    })
}

fn rests_on(drawing: &Drawing, rest: Rest) -> bool {
    drawing.poses.iter().any(|p| p.back.is_some_and(|b| b.value == rest))
}

fn holds(drawing: &Drawing, base: Position, hold: Hold) -> bool {
    drawing.poses.iter().any(|p| {
        p.base.value == base && [p.holds.left, p.holds.right].iter().flatten().any(|h| h.value == hold)
    })
}

/// From where a hand reaches.
pub(super) struct Reach {
    pub shoulder: DVec3,
    /// How far to the left of the picture's middle her own middle is.
    pub middle: f64,
    /// How high what she lies, kneels or stands on hands and knees on is.
    pub ground: f64,
}

/// Where a wrist is when its hand rests on a thing, and where its fingers point; `None` when the picture has no such
/// thing.
pub(super) fn held(
    hold: Hold,
    side: Side,
    pose: &Pose,
    view: View,
    things: &[PlacedThing<'_>],
    reach: &Reach,
) -> Option<(DVec3, DVec3)> {
    let &Reach { shoulder, middle, ground } = reach;
    let out = sign(side);
    let height = pose.hold_at.of(side).map(|h| cm(h.value));
    let wanted = match hold {
        Hold::Counter => Thing::Counter,
        Hold::Wall => Thing::Wall,
        Hold::Chair => Thing::Chair,
        Hold::Rail => Thing::Rail,
        Hold::Floor => {
            // Hands that carry her are on what her knees are on, be it a bed.
            let under = if pose.base.value == Position::HandsAndKnees { ground } else { 0.0 };
            return Some((DVec3::new(shoulder.x, shoulder.y, under + WRIST), DVec3::X));
        }
        Hold::Bed => {
            return Some((DVec3::new(shoulder.x, shoulder.y + out * 0.06, ground + WRIST), DVec3::X));
        }
        Hold::Thigh | Hold::Hip | Hold::HipCrease | Hold::Chest => return None,
    };
    let thing = things.iter().find(|t| t.thing == wanted)?;
    let solid = thing.parts.first()?;
    // Hands stand a little further apart than the shoulders, where both hold what is ahead.
    let wide = if view == View::Front { 0.135 } else { 0.11 };
    let ahead = |x: f64, z: f64, along: DVec3| Some((DVec3::new(x, middle + out * wide, z), along));
    match (wanted, thing.place) {
        (Thing::Counter, Place::Ahead) => {
            ahead(solid.low.x + 0.012, solid.high.z + WRIST, DVec3::new(1.0, 0.0, -0.06))
        }
        (Thing::Counter, Place::Behind) => ahead(solid.high.x - 0.012, solid.high.z + WRIST, -DVec3::X),
        (Thing::Rail, Place::Ahead) => {
            ahead(solid.low.x - 0.02, solid.high.z + WRIST, DVec3::new(0.8, 0.0, -0.5))
        }
        (Thing::Wall, Place::Ahead) => {
            let z = height.unwrap_or(shoulder.z);
            ahead(solid.low.x - WRIST, z, DVec3::new(0.06, 0.0, 1.0))
        }
        (Thing::Wall, Place::Behind) => {
            let z = height.unwrap_or(shoulder.z);
            ahead(solid.high.x + WRIST, z, DVec3::new(-0.06, 0.0, -1.0))
        }
        (Thing::Chair, _) if thing.parts.len() > 2 => {
            let arm = thing.parts.iter().skip(2).find(|p| p.low.y.signum() == out)?;
            let front = DVec3::new(arm.high.x - 0.055, arm.low.midpoint(arm.high).y, arm.high.z + WRIST);
            Some((front, DVec3::new(1.0, 0.0, -0.12)))
        }
        (Thing::Chair, Place::Left | Place::Right) => {
            let back = thing.parts.get(1).unwrap_or(solid);
            let near = if thing.place == Place::Left { back.low.y } else { back.high.y };
            Some((
                DVec3::new(back.low.x, near + near.signum() * 0.04, back.high.z + WRIST),
                DVec3::new(1.0, 0.0, -0.5),
            ))
        }
        (Thing::Chair, _) => {
            let back = thing.parts.get(1).unwrap_or(solid);
            ahead(back.low.x - 0.015, back.high.z + WRIST, DVec3::new(0.9, 0.0, -0.4))
        }
        (_, Place::Left | Place::Right) => {
            let y = if thing.place == Place::Left { solid.low.y + 0.012 } else { solid.high.y - 0.012 };
            match wanted {
                Thing::Wall => Some((
                    DVec3::new(shoulder.x + 0.04, y, height.unwrap_or(shoulder.z)),
                    DVec3::new(0.0, 0.0, 1.0),
                )),
                Thing::Rail => {
                    Some((DVec3::new(shoulder.x + 0.08, y, solid.high.z + WRIST), DVec3::new(1.0, 0.0, -0.2)))
                }
                _ => Some((
                    DVec3::new(shoulder.x + 0.06, y, solid.high.z + WRIST),
                    DVec3::new(0.9, y.signum() * 0.5, -0.06),
                )),
            }
        }
        _ => None,
    }
}
