//! `long-hold-no-breath`: a hold of ten seconds or more, and no word on breathing.

use crate::model::exercise::Exercise;
use crate::model::finding::{Level, Subject};
use crate::model::source::Span;
use crate::review::doses::given;
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "long-hold-no-breath",
    level: Level::Warning,
    safety: false,
    finds: "An exercise is held for 10 seconds or more, in its own dose, in that of a variation or in that of a week,\n\
            and neither its prose nor its cautions say a word on breathing. The words looked for are in the\n\
            theme, words/breath.LANGUAGE.txt.",
    why: "People hold their breath when they hold still, and the blood pressure rises. A few words in the step\n\
          of the hold prevent it.",
    bad: Example::lines(
        "content/exercises/feet-together-stand.md",
        &[
            (
                r#"hold = "10 s""#,
                r#"
hold = "10 s"
       ^^^^^^ a hold of `10 s`, and no word on breathing"#,
            ),
            ("3. Hold, and keep breathing.", "3. Hold as still as you can."),
        ],
    ),
    good: Example::lines(
        "content/exercises/feet-together-stand.md",
        &[("3. Hold, and keep breathing.", "3. Hold, and breathe in and out.")],
    ),
    check: Check::Model(check),
};

/// Milliseconds. A hold is long from 10 s on: common practice, no source. That one breathes normally in
/// every hold: Clinical Hypertension 2022, doi 10.1186/s40885-022-00232-3, Table 4.
const LONG: u32 = 10_000;

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    if case.words.breath.list().is_empty() {
        return;
    }
    for given in given(case.model) {
        let long = |hold: u32| hold >= LONG;
        let Some(hold) = given.dose.hold.as_ref().filter(|hold| long(hold.value.high)) else { continue };
        let own = given.changes.and_then(|own| own.hold.as_ref());
        let known = own.is_some_and(|own| long(own.value.high));
        let readable = given.exercise.standing.is_sound("caution");
        if !known && readable && !speaks(case, given.exercise) {
            let exercise = Subject::Exercise(given.exercise.id.clone());
            sink.about([exercise, Subject::number(hold.value)]).add(
                hold.span,
                format!("a hold of `{}`, and no word on breathing", hold.value),
                format!(
                    "say in the step of the hold how to breathe, in {}",
                    case.sources.get(given.exercise.file).name
                ),
            );
        }
    }
}

/// True when the exercise says a word on breathing, somewhere that a client reads.
fn speaks(case: &Case<'_>, exercise: &Exercise) -> bool {
    let says = |span: Span| case.words.breath.first_in(case.sources.slice(span)).is_some();
    exercise.prose.paragraphs.iter().any(|paragraph| says(paragraph.span))
        || exercise.cautions.iter().any(|caution| says(caution.text.span))
        || says(exercise.summary.span)
}

#[cfg(test)]
mod tests {
    use crate::review::testing::{edited, found};

    const STAND: &str = "content/exercises/feet-together-stand.md";
    const STEP: &str = "3. Hold, and keep breathing.";

    fn with(hold: &str, step: &str) -> Vec<String> {
        found(&[(STAND, &edited(STAND, &[("hold = \"10 s\"", hold), (STEP, step)]))])
            .into_iter()
            .filter(|f| f.starts_with("long-hold-no-breath"))
            .collect()
    }

    #[test]
    fn any_word_on_breathing_will_do_where_a_client_reads_it() {
        for step in ["3. Breathe.", "3. Hold. Do not hold your BREATH.", "3. Hold while you exhale."] {
            assert_eq!(with("hold = \"20 s\"", step), [""; 0], "{step}");
        }
        assert_eq!(with("hold = \"20 s\"", "3. Hold breathlessly.").len(), 1, "another word");
        let caution = edited(STAND, &[(STEP, "3. Hold."), ("and have a person close by.", "and breathe.")]);
        assert_eq!(found(&[(STAND, &caution)]), [""; 0]);
        let comment = edited(STAND, &[(STEP, "3. Hold."), ("# What the hands hold:", "# Breathe:")]);
        assert_eq!(found(&[(STAND, &comment)]).len(), 1, "a remark in the fields is read by nobody");
    }

    #[test]
    fn a_short_hold_is_none_until_a_week_makes_it_long() {
        let short = edited(STAND, &[("hold = \"10 s\"", "hold = \"5-9 s\""), (STEP, "3. Hold.")]);
        let found = found(&[(STAND, &short)]);
        assert_eq!(
            found,
            ["long-hold-no-breath 9:49 a hold of `15 s`, and no word on breathing"],
            "in week 2"
        );
    }
}
