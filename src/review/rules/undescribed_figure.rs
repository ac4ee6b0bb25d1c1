//! `undescribed-figure`: a picture without words for those who do not see it.

use crate::model::finding::{Level, Subject};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "undescribed-figure",
    level: Level::Error,
    safety: false,
    finds: "A [[figure]] has no description, or a picture in the prose has none between its square brackets.",
    why: "Clients who see little or nothing hear the description instead. Without it they miss what the\n\
          picture shows of the movement.",
    bad: Example::lines(
        "content/pages/about.md",
        &[(
            "We teach exercise to older adults with weak bones, at home and at your own pace.",
            "
![](../media/clinic.jpg)
^^^^^^^^^^^^^^^^^^^^^^^^ the picture `../media/clinic.jpg` has no description",
        )],
    ),
    good: Example::lines(
        "content/pages/about.md",
        &[(
            "We teach exercise to older adults with weak bones, at home and at your own pace.",
            "![The door of the clinic, with a ramp and a rail.](../media/clinic.jpg)",
        )],
    ),
    check: Check::Model(check),
};

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for exercise in case.model.exercises.values().filter(|e| e.standing.is_sound("figure")) {
        for figure in exercise.all_figures().filter(|f| f.description.value.trim().is_empty()) {
            let file = figure.photo().map(|photo| Subject::Place(photo.file.value.clone()));
            sink.about(file).add(
                figure.description.span,
                match figure.photo() {
                    Some(photo) => format!("the figure `{}` has no description", photo.file.value),
                    None => "the drawn figure has no description".to_string(),
                },
                "add `description = \"…\"`: what the picture shows of the movement, in a sentence",
            );
        }
    }
    for (_, prose) in case.model.proses() {
        for image in prose.images.iter().filter(|i| i.description.trim().is_empty()) {
            sink.about([Subject::Place(image.address.value.clone())]).add(
                image.address.span,
                format!("the picture `{}` has no description", image.address.value),
                "write between the square brackets what the picture shows, in a sentence",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::review::testing::{edited, found};

    #[test]
    fn a_figure_needs_words_and_a_blank_is_none() {
        let file = "content/exercises/tall-sit.md";
        for (description, expected) in [
            ("", Some("undescribed-figure")),
            ("description = \"  \"\n", Some("undescribed-figure")),
            ("description = \"She sits tall.\"\n", None),
            ("description = 1\n", Some("wrong-value")),
            ("descripton = \"She sits tall.\"\n", Some("unknown-field")),
        ] {
            let figure = format!("[[figure]]\nfile = \"media/sit.jpg\"\n{description}\n[[regression]]");
            let text = edited(file, &[("[[regression]]", &figure)]);
            let found = found(&[(file, &text), ("content/media/sit.jpg", "")]);
            assert_eq!(found.len(), usize::from(expected.is_some()), "{description}: {found:?}");
            assert!(expected.is_none_or(|rule| found[0].starts_with(rule)), "{description}: {found:?}");
        }
    }

    #[test]
    fn the_words_of_a_picture_may_be_emphasized() {
        let text =
            "```toml\ntitle = \"About us\"\n```\n![The *door*](../media/a.jpg)\n\n![ ](../media/a.jpg)\n";
        assert_eq!(
            found(&[("content/pages/about.md", text), ("content/media/a.jpg", "")]),
            ["undescribed-figure 6:1 the picture `../media/a.jpg` has no description"]
        );
    }
}
