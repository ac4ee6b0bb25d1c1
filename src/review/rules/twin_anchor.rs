//! `twin-anchor`: two places of a page that one link could mean.

use crate::model::finding::Level;
use crate::review::rule::{Check, Example, Rule};

pub(super) static RULE: Rule = Rule {
    name: "twin-anchor",
    level: Level::Error,
    safety: false,
    finds: "A finished page has two elements with the same `id`. (HTML Standard, section 3.2.3: an id is unique\n\
            in its tree.)",
    why: "A link to it, or a label read aloud, would lead to the first of the two, whichever was meant.",
    bad: Example::whole(
        "content/pages/about.md",
        r#"
```toml
title = "About us"
```
<p id="phone">Call us in the morning.</p>

<p id="phone">Call us in the afternoon.</p>
   ^^^^^^^^^^ two elements of this page have the id `phone`
"#,
    ),
    good: Example::whole(
        "content/pages/about.md",
        r#"
```toml
title = "About us"
```
<p id="morning">Call us in the morning.</p>

<p id="afternoon">Call us in the afternoon.</p>
"#,
    ),
    check: Check::Pages,
};
