//! `stray-file`: a file among the entries that may be meant as one, and that nothing reads.

use crate::model::finding::Level;
use crate::review::rule::{Check, Example, Rule};

pub(super) static RULE: Rule = Rule {
    name: "stray-file",
    level: Level::Note,
    safety: false,
    finds: "Beside the entries stands a file of a word processor, or one to whose name an editor has added an ending,\n\
            such as heel-drop.md.txt or week-03.docx.",
    why: "It looks like an entry in the folder, but nothing reads it: what it says is on no page, and nobody reviews it.",
    bad: Example::whole(
        "content/pages/parking.md.txt",
        r#"
Park behind the hall.
^ nothing reads a file of this kind here
"#,
    ),
    good: Example::whole(
        "content/pages/parking.md",
        r#"
```toml
title = "Parking"
```
Park behind the hall.
"#,
    ),
    check: Check::WhileReading,
};
