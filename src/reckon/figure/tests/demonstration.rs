//! Every figure that this repository shows to readers, in the demonstration and in the sample: hands on what they hold, feet on the floor.

use super::*;
use crate::model::figure::{Foot, Hold};
use crate::model::vocabulary::Position;
use crate::workspace::sample;

/// Five millimeters of the person drawn.
const NEAR: f64 = 0.5 / STATURE_CM;

/// The figures of an exercise's file, by the reader of figures alone.
fn figures(text: &str) -> Vec<Drawing> {
    let Some(fields) = text.split("```").nth(1).and_then(|block| block.strip_prefix("toml\n")) else {
        return Vec::new();
    };
    let (figures, _) = figures_of(fields);
    figures.into_iter().filter_map(|f| f.drawing().cloned()).collect()
}

#[expect(
    clippy::disallowed_methods,
    reason = "a test reads the demonstration as it stands in the repository"
)]
fn shown() -> Vec<(String, Drawing)> {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("content/exercises");
    let files = std::fs::read_dir(folder).expect("the demonstration").map(|entry| {
        let path = entry.expect("an entry").path();
        (path.display().to_string(), std::fs::read_to_string(path).expect("a text"))
    });
    let sample =
        sample::files().into_iter().filter_map(|(name, bytes)| Some((name, String::from_utf8(bytes).ok()?)));
    let mut all: Vec<(String, Drawing)> = files
        .chain(sample)
        .flat_map(|(name, text)| figures(&text).into_iter().map(move |d| (name.clone(), d)))
        .collect();
    all.sort_by(|a, b| a.0.cmp(&b.0));
    all
}

#[test]
fn hands_touch_what_they_hold_and_feet_what_they_stand_on() {
    let shown = shown();
    assert!(!shown.is_empty(), "no figure at all");
    for (name, drawing) in shown {
        let scene = Scene::of(&drawing);
        for (index, (pose, settled)) in drawing.poses.iter().zip(&scene.poses).enumerate() {
            for side in SIDES {
                let what = format!("{name}, pose {}, {side:?}", index + 1);
                if settled.holds.of(side).is_some() {
                    let gap = *settled.hand_gaps.of(side);
                    assert!(gap < NEAR, "{what}: the hand is {} mm off", gap * STATURE_CM * 10.0);
                }
                let hold = pose.holds.of(side).map(|h| h.value);
                let on_a_thing = hold
                    .is_some_and(|h| !matches!(h, Hold::Thigh | Hold::Hip | Hold::HipCrease | Hold::Chest));
                assert!(
                    !on_a_thing || scene.hand_on(index, side).is_some(),
                    "{what}: the hand holds nothing"
                );
                let gap = *settled.foot_gaps.of(side);
                assert!(gap < NEAR, "{what}: the foot is {} mm off", gap * STATURE_CM * 10.0);
                let leg = settled.body.legs.of(side);
                let floor = match pose.base.value {
                    Position::Standing => pose.jump.map_or(0.0, |j| cm(j.value)),
                    Position::Seated => 0.0,
                    _ => continue,
                };
                let lowest = leg.heel().z.min(leg.ball().z);
                match settled.feet.of(side) {
                    Foot::Flat | Foot::Toes | Foot::Heel => {
                        assert!((lowest - floor).abs() < NEAR, "{what}: the sole is {lowest} over the floor");
                    }
                    Foot::Step | Foot::Lifted => {
                        assert!(lowest > -NEAR, "{what}: the sole is {lowest} over the floor")
                    }
                }
            }
        }
    }
}
