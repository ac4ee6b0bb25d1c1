//! `twin-id`: two entries that cannot be told apart.

use crate::model::finding::{Level, Subject};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "twin-id",
    level: Level::Error,
    safety: false,
    finds: "Two entries of a kind have the same id, or ids that differ in capital letters alone.",
    why: "The id is the name of the page and what other entries link to. With two of them, one would hide\n\
          the other, and a week could show the wrong exercise.",
    bad: Example::whole(
        "content/pages/clinic/about.md",
        r#"
```toml
title = "About the clinic"
        ^^^^^^^^^^^^^^^^^^ `about` is also the id of content/pages/about.md
```
We teach at home.
"#,
    ),
    good: Example::whole(
        "content/pages/clinic/about-the-clinic.md",
        r#"
```toml
title = "About the clinic"
```
We teach at home.
"#,
    ),
    check: Check::Model(check),
};

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for twin in &case.model.twins {
        sink.about([Subject::Words(twin.id.clone())]).add(
            twin.place,
            format!("`{}` is also the id of {}", twin.id, twin.other),
            "rename one of the two files, and the id where other entries use it",
        );
    }
    for exercise in case.model.exercises.values() {
        if exercise.id.eq_ignore_ascii_case("index") {
            sink.about([Subject::Exercise(exercise.id.clone())]).add(
                exercise.place(),
                format!("`{}` is also the name of the page that lists all exercises", exercise.id),
                "rename the file; its name is the id of the exercise",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::review::testing::{edited, found};

    #[test]
    fn ids_that_differ_in_capital_letters_alone_are_twins_without_broken_links() {
        let text = edited("content/exercises/tall-sit.md", &[]);
        assert_eq!(
            found(&[("content/exercises/Tall-Sit.md", &text)]),
            ["twin-id 2:9 `tall-sit` is also the id of content/exercises/Tall-Sit.md"]
        );
    }

    #[test]
    fn entries_of_different_kinds_may_share_an_id() {
        let page = "```toml\ntitle = \"Tall sit\"\n```\nHello.\n";
        assert_eq!(found(&[("content/pages/tall-sit.md", page)]), [""; 0]);
    }

    #[test]
    fn an_exercise_does_not_take_the_place_of_the_list() {
        let text = edited("content/exercises/tall-sit.md", &[]);
        assert_eq!(
            found(&[("content/exercises/index.md", &text)]),
            ["twin-id 2:9 `index` is also the name of the page that lists all exercises"]
        );
    }
}
