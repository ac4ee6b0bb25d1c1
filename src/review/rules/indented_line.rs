//! `indented-line`: words that a tab or blanks before them make a block of code.

use crate::model::finding::{Level, Subject};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "indented-line",
    level: Level::Warning,
    safety: false,
    finds: "A line of the prose begins with a tab or with four blanks and more, and belongs to no list above it. Markdown\n\
            takes it for code: it is set as it was typed, and a step among such lines is no step.",
    why: "The first step of a movement, typed a tab too far, stands above the list in another type and is not counted.",
    bad: Example::whole(
        "content/pages/about.md",
        "
```toml
title = \"About us\"
```
We teach at home.

    Bring a chair.
    ^^^^^^^^^^^^^^ this is set as code, for a tab or blanks stand before it
",
    ),
    good: Example::whole(
        "content/pages/about.md",
        r#"
```toml
title = "About us"
```
We teach at home.

Bring a chair.
"#,
    ),
    check: Check::Model(check),
};

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for (_, prose) in case.model.proses() {
        for span in &prose.indented {
            let line = case.sources.slice(*span).trim_start().lines().next().unwrap_or_default();
            sink.about([Subject::Words(line.into())]).add(
                *span,
                "this is set as code, for a tab or blanks stand before it",
                "delete the tab or the blanks at the start of the line; inside a list, begin it below the words of its item",
            );
        }
    }
}
