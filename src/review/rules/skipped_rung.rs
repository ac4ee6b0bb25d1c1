//! `skipped-rung`: a week that uses an exercise before any easier rung of its ladder.

use std::collections::BTreeSet;

use crate::model::Model;
use crate::model::exercise::Exercise;
use crate::model::finding::{Level, Subject};
use crate::model::week::Week;
use crate::reckon::demands;
use crate::reckon::ladder::Ladders;
use crate::reckon::preparation;
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "skipped-rung",
    level: Level::Warning,
    safety: false,
    finds: "A week uses an exercise of which no easier rung was in an earlier week of the series. With a\n\
            moderate or high impact it is an error, whatever the level of this rule.",
    why: "Each movement builds on an earlier one. A client who meets the harder one first has not learned what\n\
          keeps her safe in it.",
    bad: Example::lines(
        "content/series/first-steps/week-01.md",
        &[(
            r#"  { id = "heel-raise" },"#,
            r#"
  { id = "heel-drop", dose = { reps = 5 } },
         ^^^^^^^^^^^ `heel-drop` is on rung 2 of its ladder, and no earlier week uses a rung below it
"#,
        )],
    ),
    good: Example::lines(
        "content/series/first-steps/week-01.md",
        &[(r#"  { id = "heel-raise" },"#, r#"  { id = "heel-raise", focus = "Rise over your big toes." },"#)],
    ),
    check: Check::Ladders(check),
};

fn check(case: &Case<'_>, ladders: &Ladders<'_>, sink: &mut Sink<'_>) {
    for series in case.model.series.values() {
        // A week that names what is not there may have meant the easier rung.
        let there =
            |w: &Week| w.exercises.iter().all(|used| case.model.exercises.contains_key(&used.id.value));
        let mut used: BTreeSet<&str> = BTreeSet::new();
        for (at, week) in series.known_weeks().take_while(|(_, week)| there(week)) {
            for (entry, exercise) in case.model.exercises_of(week) {
                let id = exercise.id.as_str();
                let below = preparation::below(exercise, ladders, case.model);
                // A week that lacks the whole component is told as that, and is what there is to fix.
                let lacking = series.weeks.iter().take(at).any(|week| !trains(case.model, week, exercise));
                if lacking || !preparation::skips_a_rung(exercise, &used, &below) {
                    continue;
                }
                let severe =
                    ["impact-moderate", "impact-high"].iter().any(|impact| demands::asks(exercise, impact));
                let easier = preparation::just_below(exercise, ladders, case.model);
                let easier: Vec<String> = easier.iter().map(|id| format!("`{id}`")).collect();
                let rung = ladders.rung_of(id).unwrap_or(1);
                sink.about([Subject::Exercise(id.into())]).add_at(
                    severe,
                    entry.id.span,
                    format!(
                        "`{id}` is on rung {rung} of its ladder, and no earlier week uses a rung below it"
                    ),
                    format!("use {} in an earlier week, or here in its place", easier.join(" or ")),
                );
            }
            used.extend(case.model.exercises_of(week).map(|(_, e)| e.id.as_str()));
        }
    }
}

/// True when a week has an exercise of the same training component.
fn trains(model: &Model, week: &Week, exercise: &Exercise) -> bool {
    model.exercises_of(week).any(|(_, other)| other.component.value == exercise.component.value)
}
