//! `stranded-lines`: a page of a handout with next to nothing on it.

use crate::model::finding::Level;
use crate::review::rule::{Bearing, Check, Example, Rule};

pub(super) static RULE: Rule = Rule {
    name: "stranded-lines",
    level: Level::Error,
    safety: false,
    finds: "A page of a handout has fewer than four lines, or fewer than three in 32 point. A picture counts for the lines that it is as tall as.",
    why: "A page for a line or two is paper for nothing, and what stands on it is lost when the pages fall apart.",
    bad: Example::lines(
        "content/exercises/heel-raise.md",
        &[(
            r#"
1. Rise on your toes with a little speed.
2. Stand tall for a moment.
3. Lower your heels slowly to the floor.
"#,
            r#"
1. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe.
2. Stand tall for a moment.
^^^^^^^^^^^^^^^^^^^^^^^^^^^ printed page 20 has only 1 line on it: `Stand tall for a moment.`
3. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe.
"#,
        )],
    ),
    good: Example::lines(
        "content/exercises/heel-raise.md",
        &[("2. Stand tall for a moment.", "2. Stand tall for a moment. Keep breathing.")],
    ),
    check: Check::Sheets(Bearing::Borne),
};
