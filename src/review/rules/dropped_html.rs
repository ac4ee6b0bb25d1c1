//! `dropped-html`: raw HTML that pages do not keep.

use crate::model::finding::{Level, Subject};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "dropped-html",
    level: Level::Error,
    safety: false,
    finds: "The prose has a tag of raw HTML that pages do not keep: scripts, styles, frames, forms, pictures and\n\
            media by their tags.",
    why: "Such a tag can load things from elsewhere, move, or swallow the text after it. Pages leave it out, and\n\
          with it perhaps words that a client needs.",
    bad: Example::whole(
        "content/pages/about.md",
        r#"
```toml
title = "About us"
```
We teach at home. <img src="us.jpg">
                  ^^^^ pages do not keep the tag `<img>`
"#,
    ),
    good: Example::whole(
        "content/pages/about.md",
        r#"
```toml
title = "About us"
```
We teach at home, in H<sub>2</sub>O too.
"#,
    ),
    check: Check::Model(check),
};

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for (_, prose) in case.model.proses() {
        for tag in &prose.dropped_html {
            sink.about([Subject::Words(format!("<{}>", tag.value))]).add(
                tag.span,
                format!("pages do not keep the tag `<{}>`", tag.value),
                "write it in Markdown: ![what it shows](../media/x.jpg) for a picture, [words](address) for a link; or remove the tag",
            );
        }
    }
}
