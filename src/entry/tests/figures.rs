//! Figures as they are read: photos, drawings, and each slip at its place.

use crate::entry::figure::figures_of;
use crate::model::figure::{Drawing, Figure, Foot, Hold, Joint, Layout, Motion, Side, Thing, View};
use crate::model::vocabulary::Position;

/// A figure of these lines, below its header.
fn read(lines: &str) -> (Vec<Figure>, Vec<String>) {
    let text = format!("[[figure]]\n{lines}");
    let (figures, findings) = figures_of(&text);
    let show = |f: &crate::model::finding::Finding| {
        let line = text[..f.span.range().start].matches('\n').count() + 1;
        let marked = text[f.span.range()].lines().next().unwrap_or_default();
        format!("{}: {} | {} | {line} {marked}", f.rule, f.message, f.help)
    };
    (figures, findings.iter().map(show).collect())
}

/// The one thing that is found in these lines.
fn found(lines: &str) -> String {
    let (_, findings) = read(lines);
    let [one] = findings.as_slice() else { panic!("{lines}\n{findings:#?}") };
    one.clone()
}

fn drawing(lines: &str) -> Drawing {
    let (figures, findings) = read(lines);
    assert_eq!(findings, [""; 0]);
    figures[0].drawing().unwrap().clone()
}

const STANDS: &str = "[[figure.pose]]\nbase = \"standing\"\n";

#[test]
fn a_photo_is_read_with_its_crop() {
    let (figures, findings) =
        read("file = \"media/counter.jpg\"\ncaption = \"Here.\"\ncrop = { left = 10, top = 5 }");
    assert_eq!(findings, [""; 0]);
    let photo = figures[0].photo().unwrap();
    assert_eq!(photo.file.value, "media/counter.jpg");
    let crop = photo.crop.unwrap();
    assert_eq!((crop.left, crop.right, crop.top, crop.bottom), (10, 0, 5, 0));
    assert_eq!(figures[0].caption.as_ref().unwrap().value, "Here.");
    assert!(figures[0].drawing().is_none());
}

#[test]
fn a_drawing_is_read_with_its_poses_and_things() {
    let read = drawing(
        r#"
        view = "front"
        layout = "over"
        rounded_back = 15
        props = ["counter", { thing = "wall", place = "behind", distance = 20 }]
        arrows = ["left-foot"]
        labels = [{ at = "left-foot", text = "Toes ahead" }]
        [[figure.pose]]
        base = "standing"
        left_hold = "counter"
        [[figure.pose]]
        base = "standing"
        left_foot = "lifted"
        left_hip.abduction = 25
        jump = 3
        "#,
    );
    assert_eq!((read.view.value, read.layout, read.rounded_back), (View::Front, Layout::Over, 15));
    let things: Vec<_> =
        read.props.iter().map(|p| (p.thing.value, p.distance.as_ref().map(|d| d.value))).collect();
    assert_eq!(things, [(Thing::Counter, None), (Thing::Wall, Some(20))]);
    assert_eq!(read.labels[0].text.value, "Toes ahead");
    let [first, last] = read.poses.as_slice() else { panic!("{:?}", read.poses) };
    assert_eq!(first.holds.left.unwrap().value, Hold::Counter);
    assert_eq!(first.holds.right, None);
    assert_eq!(last.feet.left.unwrap().value, Foot::Lifted);
    assert_eq!(last.jump.as_ref().unwrap().value, 3);
    let [turn] = last.turns.as_slice() else { panic!("{:?}", last.turns) };
    assert_eq!((turn.joint, turn.side, turn.motion), (Joint::Hip, Some(Side::Left), Motion::Abduction));
    assert_eq!(turn.degrees.value, 25);
}

#[test]
fn a_field_of_both_sides_is_for_each_and_one_of_a_side_goes_before_it() {
    let read = drawing(&format!(
        "{STANDS}left_knee.flexion = 60\nknee.flexion = 20\nright_foot = \"toes\"\nfeet = \"flat\"\nhold_at = 90\nleft_hold_at = 70"
    ));
    let pose = &read.poses[0];
    let knee = |side| {
        let mut turns = pose.turns.iter().filter(|t| t.joint == Joint::Knee && t.side == Some(side));
        turns.next_back().map(|t| t.degrees.value)
    };
    assert_eq!((knee(Side::Left), knee(Side::Right)), (Some(60), Some(20)));
    assert_eq!(pose.feet.left.unwrap().value, Foot::Flat);
    assert_eq!(pose.feet.right.unwrap().value, Foot::Toes);
    assert_eq!(pose.hold_at.left.as_ref().unwrap().value, 70);
    assert_eq!(pose.hold_at.right.as_ref().unwrap().value, 90);
}

#[test]
fn arrows_that_nobody_speaks_of_are_other_than_none() {
    let arrows = |line: &str| drawing(&format!("{line}\n{STANDS}")).arrows.map(|arrows| arrows.len());
    assert_eq!(
        (arrows(""), arrows("arrows = []"), arrows("arrows = [\"hips\", \"belly\"]")),
        (None, Some(0), Some(2))
    );
}

#[test]
fn without_a_view_it_is_the_one_that_the_position_is_seen_from() {
    assert_eq!(drawing(STANDS).view.value, View::Side);
    let read = drawing("[[figure.pose]]\nbase = \"side-lying\"");
    assert_eq!((read.view.value, read.poses[0].base.value), (View::Front, Position::SideLying));
}

#[test]
fn a_missing_or_blank_description_is_no_slip_of_form() {
    for line in ["", "description = \"\"\n", "description = \" \\n\"\n"] {
        let (figures, findings) = read(&format!("{line}{STANDS}"));
        assert_eq!(findings, [""; 0]);
        assert_eq!(figures[0].description.value, "");
    }
    let control = found(&format!("description = \"She\\u0007 stands.\"\n{STANDS}"));
    assert!(control.starts_with("wrong-value: expected words, found a control character"), "{control}");
}

#[test]
fn each_slip_is_one_finding_at_its_place() {
    for (lines, message, help, place) in [
        (
            "description = \"She stands.\"",
            "missing-field: a figure has no `file`",
            "add `file = \"media/heel-drop.jpg\"` or a `[[figure.pose]]` with `base = \"standing\"`",
            "1 [[figure]]",
        ),
        (
            "fil = \"media/x.jpg\"",
            "unknown-field: a figure has no field `fil`",
            "did you mean `file`?",
            "2 fil",
        ),
        (
            "file = \"media/x.jpg\"\n[[figure.pose]]\nbase = \"standing\"",
            "wrong-value: expected `file` or `[[figure.pose]]`, found both",
            "keep `file` for a photo, `[[figure.pose]]` for a drawing; a second picture is a second `[[figure]]`",
            "3 pose",
        ),
        (
            "file = \"media/x.jpg\"\nview = \"side\"",
            "wrong-value: `view` is for a drawing, and this figure is a photo",
            "delete `view`",
            "3 view",
        ),
        (
            "crop = { left = 5 }\n[[figure.pose]]\nbase = \"standing\"",
            "wrong-value: `crop` is for a photo, and this figure is a drawing",
            "delete `crop`",
            "2 crop",
        ),
        (
            "file = \"media/x.jpg\"\ncrop = { left = 60, right = 40 }",
            "wrong-value: `left` and `right` cut off 100 hundredths of the photo",
            "leave at least 10 hundredths of it",
            "3 crop",
        ),
        (
            "pose = []",
            "wrong-value: expected one to three poses, found none",
            "keep the poses from which the movement can be seen: its start, its middle, its end",
            "2 pose",
        ),
        (
            &[STANDS; 4].concat(),
            "wrong-value: expected one to three poses, found 4",
            "keep the poses from which the movement can be seen: its start, its middle, its end",
            "8 [[figure.pose]]",
        ),
        (
            &format!("labels = [{}]\n{STANDS}", ["{ at = \"head\", text = \"Tall\" }"; 7].join(", ")),
            "wrong-value: expected at most 6 labels, found 7",
            "keep the labels that help most, and say the rest in the steps",
            "2 { at = \"head\", text = \"Tall\" }",
        ),
        (
            "view = \"side\"\n[[figure.pose]]\nbase = \"side-lying\"",
            "wrong-value: a figure that is side-lying cannot be seen from the side",
            "write `view = \"front\"` or `view = \"above\"`",
            "2 \"side\"",
        ),
        (
            "view = \"front\"\n[[figure.pose]]\nbase = \"prone\"",
            "wrong-value: a figure that is prone cannot be seen from the front",
            "write `view = \"side\"` or `view = \"above\"`",
            "2 \"front\"",
        ),
        (
            "view = \"above\"\n[[figure.pose]]\nbase = \"hands-and-knees\"",
            "wrong-value: a figure that is hands-and-knees cannot be seen from above",
            "write `view = \"side\"`",
            "2 \"above\"",
        ),
        (
            &format!("props = [7]\n{STANDS}"),
            "wrong-value: expected the name of a thing, found a whole number",
            "write `props = [\"counter\"]`, or `props = [{ thing = \"counter\", distance = 30 }]`",
            "2 7",
        ),
        (
            &format!("props = [{{ distance = 30 }}]\n{STANDS}"),
            "missing-field: a prop has no `thing`",
            "add `thing = \"counter\"`",
            "2 { distance = 30 }",
        ),
        (
            &format!("labels = [{{ at = \"head\" }}]\n{STANDS}"),
            "missing-field: a label has no `text`",
            "add `text = \"Keep the back long.\"`",
            "2 { at = \"head\" }",
        ),
        (
            "[[figure.pose]]\nhold = \"counter\"",
            "missing-field: a pose has no `base`",
            "add `base = \"standing\"`",
            "2 [[figure.pose]]",
        ),
        (
            &format!("{STANDS}knee.flexion = 181"),
            "wrong-value: expected a whole number from 0 to 180, found `181`",
            "write a number such as 0, without quotes",
            "4 181",
        ),
        (
            &format!("{STANDS}knee.bend = 20"),
            "unknown-field: the knee has no field `bend`",
            "known here are `extension`, `flexion`",
            "4 bend",
        ),
        (
            &format!("{STANDS}knee = 20"),
            "wrong-value: expected how the joint is turned, found a whole number",
            "write the movement and its degrees, such as `knee.flexion = 20`",
            "4 20",
        ),
        (
            &format!("{STANDS}hip = {{ flexion = 20, extension = 5 }}"),
            "wrong-value: `flexion` and `extension` are opposite",
            "keep one of the two",
            "4 5",
        ),
        (
            &format!("{STANDS}hold_at = 251"),
            "wrong-value: expected a whole number from 0 to 250, found `251`",
            "write a number such as 0, without quotes",
            "4 251",
        ),
        (
            &format!("{STANDS}knees.flexion = 20"),
            "unknown-field: a pose has no field `knees`",
            "did you mean `knee`?",
            "4 knees",
        ),
    ] {
        assert_eq!(found(lines), format!("{message} | {help} | {place}"), "{lines}");
    }
}

#[test]
fn a_word_of_no_meaning_is_told_with_the_words_that_have_one() {
    for (lines, words) in [
        (&format!("view = \"back\"\n{STANDS}"), "`side`, `front`, `above`"),
        (&format!("layout = \"under\"\n{STANDS}"), "`beside`, `over`"),
        (&format!("props = [\"sofa\"]\n{STANDS}"), "`chair`, `wall`, `counter`"),
        (&format!("arrows = [\"nose\"]\n{STANDS}"), "`head`, `chin`"),
        (&format!("{STANDS}hold = \"sofa\""), "`counter`, `wall`, `chair`"),
        (&format!("{STANDS}feet = \"crossed\""), "`flat`, `toes`, `heel`"),
        (&format!("{STANDS}stance = \"crossed\""), "`together`, `hip-width`"),
        (&format!("{STANDS}front_foot = \"both\""), "`left`, `right`"),
        (&format!("{STANDS}moved = \"both\""), "`left`, `right`"),
        (&format!("{STANDS}pace = \"fast\""), "`steady`, `quick`"),
        (&format!("{STANDS}weight = \"heels\""), "`even`, `left`, `right`"),
        (&format!("{STANDS}back = \"floor\""), "`wall`, `chair`"),
        (&"[[figure.pose]]\nbase = \"sitting\"".to_string(), "`lying`, `side-lying`"),
    ] {
        let found = found(lines);
        assert!(
            found.starts_with("wrong-value: expected one of ") && found.contains(words),
            "{lines}: {found}"
        );
    }
}

#[test]
fn a_drawing_with_a_slip_is_not_drawn() {
    for lines in [
        &format!("props = [\"sofa\"]\n{STANDS}"),
        &[STANDS; 4].concat(),
        &format!("{STANDS}[[figure.pose]]\nhold = \"counter\""),
    ] {
        assert_eq!(read(lines).0, [], "{lines}");
    }
}
