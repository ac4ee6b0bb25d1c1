//! `sheet-split`: something of a handout that is torn apart between two pages.

use crate::model::finding::Level;
use crate::review::rule::{Bearing, Check, Example, Rule};

pub(super) static RULE: Rule = Rule {
    name: "sheet-split",
    level: Level::Error,
    safety: false,
    finds: "On a handout a step is torn from its number or in two, a heading is the last on its page, or an\n\
            exercise begins in the middle of a page and ends on another.",
    why: "A client holds one page in her hand at a time. What belongs together has to be on it.",
    bad: Example::lines(
        "content/exercises/heel-raise.md",
        &[(
            r#"
## Move
1. Rise on your toes with a little speed.
"#,
            r#"
## Move
^^^^^^^ this heading is the last on printed page 19, without what it is about
1. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe.
"#,
        )],
    ),
    good: Example::lines(
        "content/exercises/heel-raise.md",
        &[(
            "1. Rise on your toes with a little speed.",
            "1. Rise on your toes with a little speed. Keep your heels in line.",
        )],
    ),
    check: Check::Sheets(Bearing::Borne),
};
