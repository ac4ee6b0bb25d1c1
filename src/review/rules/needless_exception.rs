//! `needless-exception`: an exception for something that is not found.

use crate::model::finding::Level;
use crate::review::rule::{Check, Example, Rule};

pub(super) static RULE: Rule = Rule {
    name: "needless-exception",
    level: Level::Warning,
    safety: false,
    finds: "An entry accepts a finding that the review does not make.",
    why: "An exception that is no longer needed hides the next finding of its kind.",
    bad: Example::whole(
        "content/pages/about.md",
        r#"
```toml
title = "About us"
accept = [{ finding = "broken-link", because = "The page comes next month." }]
          ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ this entry accepts `broken-link`, but there is no such finding
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
    check: Check::Exceptions,
};
