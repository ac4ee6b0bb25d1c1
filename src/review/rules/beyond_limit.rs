//! `beyond-limit`: more of something than the program reads.

use crate::model::finding::Level;
use crate::review::rule::{Check, Example, Rule};

pub(super) static RULE: Rule = Rule {
    name: "beyond-limit",
    level: Level::Error,
    safety: true,
    finds: "An entry or the references hold more of something than the program reads: quotes, lists and marks of\n\
            emphasis more than 10 deep, more than 3,000 paragraphs, headings, items and cells, more than 50 sources cited in one\n\
            place; more than 5,000 references, one that takes its fields from itself or from more than 100 others, a\n\
            value of more than 20,000 letters, with braces more than 30 deep or of more than 100 pieces.",
    why: "Nobody writes so much by hand: it comes from a slip in a copied text, or from somebody else's. Read all the\n\
          same, it can take all the memory there is, and stop the program in the middle.",
    bad: Example::whole(
        "content/pages/about.md",
        r#"
```toml
title = "About us"
```
We teach at home.

>>>>>>>>>>> Come in.
          ^^^^^^^^^^ quotes, lists and emphasis are more than 10 deep here
"#,
    ),
    good: Example::whole(
        "content/pages/about.md",
        r#"
```toml
title = "About us"
```
We teach at home.

> Come in.
"#,
    ),
    check: Check::WhileReading,
};
