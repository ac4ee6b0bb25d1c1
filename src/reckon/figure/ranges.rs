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
    pub widest_source: &'static str,
    /// What older adults have, where that is published and less.
    pub older: Option<(i16, &'static str)>,
}

/// Two careful people who measure one joint differ by as much, in degrees: common practice, no source.
pub const MEASURING: i16 = 5;

/// The range of a movement; `None` where none is published in degrees.
pub fn range(joint: Joint, motion: Motion, under_weight: bool) -> Option<&'static Range> {
    let fits = |r: &&Range| r.joint == joint && r.motion == motion;
    let carried = RANGES.iter().find(|r| fits(r) && r.under_weight && under_weight);
    carried.or_else(|| RANGES.iter().find(|r| fits(r) && !r.under_weight))
}

const fn row(
    joint: Joint,
    motion: Motion,
    widest: i16,
    widest_source: &'static str,
    older: Option<(i16, &'static str)>,
) -> Range {
    Range { joint, motion, under_weight: false, widest, widest_source, older }
}

const RANGES: [Range; 33] = [
    row(Joint::Shoulder, Motion::Flexion, 180, "AAOS", Some((165, "Walker"))),
    row(Joint::Shoulder, Motion::Extension, 60, "AAOS", Some((44, "Walker"))),
    row(Joint::Shoulder, Motion::Abduction, 180, "AAOS", Some((165, "Walker"))),
    row(Joint::Shoulder, Motion::Adduction, 50, "from memory, not verified", None),
    row(Joint::Shoulder, Motion::InternalRotation, 90, "Merck", Some((62, "Walker"))),
    row(Joint::Shoulder, Motion::ExternalRotation, 90, "AAOS", Some((81, "Walker"))),
    row(Joint::Elbow, Motion::Flexion, 160, "Merck", Some((143, "Walker"))),
    row(Joint::Elbow, Motion::Extension, 0, "AAOS", None),
    row(Joint::Wrist, Motion::Flexion, 90, "Merck", Some((64, "Walker"))),
    row(Joint::Wrist, Motion::Extension, 70, "AAOS", Some((63, "Walker"))),
    row(Joint::Hip, Motion::Flexion, 131, "Soucie", Some((120, "AAOS"))),
    row(Joint::Hip, Motion::Extension, 30, "AAOS", Some((15, "Soucie"))),
    row(Joint::Hip, Motion::Abduction, 45, "AAOS", None),
    row(Joint::Hip, Motion::Adduction, 45, "Merck", None),
    row(Joint::Hip, Motion::InternalRotation, 45, "AAOS", None),
    row(Joint::Hip, Motion::ExternalRotation, 60, "Federal", None),
    row(Joint::Knee, Motion::Flexion, 150, "AMA", Some((135, "Soucie"))),
    row(Joint::Knee, Motion::Extension, 10, "AAOS", Some((1, "Soucie"))),
    row(Joint::Ankle, Motion::Dorsiflexion, 20, "AAOS", Some((12, "Soucie"))),
    row(Joint::Ankle, Motion::Plantarflexion, 56, "Soucie", None),
    // The tables measure the ankle without weight. Weight on the foot bends it on: 35 to 45 degrees in a lunge, Bennell et
    // al., Aust J Physiother 1998;44:175-180, from memory, not verified.
    Range {
        joint: Joint::Ankle,
        motion: Motion::Dorsiflexion,
        under_weight: true,
        widest: 45,
        widest_source: "Bennell",
        older: None,
    },
    row(Joint::Spine, Motion::Flexion, 90, "Federal", None),
    row(Joint::Spine, Motion::Extension, 30, "Federal", None),
    row(Joint::Spine, Motion::LateralFlexionLeft, 30, "Federal", None),
    row(Joint::Spine, Motion::LateralFlexionRight, 30, "Federal", None),
    row(Joint::Spine, Motion::RotationLeft, 30, "Federal", None),
    row(Joint::Spine, Motion::RotationRight, 30, "Federal", None),
    row(Joint::Neck, Motion::Flexion, 45, "Federal", None),
    row(Joint::Neck, Motion::Extension, 45, "Federal", None),
    row(Joint::Neck, Motion::LateralFlexionLeft, 45, "Federal", None),
    row(Joint::Neck, Motion::LateralFlexionRight, 45, "Federal", None),
    row(Joint::Neck, Motion::RotationLeft, 80, "Federal", None),
    row(Joint::Neck, Motion::RotationRight, 80, "Federal", None),
];
