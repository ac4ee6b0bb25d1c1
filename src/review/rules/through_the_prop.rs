//! `through-the-prop`: a drawn body that enters a thing or the floor.

use crate::model::figure::{Pose, Side};
use crate::model::finding::{Level, Subject};
use crate::model::source::Span;
use crate::model::vocabulary::Vocabulary;
use crate::reckon::figure::{BodyPart, PlacedThing};
use crate::review::figures::centimeters;
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Drawn, Sink};

pub(super) static RULE: Rule = Rule {
    name: "through-the-prop",
    level: Level::Error,
    safety: true,
    finds: "A part of a drawn body goes into a thing of the picture or into the floor by more than a centimeter beyond\n\
            what clothes and cushions give way.",
    why: "Nobody can copy it. The client guesses how far away the thing should be, or how far to bend.",
    bad: Example::lines(
        "content/exercises/heel-raise.md",
        &[(
            "[[variation]]",
            r#"
[[figure]]
description = "She stands at the counter and holds it with both hands."
props = [{ thing = "counter", distance = 2 }]
                                         ^ the trunk goes `5` cm into the counter

[[figure.pose]]
base = "standing"
hold = "counter"

[[variation]]"#,
        )],
    ),
    good: Example::lines(
        "content/exercises/heel-raise.md",
        &[(
            "[[variation]]",
            r#"
[[figure]]
description = "She stands at the counter and holds it with both hands."
props = [{ thing = "counter", distance = 30 }]

[[figure.pose]]
base = "standing"
hold = "counter"

[[variation]]"#,
        )],
    ),
    check: Check::Figures(check),
};

fn check(figure: &Drawn<'_>, sink: &mut Sink<'_>) {
    for (index, pose) in figure.drawing.poses.iter().enumerate() {
        for hit in figure.scene.hits(index) {
            let thing = hit.thing.map(|at| &figure.scene.things[at]);
            let thing_word = thing.map_or("floor", |t| t.thing.word());
            let fault = [
                Subject::Body(part(hit.part)),
                Subject::Words(thing_word.into()),
                Subject::number(centimeters(hit.depth)),
            ];
            sink.about(figure.about(index, fault)).add(
                thing.map_or(pose.span, |thing| place(thing, pose)),
                format!("the {} goes `{}` cm into the {thing_word}", part(hit.part), centimeters(hit.depth)),
                match thing {
                    Some(_) => "move the thing away with `distance`, or turn the joints of this pose less",
                    None => "turn the joints of this pose less, so that it stays over the floor",
                },
            );
        }
    }
}

/// Where the author says how far away a thing stands, else where its pose begins.
fn place(thing: &PlacedThing<'_>, pose: &Pose) -> Span {
    thing.prop.distance.as_ref().map_or(pose.span, |distance| distance.span)
}

fn part(part: BodyPart) -> String {
    let of = |side: Side, what: &str| format!("{} {what}", side.word());
    match part {
        BodyPart::Head => "head".to_string(),
        BodyPart::Trunk => "trunk".to_string(),
        BodyPart::Thigh(side) => of(side, "thigh"),
        BodyPart::Knee(side) => of(side, "knee"),
        BodyPart::Shank(side) => of(side, "lower leg"),
        BodyPart::Foot(side) => of(side, "foot"),
        BodyPart::UpperArm(side) => of(side, "upper arm"),
        BodyPart::Elbow(side) => of(side, "elbow"),
        BodyPart::Forearm(side) => of(side, "forearm"),
        BodyPart::Hand(side) => of(side, "hand"),
    }
}

#[cfg(test)]
mod tests {
    use crate::review::figures::with_figure;
    use crate::review::testing::found;

    const RAISE: &str = "content/exercises/heel-raise.md";

    fn findings(props: &str, pose: &str) -> Vec<String> {
        let figure = format!("props = [{props}]\n[[figure.pose]]\n{pose}");
        let found = found(&[(RAISE, &with_figure(RAISE, &figure))]);
        let of = found.into_iter().filter(|f| f.starts_with("through-the-prop"));
        of.map(|f| f.splitn(3, ' ').last().unwrap_or("").to_string()).collect()
    }

    #[test]
    fn a_body_stays_before_the_wall_however_far_it_leans() {
        let wall = |distance: i32| format!("{{ thing = \"wall\", distance = {distance} }}");
        let stand = "base = \"standing\"";
        assert_eq!(findings(&wall(40), stand), [""; 0]);
        let near = findings(&wall(10), stand);
        assert!(near[0].ends_with("into the wall"), "{near:?}");
        let hinged = findings(&wall(10), "base = \"standing\"\nhip.flexion = 80");
        assert!(hinged[0].starts_with("the head goes `"), "{hinged:?}");
    }

    #[test]
    fn a_foot_that_points_into_the_floor_is_seen() {
        let pose = |plantar: i32| {
            findings(
                "",
                &format!(
                    "base = \"standing\"\nleft_foot = \"lifted\"\nleft_hip.flexion = 0\nleft_knee.flexion = 5\nleft_ankle.plantarflexion = {plantar}"
                ),
            )
        };
        let found = pose(40);
        assert!(
            found.iter().any(|f| f.starts_with("the left foot goes `") && f.ends_with("into the floor")),
            "{found:?}"
        );
    }

    #[test]
    fn what_touches_is_no_hit() {
        for (props, pose) in [
            ("\"chair\"", "base = \"seated\""),
            ("\"chair\"", "base = \"seated\"\nback = \"chair\""),
            ("{ thing = \"chair\", height = 55 }", "base = \"seated\""),
            ("\"bed\"", "base = \"seated\""),
            ("\"counter\"", "base = \"standing\"\nhold = \"counter\""),
            ("\"rail\"", "base = \"standing\"\nhold = \"rail\""),
            ("\"wall\"", "base = \"standing\"\nhold = \"wall\""),
            ("\"wall\"", "base = \"standing\"\nback = \"wall\""),
            ("\"chair\"", "base = \"standing\"\nhold = \"chair\""),
            ("\"step\"", "base = \"standing\"\nleft_foot = \"step\"\nleft_knee.flexion = 50"),
            ("\"bed\"", "base = \"lying\"\nfeet = \"flat\""),
            ("\"bed\"", "base = \"prone\""),
            ("", "base = \"lying\""),
            ("", "base = \"kneeling\""),
            ("", "base = \"hands-and-knees\""),
        ] {
            assert_eq!(findings(props, pose), [""; 0], "{pose}");
        }
        let text =
            with_figure(RAISE, "view = \"front\"\nprops = [\"bed\"]\n[[figure.pose]]\nbase = \"side-lying\"");
        let found = found(&[(RAISE, &text)]);
        assert!(found.iter().all(|f| !f.starts_with("through-the-prop")), "{found:?}");
    }
}
