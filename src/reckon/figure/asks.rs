//! What a drawn pose asks of the body, told from the picture alone: a witness of the demands that an entry names.

use super::Scene;
use super::body::{Body, sign};
use super::measured::{Measured, is_knelt, measured};
use super::segments::{FOOT_BREADTH, STATURE_CM};
use crate::model::figure::{Foot, Hold, Joint, Motion, Place, Side, Stance, Thing};
use crate::model::vocabulary::Position;

/// A demand that can be seen in a pose.
#[derive(Clone, Debug, PartialEq)]
pub struct Ask {
    /// Any of these demands names it.
    pub demands: &'static [&'static str],
    pub shown_by: Sign,
}

/// What shows a demand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Sign {
    /// A joint that is turned so far.
    Turn(Measured),
    /// Both hips or knees, turned alike.
    Pair(Measured),
    /// The only foot that carries.
    OneFoot(Side),
    Narrow(Stance),
    /// The position itself.
    Base(Position),
    /// The position, with nothing under it but the floor.
    OnTheFloor(Position),
    HandOverHead(Side),
    /// A load in a hand over the head.
    LoadOverHead(Side),
    /// A load in the hands of a bent back.
    LoadedBack(Measured),
    HandCarries(Side),
    HeadLow,
    /// A leg that crosses the middle of the body.
    Crosses(Side),
    /// Both feet in the air, so many centimeters high.
    Jump(i16),
}

/// Nobody sees less in a picture, and a square seat that is drawn from its feet is square to as much.
const SLACK: f64 = 1.5;
/// Hip bends over this are what people with a new hip are told to avoid: Eannucci et al., HSS J 2019;15:247-253.
const DEEP_HIP: f64 = 90.0;
/// A knee that carries is bent deeply beyond the square: common practice, no source.
const DEEP_KNEE: f64 = 90.0;
/// A knee that carries nothing, beyond what sitting and rising ask: Rowe et al., Gait Posture 2000;12:143-155, 110 degrees
/// for everyday tasks, from memory, not verified.
const DEEP_FREE_KNEE: f64 = 110.0;
/// Half of the 60 degrees that the lower back bends by itself (AMA, from memory, not verified): a picture beyond it shows a
/// rounded back, which breaks bones before its end is reached.
const BENT_SPINE: f64 = 30.0;
/// Two thirds of the 30 degrees of the federal plate V (from memory, not verified): the last third is its end.
const ARCHED_SPINE: f64 = 20.0;
const TWISTED_SPINE: f64 = 20.0;
/// A head that is turned as far looks to one side; common practice, no source.
const TURNED_HEAD: f64 = 30.0;
/// The head lies lower than the heart by more than a pillow's dent.
const HEAD_LOW: f64 = 2.0 / STATURE_CM;

impl Scene<'_> {
    /// Every demand that a pose shows, each once.
    pub fn asks(&self, index: usize) -> Vec<Ask> {
        let (pose, settled) = (&self.drawing.poses[index], &self.poses[index]);
        let body = &settled.body;
        let base = pose.base.value;
        let mut all: Vec<Ask> = Vec::new();
        let mut ask = |demands, shown_by| all.push(Ask { demands, shown_by });

        let joints = measured(pose, settled);
        let most = |joint: Joint, motions: &[Motion], least: &dyn Fn(&Measured) -> f64| {
            let of = |m: &&Measured| m.joint == joint && motions.contains(&m.motion);
            let over = joints.iter().filter(of).filter(|m| m.degrees > least(m) + SLACK);
            over.max_by(|a, b| a.degrees.total_cmp(&b.degrees)).copied()
        };
        let both = |m: Measured| {
            let alike = |o: &&Measured| o.joint == m.joint && o.motion == m.motion && o.side != m.side;
            match joints.iter().find(alike) {
                Some(other) if (other.degrees - m.degrees).abs() < SLACK => Sign::Pair(m),
                _ => Sign::Turn(m),
            }
        };
        if let Some(hip) = most(Joint::Hip, &[Motion::Flexion], &|_| DEEP_HIP) {
            ask(&["deep-hip-bend"], both(hip));
        }
        let knee = |m: &Measured| {
            let rises = base == Position::Seated && self.rises();
            let foot = m.side.map(|s| *settled.feet.of(s));
            let carries = m.under_weight || rises && foot.is_some_and(|f| f != Foot::Lifted);
            if carries { DEEP_KNEE } else { DEEP_FREE_KNEE }
        };
        if let Some(knee) = most(Joint::Knee, &[Motion::Flexion], &knee) {
            ask(&["deep-knee-bend"], both(knee));
        }
        let bent = most(Joint::Spine, &[Motion::Flexion], &|_| BENT_SPINE);
        let loaded = self.has(Thing::Weights) || self.has(Thing::Ball);
        if let Some(spine) = bent {
            ask(&["end-range-flexion"], Sign::Turn(spine));
            if loaded {
                ask(&["loaded-flexion"], Sign::LoadedBack(spine));
            }
        }
        if let Some(spine) = most(Joint::Spine, &[Motion::Extension], &|_| ARCHED_SPINE) {
            ask(&["end-range-extension"], Sign::Turn(spine));
        }
        let turns = [Motion::RotationLeft, Motion::RotationRight];
        if let Some(spine) = most(Joint::Spine, &turns, &|_| TWISTED_SPINE) {
            ask(&["end-range-twist"], Sign::Turn(spine));
        }
        if let Some(neck) = most(Joint::Neck, &turns, &|_| TURNED_HEAD) {
            ask(&["head-turn"], Sign::Turn(neck));
        }

        let stands = |side: Side| *settled.feet.of(side) != Foot::Lifted;
        if base == Position::Standing {
            match (stands(Side::Left), stands(Side::Right)) {
                (true, false) => ask(&["single-leg-stance"], Sign::OneFoot(Side::Left)),
                (false, true) => ask(&["single-leg-stance"], Sign::OneFoot(Side::Right)),
                (true, true) => {
                    let stance = pose.stance.map(|s| s.value);
                    let is_narrow =
                        |s: &Stance| matches!(s, Stance::Together | Stance::SemiTandem | Stance::Tandem);
                    if let Some(stance) = stance.filter(is_narrow) {
                        ask(&["narrow-stance"], Sign::Narrow(stance));
                    }
                }
                (false, false) => {}
            }
            if let Some(jump) = pose.jump.map(|j| j.value).filter(|height| *height > 0) {
                ask(&["impact-moderate", "impact-high"], Sign::Jump(jump));
            }
        }
        match base {
            Position::Lying => ask(&["lying-flat"], Sign::Base(base)),
            Position::Prone => ask(&["lying-prone"], Sign::Base(base)),
            Position::Kneeling | Position::HandsAndKnees => ask(&["kneeling"], Sign::Base(base)),
            Position::SideLying | Position::Seated | Position::Standing => {}
        }
        if base.is_on_floor() && !self.has(Thing::Bed) {
            ask(&["floor-transfer"], Sign::OnTheFloor(base));
        }

        let over = [Side::Left, Side::Right].into_iter().find(|side| is_over_head(body, *side));
        if let Some(side) = over {
            ask(&["overhead-reach"], Sign::HandOverHead(side));
            if loaded {
                ask(&["overhead-load"], Sign::LoadOverHead(side));
            }
        }
        let carries = [Side::Left, Side::Right].into_iter().find(|side| {
            let flat = matches!(settled.holds.of(*side), Some(Hold::Floor | Hold::Bed));
            base == Position::HandsAndKnees && flat
        });
        if let Some(side) = carries.or_else(|| self.leans_on_hands(index)) {
            ask(&["wrist-load"], Sign::HandCarries(side));
        }
        if is_head_low(body) {
            ask(&["head-below-heart"], Sign::HeadLow);
        }
        let crosses = |side: &Side| !stands(*side) && !is_knelt(pose, settled, *side) && crosses(body, *side);
        if let Some(side) = [Side::Left, Side::Right].into_iter().find(crosses) {
            ask(&["crossing-midline"], Sign::Crosses(side));
        }
        all
    }

    /// True when the figure sits in one pose and stands in another, so that its knees carry it from the one to the other.
    fn rises(&self) -> bool {
        self.drawing.poses.iter().any(|p| p.base.value == Position::Standing)
    }

    /// A flat hand that carries weight: the body would fall onto a wall or a counter without it.
    fn leans_on_hands(&self, index: usize) -> Option<Side> {
        let settled = &self.poses[index];
        let flat = |side: &Side| {
            matches!(settled.holds.of(*side), Some(Hold::Wall | Hold::Counter))
                && self.hand_on(index, *side).is_some()
        };
        let side = [Side::Left, Side::Right].into_iter().find(flat)?;
        let (_, way) = self.tips_without_hands(index)?;
        (way == Place::Ahead).then_some(side)
    }
}

/// True when the middle of a hand is over the top of the head, along the trunk.
fn is_over_head(body: &Body, side: Side) -> bool {
    let arm = body.arms.of(side);
    let up = body.trunk.chest().z_axis;
    (arm.wrist.midpoint(arm.tip) - body.trunk.top()).dot(up) > 0.0
}

/// True when the ear is lower than the middle of the chest.
fn is_head_low(body: &Body) -> bool {
    let heart = body.trunk.points[2].midpoint(body.trunk.points[3]);
    heart.z - body.trunk.ear().z > HEAD_LOW
}

/// True when an ankle is beyond the middle of the pelvis by more than half a foot.
fn crosses(body: &Body, side: Side) -> bool {
    let trunk = &body.trunk;
    let aside = (body.legs.of(side).ankle - trunk.hips()).dot(trunk.pelvis().y_axis) * sign(side);
    aside < -FOOT_BREADTH / 2.0
}
