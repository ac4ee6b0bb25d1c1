//! `absent-form`: a person's handout that names a form which is not on it.

use crate::model::finding::Level;
use crate::review::rule::{Bearing, Check, Example, Rule};

pub(super) static RULE: Rule = Rule {
    name: "absent-form",
    level: Level::Error,
    safety: true,
    finds: "A text on the handout of one person names an exercise or a variation that is not on this handout.\n\
            The handout is not printed. What was left out for her is named under its own heading, and only\n\
            there; the welcome of the week and what opens an exercise are left off the handout by themselves,\n\
            and the command says so.",
    why: "She would look for what she does not have, or do from memory what is not for her.",
    bad: Example::lines(
        "content/exercises/heel-raise.md",
        &[(
            "1. Rise on your toes with a little speed.",
            r#"
1. Rise on your toes with a little speed, as in the heel drop.
^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ this names `Heel drop at the counter`, which is not on the handout of `A. B.`"#,
        )],
    ),
    good: Example::lines(
        "content/exercises/heel-raise.md",
        &[(
            "1. Rise on your toes with a little speed.",
            "1. Rise on your toes with a little speed. Keep your heels in line.",
        )],
    ),
    check: Check::Sheets(Bearing::Never),
};
