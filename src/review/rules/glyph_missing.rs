//! `glyph-missing`: a character that the font of the handouts does not have.

use crate::model::finding::Level;
use crate::review::rule::{Bearing, Check, Example, Rule};

pub(super) static RULE: Rule = Rule {
    name: "glyph-missing",
    level: Level::Error,
    safety: false,
    finds: "A character that is to be printed on a handout is missing from the theme's font.",
    why: "On paper it would be an empty box, and a step that depends on it could not be followed.",
    bad: Example::lines(
        "content/exercises/heel-raise.md",
        &[(
            "2. Stand tall for a moment.",
            r#"
2. Stand tall ➔ lower.
              ^ the font of the handouts has no `➔` (U+2794)
"#,
        )],
    ),
    good: Example::lines(
        "content/exercises/heel-raise.md",
        &[("2. Stand tall for a moment.", "2. Stand tall, then lower.")],
    ),
    check: Check::Sheets(Bearing::Never),
};
