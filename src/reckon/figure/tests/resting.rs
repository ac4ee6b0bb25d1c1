//! What rests on something stays on it from pose to pose.

use super::*;
use crate::model::figure::{Foot, Hold, Thing};
use crate::reckon::figure::props::WRIST;

#[test]
fn the_arms_of_who_lies_rest_on_the_bed_and_on_the_floor_however_the_hips_are_raised() {
    for base in ["lying", "prone"] {
        for props in ["", "props = [\"bed\"]\n"] {
            for more in ["", "feet = \"flat\"", "feet = \"flat\"\nhips_raised = 12"] {
                if base == "prone" && !more.is_empty() {
                    continue;
                }
                let drawing = drawing(&format!("{props}[[figure.pose]]\nbase = \"{base}\"\n{more}"));
                let scene = Scene::of(&drawing);
                for side in SIDES {
                    let over = scene.poses[0].body.arms.of(side).wrist.z - surface(&drawing);
                    assert!((over - WRIST).abs() < 0.008, "{base} {props}{more}: {over}");
                }
            }
        }
    }
}

#[test]
fn a_back_slides_down_the_wall_in_one_line_and_the_feet_stay() {
    let at = |knee: u8| {
        format!(
            "[[figure.pose]]\nbase = \"standing\"\nback = \"wall\"\nleft_hold = \"chair\"\nknee.flexion = {knee}\n"
        )
    };
    let things = "props = [\"wall\", { thing = \"chair\", place = \"left\" }]\n";
    let drawing = drawing(&format!("{things}{}{}{}", at(5), at(30), at(50)));
    let scene = Scene::of(&drawing);
    let wall = scene.things.iter().find(|t| t.thing == Thing::Wall).unwrap().parts[0].high.x;
    let feet = scene.poses[0].body.legs.right.ankle;
    for settled in &scene.poses {
        assert!((settled.body.trunk.back() - wall).abs() < 1e-6, "{wall} {settled:?}");
        assert!(settled.body.legs.right.ankle.distance(feet) < 1e-6);
        assert_eq!(settled.feet.left, Foot::Flat);
        assert_eq!(settled.holds.left, Some(Hold::Chair));
        assert!(settled.hand_gaps.left < cm(1) / 2.0, "{}", settled.hand_gaps.left);
        assert!(settled.body.arms.left.elbow.x > wall, "the elbow is before the wall");
    }
    let shin = &scene.poses[2].body.legs.right;
    assert!((shin.knee.x - shin.ankle.x).abs() < 1e-6, "the shins of the lowest are upright");
}

#[test]
fn who_sits_on_the_edge_of_a_bed_lies_down_on_it() {
    let drawing = drawing(
        "view = \"front\"\nprops = [\"bed\"]\n[[figure.pose]]\nbase = \"seated\"\n[[figure.pose]]\nbase = \"side-lying\"",
    );
    let scene = Scene::of(&drawing);
    let bed = scene.things[0].parts[0];
    let [sits, lies] = scene.poses.as_slice() else { panic!("two poses") };
    assert!(sits.body.legs.right.knee.x > bed.high.x, "her shins are before the bed");
    assert!((bed.low.x..bed.high.x).contains(&sits.body.trunk.hips().x));
    for point in [lies.body.trunk.hips(), lies.body.trunk.shoulders(), lies.body.legs.right.ankle] {
        assert!((bed.low.x..bed.high.x).contains(&point.x), "{point} {bed:?}");
    }
}

#[test]
fn a_counter_at_her_side_reaches_as_far_as_she_steps() {
    for pose in ["", "stance = \"step\"\nweight = \"right\""] {
        let drawing = drawing(&format!(
            "props = [{{ thing = \"counter\", place = \"left\" }}]\n[[figure.pose]]\nbase = \"standing\"\nleft_hold = \"counter\"\n{pose}"
        ));
        let scene = Scene::of(&drawing);
        let counter = scene.things[0].parts[0];
        let tip = scene.poses[0].body.arms.left.tip.x;
        assert!((counter.low.x..counter.high.x).contains(&tip), "{pose}: {tip} {counter:?}");
    }
}

#[test]
fn hands_and_knees_are_on_the_bed_that_carries_them() {
    let lines = "[[figure.pose]]\nbase = \"hands-and-knees\"";
    let [floor, bed] = ["", "props = [\"bed\"]\n"].map(|props| drawing(&format!("{props}{lines}")));
    let (floor, bed) = (Scene::of(&floor), Scene::of(&bed));
    let top = bed.things[0].parts[0];
    let (low, high) = (&floor.poses[0], &bed.poses[0]);
    for side in [Side::Left, Side::Right] {
        assert!(*high.hand_gaps.of(side) < 1e-9);
        let (on_floor, on_bed) = (low.body.arms.of(side).wrist, high.body.arms.of(side).wrist);
        assert!((on_bed.z - on_floor.z - top.high.z).abs() < 1e-9, "{on_bed} {on_floor}");
        assert!((top.low.x..top.high.x).contains(&on_bed.x), "{on_bed} {top:?}");
    }
}
