//! The ranges of joints against the published columns, each row with the largest of them.

use super::super::{Range, range};
use crate::model::figure::{Joint, Motion};
use crate::model::vocabulary::Vocabulary;

/// AAOS, AMA, federal, Merck (0 where a column has none), then the mean of older adults: Walker 65 to 85, or Soucie 45 to 69
/// (women); sources stand in `ranges.rs`.
const COLUMNS: [(&str, &str, [i16; 4], i16); 20] = [
    ("shoulder", "flexion", [180, 180, 180, 0], 165),
    ("shoulder", "extension", [60, 50, 0, 50], 44),
    ("shoulder", "abduction", [180, 170, 180, 0], 165),
    ("shoulder", "internal_rotation", [70, 80, 90, 90], 62),
    ("shoulder", "external_rotation", [90, 60, 90, 90], 81),
    ("elbow", "flexion", [150, 140, 145, 160], 143),
    ("elbow", "extension", [0, 0, 0, 0], 0),
    ("wrist", "flexion", [80, 60, 80, 90], 64),
    ("wrist", "extension", [70, 60, 70, 70], 63),
    ("hip", "flexion", [120, 100, 125, 125], 131),
    ("hip", "extension", [30, 30, 30, 15], 17),
    ("hip", "abduction", [45, 40, 45, 45], 0),
    ("hip", "adduction", [30, 20, 25, 45], 0),
    ("hip", "internal_rotation", [45, 40, 40, 45], 0),
    ("hip", "external_rotation", [45, 50, 60, 45], 0),
    ("knee", "flexion", [135, 150, 140, 130], 138),
    ("knee", "extension", [10, 0, 0, 0], 1),
    ("ankle", "dorsiflexion", [20, 20, 20, 20], 12),
    ("ankle", "plantarflexion", [50, 40, 45, 50], 56),
    ("spine", "flexion", [0, 0, 90, 0], 0),
];

fn of(joint: &str, motion: &str) -> &'static Range {
    let (joint, motion) =
        (Joint::from_word(joint).expect("a joint"), Motion::from_word(motion).expect("a motion"));
    range(joint, motion, false).expect("a published range")
}

#[test]
fn the_widest_of_a_movement_is_the_largest_that_any_source_has() {
    for (joint, motion, columns, older) in COLUMNS {
        let most = columns.into_iter().chain([older]).max().unwrap_or(0);
        assert_eq!(of(joint, motion).widest, most, "{joint} {motion}");
    }
}

/// The bounds that the table of ranges proposes for older adults; else the column of older adults, where it is less.
#[test]
fn older_adults_have_no_more_than_what_was_measured_of_them() {
    let proposed = [
        ("shoulder", "flexion", 165),
        ("elbow", "flexion", 143),
        ("knee", "flexion", 135),
        ("hip", "flexion", 120),
        ("hip", "extension", 15),
        ("ankle", "dorsiflexion", 12),
    ];
    for (joint, motion, bound) in proposed {
        assert_eq!(of(joint, motion).older, Some(bound), "{joint} {motion}");
    }
    for (joint, motion, _, older) in COLUMNS {
        if let Some(most) = of(joint, motion).older {
            assert!(most <= older && most < of(joint, motion).widest, "{joint} {motion}");
        }
    }
}

#[test]
fn every_movement_but_those_measured_in_no_degrees_has_a_range() {
    for joint in Joint::ALL {
        for motion in joint.motions() {
            let none =
                *joint == Joint::ShoulderBlade || matches!(motion, Motion::Protraction | Motion::Retraction);
            assert_eq!(range(*joint, *motion, false).is_none(), none, "{joint:?} {motion:?}");
        }
    }
}

#[test]
fn weight_bends_an_ankle_farther_and_no_other_joint() {
    for joint in Joint::ALL {
        for motion in joint.motions() {
            let widest = |under| range(*joint, *motion, under).map(|r| r.widest);
            let more = widest(true) > widest(false);
            assert_eq!(more, *motion == Motion::Dorsiflexion, "{joint:?} {motion:?}");
        }
    }
}
