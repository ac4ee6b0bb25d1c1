//! `impossible-joint`: a joint that is turned farther than any body can.

use crate::model::figure::{Joint, Motion, Pose, Side};
use crate::model::finding::{Level, Subject};
use crate::model::source::Span;
use crate::reckon::figure::{MEASURING, Measured, Range, Settled, measured, range};
use crate::review::figures::{movement, turn_place};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Drawn, Sink};

pub(super) static RULE: Rule = Rule {
    name: "impossible-joint",
    level: Level::Error,
    safety: true,
    finds: "A drawn figure turns a joint farther than the widest range that is published for it, by more than the\n\
            5 degrees by which two measurements differ. Joints that follow from where the feet and hands are count too.",
    why: "A client copies the picture before she reads the words. One who tries to bend as far as no body does\n\
          gets hurt, or gives up.",
    bad: Example::lines(
        "content/exercises/tall-sit.md",
        &[(
            "[[progression]]",
            r#"
[[figure]]
description = "She sits tall and bends one elbow."
props = ["chair"]

[[figure.pose]]
base = "seated"
right_shoulder.flexion = 30
right_elbow.flexion = 170
                      ^^^ `170` degrees of flexion of the right elbow are more than the widest published range, `160`

[[progression]]"#,
        )],
    ),
    good: Example::lines(
        "content/exercises/tall-sit.md",
        &[(
            "[[progression]]",
            r#"
[[figure]]
description = "She sits tall and bends one elbow."
props = ["chair"]

[[figure.pose]]
base = "seated"
right_shoulder.flexion = 30
right_elbow.flexion = 140

[[progression]]"#,
        )],
    ),
    check: Check::Figures(check),
};

fn check(figure: &Drawn<'_>, sink: &mut Sink<'_>) {
    for (index, (pose, settled)) in figure.drawing.poses.iter().zip(&figure.scene.poses).enumerate() {
        for beyond in beyond(pose, settled, |range| Some(range.widest + MEASURING)) {
            let widest = beyond.range.widest;
            sink.about(figure.about(index, beyond.subjects(widest))).add(
                beyond.place,
                format!(
                    "`{:.0}` degrees of {} are more than the widest published range, `{widest}`",
                    beyond.degrees,
                    beyond.movement()
                ),
                help(&beyond, pose, widest),
            );
        }
    }
}

/// What to write so that a joint is turned no farther than that.
pub(super) fn help(beyond: &Beyond, pose: &Pose, most: i16) -> String {
    if beyond.place == pose.span {
        format!(
            "change the joints, the feet or the holds of this pose until it is `{most}` or less: it follows from where they are"
        )
    } else {
        format!("write `{most}` or less, or turn another joint as well")
    }
}

/// A joint, or both of a pair alike, that is turned beyond a bound.
pub(super) struct Beyond {
    pub(super) place: Span,
    pub(super) range: &'static Range,
    pub(super) degrees: f64,
    joint: Joint,
    sides: Vec<Option<Side>>,
    motion: Motion,
}

impl Beyond {
    pub(super) fn movement(&self) -> String {
        movement(self.joint, &self.sides, self.motion)
    }

    /// What a finding is about that says it is more than `most` degrees.
    pub(super) fn subjects(&self, most: i16) -> [Subject; 3] {
        let degrees = Subject::Number(format!("{:.0}", self.degrees));
        [Subject::Body(self.movement()), degrees, Subject::number(most)]
    }
}

/// The joints of a pose that are turned beyond the bound of their range, each place once.
pub(super) fn beyond(pose: &Pose, settled: &Settled, bound: impl Fn(&Range) -> Option<i16>) -> Vec<Beyond> {
    let mut all: Vec<Beyond> = Vec::new();
    for Measured { joint, side, motion, degrees, under_weight } in measured(pose, settled) {
        let Some(range) = range(joint, motion, under_weight) else { continue };
        if bound(range).is_none_or(|most| degrees.round() <= f64::from(most)) {
            continue;
        }
        let place = turn_place(pose, joint, side, motion);
        let same = |b: &&mut Beyond| b.place == place && b.joint == joint && b.motion == motion;
        match all.iter_mut().find(same) {
            Some(pair) => {
                pair.sides.push(side);
                pair.degrees = pair.degrees.max(degrees);
            }
            None => all.push(Beyond { place, range, degrees, joint, sides: vec![side], motion }),
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use crate::review::figures::with_figure;
    use crate::review::testing::found;

    const SIT: &str = "content/exercises/tall-sit.md";

    fn findings(pose: &str) -> Vec<String> {
        let text =
            with_figure(SIT, &format!("props = [\"chair\"]\n[[figure.pose]]\nbase = \"seated\"\n{pose}"));
        found(&[(SIT, &text)]).into_iter().filter(|f| f.starts_with("impossible-joint")).collect()
    }

    /// The largest value of each row of section 6's tables, and 5 degrees of measuring.
    #[test]
    fn each_movement_has_its_widest_published_range() {
        for (turn, widest) in [
            ("right_elbow.flexion", 160),
            ("right_shoulder.extension", 60),
            ("right_wrist.extension", 70),
            ("neck.rotation_left", 80),
            ("spine.extension", 30),
        ] {
            let with = |degrees| findings(&format!("right_shoulder.flexion = 0\n{turn} = {degrees}"));
            let with = |degrees: i32| match turn.starts_with("right_shoulder") {
                true => findings(&format!("{turn} = {degrees}")),
                false => with(degrees),
            };
            assert_eq!(with(widest + 5), [""; 0], "{turn}");
            assert_eq!(with(widest + 6).len(), 1, "{turn}");
        }
    }

    #[test]
    fn both_sides_that_one_word_turns_are_told_at_once() {
        let found = findings("wrist.flexion = 100\nshoulder.flexion = 30");
        assert_eq!(found.len(), 1, "{found:?}");
        assert!(found[0].ends_with(
            "`100` degrees of flexion of both wrists are more than the widest published range, `90`"
        ));
    }
}
