//! `unanswered-demand`: an exercise asks something of the body that a served precaution restricts, and
//! nothing in the exercise answers it.

use std::collections::{BTreeMap, BTreeSet};

use crate::model::exercise::Exercise;
use crate::model::finding::Level;
use crate::model::series::Series;
use crate::model::vocabulary::Vocabulary;
use crate::model::week::{Week, WeekExercise};
use crate::reckon::answer::{Unanswered, unanswered};
use crate::reckon::choice::{Need, choose};
use crate::reckon::safety::{Offer, Why, refusals};
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

/// Where an exercise is first used for people with a precaution, in the dose that this use changes.
struct Use<'a> {
    series: &'a Series,
    week: &'a Week,
    used: &'a WeekExercise,
}

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for (exercise, uses) in uses(case) {
        let mut told = BTreeSet::new();
        for Use { series, week, used } in &uses {
            let serves = series.serves.iter().chain(&series.all_have).map(|p| p.value.as_str());
            for precaution in serves {
                let open = unanswered(exercise, None, &[precaution], case.model);
                let fresh = !told.contains(precaution);
                for one in open.iter().filter(|_| fresh) {
                    report(case, exercise, one, series, week, sink);
                }
                if !open.is_empty() {
                    told.insert(precaution);
                } else {
                    report_change(exercise, used, precaution, series, case, sink);
                }
            }
            report_for_all(exercise, used, series, &mut told, case, sink);
        }
    }
}

/// The exercises that weeks use, each with its uses in the order of the weeks; those of which all could be read.
fn uses<'a>(case: &Case<'a>) -> Vec<(&'a Exercise, Vec<Use<'a>>)> {
    let mut uses: BTreeMap<&str, (&Exercise, Vec<Use<'_>>)> = BTreeMap::new();
    for (series, week) in case.model.weeks() {
        for (used, exercise) in case.model.exercises_of(week) {
            let sound = |field: &&str| exercise.standing.is_sound(field);
            if ["variation", "regression", "caution", "position", "surface", "demands", "figure", "dose"].iter().all(sound) {
                uses.entry(&exercise.id).or_insert((exercise, Vec::new())).1.push(Use { series, week, used });
            }
        }
    }
    uses.into_values().collect()
}

fn report(
    case: &Case<'_>,
    exercise: &Exercise,
    open: &Unanswered<'_>,
    series: &Series,
    week: &Week,
    sink: &mut Sink<'_>,
) {
    let precaution = open.precaution;
    let (place, what) = match (open.demand(), open.why.caution()) {
        (Some(demand), _) => (demand.place(), format!("`{}` has no answer", demand.id)),
        (None, Some(caution)) => (caution.level.span, format!("this `{}` has no answer", caution.level.value.word())),
        (None, None) => (exercise.place(), "this exercise has no answer".to_string()),
    };
    sink.add(
        place,
        format!("{what} for `{precaution}`, which week {} of `{}` serves", week.number.value, series.id),
        help(case, exercise, open),
    );
}

/// How a demand can be answered, and what of each form that is there keeps people from it.
fn help(case: &Case<'_>, exercise: &Exercise, open: &Unanswered<'_>) -> String {
    let precaution = open.precaution;
    let mut help = match &open.why {
        Why::NoCaution { demand, .. } => format!(
            "add a [[caution]] for `{precaution}` with `level = \"adapt\"` and `about = [\"{}\"]` that says how, or a \
             [[variation]] with its own `steps` that is safe for them",
            demand.id
        ),
        _ => format!("add a [[variation]] with its own `steps` that is safe for `{precaution}`, and name it with `use` in a [[caution]]"),
    };
    let row = open.demand().and_then(|d| case.model.site.catalogue.row(precaution, d.id));
    if let Some(instead) = row.and_then(|row| row.instead.as_deref()) {
        help.push_str(&format!(" (for instance: {instead})"));
    }
    let choice = choose(exercise, None, &Need::only(&[precaution]), case.model);
    for refused in choice.refused.iter().filter(|r| r.offer.form.variation.is_some() || r.offer.link.is_some()) {
        help.push_str(&format!("; {} is no answer: {}", refused.offer.form, refused.why[0]));
    }
    help
}

/// A week that changes the dose so that people whom the series serves can no longer do the exercise as it stands: what
/// was reviewed is the other dose.
fn report_change(
    exercise: &Exercise,
    used: &WeekExercise,
    precaution: &str,
    series: &Series,
    case: &Case<'_>,
    sink: &mut Sink<'_>,
) {
    let Some(changed) = &used.dose else { return };
    let against = |changed| {
        let offer = Offer::base(exercise, changed);
        refusals(&offer, &[precaution], case.model).remove(precaution).unwrap_or_default()
    };
    let before = against(None);
    for why in against(Some(changed)) {
        let Some(demand) = why.demand() else { continue };
        if before.iter().any(|known| known.demand().is_some_and(|d| d.id == demand.id)) {
            continue;
        }
        sink.add(
            changed.hold.as_ref().map_or(changed.span, |hold| hold.span),
            format!("this dose asks for `{}`, which nothing answers for `{precaution}`, whom `{}` serves", demand.id, series.id),
            "keep to the hold of the exercise, or shorter; a longer hold is for an exercise of its own, with its own cautions",
        );
    }
}

/// What everybody in the audience has counts for everybody: the exercise as it stands must be safe for them.
fn report_for_all<'m>(
    exercise: &'m Exercise,
    used: &'m WeekExercise,
    series: &'m Series,
    told: &mut BTreeSet<&'m str>,
    case: &Case<'m>,
    sink: &mut Sink<'_>,
) {
    let offer = Offer::base(exercise, used.dose.as_ref());
    let all: Vec<&str> = series.all_have.iter().map(|p| p.value.as_str()).collect();
    for (precaution, why) in refusals(&offer, &all, case.model) {
        if !told.insert(precaution) {
            continue;
        }
        let Some(why) = why.first() else { continue };
        sink.add(
            why.demand().map_or_else(|| why.caution().map_or(exercise.place(), |c| c.level.span), |d| d.place()),
            format!("as it stands this is for nobody in `{}`, where all have `{precaution}`: {why}", series.id),
            "make the safe form the exercise itself, or use another exercise in the week",
        );
    }
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
