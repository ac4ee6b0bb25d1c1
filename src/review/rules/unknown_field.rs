//! `unknown-field`: a field that nothing reads, most often a slip of the finger.

use crate::model::finding::Level;
use crate::review::rule::{Check, Example, Rule};

pub(super) static RULE: Rule = Rule {
    name: "unknown-field",
    level: Level::Error,
    safety: true,
    finds: "An entry has a field that this kind of entry does not know.",
    why: "A field with a wrong name is not read at all. If it is a caution or a safe form, your clients\n\
          would never see it.",
    bad: Example::lines(
        "content/exercises/heel-drop.md",
        &[(
            r#"
[[caution]]
for = "everyone""#,
            r#"
[[cautions]]
  ^^^^^^^^ the exercise has no field `cautions`
for = "everyone""#,
        )],
    ),
    good: Example::lines(
        "content/exercises/heel-drop.md",
        &[(
            r#"
[[caution]]
for = "everyone""#,
            r#"
[[caution]]
for = "everyone""#,
        )],
    ),
    check: Check::WhileReading,
};
