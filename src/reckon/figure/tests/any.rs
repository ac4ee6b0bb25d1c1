//! Whatever is written: segments keep their lengths, and nothing is lost in space.

use glam::DVec3;
use proptest::prelude::*;

use super::*;
use crate::model::vocabulary::Vocabulary;
use crate::reckon::figure::segments::*;

/// The joints of a pose and the fields that turn them.
const FIELDS: [&str; 16] = [
    "spine",
    "neck",
    "hip",
    "knee",
    "ankle",
    "shoulder",
    "elbow",
    "wrist",
    "shoulder_blade",
    "left_hip",
    "right_hip",
    "left_knee",
    "right_knee",
    "left_ankle",
    "left_shoulder",
    "right_shoulder",
];

fn word(words: &'static [&'static str]) -> impl Strategy<Value = &'static str> + Clone {
    prop::sample::select(words)
}

/// A pose with any turns, feet, holds and stance, each word at most once.
fn any_pose() -> impl Strategy<Value = String> {
    let turns = prop::collection::btree_map(word(&FIELDS), (0usize..8, 0u16..=180), 0..8);
    let feet = prop::option::of(word(&["flat", "toes", "heel", "step", "lifted"]));
    let hold = prop::option::of(word(&[
        "counter",
        "wall",
        "chair",
        "rail",
        "floor",
        "bed",
        "thigh",
        "hip",
        "hip-crease",
        "chest",
    ]));
    let stance = prop::option::of(word(&["together", "hip-width", "wide", "semi-tandem", "tandem", "step"]));
    let weight = prop::option::of(word(&["even", "left", "right"]));
    let moved = prop::option::of(word(&["left", "right"]));
    let numbers = (prop::option::of(0u16..=250), prop::option::of(0u16..=250), prop::option::of(0u16..=250));
    let numbers = (numbers, prop::option::of(0u16..=250));
    (turns, feet.clone(), feet, hold.clone(), hold, stance, (weight, moved), numbers).prop_map(
        |(turns, left_foot, right_foot, left_hold, right_hold, stance, (weight, moved), numbers)| {
            let ((at, raised, jump), stride) = numbers;
            let mut text = String::new();
            for (field, (motion, degrees)) in turns {
                let joint = field.trim_start_matches("left_").trim_start_matches("right_");
                let motions = crate::model::figure::Joint::from_word(joint).map_or(&[][..], |j| j.motions());
                text.push_str(&format!("{field}.{} = {degrees}\n", motions[motion % motions.len()].word()));
            }
            for (field, value) in [
                ("left_foot", left_foot),
                ("right_foot", right_foot),
                ("left_hold", left_hold),
                ("right_hold", right_hold),
                ("stance", stance),
                ("weight", weight),
                ("moved", moved),
            ] {
                text.extend(value.map(|value| format!("{field} = \"{value}\"\n")));
            }
            for (field, value) in
                [("hold_at", at), ("hips_raised", raised), ("jump", jump), ("stride", stride)]
            {
                text.extend(value.map(|value| format!("{field} = {value}\n")));
            }
            text
        },
    )
}

fn any_figure() -> impl Strategy<Value = String> {
    let base = word(&["standing", "seated", "kneeling", "hands-and-knees", "lying", "prone", "side-lying"]);
    let props = prop::collection::vec(
        (
            word(&[
                "chair", "wall", "counter", "step", "rail", "bed", "cushion", "towel", "band", "ball",
                "weights", "line",
            ]),
            prop::option::of(word(&["ahead", "behind", "left", "right"])),
            prop::option::of(0u16..=250),
            prop::option::of(0u16..=250),
        ),
        0..4,
    );
    (base, props, prop::collection::vec(any_pose(), 1..4), 0u16..=60, any::<bool>()).prop_map(
        |(base, props, poses, rounded, from_above)| {
            let view = match base {
                "lying" | "prone" | "side-lying" if from_above => "above",
                "side-lying" => "front",
                _ => "side",
            };
            let prop = |(thing, place, distance, height): (&str, Option<&str>, Option<u16>, Option<u16>)| {
                let place = place.map_or(String::new(), |p| format!(", place = \"{p}\""));
                let distance = distance.map_or(String::new(), |d| format!(", distance = {d}"));
                let height = height.map_or(String::new(), |h| format!(", height = {h}"));
                format!("{{ thing = \"{thing}\"{place}{distance}{height} }}")
            };
            let props: Vec<String> = props.into_iter().map(prop).collect();
            let mut text =
                format!("view = \"{view}\"\nrounded_back = {rounded}\nprops = [{}]\n", props.join(", "));
            for pose in poses {
                text.push_str(&format!("[[figure.pose]]\nbase = \"{base}\"\n{pose}"));
            }
            text
        },
    )
}

/// How far each segment is from its published length.
fn slips(body: &Body) -> Vec<(&'static str, f64)> {
    let mut all = vec![];
    let mut of =
        |name, from: DVec3, to: DVec3, length: f64| all.push((name, (from.distance(to) - length).abs()));
    let trunk = &body.trunk;
    for (pair, length) in trunk.points.windows(2).zip(TRUNK_PARTS) {
        of("trunk", pair[0], pair[1], length);
    }
    of("head", trunk.head_at(0.0, 0.0, 0.0), trunk.top(), HEAD);
    for side in SIDES {
        let (arm, leg) = (body.arms.of(side), body.legs.of(side));
        of("upper arm", arm.shoulder, arm.elbow, UPPER_ARM);
        of("forearm", arm.elbow, arm.wrist, FOREARM);
        of("hand", arm.wrist, arm.tip, HAND);
        of("thigh", leg.hip, leg.knee, THIGH);
        of("shank", leg.knee, leg.ankle, SHANK);
        of("foot", leg.heel(), leg.ball(), HEEL + BALL);
        of("shoulder", trunk.shoulders(), arm.shoulder, SHOULDER_JOINT);
        of("hip", trunk.hips(), leg.hip, HIP_JOINT);
    }
    all
}

fn is_in_space(body: &Body) -> bool {
    let trunk = [body.trunk.nape, body.trunk.top(), body.trunk.hips(), body.trunk.shoulders(), center(body)];
    let limbs = SIDES.into_iter().flat_map(|side| {
        let (arm, leg) = (body.arms.of(side), body.legs.of(side));
        [arm.elbow, arm.wrist, arm.tip, leg.knee, leg.ankle, leg.heel(), leg.toe()]
    });
    // Nobody is farther from where the figure stands than a room is wide.
    trunk.into_iter().chain(limbs).all(|p| p.is_finite() && p.length() < 10.0)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, ..ProptestConfig::default() })]

    #[test]
    fn no_angle_changes_a_length_or_loses_a_point(text in any_figure()) {
        let drawing = drawing(&text);
        let scene = Scene::of(&drawing);
        for settled in &scene.poses {
            prop_assert!(is_in_space(&settled.body), "{text}");
            for (name, slip) in slips(&settled.body) {
                prop_assert!(slip < 1e-6, "{name} is off by {slip} in:\n{text}");
            }
        }
        for pair in scene.poses.windows(2) {
            for share in [0.25, 0.5, 0.75] {
                let body = between::between(&pair[0], &pair[1], share, 0.05);
                prop_assert!(is_in_space(&body), "between, {text}");
                for (name, slip) in slips(&body).into_iter().filter(|(name, _)| *name != "shoulder") {
                    prop_assert!(slip < 1e-6, "{name} is off by {slip} between the poses of:\n{text}");
                }
            }
        }
        for index in 0..scene.poses.len() {
            let angles = measured(&drawing.poses[index], &scene.poses[index]);
            prop_assert!(angles.iter().all(|m| (0.0..=180.0).contains(&m.degrees)), "{angles:?}\n{text}");
            prop_assert!(scene.hits(index).iter().all(|hit| hit.depth.is_finite()));
            prop_assert!(scene.tips(index).is_none_or(|(by, _)| by.is_finite() && by > 0.0));
            let _ = (scene.loose(index), scene.asks(index));
        }
        let _ = scene.idle();
        if let Some(moments) = scene.moments(4) {
            prop_assert_eq!(moments.len(), 4 * (scene.poses.len() - 1) + 1);
        }
    }
}
