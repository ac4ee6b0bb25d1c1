//! `impact-unprepared`: a week with an impact before any of the level below it.

use crate::model::Model;
use crate::model::finding::{Level, Subject};
use crate::model::week::Week;
use crate::reckon::demands;
use crate::reckon::preparation::unprepared_impacts;
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "impact-unprepared",
    level: Level::Error,
    safety: true,
    finds: "A series has a moderate impact before any week with a low one, or a high impact before any week\n\
            with a moderate one.",
    why: "Bones and joints that are used to no impact take it badly all at once. Impact is built up from low to\n\
          high over weeks (Brooke-Wavell 2022, Beck 2017: impact is introduced step by step).",
    bad: Example::lines(
        "content/series/first-steps/week-02.md",
        &[(
            r#"  { id = "heel-drop", focus = "Both feet land together." },"#,
            r#"
  { id = "heel-drop", focus = "Hop a little, and land on both feet." },
         ^^^^^^^^^^^ `heel-drop` asks for `impact-moderate`, and no earlier week has `impact-low`
"#,
        )],
    )
    .beside("content/exercises/heel-drop.md", HOP),
    good: Example::lines(
        "content/series/first-steps/week-02.md",
        &[(
            r#"  { id = "heel-drop", focus = "Both feet land together." },"#,
            r#"  { id = "heel-drop", focus = "Both feet land softly together." },"#,
        )],
    ),
    check: Check::Model(check),
};

/// The sample's heel drop as a hop.
const HOP: &[(&str, &str)] = &[
    (r#"demands = ["impact-low", "tiptoe"]"#, r#"demands = ["impact-moderate", "tiptoe"]"#),
    (r#"removes = ["impact-low", "tiptoe"]"#, r#"removes = ["impact-moderate", "tiptoe"]"#),
    (r#"about = ["impact-low"]"#, r#"about = ["impact-moderate"]"#),
    (
        "exercise = \"heel-raise\"\nremoves = [\"impact-low\"]",
        "exercise = \"heel-raise\"\nremoves = [\"impact-moderate\"]",
    ),
];

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for series in case.model.series.values() {
        for (at, week) in series.known_weeks() {
            let earlier = || series.weeks.iter().take(at);
            for (entry, exercise) in case.model.exercises_of(week) {
                let had = |impact: &str| earlier().any(|week| has(case.model, week, impact));
                for (impact, before) in unprepared_impacts(exercise, had) {
                    sink.about([
                        Subject::Exercise(exercise.id.clone()),
                        Subject::Demand(impact.into()),
                        Subject::Demand(before.into()),
                    ])
                    .add(
                        entry.id.span,
                        format!("`{}` asks for `{impact}`, and no earlier week has `{before}`", exercise.id),
                        format!(
                            "put an exercise with `{before}` into an earlier week, or an easier one here"
                        ),
                    );
                }
            }
        }
    }
}

fn has(model: &Model, week: &Week, demand: &str) -> bool {
    model
        .exercises_of(week)
        .any(|(_, exercise)| demands::asks(exercise, demand) || !exercise.standing.is_sound("demands"))
}
