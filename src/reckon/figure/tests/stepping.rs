//! Feet that go from one place to another, as far as the author says.

use glam::DVec3;

use super::*;

fn ankles(lines: &str) -> Vec<[DVec3; 2]> {
    let drawing = drawing(lines);
    let poses = Scene::of(&drawing).poses;
    poses.iter().map(|settled| [settled.body.legs.left.ankle, settled.body.legs.right.ankle]).collect()
}

fn pose(lines: &str) -> String {
    format!("[[figure.pose]]\nbase = \"standing\"\n{lines}\n")
}

#[test]
fn a_foot_that_has_moved_leaves_the_other_where_it_stood() {
    let steps =
        [pose(""), pose("stance = \"wide\"\nstride = 40\nmoved = \"right\""), pose("moved = \"left\"")];
    let [start, apart, end] = &ankles(&steps.concat())[..] else { panic!("three poses") };
    assert!(apart[0].distance(start[0]) < 1e-6, "the left foot stays");
    assert!((apart[0].y - apart[1].y - cm(40)).abs() < 1e-6, "40 cm apart");
    assert!(end[1].distance(apart[1]) < 1e-6, "then the right foot stays");
    let gone = start[0].y - end[0].y;
    assert!((gone - (cm(40) - (start[0].y - start[1].y))).abs() < 1e-6, "{gone}");
}

#[test]
fn a_step_is_as_long_as_said_and_the_next_goes_on_from_it() {
    let steps = [
        pose("stance = \"step\"\nstride = 50"),
        pose("stance = \"step\"\nstride = 50\nfront_foot = \"left\"\nmoved = \"left\""),
    ];
    let [first, second] = &ankles(&steps.concat())[..] else { panic!("two poses") };
    assert!((first[1].x - first[0].x - cm(50)).abs() < 1e-6);
    assert!(second[1].distance(first[1]) < 1e-6);
    assert!((second[0].x - first[0].x - 2.0 * cm(50)).abs() < 1e-6);
}

#[test]
fn hands_go_along_with_feet_that_step_aside_and_not_with_a_weight_that_moves() {
    let wrists = |poses: &[String]| {
        let drawing = drawing(&format!("view = \"front\"\nprops = [\"counter\"]\n{}", poses.concat()));
        let poses = Scene::of(&drawing).poses;
        poses.iter().map(|settled| settled.body.arms.left.wrist.y).collect::<Vec<f64>>()
    };
    let hold = "hold = \"counter\"\n";
    let steps =
        wrists(&[pose(hold), pose(&format!("{hold}stance = \"wide\"\nstride = 30\nmoved = \"right\""))]);
    assert!(steps[0] - steps[1] > cm(5), "{steps:?}");
    let shifts =
        wrists(&[pose(&format!("{hold}weight = \"left\"")), pose(&format!("{hold}weight = \"right\""))]);
    assert!((shifts[0] - shifts[1]).abs() < 1e-6, "{shifts:?}");
}

#[test]
fn who_lies_is_turned_across_the_picture_from_above_and_keeps_her_joints() {
    let lying = |view: &str| {
        settle(&format!("view = \"{view}\"\n[[figure.pose]]\nbase = \"lying\"\nfeet = \"flat\""))
    };
    let (along, across) = (lying("side").body, lying("above").body);
    assert!(along.trunk.top().x < -0.3 && across.trunk.top().y < -0.3);
    assert!(across.trunk.top().x.abs() < 0.05);
    assert!((knee_flexion(&along.legs.left) - knee_flexion(&across.legs.left)).abs() < 1e-9);
    assert!((along.trunk.hips().z - across.trunk.hips().z).abs() < 1e-9);
}
