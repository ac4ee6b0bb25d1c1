//! `wrong-value`: a value of another kind than its field holds.

use crate::model::finding::Level;
use crate::review::rule::{Check, Example, Rule};

pub(super) static RULE: Rule = Rule {
    name: "wrong-value",
    level: Level::Error,
    safety: true,
    finds: "A value is not of the kind that its field holds: a word that is not in the list, a number out of\n\
            range, a time without its unit, a date in quotes.",
    why: "A value that cannot be read leaves a gap, and a guess would be worse. A dose with a slip in it must\n\
          not reach a client.",
    bad: Example::lines(
        "content/exercises/feet-together-stand.md",
        &[(
            r#"hold = "10 s""#,
            r#"
hold = "10 sec"
       ^^^^^^^^ expected a number and `s` or `min`, found `10 sec`"#,
        )],
    ),
    good: Example::lines(
        "content/exercises/feet-together-stand.md",
        &[(r#"hold = "10 s""#, r#"hold = "10-15 s""#)],
    ),
    check: Check::WhileReading,
};
