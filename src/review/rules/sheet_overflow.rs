//! `sheet-overflow`: something that runs off the page of a handout.

use crate::model::finding::Level;
use crate::review::rule::{Bearing, Check, Example, Rule};

pub(super) static RULE: Rule = Rule {
    name: "sheet-overflow",
    level: Level::Error,
    safety: false,
    finds: "A word, a step, a box or a picture of a handout is wider or taller than the page, or runs into\n\
            the words beside it.",
    why: "What runs off the paper is not printed, and the client does not know that it is missing.",
    bad: Example::lines(
        "content/exercises/heel-raise.md",
        &[(
            "2. Stand tall for a moment.",
            r#"
2. Standtallforamomentandkeepbreathingwithbothheelsoffthefloor.
^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ on page 18 this is wider than the printed page: `Standtallforamomentandkeepbreathingwithb…`
"#,
        )],
    ),
    good: Example::lines(
        "content/exercises/heel-raise.md",
        &[(
            "2. Stand tall for a moment.",
            "2. Stand tall for a moment and keep breathing with both heels off the floor.",
        )],
    ),
    check: Check::Sheets(Bearing::Never),
};
