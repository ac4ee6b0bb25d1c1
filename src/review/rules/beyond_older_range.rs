//! `beyond-older-range`: a joint that is turned farther than most older adults can.

use super::impossible_joint::{beyond, help};
use crate::model::finding::Level;
use crate::reckon::figure::MEASURING;
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Drawn, Sink};

pub(super) static RULE: Rule = Rule {
    name: "beyond-older-range",
    level: Level::Note,
    safety: false,
    finds: "A drawn figure turns a joint farther than people of 65 to 85 years (of 45 to 69 where only that is\n\
            published) could on average, though not beyond what a body can.",
    why: "A picture that few of its readers can follow shames the others, or makes them force a joint. Draw what\n\
          they can do, and let the words ask for more.",
    bad: Example::lines(
        "content/exercises/tall-sit.md",
        &[(
            "[[progression]]",
            r#"
[[figure]]
description = "She sits tall and draws one elbow back."
props = ["chair"]

[[figure.pose]]
base = "seated"
right_shoulder.extension = 55
                           ^^ `55` degrees of extension of the right shoulder are more than older adults have, `44`
right_elbow.flexion = 90

[[progression]]"#,
        )],
    ),
    good: Example::lines(
        "content/exercises/tall-sit.md",
        &[(
            "[[progression]]",
            r#"
[[figure]]
description = "She sits tall and draws one elbow back."
props = ["chair"]

[[figure.pose]]
base = "seated"
right_shoulder.extension = 35
right_elbow.flexion = 90

[[progression]]"#,
        )],
    ),
    check: Check::Figures(check),
};

fn check(figure: &Drawn<'_>, sink: &mut Sink<'_>) {
    for (index, (pose, settled)) in figure.drawing.poses.iter().zip(&figure.scene.poses).enumerate() {
        for beyond in beyond(pose, settled, |range| range.older) {
            let Some(older) = beyond.range.older else { continue };
            // Beyond what any body can is another rule's finding.
            if beyond.degrees.round() > f64::from(beyond.range.widest + MEASURING) {
                continue;
            }
            sink.about(figure.about(index, beyond.subjects(older))).add(
                beyond.place,
                format!(
                    "`{:.0}` degrees of {} are more than older adults have, `{older}`",
                    beyond.degrees,
                    beyond.movement()
                ),
                help(&beyond, pose, older),
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::review::figures::with_figure;
    use crate::review::testing::found;

    const SIT: &str = "content/exercises/tall-sit.md";

    /// Norkin and White, table A.1, column of Walker: shoulder extension 44, elbow flexion 143, wrist flexion 64.
    #[test]
    fn what_older_adults_have_is_no_finding_and_what_nobody_has_is_not_this_one() {
        for (turn, older, impossible) in [
            ("right_shoulder.extension", 44, 66),
            ("right_elbow.flexion", 143, 166),
            ("right_shoulder.flexion = 20\nright_wrist.flexion", 64, 96),
        ] {
            let with = |degrees: i32| {
                let pose =
                    format!("props = [\"chair\"]\n[[figure.pose]]\nbase = \"seated\"\n{turn} = {degrees}");
                let text = with_figure(SIT, &pose);
                let names = found(&[(SIT, &text)]);
                names.into_iter().map(|f| f.split(' ').next().unwrap_or("").to_string()).collect::<Vec<_>>()
            };
            assert_eq!(with(older), [""; 0], "{turn}");
            assert_eq!(with(older + 1), ["beyond-older-range"], "{turn}");
            assert_eq!(with(impossible), ["impossible-joint"], "{turn}");
        }
    }
}
