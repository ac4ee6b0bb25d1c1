//! `one-way-link`: a progression or regression that only one of its two exercises knows of.

use crate::model::exercise::{Change, Exercise};
use crate::model::finding::{Level, Subject};
use crate::reckon::ladder::Ladders;
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "one-way-link",
    level: Level::Note,
    safety: false,
    finds: "One exercise names another as harder or easier, and that one does not name it back.",
    why: "A client can go up the ladder and not down again, or down and not up. It may be meant: not every\n\
          easier exercise has to lead to all that are harder.",
    bad: Example::lines(
        "content/exercises/heel-raise.md",
        &[(
            r#"
[[progression]]
exercise = "heel-drop"
"#,
            r#"
[[progression]]
exercise = "heel-drop"
           ^^^^^^^^^^^ `heel-drop` does not name `heel-raise` as easier
"#,
        )],
    )
    .beside(
        "content/exercises/heel-drop.md",
        &[(
            r#"exercise = "heel-raise""#,
            r#"text = "Keep your toes on the floor and lower your heels slowly.""#,
        )],
    ),
    good: Example::lines(
        "content/exercises/heel-raise.md",
        &[(
            r#"
[[progression]]
exercise = "heel-drop"
"#,
            r#"
[[progression]]
exercise = "heel-drop"
text = "When the rise feels easy."
"#,
        )],
    ),
    check: Check::Ladders(check),
};

fn check(case: &Case<'_>, ladders: &Ladders<'_>, sink: &mut Sink<'_>) {
    let exercise = |id: &str| case.model.exercises.get(id);
    // A link that could not be read, or leads to what is not there, may be the one that is missed.
    let whole = |id: &str, field: &str, links: fn(&Exercise) -> &[Change]| {
        let there = |change: &Change| change.exercise().is_none_or(|id| exercise(&id.value).is_some());
        exercise(id).is_some_and(|e| e.standing.knows(field) && links(e).iter().all(there))
    };
    let component = |id: &str| exercise(id).map(|e| e.component.value);
    for (easier, harder, link) in ladders.steps() {
        // A link between components is told as that.
        if component(easier) != component(harder) {
            continue;
        }
        let about = [harder, easier].map(|id| Subject::Exercise(id.into()));
        match (link.progression, link.regression) {
            (Some(place), None) if whole(harder, "regression", |e| &e.regressions) => sink.about(about).add(
                place,
                format!("`{harder}` does not name `{easier}` as easier"),
                format!("add `[[regression]]` with `exercise = \"{easier}\"` to `{harder}`"),
            ),
            (None, Some(place)) if whole(easier, "progression", |e| &e.progressions) => {
                sink.about(about).add(
                    place,
                    format!("`{easier}` does not name `{harder}` as harder"),
                    format!("add `[[progression]]` with `exercise = \"{harder}\"` to `{easier}`"),
                )
            }
            _ => {}
        }
    }
}
