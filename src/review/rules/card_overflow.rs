//! `card-overflow`: an exercise that is too long for its card.

use crate::model::finding::Level;
use crate::review::rule::{Bearing, Check, Example, Rule};

pub(super) static RULE: Rule = Rule {
    name: "card-overflow",
    level: Level::Error,
    safety: false,
    finds: "An exercise does not fit on its card: one side of paper in 18 point, two that face each other in 24,\n\
            two such pairs in 32. What is not needed to do it (why, feel, watch for, finish) is not on the card, and its margins and\n\
            gaps are as small as they may be. Letters and pictures are never made smaller.",
    why: "A client stands at the counter with the card in her hand. Who has to turn the page in the middle of a\n\
          movement lets go of the counter, or does it from memory.",
    bad: Example::lines(
        "content/exercises/heel-raise.md",
        &[
            (
                "title = \"Heel raise at the counter\"",
                "title = \"Heel raise at the counter\"\n        ^^^^^^^^^^^^^^^^^^^^^^^^^^^ the card of this exercise is 2 lines too long for one side: setting up has 3, the steps 17, the cautions 2",
            ),
            (
                "1. Rise on your toes with a little speed.",
                "1. Rise on your toes with a little speed. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe. Rise on your toes and breathe.",
            ),
        ],
    ),
    good: Example::lines(
        "content/exercises/heel-raise.md",
        &[(
            "1. Rise on your toes with a little speed.",
            "1. Rise on your toes with a little speed. Keep your heels in line.",
        )],
    ),
    check: Check::Sheets(Bearing::Borne),
};
