//! `floating-figure`: a drawn figure that nothing carries, or a hand or foot that does not reach.

use crate::model::figure::{Pose, Rest, Side, Thing};
use crate::model::finding::{Level, Subject};
use crate::model::source::{Span, Spanned};
use crate::model::vocabulary::{Position, Vocabulary};
use crate::reckon::figure::Loose;
use crate::review::figures::{centimeters, the};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Drawn, Sink};

pub(super) static RULE: Rule = Rule {
    name: "floating-figure",
    level: Level::Error,
    safety: true,
    finds: "A drawn figure touches neither floor, seat nor support without jumping, a foot or a hand ends a centimeter or\n\
            more before what it stands on or holds, or it sits on, stands on, leans on or holds a thing that the\n\
            picture does not have.",
    why: "A client looks at the picture to see what to hold and where to stand. A hand in the air tells her to hold\n\
          nothing.",
    bad: Example::lines(
        "content/exercises/heel-raise.md",
        &[(
            "[[variation]]",
            r#"
[[figure]]
description = "She stands at the counter and holds it with both hands."

[[figure.pose]]
base = "standing"
hold = "counter"
       ^^^^^^^^^ both hands hold a `counter` that is not in the picture

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
props = ["counter"]

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
        let loose = figure.scene.loose(index);
        let other_hand_too = |side: Side, is: &dyn Fn(&Loose) -> bool| {
            let twin = place_of(&pose.holds.left, pose) == place_of(&pose.holds.right, pose);
            (twin && loose.iter().filter(|l| is(l)).count() > 1).then_some(side == Side::Right)
        };
        for one in &loose {
            let hand = |side: Side| format!("the {} hand", side.word());
            let (place, message, help) = match *one {
                Loose::Body => (
                    in_the_air(pose),
                    "the figure touches neither floor, seat nor support".to_string(),
                    "leave a foot on the floor, or say `jump` if both leave it".to_string(),
                ),
                Loose::Seat => (
                    pose.base.span,
                    "the figure sits on nothing".to_string(),
                    "add `chair` or `bed` to `props`".to_string(),
                ),
                Loose::Foot(side, gap) => (
                    place_of(pose.feet.of(side), pose),
                    format!("the {} foot ends `{}` cm from where it stands", side.word(), centimeters(gap)),
                    "bend the knee of the other leg as well, or say that this foot is `lifted`".to_string(),
                ),
                Loose::Step(side) => (
                    place_of(pose.feet.of(side), pose),
                    format!("the {} foot stands on a `step` that is not in the picture", side.word()),
                    "add `step` to `props`".to_string(),
                ),
                Loose::Back(rest) => (
                    pose.back.map_or(pose.span, |b| b.span),
                    format!("the back rests on a `{}` that is not in the picture", rest_word(rest)),
                    format!("add `{}` to `props`", rest_word(rest)),
                ),
                Loose::Missing(side, hold, thing) => {
                    let twin = other_hand_too(side, &|l| matches!(l, Loose::Missing(_, h, _) if *h == hold));
                    let who = match twin {
                        Some(true) => continue,
                        Some(false) => "both hands hold".to_string(),
                        None => format!("{} holds", hand(side)),
                    };
                    (
                        place_of(pose.holds.of(side), pose),
                        format!("{who} a `{}` that is not in the picture", hold.word()),
                        format!("add `{}` to `props`", thing.word()),
                    )
                }
                Loose::OutOfPlace(side, hold, at) => {
                    let twin =
                        other_hand_too(side, &|l| matches!(l, Loose::OutOfPlace(_, h, _) if *h == hold));
                    let who = match twin {
                        Some(true) => continue,
                        Some(false) => "both hands".to_string(),
                        None => hand(side),
                    };
                    (
                        place_of(pose.holds.of(side), pose),
                        format!("{who} cannot hold a `{}` that stands `{}`", hold.word(), at.word()),
                        "stand it `ahead`, or to one side, with `place`".to_string(),
                    )
                }
                Loose::Hand(side, hold, gap) => {
                    let what = match Thing::from_word(hold.word()) {
                        Some(thing) => the(thing),
                        None => format!("the {}", hold.word()),
                    };
                    (
                        place_of(pose.holds.of(side), pose),
                        format!("{} ends `{}` cm from {what}", hand(side), centimeters(gap)),
                        "bring the thing nearer with `distance` or `height`, hold it elsewhere with `hold_at`, or lean toward it"
                            .to_string(),
                    )
                }
            };
            sink.about(figure.about(index, about(one))).add(place, message, help);
        }
    }
}

/// What is loose, and what it is loose from.
fn about(loose: &Loose) -> Vec<Subject> {
    let foot = |side: Side| Subject::Body(format!("{} foot", side.word()));
    let hand = |side: Side| Subject::Body(format!("{} hand", side.word()));
    let word = |word: &str| Subject::Words(word.into());
    match *loose {
        Loose::Body | Loose::Seat => Vec::new(),
        Loose::Foot(side, gap) => vec![foot(side), Subject::number(centimeters(gap))],
        Loose::Step(side) => vec![foot(side), word("step")],
        Loose::Back(rest) => vec![word(rest_word(rest))],
        Loose::Missing(side, hold, _) => vec![hand(side), word(hold.word())],
        Loose::OutOfPlace(side, hold, at) => vec![hand(side), word(hold.word()), word(at.word())],
        Loose::Hand(side, hold, gap) => {
            vec![hand(side), word(hold.word()), Subject::number(centimeters(gap))]
        }
    }
}

fn place_of<T>(said: &Option<Spanned<T>>, pose: &Pose) -> Span {
    said.as_ref().map_or(pose.span, |s| s.span)
}

fn in_the_air(pose: &Pose) -> Span {
    match pose.base.value {
        Position::Standing => pose.feet.left.or(pose.feet.right).map_or(pose.span, |f| f.span),
        _ => pose.hips_raised.as_ref().map_or(pose.span, |h| h.span),
    }
}

fn rest_word(rest: Rest) -> &'static str {
    match rest {
        Rest::Wall => "wall",
        Rest::Chair => "chair",
    }
}

#[cfg(test)]
mod tests {
    use crate::review::figures::with_figure;
    use crate::review::testing::found;

    const RAISE: &str = "content/exercises/heel-raise.md";

    fn findings(figure: &str) -> Vec<String> {
        let found = found(&[(RAISE, &with_figure(RAISE, figure))]);
        let of = found.into_iter().filter(|f| f.starts_with("floating-figure"));
        of.map(|f| f.splitn(3, ' ').last().unwrap_or("").to_string()).collect()
    }

    fn pose(props: &str, pose: &str) -> Vec<String> {
        findings(&format!("props = [{props}]\n[[figure.pose]]\n{pose}"))
    }

    #[test]
    fn what_carries_a_figure_is_in_the_picture() {
        assert_eq!(pose("", "base = \"seated\""), ["the figure sits on nothing"]);
        assert_eq!(pose("\"bed\"", "base = \"seated\""), [""; 0]);
        assert_eq!(
            pose("", "base = \"standing\"\nback = \"wall\""),
            ["the back rests on a `wall` that is not in the picture"]
        );
        assert_eq!(
            pose("", "base = \"standing\"\nleft_foot = \"step\""),
            ["the left foot stands on a `step` that is not in the picture"]
        );
        assert_eq!(
            pose("\"wall\"", "base = \"standing\"\nleft_hold = \"counter\"\nright_hold = \"wall\""),
            ["the left hand holds a `counter` that is not in the picture"]
        );
    }

    #[test]
    fn a_body_in_the_air_is_a_slip_unless_it_jumps() {
        let lifted = "base = \"standing\"\nfeet = \"lifted\"";
        assert_eq!(pose("", lifted), ["the figure touches neither floor, seat nor support"]);
        assert_eq!(pose("", "base = \"standing\"\nleft_foot = \"lifted\""), [""; 0]);
        assert_eq!(pose("", "base = \"standing\"\njump = 4"), [""; 0]);
        assert_eq!(
            pose("", "base = \"prone\"\nhips_raised = 10"),
            ["the figure touches neither floor, seat nor support"]
        );
        assert_eq!(pose("", "base = \"lying\"\nfeet = \"flat\"\nhips_raised = 10"), [""; 0]);
    }

    #[test]
    fn a_hand_reaches_what_it_holds() {
        let hold = "base = \"standing\"\nright_hold = \"counter\"";
        assert_eq!(pose("{ thing = \"counter\", distance = 30 }", hold), [""; 0]);
        let far = pose("{ thing = \"counter\", distance = 120 }", hold);
        assert_eq!(far.len(), 1, "{far:?}");
        assert!(
            far[0].starts_with("the right hand ends `") && far[0].ends_with("` cm from the counter"),
            "{far:?}"
        );
        assert_eq!(
            pose("{ thing = \"rail\", place = \"behind\" }", "base = \"standing\"\nhold = \"rail\""),
            ["both hands cannot hold a `rail` that stands `behind`"]
        );
    }

    #[test]
    fn a_foot_reaches_where_it_stands() {
        let found = pose("", "base = \"standing\"\nleft_knee.flexion = 70\nweight = \"left\"");
        assert_eq!(found, [""; 0], "the other knee gives way");
        let found = pose("\"step\"", "base = \"standing\"\nleft_foot = \"step\"\nstance = \"tandem\"");
        assert!(found.iter().all(|f| f.contains("foot ends")), "{found:?}");
    }
}
