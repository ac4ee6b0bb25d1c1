//! `unanswered-demand`: an exercise asks something of the body that a served precaution restricts, and
//! nothing in the exercise answers it.

use std::collections::BTreeMap;

use crate::model::catalogue::Row;
use crate::model::exercise::{Change, Exercise};
use crate::model::finding::Level;
use crate::model::source::Spanned;
use crate::model::vocabulary::Restriction;
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "unanswered-demand",
    level: Level::Error,
    safety: true,
    finds: "A week uses an exercise with a demand that one of the precautions of its series restricts, and no\n\
            variation or regression takes the demand away. Where the precaution says `modify` or `ask`, a\n\
            caution that names the precaution is an answer too; where it says `avoid`, it is not.",
    why: "The series promises to serve people with that precaution. They would get a movement that can hurt\n\
          them, without a safe version and without a word.",
    bad: Example::lines(
        "content/exercises/heel-drop.md",
        &[
            (
                r#"demands = ["impact-low"]"#,
                r#"
demands = ["impact-low"]
           ^^^^^^^^^^^^ `impact-low` has no answer for `spine-fracture`, which week 2 of `first-steps` serves"#,
            ),
            (
                r#"
position = "seated"
removes = ["impact-low"]"#,
                r#"
position = "seated""#,
            ),
            (
                r#"
exercise = "heel-raise"
removes = ["impact-low"]"#,
                r#"
exercise = "heel-raise""#,
            ),
            (
                r#"
for = ["spine-fracture"]
level = "adapt"
text = "Use the seated version until your clinician says that impact is safe.""#,
                r#"
for = ["unsteady"]
level = "adapt"
text = "Hold the counter with both hands.""#,
            ),
        ],
    ),
    good: Example::lines(
        "content/exercises/heel-drop.md",
        &[
            (
                r#"
position = "seated"
removes = ["impact-low"]"#,
                r#"
position = "seated"
removes = ["impact-low"]"#,
            ),
            (
                r#"
for = ["spine-fracture"]
level = "adapt"
text = "Use the seated version until your clinician says that impact is safe.""#,
                r#"
for = ["unsteady"]
level = "adapt"
text = "Hold the counter with both hands.""#,
            ),
        ],
    ),
    check: Check::Model(check),
};

/// Where an exercise is first used for people with a precaution.
struct Use<'a> {
    series: &'a str,
    week: u32,
}

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for (id, uses) in uses(case) {
        let Some(exercise) = case.model.exercises.get(id) else { continue };
        let standing = &exercise.standing;
        if !["variation", "regression", "caution"].iter().all(|field| standing.is_sound(field)) {
            continue;
        }
        for demand in &exercise.demands {
            for (precaution, first) in &uses {
                let Some(row) = case.model.site.catalogue.row(precaution, &demand.value) else { continue };
                if !is_answered(case, exercise, &demand.value, precaution, row) {
                    report(exercise, demand, precaution, row, first, sink);
                }
            }
        }
    }
}

/// The exercises that weeks use, each with the precautions that those weeks' series serve.
fn uses<'a>(case: &Case<'a>) -> BTreeMap<&'a str, BTreeMap<&'a str, Use<'a>>> {
    let mut uses: BTreeMap<&str, BTreeMap<&str, Use<'_>>> = BTreeMap::new();
    for (series, week) in case.model.weeks() {
        for used in &week.exercises {
            let of_exercise = uses.entry(&used.id.value).or_default();
            for precaution in &series.serves {
                of_exercise
                    .entry(&precaution.value)
                    .or_insert(Use { series: &series.id, week: week.number.value });
            }
        }
    }
    uses
}

fn is_answered(case: &Case<'_>, exercise: &Exercise, demand: &str, precaution: &str, row: &Row) -> bool {
    let lists = |list: &[Spanned<String>]| list.iter().any(|d| d.value == demand);
    let cautioned = || exercise.cautions.iter().any(|c| c.names(precaution));
    exercise.variations.iter().any(|v| lists(&v.removes))
        || exercise.regressions.iter().any(|r| lists(&r.removes) && !leads_to_same(case, r, demand))
        || (row.by != Restriction::Avoid && cautioned())
}

/// True for a regression to an exercise that has the demand itself: it cannot take it away.
fn leads_to_same(case: &Case<'_>, regression: &Change, demand: &str) -> bool {
    let easier = regression.exercise().and_then(|id| case.model.exercises.get(&id.value));
    easier.is_some_and(|e| e.asks(demand))
}

fn report(
    exercise: &Exercise,
    demand: &Spanned<String>,
    precaution: &str,
    row: &Row,
    first: &Use<'_>,
    sink: &mut Sink<'_>,
) {
    let removes = format!("add a [[variation]] or a [[regression]] with `removes = [\"{}\"]`", demand.value);
    let answer = match row.by {
        Restriction::Avoid => removes,
        Restriction::Modify | Restriction::Ask => format!("{removes}, or a [[caution]] for `{precaution}`"),
    };
    let instead = row.instead.as_deref().map(|i| format!(" (for instance: {i})")).unwrap_or_default();
    let untrue = exercise
        .regressions
        .iter()
        .filter(|r| r.removes.iter().any(|d| d.value == demand.value))
        .find_map(|r| r.exercise())
        .map(|id| format!("; the regression to `{}` takes nothing away, it has the demand too", id.value))
        .unwrap_or_default();
    sink.add(
        demand.span,
        format!(
            "`{}` has no answer for `{precaution}`, which week {} of `{}` serves",
            demand.value, first.week, first.series
        ),
        format!("{answer}{instead}{untrue}"),
    );
}
