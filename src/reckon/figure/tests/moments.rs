//! The moments between poses.

use super::*;

const STEPS: usize = 8;

fn moments(lines: &str) -> Vec<Body> {
    let drawing = drawing(lines);
    Scene::of(&drawing).moments(STEPS).expect("a way from pose to pose")
}

fn pose(base: &str, lines: &str) -> String {
    format!("[[figure.pose]]\nbase = \"{base}\"\n{lines}\n")
}

#[test]
fn feet_and_hands_stay_where_both_poses_have_them() {
    let poses = [
        pose("standing", "hold = \"counter\""),
        pose("standing", "hold = \"counter\"\nhip.flexion = 60\nknee.flexion = 70"),
    ];
    let bodies = moments(&format!("props = [\"counter\"]\n{}", poses.concat()));
    for side in SIDES {
        let [ankle, wrist] = [bodies[0].legs.of(side).ankle, bodies[0].arms.of(side).wrist];
        for body in &bodies {
            assert!(body.legs.of(side).ankle.distance(ankle) < cm(1) / 5.0);
            assert!(body.arms.of(side).wrist.distance(wrist) < cm(1) / 2.0);
        }
    }
}

#[test]
fn a_heel_rises_about_the_ball_of_its_foot() {
    let bodies = moments(&[pose("standing", ""), pose("standing", "feet = \"toes\"")].concat());
    let ball = bodies[0].legs.left.ball();
    for body in &bodies {
        assert!(body.legs.left.ball().distance(ball) < cm(1) / 5.0, "{}", body.legs.left.ball());
    }
    assert!(bodies[STEPS].legs.left.heel().z > cm(5));
}

#[test]
fn a_step_is_lifted_over_the_floor_and_a_foot_that_comes_down_does_not_sink_into_it() {
    let walk = [
        pose("standing", "stance = \"step\"\nstride = 50"),
        pose("standing", "stance = \"step\"\nstride = 50\nfront_foot = \"left\"\nmoved = \"left\""),
    ];
    let bodies = moments(&walk.concat());
    assert!(bodies[STEPS / 2].legs.left.heel().z > cm(2));
    assert!(
        bodies.iter().all(|body| body.legs.right.ankle.distance(bodies[0].legs.right.ankle) < cm(1) / 5.0)
    );
    let lowers = [
        pose("standing", "right_foot = \"lifted\"\nright_hip.flexion = 70\nright_knee.flexion = 80"),
        pose("standing", ""),
    ];
    for body in moments(&lowers.concat()) {
        assert!(body.legs.right.heel().z.min(body.legs.right.ball().z) > -cm(1));
    }
}

#[test]
fn knees_that_are_bent_stay_bent_while_she_rolls_over() {
    let bent = "hip.flexion = 45\nknee.flexion = 80";
    let drawing = drawing(&format!(
        "view = \"above\"\n{}{}",
        pose("lying", "feet = \"flat\""),
        pose("side-lying", bent)
    ));
    let scene = Scene::of(&drawing);
    for body in scene.path(STEPS) {
        for side in SIDES {
            assert!(knee_flexion(body.legs.of(side)).to_degrees() > 60.0);
        }
    }
}

#[test]
fn where_every_way_goes_through_something_there_is_none() {
    let poses = [pose("standing", ""), pose("standing", "hip.flexion = 85\nknee.flexion = 10")].concat();
    let way = |props: &str| {
        let drawing = drawing(&format!("props = [{props}]\n{poses}"));
        let scene = Scene::of(&drawing);
        assert!((0..2).all(|index| scene.hits(index).is_empty()), "{:?} {:?}", scene.hits(0), scene.hits(1));
        scene.moments(STEPS).is_some()
    };
    assert!(way(""));
    // A bow from before a bar to under it.
    assert!(!way("{ thing = \"rail\", distance = 20, height = 115 }"));
}

#[test]
fn a_hand_is_lifted_over_what_is_in_its_way() {
    let reach = |lines: &str| pose("standing", &format!("right_shoulder.flexion = {lines}"));
    let poses = [reach("12\nright_elbow.flexion = 0"), reach("75\nright_elbow.flexion = 0")].concat();
    let drawing = drawing(&format!("props = [{{ thing = \"rail\", distance = 30, height = 92 }}]\n{poses}"));
    let scene = Scene::of(&drawing);
    let hits = |body: &Body| !scene.hits_of(body, false).is_empty();
    assert!(scene.path(STEPS).iter().any(hits), "the straight way goes through the rail");
    assert!(scene.moments(STEPS).is_none_or(|bodies| !bodies.iter().any(hits)));
}
