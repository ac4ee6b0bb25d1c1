//! `missing-field`: a required field is absent.

use crate::model::finding::Level;
use crate::review::rule::{Check, Example, Rule};

pub(super) static RULE: Rule = Rule {
    name: "missing-field",
    level: Level::Error,
    safety: true,
    finds: "An entry lacks a field that every entry of its kind has.",
    why: "Pages, handouts and the safety rules are made from these fields. Without `demands`, for example,\n\
          nobody can tell for whom an exercise is wrong.",
    bad: Example::lines(
        "content/exercises/heel-drop.md",
        &[
            (
                "```toml",
                "
```toml
^^^^^^^ the exercise has no `demands`",
            ),
            (r#"demands = ["impact-low", "tiptoe"]"#, ""),
        ],
    ),
    good: Example::lines(
        "content/exercises/heel-drop.md",
        &[(r#"demands = ["impact-low", "tiptoe"]"#, r#"demands = ["impact-low", "tiptoe"]"#)],
    ),
    check: Check::WhileReading,
};
