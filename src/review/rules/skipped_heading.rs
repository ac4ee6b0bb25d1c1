//! `skipped-heading`: a heading that is more than one level deeper than the one before.

use crate::model::finding::Level;
use crate::review::rule::{Check, Example, Rule};

pub(super) static RULE: Rule = Rule {
    name: "skipped-heading",
    level: Level::Error,
    safety: false,
    finds: "A heading of a finished page is more than one level deeper than the heading before it.",
    why: "People who hear a page move by its headings. A level that is skipped sounds as if a part of the page\n\
          were missing.",
    bad: Example::whole(
        "content/pages/about.md",
        r#"
```toml
title = "About us"
```
## Before you start

#### Shoes
^^^^^^^^^^ this heading skips a level: level 4 follows level 2
Wear shoes that do not slip.
"#,
    ),
    good: Example::whole(
        "content/pages/about.md",
        r#"
```toml
title = "About us"
```
## Before you start

### Shoes
Wear shoes that do not slip.
"#,
    ),
    check: Check::Pages,
};
