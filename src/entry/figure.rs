//! Reads a figure: a photo, or the few words a drawn figure is made from.

use toml::de::{DeTable, DeValue};

use super::fields::{Fields, Notes, each, kind_of, parse, text, word};
use super::is_control;
use crate::model::figure::{
    Asked, Crop, Drawing, Figure, Foot, Hold, Joint, Label, Layout, Motion, Pair, Photo, Point, Pose, Prop,
    Shows, Side, Thing, Turn, View,
};
use crate::model::finding::Finding;
use crate::model::source::{FileId, Span, Spanned};
use crate::model::vocabulary::{Position, Vocabulary};

/// The most a joint can be told to turn; what a body can do is for the review to say.
const TURN: (u32, u32) = (0, 180);
/// Distances and heights of things, in centimeters.
const CENTIMETERS: (u32, u32) = (0, 250);
/// The fields that a drawing does not have, and those that a photo does not.
pub(super) const OF_A_PHOTO: [&str; 1] = ["crop"];
pub(super) const OF_A_DRAWING: [&str; 7] =
    ["view", "faces", "layout", "rounded_back", "props", "arrows", "labels"];

/// Reads one figure; `None` when it shows nothing.
pub(super) fn read(table: &DeTable<'_>, span: Span, n: &mut Notes) -> Option<Figure> {
    let mut f = Fields::new(table, span, "a figure", n);
    // An absent or blank description is not a matter of form: `undescribed-figure` reports it.
    let description = match f.value("description", n) {
        Some((value, at)) if value.as_str().is_some_and(is_blank) => Spanned::new(String::new(), at),
        Some((value, at)) => text(value, at, n).unwrap_or(Spanned::new(String::new(), at)),
        None => Spanned::new(String::new(), span),
    };
    let caption = f.text("caption", n);
    let file = f.text("file", n);
    let crop = f.table("crop", n).map(|(table, span)| read_crop(table, span, n));
    let view = f.word::<View>("view", n);
    let faces = f.word::<Side>("faces", n);
    let layout = f.word::<Layout>("layout", n).map_or(Layout::Beside, |l| l.value);
    let rounded_back = f.number("rounded_back", (0, 60), n).map_or(0, |d| d.value as i16);
    let props = f.mixed("props", n, read_prop);
    let arrows = f.words::<Point>("arrows", n);
    let arrows = f.key_span("arrows", n).map(|_| arrows);
    let labels = each(&mut f, "labels", n, read_label);
    let poses = each(&mut f, "pose", n, read_pose);
    let (shows_photo, draws) = (f.key_span("file", n), f.key_span("pose", n));
    match (shows_photo, draws) {
        (None, None) => {
            f.missing("file", "\"media/heel-drop.jpg\"` or a `[[figure.pose]]` with `base = \"standing\"", n);
        }
        (Some(_), Some(second)) => n.wrong(
            second,
            "expected `file` or `[[figure.pose]]`, found both",
            "keep `file` for a photo, `[[figure.pose]]` for a drawing; a second picture is a second `[[figure]]`",
        ),
        (Some(_), None) => belong(&f, &OF_A_DRAWING, "a drawing", "a photo", n),
        (None, Some(draws)) => {
            belong(&f, &OF_A_PHOTO, "a photo", "a drawing", n);
            check_number_of(&mut f, &poses, draws, n);
        }
    }
    if labels.len() > 6 {
        n.wrong(
            labels[6].span,
            format!("expected at most 6 labels, found {}", labels.len()),
            "keep the labels that help most, and say the rest in the steps",
        );
    }
    let view = view.unwrap_or_else(|| {
        let side_lying = poses.iter().any(|p| p.base.value == Position::SideLying);
        Spanned::new(if side_lying { View::Front } else { View::Side }, span)
    });
    check_view(view, &poses, n);
    let standing = f.finish(n);
    let read_whole =
        ["file", "view", "faces", "layout", "props", "arrows", "labels", "pose", "crop", "rounded_back"]
            .iter()
            .all(|field| standing.knows(field));
    let shows = match (file, poses.is_empty()) {
        (Some(file), true) => Shows::Photo(Photo { file, crop }),
        (None, false) if read_whole => Shows::Drawing(Drawing {
            span,
            view,
            faces,
            layout,
            rounded_back,
            poses,
            props,
            arrows,
            labels: labels.into_iter().take(6).collect(),
            asked: Asked::default(),
        }),
        _ => return None,
    };
    Some(Figure { span, description, caption, shows })
}

fn is_blank(text: &str) -> bool {
    text.trim().is_empty() && !text.chars().any(is_control)
}

/// A field of the other kind of figure would say nothing.
fn belong(f: &Fields<'_>, fields: &[&str], kind: &str, this: &str, n: &mut Notes) {
    for field in fields {
        if let Some(span) = f.key_span(field, n) {
            n.wrong(
                span,
                format!("`{field}` is for {kind}, and this figure is {this}"),
                format!("delete `{field}`"),
            );
        }
    }
}

fn check_number_of(f: &mut Fields<'_>, poses: &[Pose], whole: Span, n: &mut Notes) {
    let (span, found) = match poses {
        // What is there and could not be read has its own finding.
        [] if f.standing.knows("pose") => (whole, "none".to_string()),
        [_, _, _, fourth, ..] => (fourth.span, poses.len().to_string()),
        _ => return,
    };
    n.wrong(
        span,
        format!("expected one to three poses, found {found}"),
        "keep the poses from which the movement can be seen: its start, its middle, its end",
    );
    f.standing.mark_stand_in("pose");
}

/// A body that lies is seen from one side only, where its picture says something.
fn check_view(view: Spanned<View>, poses: &[Pose], n: &mut Notes) {
    let wanted = poses.iter().find_map(|pose| match pose.base.value {
        Position::SideLying => Some((pose, &[View::Front, View::Above][..])),
        Position::Lying | Position::Prone => Some((pose, &[View::Side, View::Above][..])),
        Position::HandsAndKnees => Some((pose, &[View::Side][..])),
        _ => None,
    });
    if let Some((pose, wanted)) = wanted.filter(|(_, wanted)| !wanted.contains(&view.value)) {
        let wanted: Vec<String> = wanted.iter().map(|view| format!("`view = \"{}\"`", view.word())).collect();
        n.wrong(
            view.span,
            format!(
                "a figure that is {} cannot be seen from {}",
                pose.base.value.word(),
                seen_from(view.value)
            ),
            format!("write {}", wanted.join(" or ")),
        );
    }
}

fn seen_from(view: View) -> &'static str {
    match view {
        View::Side => "the side",
        View::Front => "the front",
        View::Above => "above",
    }
}

fn read_crop(table: &DeTable<'_>, span: Span, n: &mut Notes) -> Crop {
    let mut f = Fields::new(table, span, "a crop", n);
    let mut part = |key, n: &mut Notes| f.number(key, (0, 90), n).map_or(0, |v| v.value as u8);
    let crop = Crop {
        left: part("left", n),
        right: part("right", n),
        top: part("top", n),
        bottom: part("bottom", n),
    };
    for (one, other, names) in
        [(crop.left, crop.right, "left` and `right"), (crop.top, crop.bottom, "top` and `bottom")]
    {
        if one + other > 90 {
            n.wrong(
                span,
                format!("`{names}` cut off {} hundredths of the photo", one + other),
                "leave at least 10 hundredths of it",
            );
        }
    }
    f.finish(n);
    crop
}

fn read_label(table: &DeTable<'_>, span: Span, n: &mut Notes) -> Option<Label> {
    let mut f = Fields::new(table, span, "a label", n);
    let at = f.required_word("at", Point::Hips, n);
    let text = f.required_text("text", "\"Keep the back long.\"", "", n);
    let standing = f.finish(n);
    (standing.knows("at") && standing.knows("text")).then_some(Label { span, at: at.value, text })
}

/// A thing by its name alone, or with where it stands.
fn read_prop(value: &DeValue<'_>, span: Span, n: &mut Notes) -> Option<Prop> {
    if value.is_str() {
        let thing = word::<Thing>(value, span, n)?;
        return Some(Prop {
            thing,
            place: None,
            distance: None,
            height: None,
            from: None,
            to: None,
            under: None,
            between: None,
        });
    }
    let Some(table) = value.as_table() else {
        n.wrong(
            span,
            format!("expected the name of a thing, found {}", kind_of(value)),
            "write `props = [\"counter\"]`, or `props = [{ thing = \"counter\", distance = 30 }]`",
        );
        return None;
    };
    let mut f = Fields::new(table, span, "a prop", n);
    let prop = Prop {
        thing: f.required_word("thing", Thing::Counter, n),
        place: f.word("place", n),
        distance: centimeters(&mut f, "distance", n),
        height: centimeters(&mut f, "height", n),
        from: f.word("from", n),
        to: f.word("to", n),
        under: f.word("under", n),
        between: f.word("between", n),
    };
    f.finish(n).knows("thing").then_some(prop)
}

fn centimeters(f: &mut Fields<'_>, key: &'static str, n: &mut Notes) -> Option<Spanned<i16>> {
    let number = f.number(key, CENTIMETERS, n)?;
    Some(Spanned::new(number.value as i16, number.span))
}

/// The fields that turn a joint: of both sides first, then of one, which goes over both.
const JOINTS: [(&str, Joint, Option<Side>); 23] = [
    ("spine", Joint::Spine, None),
    ("neck", Joint::Neck, None),
    ("hip", Joint::Hip, None),
    ("knee", Joint::Knee, None),
    ("ankle", Joint::Ankle, None),
    ("shoulder", Joint::Shoulder, None),
    ("elbow", Joint::Elbow, None),
    ("wrist", Joint::Wrist, None),
    ("shoulder_blade", Joint::ShoulderBlade, None),
    ("left_hip", Joint::Hip, Some(Side::Left)),
    ("right_hip", Joint::Hip, Some(Side::Right)),
    ("left_knee", Joint::Knee, Some(Side::Left)),
    ("right_knee", Joint::Knee, Some(Side::Right)),
    ("left_ankle", Joint::Ankle, Some(Side::Left)),
    ("right_ankle", Joint::Ankle, Some(Side::Right)),
    ("left_shoulder", Joint::Shoulder, Some(Side::Left)),
    ("right_shoulder", Joint::Shoulder, Some(Side::Right)),
    ("left_elbow", Joint::Elbow, Some(Side::Left)),
    ("right_elbow", Joint::Elbow, Some(Side::Right)),
    ("left_wrist", Joint::Wrist, Some(Side::Left)),
    ("right_wrist", Joint::Wrist, Some(Side::Right)),
    ("left_shoulder_blade", Joint::ShoulderBlade, Some(Side::Left)),
    ("right_shoulder_blade", Joint::ShoulderBlade, Some(Side::Right)),
];

fn read_pose(table: &DeTable<'_>, span: Span, n: &mut Notes) -> Option<Pose> {
    let mut f = Fields::new(table, span, "a pose", n);
    f.other_way = |name| {
        let turned = |(key, joint, _): &(&str, Joint, _)| {
            let motion = name.strip_prefix(key)?.strip_prefix('_')?;
            let is_known = joint.motions().iter().any(|m| m.word() == motion);
            is_known.then(|| format!("put a full stop between the joint and its movement: `{key}.{motion}`"))
        };
        JOINTS.iter().find_map(turned)
    };
    let base = f.required_word("base", Position::Standing, n);
    let mut turns = Vec::new();
    for (key, joint, side) in JOINTS {
        match f.value(key, n) {
            Some((value, span)) if !value.is_table() => {
                let motion = joint.motions().first().map_or("flexion", |m| m.word());
                n.wrong(
                    span,
                    format!("expected how the joint is turned, found {}", kind_of(value)),
                    format!("write the movement and its degrees, such as `{key}.{motion} = 20`"),
                );
            }
            _ => {
                if let Some((table, span)) = f.table(key, n) {
                    turns.extend(read_turns(table, span, joint, side, n));
                }
            }
        }
    }
    let feet = both(&mut f, ["feet", "left_foot", "right_foot"], n, |f, key, n| f.word::<Foot>(key, n));
    let holds = both(&mut f, ["hold", "left_hold", "right_hold"], n, |f, key, n| f.word::<Hold>(key, n));
    let hold_at = both(&mut f, ["hold_at", "left_hold_at", "right_hold_at"], n, centimeters);
    let pose = Pose {
        span,
        base,
        turns,
        feet,
        holds,
        hold_at,
        back: f.word("back", n),
        stance: f.word("stance", n),
        front_foot: f.word("front_foot", n),
        stride: centimeters(&mut f, "stride", n),
        moved: f.word("moved", n),
        weight: f.word("weight", n),
        hips_raised: centimeters(&mut f, "hips_raised", n),
        jump: centimeters(&mut f, "jump", n),
        pace: f.word("pace", n),
    };
    let standing = f.finish(n);
    standing.knows("base").then_some(pose)
}

/// A field for both sides, and one for each.
fn both<'t, T: Copy>(
    f: &mut Fields<'t>,
    [both, left, right]: [&'static str; 3],
    n: &mut Notes,
    read: impl Fn(&mut Fields<'t>, &'static str, &mut Notes) -> Option<T>,
) -> Pair<Option<T>> {
    let all = read(f, both, n);
    Pair { left: read(f, left, n).or(all), right: read(f, right, n).or(all) }
}

fn read_turns(table: &DeTable<'_>, span: Span, joint: Joint, side: Option<Side>, n: &mut Notes) -> Vec<Turn> {
    let what = match joint {
        Joint::Hip => "the hip",
        Joint::Knee => "the knee",
        Joint::Ankle => "the ankle",
        Joint::Shoulder => "the shoulder",
        Joint::Elbow => "the elbow",
        Joint::Wrist => "the wrist",
        Joint::ShoulderBlade => "the shoulder blade",
        Joint::Spine => "the spine",
        Joint::Neck => "the neck",
    };
    let mut f = Fields::new(table, span, what, n);
    let mut turns = Vec::new();
    for motion in joint.motions() {
        let Some(degrees) = f.number(motion.word(), TURN, n) else { continue };
        let degrees = Spanned::new(degrees.value as i16, degrees.span);
        let sides = match (side, joint.is_paired()) {
            (None, true) => vec![Some(Side::Left), Some(Side::Right)],
            (side, _) => vec![side],
        };
        turns.extend(sides.into_iter().map(|side| Turn { joint, side, motion: *motion, degrees }));
        check_opposite(&turns, motion.opposite(), n);
    }
    f.finish(n);
    turns
}

/// A joint does not turn two opposite ways at once.
fn check_opposite(turns: &[Turn], opposite: Motion, n: &mut Notes) {
    let Some(last) = turns.last() else { return };
    if turns.iter().any(|t| t.motion == opposite && t.side == last.side) {
        n.wrong(
            last.degrees.span,
            format!("`{}` and `{}` are opposite", opposite.word(), last.motion.word()),
            "keep one of the two",
        );
    }
}

/// The figures of lines that stand by themselves, such as those of the guide to drawing.
pub(crate) fn figures_of(text: &str) -> (Vec<Figure>, Vec<Finding>) {
    let file = FileId(0);
    let (table, mut notes) = parse(text, 0, file);
    let whole = notes.span(0..text.len());
    let mut f = Fields::new(table.get_ref(), whole, "it", &notes);
    let figures = each(&mut f, "figure", &mut notes, read);
    (figures, notes.findings)
}
