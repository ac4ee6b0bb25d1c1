//! `missing-caution`: an exercise without a written safety note.

use crate::model::finding::Level;
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "missing-caution",
    level: Level::Error,
    safety: true,
    finds: "An exercise has no caution.",
    why: "Every movement has somebody for whom it is wrong, or a way to do it wrong. A client at home has\n\
          nobody beside her who says so; the page and the sheet must.",
    bad: Example {
        file: "content/exercises/tall-sit.md",
        text: r#"
```toml
title = "Tall sit"
        ^^^^^^^^^^ `Tall sit` has no caution
component = "posture"
position = "seated"
equipment = ["sturdy chair"]
demands = []
summary = "Sit as tall as you can, and rest."
reviewed = { by = "A. Reviewer, PT", on = 2026-01-05 }

[dose]
reps = 5
hold = "5 s"
days = 5

[[regression]]
text = "Lean on the back of the chair between repetitions."
```
This trains the muscles that hold you tall.

## Set up
Sit on a sturdy chair.

## Move
1. Sit tall.
2. Relax.
"#,
    },
    good: Example {
        file: "content/exercises/tall-sit.md",
        text: r#"
```toml
title = "Tall sit"
component = "posture"
position = "seated"
equipment = ["sturdy chair"]
demands = []
summary = "Sit as tall as you can, and rest."
reviewed = { by = "A. Reviewer, PT", on = 2026-01-05 }

[dose]
reps = 5
hold = "5 s"
days = 5

[[regression]]
text = "Lean on the back of the chair between repetitions."

[[caution]]
for = "everyone"
level = "stop"
text = "Stop if your back hurts."
```
This trains the muscles that hold you tall.

## Set up
Sit on a sturdy chair.

## Move
1. Sit tall.
2. Relax.
"#,
    },
    check: Check::Model(check),
};

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for exercise in case.model.exercises.values() {
        if exercise.cautions.is_empty() && exercise.standing.knows("caution") {
            sink.add(
                exercise.place(),
                format!("`{}` has no caution", exercise.title.value),
                "add a [[caution]] with `for`, `level` and `text`: who must take care, and how",
            );
        }
    }
}
