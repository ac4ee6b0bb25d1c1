//! `broken-style`: a style sheet of the user's own theme that browsers read otherwise than it is written.

use crate::model::finding::Level;
use crate::review::rule::{Check, Example, Rule};

pub(super) static RULE: Rule = Rule {
    name: "broken-style",
    level: Level::Warning,
    safety: false,
    finds: "A style sheet of your own theme is not what browsers read: a line without `:`, a `;` that is missing, a\n\
            bracket that closes nothing. A block, a comment or a text in quotes that is never closed is an error:\n\
            it swallows everything after it.",
    why: "Browsers say nothing of it. They skip what they cannot read, and with it perhaps the size of the letters or\n\
          the contrast that a client reads by.",
    bad: Example::whole(
        "themes/wideleaf/style/more.css",
        r#"
.signs-group {
  border 3px solid;
  ^^^^^^^^^^^^^^^^ expected a property, `:` and a value, found `border 3px solid`
}
"#,
    ),
    good: Example::whole(
        "themes/wideleaf/style/more.css",
        r#"
.signs-group {
  border: 3px solid;
}
"#,
    ),
    check: Check::WhileReading,
};
