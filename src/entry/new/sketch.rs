//! The figure of a new exercise: a start and a finish that its position can take, for the author to change.

use crate::model::figure::View;
use crate::model::vocabulary::{Position, Vocabulary};

/// What a sketch shows in a position.
struct Sketch {
    props: &'static [&'static str],
    start: &'static [&'static str],
    finish: &'static [&'static str],
}

/// The lines of the figure; the base is a blank when the position is.
pub(super) fn lines(position: Option<Position>) -> String {
    let sketch = position.map_or(Sketch { props: &[], start: &[], finish: &[] }, sketch);
    let view = if position == Some(Position::SideLying) { View::Front } else { View::Side };
    let props: Vec<String> = sketch.props.iter().map(|prop| format!("\"{prop}\"")).collect();
    let below = |lines: &[&str]| lines.iter().map(|line| format!("{line}\n")).collect::<String>();
    include_str!("figure.toml")
        .replace("VIEW", view.word())
        .replace("PROPS", &props.join(", "))
        .replace("BASE", position.map_or("", Position::word))
        .replace("START\n", &format!("{}\n", below(sketch.start)))
        .replace("FINISH\n", &below(sketch.finish))
}

fn sketch(position: Position) -> Sketch {
    let (props, start, finish): (&[_], &[_], &[_]) = match position {
        Position::Lying => (&[], &["feet = \"flat\""], &["feet = \"flat\"", "hips_raised = 10"]),
        Position::SideLying => (&[], &[], &["left_hip.abduction = 20"]),
        Position::Prone => {
            (&[], &["shoulder.abduction = 20"], &["shoulder = { abduction = 20, extension = 15 }"])
        }
        Position::Kneeling => (&["chair"], &["hold = \"chair\""], &["hold = \"chair\"", "hip.flexion = 20"]),
        Position::HandsAndKnees => (&[], &[], &["right_shoulder.flexion = 150"]),
        Position::Seated => (&["chair"], &[], &["right_foot = \"lifted\"", "right_knee.flexion = 15"]),
        Position::Standing => {
            (&["counter"], &["hold = \"counter\""], &["hold = \"counter\"", "feet = \"toes\""])
        }
    };
    Sketch { props, start, finish }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::entry::figure::figures_of;

    #[test]
    fn the_sketch_of_each_position_is_read_and_moves() {
        for &position in Position::ALL {
            let lines = lines(Some(position));
            let (figures, findings) = figures_of(&lines);
            assert_eq!(findings, [], "{lines}");
            let [start, finish] = figures[0].drawing().unwrap().poses.as_slice() else { panic!("{lines}") };
            assert!(start.base.value == position && finish.base.value == position, "{lines}");
            assert_ne!(
                (&start.turns, start.feet.left, start.hips_raised.is_some()),
                (&finish.turns, finish.feet.left, finish.hips_raised.is_some()),
                "{lines}"
            );
        }
    }

    #[test]
    fn without_a_position_the_base_is_a_blank() {
        let lines = lines(None);
        assert_eq!(lines.matches("base = \"\"").count(), 2, "{lines}");
        let placeholder = lines.split(|c: char| !c.is_ascii_uppercase()).find(|word| word.len() > 3);
        assert_eq!(placeholder, None, "{lines}");
    }

    #[test]
    fn every_field_of_a_figure_and_of_a_pose_is_explained() {
        let lines = lines(Some(Position::Standing));
        for field in [
            "description",
            "caption",
            "file",
            "view",
            "above",
            "under",
            "layout",
            "rounded_back",
            "props",
            "place",
            "distance",
            "arrows",
            "labels",
            "base",
            "hold",
            "left_hold",
            "right_hold",
            "hold_at",
            "feet",
            "left_foot",
            "right_foot",
            "stance",
            "front_foot",
            "stride",
            "moved",
            "weight",
            "back",
            "hips_raised",
            "jump",
        ] {
            assert!(lines.contains(field), "{field}");
        }
    }
}
