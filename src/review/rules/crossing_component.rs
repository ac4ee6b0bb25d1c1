//! `crossing-component`: a progression or regression between two training components.

use crate::model::finding::{Level, Subject};
use crate::model::vocabulary::Vocabulary;
use crate::reckon::ladder::Ladders;
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "crossing-component",
    level: Level::Warning,
    safety: false,
    finds: "A progression or regression leads to an exercise of another training component.",
    why: "A client who takes the easier or harder way would train something else, and her week would lack a\n\
          component without anybody noticing.",
    bad: Example::lines(
        "content/exercises/tall-sit.md",
        &[(
            r#"text = "Sit away from the back of the chair.""#,
            r#"
exercise = "sit-to-stand"
           ^^^^^^^^^^^^^^ `tall-sit` trains posture, and `sit-to-stand` strength
"#,
        )],
    ),
    good: Example::lines(
        "content/exercises/tall-sit.md",
        &[(
            r#"text = "Sit away from the back of the chair.""#,
            r#"text = "Sit away from the back of the chair, and keep your eyes level.""#,
        )],
    ),
    check: Check::Ladders(check),
};

fn check(case: &Case<'_>, ladders: &Ladders<'_>, sink: &mut Sink<'_>) {
    for (easier, harder, link) in ladders.steps() {
        let [from, to] = [easier, harder].map(|id| case.model.exercises.get(id));
        let (Some(from), Some(to), Some(place)) = (from, to, link.place()) else { continue };
        let known = from.standing.knows("component") && to.standing.knows("component");
        if known && from.component.value != to.component.value {
            sink.about([easier, harder].map(|id| Subject::Exercise(id.into()))).add(
                place,
                format!(
                    "`{easier}` trains {}, and `{harder}` {}",
                    from.component.value.word(),
                    to.component.value.word()
                ),
                "link exercises of one component, and describe the other movement in words if it helps",
            );
        }
    }
}
