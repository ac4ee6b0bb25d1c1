//! `unreadable-entry`: a file, or its block of fields, that cannot be read.

use crate::model::finding::Level;
use crate::review::rule::{Check, Example, Rule};

pub(super) static RULE: Rule = Rule {
    name: "unreadable-entry",
    level: Level::Error,
    safety: true,
    finds: "A file cannot be read as an entry: it is not text in UTF-8, it is empty or far too large, it does\n\
            not open with its block of fields, the block does not close, or a field is not written as one.",
    why: "What cannot be read cannot be reviewed: a caution in it would be missing without anybody noticing.",
    bad: Example::whole(
        "content/pages/about.md",
        r#"
```toml
title = "About us
                 ^ the fields cannot be read here: invalid basic string, expected `"`
```
We teach at home.
"#,
    ),
    good: Example::whole(
        "content/pages/about.md",
        r#"
```toml
title = "About us"
```
We teach at home.
"#,
    ),
    check: Check::WhileReading,
};
