//! `unanswered-demand`: an exercise asks something of the body that a served precaution restricts, and
//! nothing in the exercise answers it.

use std::collections::BTreeMap;

use crate::model::exercise::Exercise;
use crate::model::finding::Level;
use crate::model::source::Spanned;
use crate::model::vocabulary::Restriction;
use crate::reckon::answer::{Unanswered, leads_to_same, unanswered};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "unanswered-demand",
    level: Level::Error,
    safety: true,
    finds: "A week uses an exercise with a demand that one of the precautions of its series restricts, and no\n\
            variation or regression takes the demand away. Where the precaution says `modify` or `ask`, a\n\
            caution that names the precaution is an answer too; where it says `avoid`, it is not.\n\
            A version that `adds` the same demand, or another that the precaution says to avoid, takes\n\
            nothing away; one that adds a demand to modify or to ask about needs that caution beside it.\n\
            What a regression to another exercise takes away is as its author declares it in `removes`.",
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
        let precautions: Vec<&str> = uses.keys().copied().collect();
        for open in unanswered(exercise, &precautions, case.model) {
            report(case, exercise, &open, &uses[open.precaution], sink);
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

fn lists(list: &[Spanned<String>], demand: &str) -> bool {
    list.iter().any(|d| d.value == demand)
}

fn report(
    case: &Case<'_>,
    exercise: &Exercise,
    open: &Unanswered<'_>,
    first: &Use<'_>,
    sink: &mut Sink<'_>,
) {
    let Unanswered { demand, precaution, row } = *open;
    let removes = format!("add a [[variation]] or a [[regression]] with `removes = [\"{}\"]`", demand.value);
    let answer = match row.by {
        Restriction::Avoid => removes,
        Restriction::Modify | Restriction::Ask => format!("{removes}, or a [[caution]] for `{precaution}`"),
    };
    let instead = row.instead.as_deref().map(|i| format!(" (for instance: {i})")).unwrap_or_default();
    let untrue = exercise
        .regressions
        .iter()
        .filter(|r| lists(&r.removes, &demand.value) && leads_to_same(r, &demand.value, case.model))
        .find_map(|r| r.exercise())
        .map(|id| format!("; the regression to `{}` takes nothing away, it has the demand too", id.value))
        .unwrap_or_default();
    let variations = exercise.variations.iter().map(|v| (&v.removes, &v.adds));
    let versions = variations.chain(exercise.regressions.iter().map(|r| (&r.removes, &r.adds)));
    let spoilt = versions
        .filter(|(removes, _)| lists(removes, &demand.value))
        .find_map(|(_, adds)| exercise.spoils(adds, &demand.value, precaution, &case.model.site.catalogue))
        .map(|added| format!("; a version that adds `{}` is no answer for `{precaution}`", added.value))
        .unwrap_or_default();
    sink.add(
        demand.span,
        format!(
            "`{}` has no answer for `{precaution}`, which week {} of `{}` serves",
            demand.value, first.week, first.series
        ),
        format!("{answer}{instead}{untrue}{spoilt}"),
    );
}

#[cfg(test)]
mod tests {
    use crate::review::testing::{edited, found, review_files};
    use crate::workspace::sample;

    const DROP: &str = "content/exercises/heel-drop.md";
    const NO_REMOVAL: [(&str, &str); 2] = [
        ("position = \"seated\"\nremoves = [\"impact-low\"]\n", "position = \"seated\"\n"),
        ("exercise = \"heel-raise\"\nremoves = [\"impact-low\"]\n", "exercise = \"heel-raise\"\n"),
    ];
    const NO_CAUTION: (&str, &str) = ("for = [\"spine-fracture\"]", "for = \"everyone\"");

    /// The demands that heel-drop leaves open for whom, with the sample's demand replaced by `demand`.
    fn open(demand: &str, replaced: &[(&str, &str)]) -> Vec<String> {
        let line = format!("demands = [\"{demand}\"]");
        let mut all = vec![("demands = [\"impact-low\"]", line.as_str())];
        all.extend(replaced);
        let text = edited(DROP, &all);
        let found = found(&[(DROP, &text)]).into_iter();
        let open = found.filter(|f| f.starts_with("unanswered-demand")).map(|f| {
            let words: Vec<&str> = f.split('`').collect();
            format!("{}{} {}", words[0], words[1], words.get(3).unwrap_or(&""))
        });
        open.collect()
    }

    #[test]
    fn a_variation_or_a_regression_that_takes_the_demand_away_is_an_answer() {
        for taken in NO_REMOVAL {
            assert_eq!(open("impact-low", &[taken, NO_CAUTION]), [""; 0], "without {}", taken.0);
        }
        assert_eq!(
            open("impact-low", &[NO_REMOVAL[0], NO_REMOVAL[1], NO_CAUTION]),
            ["unanswered-demand 6:12 impact-low spine-fracture"]
        );
    }

    #[test]
    fn a_caution_that_names_the_precaution_answers_modify_and_ask_but_not_avoid() {
        // spine-fracture: floor-transfer modify, impact-low ask, impact-moderate avoid.
        let without = [NO_REMOVAL[0], NO_REMOVAL[1]];
        assert_eq!(open("impact-low", &without), [""; 0], "ask");
        let served = |precaution: &'static str| (NO_CAUTION.0, precaution);
        let both = served("for = [\"spine-fracture\", \"unsteady\"]");
        assert_eq!(
            open("floor-transfer", &[without[0], without[1], both]),
            ["unanswered-demand 6:12 floor-transfer no-floor"],
            "modify for two, avoid for the third"
        );
        assert_eq!(
            open("impact-moderate", &[without[0], without[1], both]),
            ["unanswered-demand 6:12 impact-moderate spine-fracture"],
            "avoid"
        );
        assert_eq!(
            open("impact-moderate", &[without[0], without[1], NO_CAUTION]),
            [
                "unanswered-demand 6:12 impact-moderate spine-fracture",
                "unanswered-demand 6:12 impact-moderate unsteady"
            ],
            "a caution for everyone names nobody"
        );
    }

    #[test]
    fn a_regression_to_an_exercise_with_the_same_demand_takes_nothing_away() {
        let drop = edited(DROP, &[NO_REMOVAL[0], NO_CAUTION]);
        let raise = "content/exercises/heel-raise.md";
        let same = edited(raise, &[("demands = []", "demands = [\"impact-low\"]")]);
        let found = found(&[(DROP, &drop), (raise, &same)]);
        assert_eq!(found.len(), 2, "{found:?}");
        assert!(found.iter().all(|f| f.starts_with("unanswered-demand 6:12 `impact-low`")), "{found:?}");
    }

    #[test]
    fn what_no_served_precaution_restricts_needs_no_answer() {
        let without = [NO_REMOVAL[0], NO_REMOVAL[1], NO_CAUTION];
        assert_eq!(open("quick-rise", &without), [""; 0], "no precaution that the series serves");
        let week = "content/series/first-steps/week-02.md";
        let raise = edited(week, &[("id = \"heel-drop\"", "id = \"heel-raise\", dose = { reps = 12 }")]);
        let drop = edited(DROP, &without);
        assert_eq!(found(&[(DROP, &drop), (week, &raise)]), [""; 0], "no week uses it");
    }

    #[test]
    fn the_first_week_that_uses_the_exercise_is_named_once() {
        let drop = edited(DROP, &[NO_REMOVAL[0], NO_REMOVAL[1], NO_CAUTION]);
        let week = "content/series/first-steps/week-01.md";
        let first = edited(week, &[("id = \"heel-raise\"", "id = \"heel-drop\", dose = { reps = 5 }")]);
        let found = found(&[(DROP, &drop), (week, &first)]);
        let found: Vec<_> = found.iter().filter(|f| f.starts_with("unanswered-demand")).collect();
        assert_eq!(
            found,
            [
                "unanswered-demand 6:12 `impact-low` has no answer for `spine-fracture`, which week 1 of `first-steps` serves"
            ]
        );
    }

    #[test]
    fn what_could_not_be_read_of_an_answer_is_reported_alone() {
        for (old, new, rule) in [
            (
                "removes = [\"impact-low\"]\ntext = \"Sit",
                "removes = \"impact-low\"\ntext = \"Sit",
                "wrong-value",
            ),
            (
                "removes = [\"impact-low\"]\ntext = \"Sit",
                "remove = [\"impact-low\"]\ntext = \"Sit",
                "unknown-field",
            ),
            ("for = [\"spine-fracture\"]", "for = 1", "wrong-value"),
            ("[[caution]]", "[[cautions]]", "unknown-field"),
            ("[[variation]]", "[[variations]]", "unknown-field"),
        ] {
            let mut replaced: Vec<(&str, &str)> = vec![(old, new), NO_REMOVAL[1]];
            if !old.starts_with("removes") {
                replaced.push(NO_REMOVAL[0]);
            }
            if !old.contains("for") && !old.contains("caution") {
                replaced.push(NO_CAUTION);
            }
            let found = found(&[(DROP, &edited(DROP, &replaced))]);
            assert_eq!(found.len(), 1, "{new}: {found:?}");
            assert!(found[0].starts_with(rule), "{new}: {found:?}");
        }
    }

    /// The demands without an answer when the seated version of the sample's heel drop adds `adds`.
    fn unanswered(adds: &str, for_: &str) -> Vec<String> {
        let file = "content/exercises/heel-drop.md";
        let text = sample::text(file)
            .unwrap()
            .replace("removes = [\"impact-low\"]\ntext", &format!("removes = [\"impact-low\"]\nadds = {adds}\ntext"))
            .replace("exercise = \"heel-raise\"\nremoves = [\"impact-low\"]", "exercise = \"heel-raise\"")
            .replace("for = [\"spine-fracture\"]", &format!("for = {for_}"));
        let (review, _) = review_files(&[(file, &text)]);
        assert!(review.findings.iter().all(|f| f.rule == "unanswered-demand"), "{:?}", review.findings);
        review.findings.into_iter().map(|f| format!("{} ({})", f.message, f.help)).collect()
    }

    #[test]
    fn a_version_that_adds_what_the_precaution_restricts_is_no_answer() {
        assert_eq!(unanswered("[]", "\"everyone\""), [""; 0]);
        assert_eq!(unanswered("[\"kneeling\"]", "\"everyone\""), [""; 0], "not restricted for those served");
        for (adds, for_) in [
            ("[\"impact-low\"]", "\"everyone\""),
            ("[\"impact-high\"]", "\"everyone\""),
            ("[\"end-range-flexion\"]", "\"everyone\""),
        ] {
            let found = unanswered(adds, for_);
            assert!(found.iter().any(|f| f.contains("`impact-low` has no answer for `spine-fracture`")), "{adds}: {found:?}");
            assert!(found[0].contains("a version that adds"), "{found:?}");
        }
    }

    #[test]
    fn a_version_that_adds_what_is_to_be_modified_needs_the_caution() {
        let found = unanswered("[\"floor-transfer\"]", "\"everyone\"");
        assert!(found.iter().any(|f| f.contains("`impact-low` has no answer for `spine-fracture`")), "{found:?}");
        assert_eq!(unanswered("[\"floor-transfer\"]", "[\"spine-fracture\"]"), [""; 0]);
    }
}
