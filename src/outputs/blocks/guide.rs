//! The guide to drawing: the lines of a figure, and the figure that is read from these very lines.

use crate::entry::figure::figures_of;
use crate::model::figure::Drawing;

/// Examples of one kind.
pub struct GuideSection {
    /// The end of its words' names.
    pub id: &'static str,
    pub examples: Vec<Example>,
}

/// What an author writes, and what is drawn.
pub struct Example {
    /// The word that it shows.
    pub name: &'static str,
    /// A whole figure, but for its description.
    pub lines: String,
    pub caption: Option<String>,
    pub drawing: Drawing,
}

/// Every part in the order of reading.
pub fn parts() -> Vec<GuideSection> {
    let part = |&(id, examples): &Written| GuideSection {
        id,
        examples: examples.iter().filter_map(|&(name, lines)| example(name, lines)).collect(),
    };
    PARTS.iter().map(part).collect()
}

fn example(name: &'static str, rest: &'static str) -> Option<Example> {
    let lines = format!("[[figure]]\n{rest}");
    let (figures, _) = figures_of(&lines);
    let figure = figures.first()?;
    let caption = figure.caption.as_ref().map(|caption| caption.value.clone());
    Some(Example { name, caption, drawing: figure.drawing()?.clone(), lines })
}

/// A part's id, and its examples: the word that each shows, and its lines after the first.
type Written = (&'static str, &'static [(&'static str, &'static str)]);

#[rustfmt::skip]
const PARTS: &[Written] = &[
    ("whole", &[
        ("[[figure]]", r#"description = "She stands at a counter and bends her hips and knees a little. Her back stays long."
caption = "As if you sat down on a high stool."
props = ["counter"]
arrows = ["hips"]
[[figure.pose]]
base = "standing"
hold = "counter"
[[figure.pose]]
base = "standing"
hold = "counter"
hip.flexion = 50
knee.flexion = 45"#),
    ]),
    ("bases", &[
        (r#"base = "standing""#, r#"[[figure.pose]]
base = "standing""#),
        (r#"base = "seated""#, r#"props = ["chair"]
[[figure.pose]]
base = "seated""#),
        (r#"base = "kneeling""#, r#"[[figure.pose]]
base = "kneeling""#),
        (r#"base = "hands-and-knees""#, r#"[[figure.pose]]
base = "hands-and-knees""#),
        (r#"base = "lying""#, r#"[[figure.pose]]
base = "lying"
feet = "flat""#),
        (r#"base = "prone""#, r#"[[figure.pose]]
base = "prone""#),
        (r#"base = "side-lying""#, r#"view = "front"
[[figure.pose]]
base = "side-lying""#),
    ]),
    ("views", &[
        (r#"view = "side""#, r#"view = "side"
[[figure.pose]]
base = "standing""#),
        (r#"view = "front""#, r#"view = "front"
[[figure.pose]]
base = "standing""#),
        (r#"view = "above""#, r#"view = "above"
[[figure.pose]]
base = "side-lying"
hip.flexion = 50
knee.flexion = 80
[[figure.pose]]
base = "side-lying"
hip.flexion = 50
knee.flexion = 80
left_hip = { flexion = 40, abduction = 30, external_rotation = 40 }"#),
        (r#"faces = "left""#, r#"faces = "left"
[[figure.pose]]
base = "standing"
left_foot = "lifted""#),
        (r#"layout = "beside""#, r#"layout = "beside"
props = ["chair"]
[[figure.pose]]
base = "seated"
[[figure.pose]]
base = "standing""#),
        (r#"layout = "over""#, r#"props = ["counter"]
layout = "over"
[[figure.pose]]
base = "standing"
hold = "counter"
[[figure.pose]]
base = "standing"
hold = "counter"
feet = "toes""#),
        ("rounded_back = 25", r#"rounded_back = 25
[[figure.pose]]
base = "standing""#),
    ]),
    ("hip", &[
        ("hip.flexion", r#"[[figure.pose]]
base = "standing"
[[figure.pose]]
base = "standing"
right_foot = "lifted"
right_hip.flexion = 70
right_knee.flexion = 80"#),
        ("hip.extension", r#"props = ["counter"]
[[figure.pose]]
base = "standing"
hold = "counter"
[[figure.pose]]
base = "standing"
hold = "counter"
right_foot = "lifted"
right_hip.extension = 15
right_knee.flexion = 0"#),
        ("hip.abduction", r#"view = "front"
[[figure.pose]]
base = "standing"
[[figure.pose]]
base = "standing"
left_foot = "lifted"
left_hip = { abduction = 25, flexion = 0 }
left_knee.flexion = 0"#),
        ("hip.adduction", r#"view = "front"
[[figure.pose]]
base = "standing"
[[figure.pose]]
base = "standing"
left_foot = "lifted"
left_hip = { adduction = 15, flexion = 20 }
left_knee.flexion = 0"#),
        ("hip.external_rotation", r#"view = "front"
props = ["chair"]
[[figure.pose]]
base = "seated"
[[figure.pose]]
base = "seated"
right_foot = "lifted"
right_hip.external_rotation = 30"#),
        ("hip.internal_rotation", r#"view = "front"
props = ["chair"]
[[figure.pose]]
base = "seated"
[[figure.pose]]
base = "seated"
right_foot = "lifted"
right_hip.internal_rotation = 30"#),
    ]),
    ("knee", &[
        ("knee.flexion", r#"props = ["counter"]
[[figure.pose]]
base = "standing"
hold = "counter"
[[figure.pose]]
base = "standing"
hold = "counter"
right_foot = "lifted"
right_hip.flexion = 0
right_knee.flexion = 90"#),
        ("knee.extension", r#"props = ["chair"]
[[figure.pose]]
base = "seated"
[[figure.pose]]
base = "seated"
right_foot = "lifted"
right_knee.extension = 0"#),
    ]),
    ("ankle", &[
        ("ankle.dorsiflexion", r#"props = ["chair"]
[[figure.pose]]
base = "seated"
[[figure.pose]]
base = "seated"
right_foot = "heel"
right_ankle.dorsiflexion = 15"#),
        ("ankle.plantarflexion", r#"props = ["chair"]
[[figure.pose]]
base = "seated"
[[figure.pose]]
base = "seated"
right_foot = "lifted"
right_knee.flexion = 30
right_ankle.plantarflexion = 40"#),
    ]),
    ("shoulder", &[
        ("shoulder.flexion", r#"[[figure.pose]]
base = "standing"
[[figure.pose]]
base = "standing"
shoulder.flexion = 90"#),
        ("shoulder.extension", r#"[[figure.pose]]
base = "standing"
[[figure.pose]]
base = "standing"
shoulder.extension = 35"#),
        ("shoulder.abduction", r#"view = "front"
[[figure.pose]]
base = "standing"
[[figure.pose]]
base = "standing"
shoulder.abduction = 90"#),
        ("shoulder.adduction", r#"view = "front"
[[figure.pose]]
base = "standing"
[[figure.pose]]
base = "standing"
right_shoulder = { flexion = 50, adduction = 25 }"#),
        ("shoulder.external_rotation", r#"view = "front"
[[figure.pose]]
base = "standing"
elbow.flexion = 90
[[figure.pose]]
base = "standing"
elbow.flexion = 90
shoulder.external_rotation = 50"#),
        ("shoulder.internal_rotation", r#"view = "front"
[[figure.pose]]
base = "standing"
elbow.flexion = 90
[[figure.pose]]
base = "standing"
elbow.flexion = 90
shoulder.internal_rotation = 50"#),
    ]),
    ("elbow", &[
        ("elbow.flexion", r#"[[figure.pose]]
base = "standing"
[[figure.pose]]
base = "standing"
elbow.flexion = 110"#),
        ("elbow.extension", r#"[[figure.pose]]
base = "standing"
elbow.flexion = 60
[[figure.pose]]
base = "standing"
elbow.extension = 0"#),
    ]),
    ("wrist", &[
        ("wrist.flexion", r#"[[figure.pose]]
base = "standing"
elbow.flexion = 90
[[figure.pose]]
base = "standing"
elbow.flexion = 90
wrist.flexion = 50"#),
        ("wrist.extension", r#"[[figure.pose]]
base = "standing"
elbow.flexion = 90
[[figure.pose]]
base = "standing"
elbow.flexion = 90
wrist.extension = 50"#),
    ]),
    ("shoulder-blade", &[
        ("shoulder_blade.protraction", r#"[[figure.pose]]
base = "standing"
shoulder.flexion = 90
[[figure.pose]]
base = "standing"
shoulder.flexion = 90
shoulder_blade.protraction = 15"#),
        ("shoulder_blade.retraction", r#"[[figure.pose]]
base = "standing"
shoulder.flexion = 90
[[figure.pose]]
base = "standing"
shoulder.flexion = 90
shoulder_blade.retraction = 15"#),
        ("shoulder_blade.elevation", r#"view = "front"
[[figure.pose]]
base = "standing"
[[figure.pose]]
base = "standing"
shoulder_blade.elevation = 15"#),
        ("shoulder_blade.depression", r#"view = "front"
[[figure.pose]]
base = "standing"
[[figure.pose]]
base = "standing"
shoulder_blade.depression = 8"#),
    ]),
    ("spine", &[
        ("spine.flexion", r#"props = ["chair"]
[[figure.pose]]
base = "seated"
[[figure.pose]]
base = "seated"
spine.flexion = 40"#),
        ("spine.extension", r#"props = ["chair"]
[[figure.pose]]
base = "seated"
[[figure.pose]]
base = "seated"
spine.extension = 15"#),
        ("spine.lateral_flexion_left", r#"view = "front"
props = ["chair"]
[[figure.pose]]
base = "seated"
[[figure.pose]]
base = "seated"
spine.lateral_flexion_left = 20"#),
        ("spine.lateral_flexion_right", r#"view = "front"
props = ["chair"]
[[figure.pose]]
base = "seated"
[[figure.pose]]
base = "seated"
spine.lateral_flexion_right = 20"#),
        ("spine.rotation_left", r#"view = "front"
props = ["chair"]
[[figure.pose]]
base = "seated"
[[figure.pose]]
base = "seated"
spine.rotation_left = 35"#),
        ("spine.rotation_right", r#"view = "front"
props = ["chair"]
[[figure.pose]]
base = "seated"
[[figure.pose]]
base = "seated"
spine.rotation_right = 35"#),
    ]),
    ("neck", &[
        ("neck.flexion", r#"props = ["chair"]
[[figure.pose]]
base = "seated"
[[figure.pose]]
base = "seated"
neck.flexion = 35"#),
        ("neck.extension", r#"props = ["chair"]
[[figure.pose]]
base = "seated"
[[figure.pose]]
base = "seated"
neck.extension = 30"#),
        ("neck.lateral_flexion_left", r#"view = "front"
props = ["chair"]
[[figure.pose]]
base = "seated"
[[figure.pose]]
base = "seated"
neck.lateral_flexion_left = 25"#),
        ("neck.lateral_flexion_right", r#"view = "front"
props = ["chair"]
[[figure.pose]]
base = "seated"
[[figure.pose]]
base = "seated"
neck.lateral_flexion_right = 25"#),
        ("neck.rotation_left", r#"view = "front"
props = ["chair"]
[[figure.pose]]
base = "seated"
[[figure.pose]]
base = "seated"
neck.rotation_left = 50"#),
        ("neck.rotation_right", r#"view = "front"
props = ["chair"]
[[figure.pose]]
base = "seated"
[[figure.pose]]
base = "seated"
neck.rotation_right = 50"#),
        ("neck.protraction", r#"props = ["chair"]
[[figure.pose]]
base = "seated"
[[figure.pose]]
base = "seated"
neck.protraction = 20"#),
        ("neck.retraction", r#"props = ["chair"]
[[figure.pose]]
base = "seated"
[[figure.pose]]
base = "seated"
neck.retraction = 8"#),
    ]),
    ("props", &[
        (r#""chair""#, r#"props = ["chair"]
[[figure.pose]]
base = "seated""#),
        (r#""wall""#, r#"props = ["wall"]
[[figure.pose]]
base = "standing"
back = "wall""#),
        (r#""counter""#, r#"props = ["counter"]
[[figure.pose]]
base = "standing"
hold = "counter""#),
        (r#""rail""#, r#"props = ["rail"]
[[figure.pose]]
base = "standing"
hold = "rail""#),
        (r#""floor""#, r#"props = ["floor"]
[[figure.pose]]
base = "prone""#),
        (r#""step""#, r#"props = ["step"]
[[figure.pose]]
base = "standing"
right_foot = "step""#),
        (r#""bed""#, r#"props = ["bed"]
[[figure.pose]]
base = "lying"
feet = "flat""#),
        (r#""cushion""#, r#"props = ["bed", "cushion"]
[[figure.pose]]
base = "lying"
feet = "flat""#),
        (r#"under = "belly""#, r#"props = [{ thing = "cushion", under = "belly" }]
[[figure.pose]]
base = "prone""#),
        (r#"between = "knees""#, r#"view = "above"
props = ["bed", { thing = "cushion", between = "knees" }]
[[figure.pose]]
base = "side-lying""#),
        (r#""line""#, r#"props = [{ thing = "line", distance = 30 }]
[[figure.pose]]
base = "standing"
[[figure.pose]]
base = "standing"
stance = "step"
stride = 50"#),
        (r#""towel""#, r#"view = "front"
props = ["chair", "towel"]
[[figure.pose]]
base = "seated"
shoulder.flexion = 70
elbow.flexion = 20"#),
        (r#""band""#, r#"view = "front"
props = ["chair", "band"]
[[figure.pose]]
base = "seated"
shoulder = { flexion = 80, abduction = 40 }
elbow.flexion = 15"#),
        (r#""ball""#, r#"view = "front"
props = ["chair", { thing = "ball", to = "knees" }]
[[figure.pose]]
base = "seated""#),
        (r#""weights""#, r#"props = ["weights"]
[[figure.pose]]
base = "standing"
elbow.flexion = 100"#),
        (r#"place = "left""#, r#"view = "front"
props = [{ thing = "counter", place = "left" }]
[[figure.pose]]
base = "standing"
left_hold = "counter""#),
        (r#"place = "right""#, r#"view = "front"
props = [{ thing = "rail", place = "right" }]
[[figure.pose]]
base = "standing"
right_hold = "rail""#),
        (r#"place = "behind""#, r#"props = [{ thing = "wall", place = "behind", distance = 30 }]
[[figure.pose]]
base = "standing""#),
        (r#"place = "ahead""#, r#"props = [{ thing = "wall", place = "ahead", distance = 45 }]
[[figure.pose]]
base = "standing"
hold = "wall""#),
        ("height = 55", r#"props = [{ thing = "chair", height = 55 }]
[[figure.pose]]
base = "seated""#),
        ("from, to", r#"props = ["chair", { thing = "band", from = "hands", to = "feet" }]
[[figure.pose]]
base = "seated"
shoulder.extension = 20
elbow.flexion = 90"#),
    ]),
    ("holds", &[
        (r#"hold = "counter""#, r#"props = ["counter"]
[[figure.pose]]
base = "standing"
hold = "counter""#),
        (r#"hold = "wall""#, r#"props = ["wall"]
[[figure.pose]]
base = "standing"
hold = "wall"
hold_at = 130"#),
        (r#"hold = "chair""#, r#"props = [{ thing = "chair", place = "ahead" }]
[[figure.pose]]
base = "standing"
hold = "chair""#),
        (r#"hold = "rail""#, r#"props = [{ thing = "rail", place = "right" }]
[[figure.pose]]
base = "standing"
right_hold = "rail""#),
        (r#"hold = "floor""#, r#"[[figure.pose]]
base = "hands-and-knees"
hold = "floor""#),
        (r#"hold = "bed""#, r#"props = ["bed"]
[[figure.pose]]
base = "seated"
hold = "bed""#),
        (r#"hold = "thigh""#, r#"props = ["chair"]
[[figure.pose]]
base = "seated"
hold = "thigh""#),
        (r#"hold = "hip""#, r#"view = "front"
[[figure.pose]]
base = "standing"
hold = "hip""#),
        (r#"hold = "hip-crease""#, r#"[[figure.pose]]
base = "standing"
hold = "hip-crease"
hip.flexion = 40
knee.flexion = 20"#),
        (r#"hold = "chest""#, r#"view = "front"
props = ["chair"]
[[figure.pose]]
base = "seated"
hold = "chest""#),
    ]),
    ("feet", &[
        (r#"feet = "flat""#, r#"[[figure.pose]]
base = "lying"
feet = "flat""#),
        (r#"feet = "toes""#, r#"[[figure.pose]]
base = "standing"
feet = "toes""#),
        (r#"right_foot = "heel""#, r#"props = ["chair"]
[[figure.pose]]
base = "seated"
right_foot = "heel"
right_ankle.dorsiflexion = 15"#),
        (r#"right_foot = "step""#, r#"props = ["step"]
[[figure.pose]]
base = "standing"
right_foot = "step""#),
        (r#"right_foot = "lifted""#, r#"[[figure.pose]]
base = "standing"
right_foot = "lifted""#),
    ]),
    ("stances", &[
        (r#"stance = "together""#, r#"view = "front"
[[figure.pose]]
base = "standing"
stance = "together""#),
        (r#"stance = "hip-width""#, r#"view = "front"
[[figure.pose]]
base = "standing"
stance = "hip-width""#),
        (r#"stance = "wide""#, r#"view = "front"
[[figure.pose]]
base = "standing"
stance = "wide""#),
        (r#"stance = "semi-tandem""#, r#"[[figure.pose]]
base = "standing"
stance = "semi-tandem""#),
        (r#"stance = "tandem""#, r#"[[figure.pose]]
base = "standing"
stance = "tandem""#),
        (r#"stance = "step""#, r#"[[figure.pose]]
base = "standing"
stance = "step"
front_foot = "left""#),
        ("stride = 50", r#"[[figure.pose]]
base = "standing"
stance = "step"
stride = 50"#),
        (r#"moved = "right""#, r#"view = "front"
[[figure.pose]]
base = "standing"
[[figure.pose]]
base = "standing"
stance = "wide"
moved = "right""#),
        (r#"weight = "even""#, r#"view = "front"
[[figure.pose]]
base = "standing"
stance = "wide"
weight = "even""#),
        (r#"weight = "left""#, r#"view = "front"
[[figure.pose]]
base = "standing"
stance = "wide"
weight = "left""#),
        (r#"weight = "right""#, r#"view = "front"
[[figure.pose]]
base = "standing"
stance = "wide"
weight = "right""#),
    ]),
    ("rests", &[
        (r#"back = "wall""#, r#"props = ["wall"]
[[figure.pose]]
base = "standing"
back = "wall"
hip.flexion = 40
knee.flexion = 40"#),
        (r#"back = "chair""#, r#"props = ["chair"]
[[figure.pose]]
base = "seated"
back = "chair""#),
        ("hips_raised = 12", r#"props = ["bed"]
[[figure.pose]]
base = "lying"
feet = "flat"
hips_raised = 12"#),
        ("jump = 4", r#"props = ["counter"]
[[figure.pose]]
base = "standing"
hold = "counter"
jump = 4"#),
    ]),
    ("marks", &[
        ("arrows = []", r#"arrows = []
[[figure.pose]]
base = "standing"
[[figure.pose]]
base = "standing"
shoulder.flexion = 90"#),
        (r#"pace = "quick""#, r#"props = ["counter"]
[[figure.pose]]
base = "standing"
hold = "counter"
feet = "toes"
[[figure.pose]]
base = "standing"
hold = "counter"
pace = "quick""#),
        ("arrows", r#"props = ["chair"]
arrows = ["head"]
[[figure.pose]]
base = "seated"
hip.flexion = 110
[[figure.pose]]
base = "standing""#),
        ("labels", r#"props = ["counter"]
labels = [{ at = "hands", text = "Both hands hold on" }, { at = "right-heel", text = "Heels high" }]
[[figure.pose]]
base = "standing"
hold = "counter"
feet = "toes""#),
    ]),
];

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;
    use crate::model::figure::{
        Foot, Hold, Joint, Layout, Pace, Place, Rest, Side, Stance, Thing, View, Weight,
    };
    use crate::model::vocabulary::{Position, Vocabulary};

    #[test]
    fn every_example_is_read_without_a_finding() {
        for (_, examples) in PARTS {
            for (name, lines) in *examples {
                let (figures, findings) = figures_of(&format!("[[figure]]\n{lines}"));
                assert!(findings.is_empty(), "{name}: {findings:?}");
                assert!(figures[0].drawing().is_some(), "{name}");
            }
        }
    }

    #[test]
    fn every_example_has_the_word_that_it_shows() {
        for example in parts().iter().flat_map(|part| &part.examples) {
            let words = example.name.split([',', '.']).map(str::trim);
            for word in words {
                assert!(example.lines.contains(word), "{}: no {word}", example.name);
            }
        }
    }

    #[test]
    fn every_word_of_a_figure_is_shown() {
        let parts = parts();
        let drawings: Vec<&Drawing> = parts.iter().flat_map(|p| &p.examples).map(|e| &e.drawing).collect();
        let poses = || drawings.iter().flat_map(|d| &d.poses);
        let props = || drawings.iter().flat_map(|d| &d.props);
        assert_eq!(shown(poses().map(|p| p.base.value)), every::<Position>());
        assert_eq!(shown(drawings.iter().map(|d| d.view.value)), every::<View>());
        assert_eq!(shown(drawings.iter().map(|d| d.layout)), every::<Layout>());
        assert_eq!(shown(props().map(|p| p.thing.value)), every::<Thing>());
        assert_eq!(shown(props().filter_map(|p| Some(p.place?.value))), every::<Place>());
        let feet = poses().flat_map(|p| [p.feet.left, p.feet.right]).flatten();
        assert_eq!(shown(feet.map(|f| f.value)), every::<Foot>());
        let holds = poses().flat_map(|p| [p.holds.left, p.holds.right]).flatten();
        assert_eq!(shown(holds.map(|h| h.value)), every::<Hold>());
        assert_eq!(shown(poses().filter_map(|p| Some(p.back?.value))), every::<Rest>());
        assert_eq!(shown(poses().filter_map(|p| Some(p.stance?.value))), every::<Stance>());
        assert_eq!(shown(poses().filter_map(|p| Some(p.weight?.value))), every::<Weight>());
        // One that faces right, or moves steadily, is every other.
        assert_eq!(
            shown(drawings.iter().filter_map(|d| Some(d.faces?.value))),
            shown([Side::Left].into_iter())
        );
        assert_eq!(shown(poses().filter_map(|p| Some(p.pace?.value))), shown([Pace::Quick].into_iter()));
        assert!(props().any(|p| p.under.is_some()) && props().any(|p| p.between.is_some()));
        assert!(poses().any(|p| p.stride.is_some()) && poses().any(|p| p.moved.is_some()));
        for joint in Joint::ALL {
            for motion in joint.motions() {
                let is_turned =
                    poses().flat_map(|p| &p.turns).any(|t| t.joint == *joint && t.motion == *motion);
                assert!(is_turned, "{} {}", joint.word(), motion.word());
            }
        }
    }

    fn shown<V: Vocabulary>(values: impl Iterator<Item = V>) -> BTreeSet<&'static str> {
        values.map(Vocabulary::word).collect()
    }

    fn every<V: Vocabulary + Copy>() -> BTreeSet<&'static str> {
        V::ALL.iter().map(|value| value.word()).collect()
    }
}
