//! `thanks-without-consent`: a person is named who has not agreed to it.

use crate::model::finding::{Level, Subject};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "thanks-without-consent",
    level: Level::Error,
    safety: true,
    finds: "A `[[thanks]]` of a week names a person, and does not say `consent = true`. Her name is on no page, no\n\
            handout and in no other file, whatever is done about the finding.",
    why: "Readers will think that a person thanked on a page about osteoporosis has it. That is hers to tell.",
    bad: Example::lines(
        "content/series/first-steps/week-01.md",
        &[(
            QUESTION,
            r#"
question = "Which chair at home is the steadiest?"

[[thanks]]
name = "Ida"
       ^^^^^ `Ida` is thanked, and has not agreed to be named
"#,
        )],
    ),
    good: Example::lines(
        "content/series/first-steps/week-01.md",
        &[(
            QUESTION,
            r#"
question = "Which chair at home is the steadiest?"

[[thanks]]
name = "Ida"
consent = true
"#,
        )],
    ),
    check: Check::Model(check),
};

const QUESTION: &str = r#"question = "Which chair at home is the steadiest?""#;

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for (_, week) in case.model.weeks() {
        for thanks in week.thanks.iter().filter(|thanks| !thanks.consent) {
            let message = format!("`{}` is thanked, and has not agreed to be named", thanks.name.value);
            sink.about([Subject::Person(thanks.name.value.clone())]).add(
                thanks.name.span,
                message,
                "ask, and write `consent = true` below the name; or take the name out",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::outputs::Address;
    use crate::review::testing::{edited, found, page_of};

    const WEEK: &str = "content/series/first-steps/week-01.md";

    #[test]
    fn a_consent_that_cannot_be_read_is_one_slip_and_names_nobody() {
        let thanks = "[[thanks]]\nname = \"Ida\"\nconsent = \"yes\"\n```\nWelcome. This";
        let week = edited(WEEK, &[("```\nWelcome. This", thanks)]);
        assert_eq!(found(&[(WEEK, &week)]), ["wrong-value 24:11 expected `true` or `false`, found text"]);
        let address = Address::Week { series: "first-steps".into(), id: "week-01".into() };
        assert!(!page_of(&[(WEEK, &week)], &address).contains("Ida"));
    }

    #[test]
    fn only_who_agreed_is_named() {
        let thanks = "[[thanks]]\nname = \"Ida\"\n\n[[thanks]]\nname = \"Joan\"\nconsent = true\n\n[[thanks]]\nname = \"Ruth\"\nconsent = false\n```\nWelcome. This";
        let week = edited(WEEK, &[("```\nWelcome. This", thanks)]);
        let address = Address::Week { series: "first-steps".into(), id: "week-01".into() };
        let html = page_of(&[(WEEK, &week)], &address);
        assert!(html.contains("Thank you, Joan"), "{html}");
        assert!(!html.contains("Ida") && !html.contains("Ruth"));
    }
}
