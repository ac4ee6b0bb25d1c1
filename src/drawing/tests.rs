//! Pictures of whole figures: their panels, their movement, their words.

use glam::DVec2;

use super::canvas::{Eye, Shape, ball};
use super::{Colors, Motion, Panels, Picture, Size, Words, svg};
use crate::entry::figure::figures_of;
use crate::model::figure::View;
use crate::reckon::figure::Scene;

const SQUAT: &str = r#"
[[figure]]
description = "A small squat."
props = ["counter"]
arrows = ["hips"]
labels = [{ at = "right-knee", text = "Over your foot." }, { at = "back", text = "Long." }]
[[figure.pose]]
base = "standing"
hold = "counter"
[[figure.pose]]
base = "standing"
hold = "counter"
knee.flexion = 45
hip.flexion = 50
"#;

const TURN: &str = r#"
[[figure]]
description = "She turns her head."
view = "front"
[[figure.pose]]
base = "standing"
[[figure.pose]]
base = "standing"
neck.rotation_left = 70
"#;

const SIT: &str = r#"
[[figure]]
description = "She stands up."
props = ["chair", "weights"]
[[figure.pose]]
base = "seated"
[[figure.pose]]
base = "standing"
[[figure.pose]]
base = "standing"
shoulder.flexion = 90
"#;

fn picture(text: &str) -> Picture {
    drawn(text, Picture::of)
}

fn motion(text: &str) -> Motion {
    drawn(text, Motion::of).unwrap()
}

fn drawn<T>(text: &str, draw: fn(&Scene<'_>) -> T) -> T {
    let (figures, findings) = figures_of(text);
    assert!(findings.is_empty(), "{findings:?}");
    draw(&Scene::of(figures[0].drawing().unwrap()))
}

/// The kind of a shape and how many points it has.
fn form(shape: &Shape) -> (u8, Vec<usize>) {
    match shape {
        Shape::Solid { parts, .. } => (0, parts.iter().map(Vec::len).collect()),
        Shape::Line { points, .. } => (1, vec![points.len()]),
        Shape::Dot { .. } => (2, Vec::new()),
        Shape::Band { points } => (3, vec![points.len()]),
    }
}

#[test]
fn every_moment_of_a_movement_has_the_shapes_of_its_end() {
    for text in [SQUAT, TURN, SIT] {
        let end: Vec<_> = picture(text).panels.last().unwrap().figure.iter().map(form).collect();
        let motion = motion(text);
        assert!(motion.moments.len() > 8);
        for moment in &motion.moments {
            assert_eq!(moment.iter().map(form).collect::<Vec<_>>(), end);
        }
    }
}

#[test]
fn a_movement_starts_and_ends_in_its_poses() {
    let (picture, motion) = (picture(SQUAT), motion(SQUAT));
    let ends = [
        (&motion.moments[0], &picture.panels[0].figure),
        (motion.moments.last().unwrap(), &picture.panels[1].figure),
    ];
    for (moment, panel) in ends {
        for (a, b) in moment.iter().zip(panel) {
            let points = |shape: &Shape| match shape {
                Shape::Solid { parts, .. } => parts.concat(),
                Shape::Line { points, .. } | Shape::Band { points } => points.clone(),
                Shape::Dot { at, .. } => vec![*at],
            };
            for (p, q) in points(a).iter().zip(points(b)) {
                assert!(p.distance(q) < 0.05, "{p} {q}");
            }
        }
    }
}

#[test]
fn the_hull_of_two_balls_touches_both_and_nothing_beyond() {
    let eye = Eye::seeing(View::Front);
    let (low, high) = (glam::DVec3::new(0.0, 0.0, 0.0), glam::DVec3::new(0.3, 0.2, 0.5));
    let hull = eye.hull(&[ball(low, 0.1), ball(high, 0.05)]);
    let right = hull.iter().map(|p| p.x).fold(f64::NEG_INFINITY, f64::max);
    let top = hull.iter().map(|p| p.y).fold(f64::INFINITY, f64::min);
    let bottom = hull.iter().map(|p| p.y).fold(f64::NEG_INFINITY, f64::max);
    // 20 + 5 to the right, 50 + 5 up, 10 down, in hundredths of stature.
    assert!((right - 25.0).abs() < 1e-9 && (top + 55.0).abs() < 1e-9 && (bottom - 10.0).abs() < 1e-9);
}

#[test]
fn poses_stand_beside_each_other_on_one_floor_and_the_marks_stay_inside() {
    let picture = picture(SQUAT);
    assert_eq!(picture.panels.len(), 2);
    let [first, second] = &picture.panels[..] else { unreachable!() };
    assert!(second.shift.x - first.shift.x > picture.width * 0.45);
    let floor =
        |shape: &Shape| matches!(shape, Shape::Line { points, .. } if points.iter().all(|p| p.y == 0.0));
    assert!(floor(&first.still[0]) && floor(&second.still[0]));
    assert!(first.labels.is_empty() && first.arrows.is_empty());
    assert_eq!(second.labels.iter().map(|l| l.number).collect::<Vec<_>>(), [1, 2]);
    let (low, high) = (
        DVec2::new(picture.left, picture.top),
        DVec2::new(picture.left + picture.width, picture.top + picture.height),
    );
    for label in &second.labels {
        let disc = label.disc + second.shift;
        assert!(disc.cmpgt(low).all() && disc.cmplt(high).all(), "{disc} {low} {high}");
    }
}

const LIE: &str = r#"
[[figure]]
description = "She lifts her hips."
props = ["floor"]
labels = [{ at = "hips", text = "Level." }]
[[figure.pose]]
base = "lying"
knee.flexion = 90
hip.flexion = 50
[[figure.pose]]
base = "lying"
knee.flexion = 90
hip.flexion = 10
hips_raised = 14
"#;

#[test]
fn wide_poses_stand_below_each_other_where_that_shows_them_larger() {
    let (row, column) = (picture(LIE), picture(LIE).fitted(1.75));
    assert!(row.width > column.width * 2.0, "{} {} {}", row.width, row.height, column.width);
    assert!(column.height > row.height * 2.0);
    let [first, second] = &column.panels[..] else { panic!() };
    assert_eq!((first.shift, second.shift.x), (DVec2::ZERO, 0.0));
    // The lower one begins where the upper one has ended, and ends with the picture.
    assert!(second.shift.y > row.height && second.shift.y + row.height - column.height < 1e-9);
    assert!(svg(&column, Colors::Paper, None).contains("translate(0 "));
    // Neither on a wide place, nor where they are high.
    assert_eq!(picture(LIE).fitted(12.0).width, row.width);
    assert_eq!(picture(SQUAT).fitted(1.75).width, picture(SQUAT).width);
}

#[test]
fn the_last_pose_by_itself_has_nothing_but_the_person_and_her_things() {
    for text in [SQUAT, LIE] {
        let whole = picture(text);
        let (figures, _) = figures_of(text);
        let finish = Picture::finish(&Scene::of(figures[0].drawing().unwrap()));
        let [panel] = &finish.panels[..] else { panic!() };
        assert_eq!(panel.figure.len(), whole.panels[1].figure.len());
        assert_eq!(panel.still.len(), whole.panels[1].still.len() - 1, "a floor");
        assert!(panel.labels.is_empty() && panel.arrows.is_empty() && panel.start.is_empty());
        assert!(finish.width < whole.width / 2.0);
        assert!((0.0..5.0).contains(&finish.below_floor()), "{}", finish.below_floor());
    }
}

#[test]
fn one_over_the_other_is_one_picture_with_its_start_in_a_lighter_line() {
    let over = SQUAT.replace("props =", "layout = \"over\"\nprops =");
    let picture = picture(&over);
    assert_eq!(picture.panels.len(), 1);
    assert!(!picture.panels[0].start.is_empty());
    let drawn = svg(&picture, Colors::Paper, None);
    assert_eq!(drawn.matches("opacity=").count(), 1);
}

#[test]
fn words_of_a_picture_cannot_break_it() {
    let words = Words { id: "a", title: "Sit & stand <b>", description: "1 < 2" };
    let drawn = svg(&picture(SIT), Colors::Theme, Some(words));
    assert!(drawn.contains("<title id=\"a.title\">Sit &amp; stand &lt;b&gt;</title>"));
    assert!(drawn.contains(">1 &lt; 2</desc>"));
    assert!(!drawn.contains("NaN") && !drawn.contains("inf"));
}

#[test]
fn nothing_moves_unless_it_was_asked_for() {
    assert!(!svg(&picture(SQUAT), Colors::Theme, None).contains("animate"));
    let words = Words { id: "a", title: "Squat", description: "A small squat." };
    let shown = |motion| Panels::of(&picture(SQUAT), Size::Large).with(words, motion).concat();
    assert!(!shown(None).contains("animate"));
    let moving = shown(Some(&motion(SQUAT)));
    assert!(moving.contains("begin=\"indefinite\"") && !moving.contains("autoplay"));
    let one_pose = "[[figure]]\ndescription = \"She stands.\"\n[[figure.pose]]\nbase = \"standing\"\n";
    assert!(drawn(one_pose, Motion::of).is_none());
}

#[test]
fn poses_beside_each_other_are_numbered_in_one_corner_and_one_alone_is_not() {
    let sit = picture(SIT);
    let numbers: Vec<_> = sit.panels.iter().map(|panel| panel.number.unwrap()).collect();
    assert_eq!(numbers.iter().map(|(number, _)| *number).collect::<Vec<_>>(), [1, 2, 3]);
    assert!(numbers.iter().all(|(_, at)| *at == numbers[0].1));
    assert_eq!(svg(&sit, Colors::Theme, None).matches("drawn-pose\"").count(), 3);
    let over = SQUAT.replace("props =", "layout = \"over\"\nprops =");
    let one = SQUAT.rsplit_once("[[figure.pose]]").unwrap().0;
    assert!([over.as_str(), one].iter().all(|text| picture(text).panels[0].number.is_none()));
    assert!(!super::small(&sit).unwrap().contains("drawn-pose"));
}

#[test]
fn a_quick_pose_is_told_to_whoever_moves_the_picture() {
    let paces = |text: &str| {
        let words = Words { id: "a", title: "Sit", description: "She sits." };
        let svg = Panels::of(&picture(text), Size::Large).with(words, Some(&motion(text))).concat();
        svg.split("data-paces=\"").nth(1).map(|rest| rest.split('"').next().unwrap().to_string())
    };
    assert_eq!(paces(SIT).unwrap(), "steady steady");
    assert_eq!(paces(&SIT.replace("shoulder.flexion = 90", "pace = \"quick\"")).unwrap(), "steady quick");
    assert!(!svg(&picture(SIT), Colors::Theme, None).contains("data-paces"));
}

/// How far each shape of a figure reaches.
fn extents(text: &str) -> Vec<(DVec2, DVec2)> {
    let all = (DVec2::INFINITY, DVec2::NEG_INFINITY);
    let shapes = picture(text).panels[0].figure.clone();
    let points = |shape: &Shape| match shape {
        Shape::Solid { parts, .. } => parts.concat(),
        Shape::Line { points, .. } | Shape::Band { points } => points.clone(),
        Shape::Dot { at, .. } => vec![*at],
    };
    let extent = |shape| points(shape).iter().fold(all, |(low, high), p| (low.min(*p), high.max(*p)));
    shapes.iter().map(extent).collect()
}

#[test]
fn who_faces_left_is_seen_from_her_left_as_in_a_mirror() {
    let stands = |side: &str, faces: &str| {
        extents(&format!(
            "[[figure]]\nfaces = \"{faces}\"\n[[figure.pose]]\nbase = \"standing\"\n{side}_foot = \"lifted\"\n{side}_shoulder.flexion = 70"
        ))
    };
    let (right, left) = (stands("right", "right"), stands("left", "left"));
    assert_eq!(right.len(), left.len());
    for (one, other) in right.iter().zip(&left) {
        assert!((one.0.x + other.1.x).abs() < 0.2 && (one.1.x + other.0.x).abs() < 0.2, "{one:?} {other:?}");
        assert!((one.0.y - other.0.y).abs() < 0.2 && (one.1.y - other.1.y).abs() < 0.2);
    }
}

#[test]
fn from_above_bent_knees_show_and_a_lifted_one_is_higher() {
    let knees = |turn: &str| {
        let text = format!(
            "[[figure]]\nview = \"above\"\n[[figure.pose]]\nbase = \"side-lying\"\nhip.flexion = 50\nknee.flexion = 80\n{turn}"
        );
        let (figures, _) = figures_of(&text);
        let drawing = figures[0].drawing().unwrap();
        let scene = Scene::of(drawing);
        let eye = Eye::of(drawing);
        let legs = &scene.poses[0].body.legs;
        (eye.flat(legs.left.hip), eye.flat(legs.left.knee))
    };
    let (hip, knee) = knees("");
    assert!(knee.y - hip.y > 8.0, "{hip} {knee}");
    assert!(knee.y - knees("left_hip = { flexion = 50, abduction = 25 }").1.y > 5.0);
}

#[test]
fn a_cushion_stays_under_the_head_that_has_risen_from_it() {
    let text = "[[figure]]\nview = \"above\"\nprops = [\"bed\", { thing = \"cushion\", under = \"head\" }]\n[[figure.pose]]\nbase = \"side-lying\"\n[[figure.pose]]\nbase = \"seated\"";
    let held = |panel: usize| {
        let shapes = picture(text).panels[panel].figure.clone();
        shapes.into_iter().find_map(|shape| match shape {
            Shape::Solid { tone: super::canvas::Tone::Held, parts } => Some(parts.concat()),
            _ => None,
        })
    };
    assert!(held(0).is_some());
    assert_eq!(held(0), held(1));
}
