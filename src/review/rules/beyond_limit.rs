//! `beyond-limit`: more of something than the program reads.

use crate::model::finding::Level;
use crate::model::limits::RUNGS;
use crate::reckon::ladder::Ladders;
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "beyond-limit",
    level: Level::Error,
    safety: true,
    finds: "An entry or the references hold more of something than the program reads: quotes, lists and marks of\n\
            emphasis more than 10 deep; more than 200,000 letters, 2,000 paragraphs, headings, items and cells,\n\
            2,000 links and pictures or 1,000 tags of HTML; more than 50 sources cited in one place; more than\n\
            500 items in a list of the fields, or 5,000 in all of an entry; a ladder of more than 100 rungs; more\n\
            than 1,000 references, one that takes its fields from itself or from more than 100 others, a value of\n\
            more than 20,000 letters, with braces more than 30 deep or of more than 100 pieces; a file of the theme\n\
            of more than 20 MB.",
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
    check: Check::Limits(check),
};

/// What is only seen when all is read.
fn check(case: &Case<'_>, ladders: &Ladders<'_>, sink: &mut Sink<'_>) {
    for ladder in ladders.all() {
        let Some(beyond) = ladder.rungs.get(RUNGS).and_then(|rung| rung.first()) else { continue };
        if let Some(exercise) = case.model.exercises.get(beyond) {
            sink.add(
                exercise.place(),
                format!("`{beyond}` is on rung {} of its ladder, expected at most {RUNGS}", RUNGS + 1),
                "split the ladder: take out a progression and a regression in its middle",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::review::testing::found;

    #[test]
    fn a_ladder_without_end_is_told_at_the_first_rung_beyond() {
        let ladder = |rungs: usize| -> Vec<String> {
            let entry = |n: usize| {
                let next = format!("\n[[progression]]\nexercise = \"rung-{:04}\"\n", n + 1);
                format!(
                    "```toml\ntitle = \"Rung {n}\"\ncomponent = \"posture\"\nposition = \"seated\"\n{}```\n",
                    if n < rungs { next } else { String::new() }
                )
            };
            let files: Vec<(String, String)> =
                (1..=rungs).map(|n| (format!("content/exercises/rung-{n:04}.md"), entry(n))).collect();
            let files: Vec<(&str, &str)> = files.iter().map(|(n, t)| (n.as_str(), t.as_str())).collect();
            found(&files).into_iter().filter(|f| f.starts_with("beyond-limit")).collect()
        };
        assert_eq!(ladder(100), [""; 0]);
        let told = ladder(130);
        assert_eq!(told.len(), 1, "{told:?}");
        assert!(
            told[0].ends_with("`rung-0101` is on rung 101 of its ladder, expected at most 100"),
            "{told:?}"
        );
    }
}
