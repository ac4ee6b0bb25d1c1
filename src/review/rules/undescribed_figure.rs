//! `undescribed-figure`: a picture without words for those who do not see it.

use crate::model::finding::Level;
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
        for figure in exercise.figures.iter().filter(|f| f.description.value.trim().is_empty()) {
            sink.add(
                figure.description.span,
                format!("the figure `{}` has no description", figure.photo.value),
                "add `description = \"…\"`: what the photo shows of the movement, in a sentence",
            );
        }
    }
    for (_, prose) in case.model.proses() {
        for image in prose.images.iter().filter(|i| i.description.trim().is_empty()) {
            sink.add(
                image.address.span,
                format!("the picture `{}` has no description", image.address.value),
                "write between the square brackets what the picture shows, in a sentence",
            );
        }
    }
}
