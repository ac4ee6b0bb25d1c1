//! `idle-setting`: something written of a figure that its picture does not show.

use crate::model::finding::{Level, Subject};
use crate::model::vocabulary::Vocabulary;
use crate::reckon::figure::{Because, Unseen};
use crate::review::figures::{movement, the};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Drawn, Sink};

pub(super) static RULE: Rule = Rule {
    name: "idle-setting",
    level: Level::Warning,
    safety: false,
    finds: "A field of a drawn figure that changes nothing in its picture, such as a hip turned to the side over a foot\n\
            that stands, the distance of a chair that she sits on, or the arrow of a hand that stays where it is; and a\n\
            thing that is drawn where nobody meant it: a cushion that she neither lies nor sits on, a step that no foot\n\
            stands on.",
    why: "The author believes that the picture shows it. A client sees another movement than the steps say.",
    bad: Example::lines(
        "content/exercises/heel-raise.md",
        &[(
            "[[variation]]",
            r#"
[[figure]]
description = "She holds the counter and lifts her left leg to the side."
view = "front"
props = ["counter"]

[[figure.pose]]
base = "standing"
hold = "counter"

[[figure.pose]]
base = "standing"
hold = "counter"
left_hip.abduction = 20
                     ^^ the abduction of the left hip changes nothing in this pose

[[variation]]"#,
        )],
    ),
    good: Example::lines(
        "content/exercises/heel-raise.md",
        &[(
            "[[variation]]",
            r#"
[[figure]]
description = "She holds the counter and moves her left foot out to the side."
view = "front"
props = ["counter"]

[[figure.pose]]
base = "standing"
hold = "counter"

[[figure.pose]]
base = "standing"
hold = "counter"
stance = "wide"
moved = "left"

[[variation]]"#,
        )],
    ),
    check: Check::Figures(check),
};

fn check(figure: &Drawn<'_>, sink: &mut Sink<'_>) {
    for idle in figure.scene.idle() {
        let (fault, message, help) = match &idle.what {
            Unseen::Turn { joint, sides, motion, because } => {
                let turned = movement(*joint, sides, *motion);
                let help = match because {
                    Because::Stands(side) => format!(
                        "the foot on the ground places this joint: say `{0}_foot = \"lifted\"` if the leg is to move, or \
                         move the foot with `stance`",
                        side.word()
                    ),
                    Because::Holds => {
                        "the arm reaches what the hand holds by itself: delete this, or take out the hold".to_string()
                    }
                    Because::Base => "this position places the joint by itself: delete it".to_string(),
                };
                (
                    Subject::Body(turned.clone()),
                    format!("the {turned} changes nothing in this pose"),
                    help,
                )
            }
            Unseen::Field(field, needs) => (
                Subject::Field(field.to_string()),
                format!(
                    "`{field}` changes nothing in this {}",
                    if idle.pose.is_some() { "pose" } else { "figure" }
                ),
                format!("it is for {needs}: delete it, or change the rest"),
            ),
            Unseen::OfThing(thing, field) => (
                Subject::Field(field.to_string()),
                format!("`{field}` changes nothing about {}", the(*thing)),
                "delete it: where this thing is follows from the body".to_string(),
            ),
            Unseen::Arrow(point) => (
                Subject::Words(point.word().into()),
                format!("the arrow of `{}` shows nothing: it stays where it is", point.word()),
                "name a point that moves, leave `arrows` out for what moves most, or write `arrows = []`".to_string(),
            ),
            Unseen::Cushion(thing) => (
                Subject::Words(thing.word().into()),
                format!("nobody lies or sits on {}", the(*thing)),
                "say where it is, such as `{ thing = \"cushion\", under = \"belly\" }`".to_string(),
            ),
            Unseen::Step => (
                Subject::Words("step".into()),
                "no foot stands on the step".to_string(),
                "say `right_foot = \"step\"` in a pose; for a line on the floor, write `line` in place of `step`".to_string(),
            ),
        };
        let about = match idle.pose {
            Some(pose) => figure.about(pose, [fault]),
            None => figure.about_all([fault]),
        };
        sink.about(about).add(idle.span, message, help);
    }
}

#[cfg(test)]
mod tests {
    use crate::review::figures::with_figure;
    use crate::review::testing::found;

    const RAISE: &str = "content/exercises/heel-raise.md";

    fn findings(lines: &str) -> Vec<String> {
        let found = found(&[(RAISE, &with_figure(RAISE, lines))]);
        let of = found.into_iter().filter(|f| f.starts_with("idle-setting"));
        of.map(|f| f.splitn(3, ' ').last().unwrap_or("").to_string()).collect()
    }

    fn pose(base: &str, lines: &str) -> String {
        format!("[[figure.pose]]\nbase = \"{base}\"\n{lines}\n")
    }

    #[test]
    fn a_joint_that_something_else_places_is_told_and_one_that_is_drawn_is_not() {
        let told = |lines: &str| findings(&pose("standing", lines)).len();
        assert_eq!(told("left_hip.abduction = 25"), 1);
        assert_eq!(told("left_foot = \"lifted\"\nleft_hip.abduction = 25\nleft_ankle.dorsiflexion = 5"), 0);
        assert_eq!(told("hip.flexion = 20\nknee.flexion = 20\nankle.dorsiflexion = 5"), 0);
        assert_eq!(told("right_wrist.extension = 20\nspine.rotation_left = 10\nneck.flexion = 5"), 0);
        let held =
            format!("props = [\"counter\"]\n{}", pose("standing", "hold = \"counter\"\nelbow.flexion = 40"));
        assert!(
            findings(&held)[0].starts_with("the flexion of both elbows changes nothing"),
            "{:?}",
            findings(&held)
        );
    }

    #[test]
    fn a_thing_is_where_the_body_is_whatever_its_fields_say() {
        let sat = |prop: &str| findings(&format!("props = [{prop}]\n{}", pose("seated", "")));
        assert_eq!(sat("{ thing = \"chair\", height = 50 }"), [""; 0]);
        assert_eq!(sat("{ thing = \"chair\", distance = 15 }").len(), 1);
        assert_eq!(sat("\"chair\", { thing = \"towel\", place = \"ahead\" }").len(), 1);
        assert_eq!(
            sat("\"chair\", { thing = \"rail\", place = \"left\", distance = 30, height = 80 }"),
            [""; 0]
        );
        let prone = |prop: &str| findings(&format!("props = [{prop}]\n{}", pose("prone", "")));
        assert!(prone("\"cushion\"")[0].starts_with("nobody lies or sits on the cushion"));
        assert_eq!(prone("{ thing = \"cushion\", under = \"belly\" }"), [""; 0]);
        assert_eq!(prone("{ thing = \"band\", under = \"feet\", from = \"feet\" }").len(), 1);
        assert_eq!(prone("{ thing = \"ball\", between = \"head\" }").len(), 1);
        assert_eq!(prone("{ thing = \"towel\", under = \"head\", between = \"knees\" }").len(), 1);
        let front = findings(&format!("view = \"front\"\nfaces = \"left\"\n{}", pose("standing", "")));
        assert_eq!(front, ["`faces` changes nothing in this figure"]);
        let step = findings(&format!("props = [\"step\"]\n{}", pose("standing", "")));
        assert!(step[0].starts_with("no foot stands on the step"), "{step:?}");
    }

    #[test]
    fn a_field_of_a_pose_is_told_where_it_says_nothing() {
        let told = |lines: &str| findings(&pose("standing", lines)).len();
        assert_eq!(told("stance = \"step\"\nstride = 50\nfront_foot = \"left\""), 0);
        assert_eq!(told("stride = 50"), 1);
        assert_eq!(told("front_foot = \"left\""), 1);
        assert_eq!(told("moved = \"left\""), 1);
        assert_eq!(told("weight = \"left\"\nright_foot = \"lifted\""), 1);
        assert_eq!(told("hold_at = 100"), 1);
        assert_eq!(told("pace = \"quick\""), 1);
        let later = format!(
            "{}{}",
            pose("standing", ""),
            pose("standing", "stance = \"wide\"\nmoved = \"left\"\npace = \"quick\"")
        );
        assert_eq!(findings(&later), [""; 0]);
    }

    #[test]
    fn the_arrow_of_what_stays_is_told() {
        let raise = |arrows: &str| {
            findings(&format!(
                "arrows = [{arrows}]\n{}{}",
                pose("standing", ""),
                pose("standing", "right_shoulder.flexion = 80")
            ))
        };
        assert_eq!(raise("\"right-hand\""), [""; 0]);
        assert!(raise("\"left-foot\"")[0].starts_with("the arrow of `left-foot` shows nothing"));
    }
}
