//! The tables of segments against what their sources say about themselves.
//!
//! Winter: D. A. Winter, Biomechanics and Motor Control of Human Movement, 4th ed., Wiley 2009, figure 4.1 and table 4.1,
//! after agreeing public copies. De Leva: P. de Leva, J Biomech 1996;29(9):1223-1230, after the copy at BMClab.

use crate::reckon::figure::segments::*;

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-9
}

const LIMBS: [Mass; 6] = [HAND_MASS, FOREARM_MASS, UPPER_ARM_MASS, FOOT_MASS, SHANK_MASS, THIGH_MASS];

#[test]
fn the_masses_are_the_whole_body() {
    let limbs: f64 = LIMBS.iter().map(|m| m.share).sum();
    assert!(near(2.0 * limbs + HEAD_AND_NECK_MASS + TRUNK_MASS.share, 1.0));
}

/// Winter, table 4.1: total leg 0.161, foot and shank 0.061, forearm and hand 0.022, total arm 0.050.
#[test]
fn the_limbs_weigh_what_the_table_says_of_them_as_wholes() {
    let sum = |parts: &[Mass]| parts.iter().map(|m| m.share).sum::<f64>();
    assert!(near(sum(&[THIGH_MASS, SHANK_MASS, FOOT_MASS]), 0.161));
    assert!(near(sum(&[FOOT_MASS, SHANK_MASS]), 0.061));
    assert!(near(sum(&[FOREARM_MASS, HAND_MASS]), 0.022));
    assert!(near(sum(&[UPPER_ARM_MASS, FOREARM_MASS, HAND_MASS]), 0.050));
}

/// Winter, table 4.1: thorax 0.216, abdomen 0.139, pelvis 0.142; trunk, head and neck 0.578; with the arms 0.678.
#[test]
fn the_trunk_weighs_what_the_table_says_of_its_parts() {
    assert!(near(TRUNK_MASS.share, 0.216 + 0.139 + 0.142));
    assert!(near(TRUNK_MASS.share + HEAD_AND_NECK_MASS, 0.578));
    assert!(near(TRUNK_MASS.share + HEAD_AND_NECK_MASS + 2.0 * 0.050, 0.678));
    assert!(near(1.0 - 2.0 * 0.161, 0.678));
}

/// Winter, table 4.1, the column of distances from the lower end.
#[test]
fn the_centers_are_as_far_from_both_ends_as_the_table_says() {
    let distal = [0.494, 0.570, 0.564, 0.500, 0.567, 0.567];
    for (mass, distal) in LIMBS.iter().zip(distal) {
        assert!(near(mass.center + distal, 1.0), "{mass:?}");
    }
    assert!(near(TRUNK_MASS.center + 0.500, 1.0));
}

/// Winter, figure 4.1: the heights of the landmarks.
#[test]
fn the_segments_stand_on_each_other_as_high_as_the_landmarks() {
    let landmarks =
        [(ANKLE_HEIGHT, 0.039), (SHANK, 0.285), (THIGH, 0.530), (TRUNK, 0.818), (NECK, 0.870), (HEAD, 1.000)];
    let mut height = 0.0;
    for (length, landmark) in landmarks {
        height += length;
        assert!(near(height, landmark), "{height} {landmark}");
    }
    assert!(near(TRUNK_PARTS.iter().sum(), TRUNK));
}

/// A segment of de Leva's for women and men: share of mass, center from the upper end.
pub(super) struct DeLeva {
    pub(super) name: &'static str,
    pub(super) count: f64,
    pub(super) women: (f64, f64),
    pub(super) men: (f64, f64),
}

pub(super) const DE_LEVA: [DeLeva; 8] = [
    DeLeva { name: "head", count: 1.0, women: (0.0668, 0.5894), men: (0.0694, 0.5976) },
    DeLeva { name: "trunk", count: 1.0, women: (0.4257, 0.3782), men: (0.4346, 0.4310) },
    DeLeva { name: "upper arm", count: 2.0, women: (0.0255, 0.5754), men: (0.0271, 0.5772) },
    DeLeva { name: "forearm", count: 2.0, women: (0.0138, 0.4559), men: (0.0162, 0.4574) },
    DeLeva { name: "hand", count: 2.0, women: (0.0056, 0.7474), men: (0.0061, 0.7900) },
    DeLeva { name: "thigh", count: 2.0, women: (0.1478, 0.3612), men: (0.1416, 0.4095) },
    DeLeva { name: "shank", count: 2.0, women: (0.0481, 0.4352), men: (0.0433, 0.4395) },
    DeLeva { name: "foot", count: 2.0, women: (0.0129, 0.4014), men: (0.0137, 0.4415) },
];

/// The second set is copied without a slip: its own sums, then no segment of ours is far from it. Dempster's men have
/// heavier trunks and lighter thighs; no other share is apart by more than a twentieth of the body.
#[test]
fn a_second_set_of_masses_says_much_the_same() {
    let sum = |of: &dyn Fn(&DeLeva) -> f64| DE_LEVA.iter().map(|s| s.count * of(s)).sum::<f64>();
    assert!((sum(&|s| s.women.0) - 0.9999).abs() < 1e-4);
    assert!((sum(&|s| s.men.0) - 1.0000).abs() < 1e-4);
    let ours = [
        HEAD_AND_NECK_MASS,
        TRUNK_MASS.share,
        UPPER_ARM_MASS.share,
        FOREARM_MASS.share,
        HAND_MASS.share,
        THIGH_MASS.share,
        SHANK_MASS.share,
        FOOT_MASS.share,
    ];
    for (theirs, ours) in DE_LEVA.iter().zip(ours) {
        let most = if theirs.name == "trunk" { 0.075 } else { 0.05 };
        assert!((theirs.women.0 - ours).abs() < most, "{}: {ours}", theirs.name);
    }
}
