//! `figure-position-mismatch`: a drawn figure in another position than its exercise.

use crate::model::exercise::Exercise;
use crate::model::figure::Figure;
use crate::model::finding::{Level, Subject};
use crate::model::form::Form;
use crate::model::vocabulary::Vocabulary;
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "figure-position-mismatch",
    level: Level::Error,
    safety: true,
    finds: "No pose of an exercise's drawn figures is in the position that the exercise names. An exercise that goes\n\
            from one position to another, such as from a seat to standing, has one of its poses in that position.",
    why: "A client who may not get down to the floor follows the picture down, or one who should sit stands.",
    bad: Example::lines(
        "content/exercises/tall-sit.md",
        &[(
            "
base = \"seated\"",
            r#"
base = "standing"
       ^^^^^^^^^^ the figure is drawn `standing`, and `Tall sit` is done `seated`"#,
        )],
    ),
    good: Example::lines(
        "content/exercises/tall-sit.md",
        &[("base = \"seated\"", "base = \"seated\"\nspine.flexion = 5")],
    ),
    check: Check::Model(check),
};

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    let known = |e: &&Exercise| {
        e.standing.knows("position") && e.standing.is_sound("figure") && e.standing.is_sound("variation")
    };
    for form in case.model.exercises.values().filter(known).flat_map(Form::all) {
        let position = form.position().value;
        // A variation that keeps the steps may have the pictures of the exercise, which are judged there.
        let own = form.variation.map_or(&form.exercise.figures, |variation| &variation.figures);
        let poses = || own.iter().filter_map(Figure::drawing).flat_map(|d| &d.poses);
        let Some(first) = poses().next() else { continue };
        if poses().all(|pose| pose.base.value != position) {
            let whose = if form.variation.is_some() { "variation's" } else { "exercise's" };
            sink.about([
                Subject::Title(form.title().value.clone()),
                Subject::Position(first.base.value),
                Subject::Position(position),
            ])
            .add(
                first.base.span,
                format!(
                    "the figure is drawn `{}`, and `{}` is done `{}`",
                    first.base.value.word(),
                    form.title().value,
                    position.word()
                ),
                format!(
                    "write `base = \"{}\"` in one of its poses, or correct the {whose} `position`",
                    position.word()
                ),
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::review::testing::{edited, found};

    const RISE: &str = "content/exercises/sit-to-stand.md";

    #[test]
    fn one_pose_in_the_position_is_enough_and_an_unread_position_is_not_judged() {
        let text = edited(RISE, &[]);
        assert!(text.contains("base = \"seated\"") && text.contains("base = \"standing\""));
        assert_eq!(found(&[(RISE, &text)]), [""; 0], "from a seat to standing");
        let stands = text.replace("base = \"seated\"", "base = \"standing\"");
        let names = |text: &str| {
            let found = found(&[(RISE, text)]);
            let name = |f: &String| f.split(' ').next().unwrap_or("").to_string();
            found.iter().map(name).filter(|f| f != "demand-not-declared").collect::<Vec<_>>()
        };
        assert_eq!(names(&stands), ["figure-position-mismatch"]);
        let unread = stands.replace("position = \"seated\"", "position = \"sitting\"");
        assert_eq!(names(&unread), ["wrong-value"]);
    }

    #[test]
    fn a_figure_of_a_variation_is_drawn_as_the_variation_is_done() {
        const DROP: &str = "content/exercises/heel-drop.md";
        let text =
            edited(DROP, &[("base = \"seated\"\nhold = \"chair\"\nfeet", "base = \"standing\"\nfeet")]);
        assert!(!found(&[(DROP, &text)]).iter().any(|f| f.starts_with("figure-position")), "one of two");
        let both = text.replace("base = \"seated\"\nhold = \"chair\"", "base = \"standing\"");
        let found: Vec<String> =
            found(&[(DROP, &both)]).into_iter().filter(|f| f.starts_with("figure-position")).collect();
        assert_eq!(found.len(), 1, "{found:?}");
        assert!(
            found[0].ends_with("the figure is drawn `standing`, and `Seated heel press` is done `seated`"),
            "{found:?}"
        );
    }
}
