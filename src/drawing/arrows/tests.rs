//! Tests of arrows, on whole figures.

use super::*;
use crate::drawing::Picture;
use crate::entry::figure::figures_of;
use crate::model::figure::Drawing;
use crate::reckon::figure::Scene;

fn drawing(lines: &str) -> Drawing {
    let (figures, findings) = figures_of(&format!("[[figure]]\n{lines}"));
    assert!(findings.is_empty(), "{lines}: {findings:?}");
    figures[0].drawing().unwrap().clone()
}

fn figure(before: &str, base: &str, start: &str, finish: &str) -> String {
    let pose = |lines: &str| format!("[[figure.pose]]\nbase = \"{base}\"\n{lines}\n");
    format!("{before}\n{}{}", pose(start), pose(finish))
}

/// Movements that nobody drew an arrow for, with what moves most in each.
fn movements() -> Vec<(String, Vec<Point>)> {
    let counter = "props = [\"counter\"]";
    let hold = "hold = \"counter\"";
    let bent = "hip.flexion = 50\nknee.flexion = 80";
    vec![
        (figure(counter, "standing", hold, "hold = \"counter\"\nfeet = \"toes\""), vec![Point::RightHeel]),
        (
            figure(counter, "standing", hold, "hold = \"counter\"\nhip.flexion = 40\nknee.flexion = 45"),
            vec![Point::Hips],
        ),
        (figure("", "standing", "", "shoulder.flexion = 90"), vec![Point::RightHand]),
        (
            figure("view = \"front\"", "standing", "", "shoulder.abduction = 80"),
            vec![Point::RightHand, Point::LeftHand],
        ),
        (figure("view = \"front\"", "standing", "", "neck.rotation_left = 60"), vec![Point::Chin]),
        (
            figure("view = \"front\"", "standing", "", "stance = \"wide\"\nmoved = \"right\""),
            vec![Point::RightFoot],
        ),
        (
            figure(
                "view = \"above\"",
                "side-lying",
                bent,
                "hip.flexion = 50\nknee.flexion = 80\nleft_hip = { flexion = 40, abduction = 30, external_rotation = 40 }",
            ),
            vec![Point::LeftKnee],
        ),
        (figure("", "hands-and-knees", "", "right_shoulder.flexion = 150"), vec![Point::RightHand]),
    ]
}

#[test]
fn every_movement_has_arrows_of_what_moves_most_unless_the_author_wants_none() {
    for (lines, expected) in movements() {
        let drawing = drawing(&lines);
        let scene = Scene::of(&drawing);
        assert_eq!(
            moves_most(&scene.path(6), Eye::of(&drawing), drawing.poses[1].moved.map(|m| m.value), false),
            expected,
            "{lines}"
        );
        let arrows = |lines: &str| {
            let drawing = self::drawing(lines);
            Picture::of(&Scene::of(&drawing)).panels[1].arrows.len()
        };
        assert_eq!(arrows(&lines), expected.len(), "{lines}");
        assert_eq!(arrows(&format!("arrows = []\n{lines}")), 0, "{lines}");
    }
}

#[test]
fn no_arrow_covers_the_body_or_goes_under_the_floor() {
    for (lines, _) in movements() {
        let drawing = drawing(&lines);
        let picture = Picture::of(&Scene::of(&drawing));
        let panel = &picture.panels[1];
        let shapes: Vec<&Shape> = panel.figure.iter().collect();
        let crowd = Crowd::of(&shapes);
        for arrow in &panel.arrows {
            let tip = *arrow.points.last().unwrap();
            assert!(!within(&crowd.body, HEAD_ROOM - 0.1, tip), "{lines}: {tip}");
            for point in even(&arrow.points) {
                assert!(!within(&crowd.body, SHAFT_ROOM - 0.8, point), "{lines}: {point}");
                assert!(drawing.view.value == crate::model::figure::View::Above || point.y < 0.0);
            }
        }
    }
}

#[test]
fn who_changes_her_position_has_one_arrow_and_each_pose_has_its_own() {
    let pose = |base: &str, lines: &str| format!("[[figure.pose]]\nbase = \"{base}\"\n{lines}\n");
    let lines = [
        "props = [\"chair\"]\n",
        &pose("seated", ""),
        &pose("standing", ""),
        &pose("standing", "shoulder.flexion = 90"),
    ];
    let drawing = drawing(&lines.concat());
    let picture = Picture::of(&Scene::of(&drawing));
    let counts: Vec<usize> = picture.panels.iter().map(|panel| panel.arrows.len()).collect();
    assert_eq!(counts, [0, 1, 1]);
}

#[test]
fn an_even_way_begins_and_ends_where_the_way_does() {
    let way = [DVec2::ZERO, DVec2::new(3.0, 0.0), DVec2::new(3.0, 9.0)];
    let points = even(&way);
    assert_eq!((points.len(), points[0], points[PIECES]), (PIECES + 1, way[0], way[2]));
    for pair in points.windows(2) {
        assert!(pair[0].distance(pair[1]) <= 0.5 + 1e-9);
    }
}

#[test]
fn a_point_is_outside_of_a_shape_or_inside_whichever_way_its_outline_goes() {
    let square = [DVec2::ZERO, DVec2::new(4.0, 0.0), DVec2::new(4.0, 4.0), DVec2::new(0.0, 4.0)];
    let reversed: Vec<DVec2> = square.iter().rev().copied().collect();
    for shape in [&square[..], &reversed] {
        assert!((away(shape, DVec2::new(6.0, 2.0)) - 2.0).abs() < 1e-9);
        assert!((away(shape, DVec2::new(1.0, 2.0)) + 1.0).abs() < 1e-9);
    }
}
