//! How far joints move, as published: what no drawn body may go beyond, and what few older ones do.
//!
//! AAOS and AMA: C. C. Norkin and D. J. White, Measurement of Joint Motion, table A.1 (shoulder and elbow; hip to ankle
//! from memory, not verified). Walker: people of 65 to 85 years, same table. Soucie: J. M. Soucie et al., Haemophilia
//! 2011;17:500-507, people of 45 to 69 years, from memory, not verified. Merck: the Merck Manual's table of ranges. Federal:
//! 38 CFR 4.71 and 4.71a, plates I, II and V, from memory, not verified.

use crate::model::figure::{Joint, Motion};

/// How far one movement of a joint goes, in degrees.
#[derive(Clone, Copy, Debug)]
pub struct Range {
    pub joint: Joint,
    pub motion: Motion,
    /// The body's own weight pushes the joint there.
    pub under_weight: bool,
    /// The widest that is published.
    pub widest: i16,
    /// What older adults have, where that is published and less.
    pub older: Option<i16>,
}

/// Two careful people who measure one joint differ by as much, in degrees: common practice, no source.
pub const MEASURING: i16 = 5;

/// The range of a movement; `None` where none is published in degrees.
pub fn range(joint: Joint, motion: Motion, under_weight: bool) -> Option<&'static Range> {
    let fits = |r: &&Range| r.joint == joint && r.motion == motion;
    let carried = RANGES.iter().find(|r| fits(r) && r.under_weight && under_weight);
    carried.or_else(|| RANGES.iter().find(|r| fits(r) && !r.under_weight))
}

const fn row(joint: Joint, motion: Motion, widest: i16, older: Option<i16>) -> Range {
    Range { joint, motion, under_weight: false, widest, older }
}

// Behind each row its source, and that of what older adults have.
const RANGES: [Range; 33] = [
    row(Joint::Shoulder, Motion::Flexion, 180, Some(165)), // AAOS; Walker
    row(Joint::Shoulder, Motion::Extension, 60, Some(44)), // AAOS; Walker
    row(Joint::Shoulder, Motion::Abduction, 180, Some(165)), // AAOS; Walker
    row(Joint::Shoulder, Motion::Adduction, 50, None),     // from memory, not verified
    row(Joint::Shoulder, Motion::InternalRotation, 90, Some(62)), // Merck; Walker
    row(Joint::Shoulder, Motion::ExternalRotation, 90, Some(81)), // AAOS; Walker
    row(Joint::Elbow, Motion::Flexion, 160, Some(143)),    // Merck; Walker
    row(Joint::Elbow, Motion::Extension, 0, None),         // AAOS
    row(Joint::Wrist, Motion::Flexion, 90, Some(64)),      // Merck; Walker
    row(Joint::Wrist, Motion::Extension, 70, Some(63)),    // AAOS; Walker
    row(Joint::Hip, Motion::Flexion, 131, Some(120)),      // Soucie; AAOS
    row(Joint::Hip, Motion::Extension, 30, Some(15)),      // AAOS; Soucie
    row(Joint::Hip, Motion::Abduction, 45, None),          // AAOS
    row(Joint::Hip, Motion::Adduction, 45, None),          // Merck
    row(Joint::Hip, Motion::InternalRotation, 45, None),   // AAOS
    row(Joint::Hip, Motion::ExternalRotation, 60, None),   // Federal
    row(Joint::Knee, Motion::Flexion, 150, Some(135)),     // AMA; Soucie
    row(Joint::Knee, Motion::Extension, 10, Some(1)),      // AAOS; Soucie
    row(Joint::Ankle, Motion::Dorsiflexion, 20, Some(12)), // AAOS; Soucie
    row(Joint::Ankle, Motion::Plantarflexion, 56, None),   // Soucie
    // The tables measure the ankle without weight. Weight on the foot bends it on: 35 to 45 degrees in a lunge, Bennell et
    // al., Aust J Physiother 1998;44:175-180, from memory, not verified.
    Range { joint: Joint::Ankle, motion: Motion::Dorsiflexion, under_weight: true, widest: 45, older: None },
    row(Joint::Spine, Motion::Flexion, 90, None),   // Federal
    row(Joint::Spine, Motion::Extension, 30, None), // Federal
    row(Joint::Spine, Motion::LateralFlexionLeft, 30, None), // Federal
    row(Joint::Spine, Motion::LateralFlexionRight, 30, None), // Federal
    row(Joint::Spine, Motion::RotationLeft, 30, None), // Federal
    row(Joint::Spine, Motion::RotationRight, 30, None), // Federal
    row(Joint::Neck, Motion::Flexion, 45, None),    // Federal
    row(Joint::Neck, Motion::Extension, 45, None),  // Federal
    row(Joint::Neck, Motion::LateralFlexionLeft, 45, None), // Federal
    row(Joint::Neck, Motion::LateralFlexionRight, 45, None), // Federal
    row(Joint::Neck, Motion::RotationLeft, 80, None), // Federal
    row(Joint::Neck, Motion::RotationRight, 80, None), // Federal
];
