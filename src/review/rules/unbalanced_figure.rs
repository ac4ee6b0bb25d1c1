//! `unbalanced-figure`: a drawn figure that would fall over.

use crate::model::figure::{Joint, Place, Pose};
use crate::model::finding::{Level, Subject};
use crate::model::source::Span;
use crate::review::figures::centimeters;
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Drawn, Sink};

pub(super) static RULE: Rule = Rule {
    name: "unbalanced-figure",
    level: Level::Warning,
    safety: false,
    finds: "The weight of a drawn figure, worked out from the published masses of its segments, falls more\n\
            than two centimeters outside what carries it: feet, knees, seat, and hands and back that rest on\n\
            something.",
    why: "A client who copies the picture falls, or catches herself with an arm that she had been told to keep free.",
    bad: Example::lines(
        "content/exercises/heel-raise.md",
        &[(
            "[[variation]]",
            r#"
[[figure]]
description = "She stands and leans forward."

[[figure.pose]]
base = "standing"
ankle.dorsiflexion = 20
                     ^^ the weight falls `12` cm ahead of what carries it
hip.flexion = 10

[[variation]]"#,
        )],
    ),
    good: Example::lines(
        "content/exercises/heel-raise.md",
        &[(
            "[[variation]]",
            r#"
[[figure]]
description = "She stands and leans forward a little."

[[figure.pose]]
base = "standing"
ankle.dorsiflexion = 5
hip.flexion = 10

[[variation]]"#,
        )],
    ),
    check: Check::Figures(check),
};

fn check(figure: &Drawn<'_>, sink: &mut Sink<'_>) {
    for (index, pose) in figure.drawing.poses.iter().enumerate() {
        let Some((by, way)) = figure.scene.tips(index) else { continue };
        let way = match way {
            Place::Ahead => "ahead of",
            Place::Behind => "behind",
            Place::Left => "to the left of",
            Place::Right => "to the right of",
        };
        sink.about(figure.about(index, [Subject::number(centimeters(by))])).add(
            place(pose),
            format!("the weight falls `{}` cm {way} what carries it", centimeters(by)),
            "take out the turn of the ankles, which sets how far the body leans, let a hand hold something, or bend hips and knees less",
        );
    }
}

/// The turn of an ankle sets how far a body leans, and that of the hips how far its trunk does.
fn place(pose: &Pose) -> Span {
    let turn = |joint: Joint| pose.turns.iter().find(|t| t.joint == joint).map(|t| t.degrees.span);
    turn(Joint::Ankle).or_else(|| turn(Joint::Hip)).unwrap_or(pose.span)
}

#[cfg(test)]
mod tests {
    use crate::review::figures::with_figure;
    use crate::review::testing::found;

    const RAISE: &str = "content/exercises/heel-raise.md";

    fn tips(props: &str, pose: &str) -> bool {
        let figure = format!("props = [{props}]\n[[figure.pose]]\n{pose}");
        let found = found(&[(RAISE, &with_figure(RAISE, &figure))]);
        found.iter().any(|f| f.starts_with("unbalanced-figure"))
    }

    #[test]
    fn a_hand_on_a_wall_carries_who_leans_to_it() {
        let lean = "base = \"standing\"\nankle.dorsiflexion = 25";
        assert!(tips("", lean));
        let held = format!("{lean}\nhold = \"wall\"\nhold_at = 120");
        assert!(!tips("{ thing = \"wall\", distance = 70 }", &held));
    }

    #[test]
    fn bent_hips_over_straight_ankles_are_balanced_by_themselves() {
        for pose in
            ["", "knee.flexion = 60\nhip.flexion = 70", "left_foot = \"lifted\"", "stance = \"tandem\""]
        {
            assert!(!tips("", &format!("base = \"standing\"\n{pose}")), "{pose}");
        }
    }

    #[test]
    fn a_back_against_the_wall_is_carried() {
        let sit = "base = \"standing\"\nback = \"wall\"\nknee.flexion = 60\nhip.flexion = 60";
        assert!(!tips("\"wall\"", sit));
    }
}
