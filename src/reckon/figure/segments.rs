//! The lengths and masses of the body's segments, as published.
//!
//! Lengths are fractions of stature: R. Drillis and R. Contini, Body Segment Parameters, New York University 1966,
//! as figure 4.1 in D. A. Winter, Biomechanics and Motor Control of Human Movement, 4th ed., Wiley 2009. Masses and
//! centers of mass: Dempster via Winter, table 4.1. Both after agreeing public copies, the book itself was not seen.

/// Stature of the person drawn, in centimeters: distances that authors give are for her.
pub const STATURE_CM: f64 = 160.0;

pub(super) const ANKLE_HEIGHT: f64 = 0.039;
pub(super) const SHANK: f64 = 0.246;
pub(super) const THIGH: f64 = 0.245;
/// From the hip joints to the shoulder joints.
pub(super) const TRUNK: f64 = 0.288;
/// From the line of the shoulders to the chin.
pub(super) const NECK: f64 = 0.052;
/// From the chin to the top.
pub(super) const HEAD: f64 = 0.130;
pub(super) const UPPER_ARM: f64 = 0.186;
pub(super) const FOREARM: f64 = 0.146;
/// From the wrist to the finger tips.
pub(super) const HAND: f64 = 0.108;
pub(super) const FOOT_LENGTH: f64 = 0.152;
pub(super) const FOOT_BREADTH: f64 = 0.055;
pub(super) const HIP_WIDTH: f64 = 0.191;

/// The three parts of the trunk that bend on each other, from the hips up. Their sum is `TRUNK`; how it is shared
/// out is ours, since the tables give the trunk as one.
pub(super) const TRUNK_PARTS: [f64; 3] = [0.070, 0.088, 0.130];

/// Half the distance of the hip joints. The published hip width is the breadth over the outside, so that the joints
/// stand further in; ours.
pub(super) const HIP_JOINT: f64 = 0.052;
/// Half the distance of the shoulder joints, inside the tips of the shoulder blades; ours.
pub(super) const SHOULDER_JOINT: f64 = 0.106;
/// How far the heel stands behind the ankle; ours.
pub(super) const HEEL: f64 = 0.040;
/// How far the ball of the foot stands before the ankle; ours.
pub(super) const BALL: f64 = 0.072;

/// A segment's share of the body's mass, and where its center lies from its upper end, as a fraction of its length.
#[derive(Clone, Copy, Debug)]
pub(super) struct Mass {
    pub share: f64,
    pub center: f64,
}

pub(super) const HAND_MASS: Mass = Mass { share: 0.006, center: 0.506 };
pub(super) const FOREARM_MASS: Mass = Mass { share: 0.016, center: 0.430 };
pub(super) const UPPER_ARM_MASS: Mass = Mass { share: 0.028, center: 0.436 };
pub(super) const FOOT_MASS: Mass = Mass { share: 0.0145, center: 0.500 };
pub(super) const SHANK_MASS: Mass = Mass { share: 0.0465, center: 0.433 };
pub(super) const THIGH_MASS: Mass = Mass { share: 0.100, center: 0.433 };
/// At the ear canal.
pub(super) const HEAD_AND_NECK_MASS: f64 = 0.081;
pub(super) const TRUNK_MASS: Mass = Mass { share: 0.497, center: 0.500 };
