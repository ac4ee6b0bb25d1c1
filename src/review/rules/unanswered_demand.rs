//! `unanswered-demand`: an exercise asks something of the body that a served precaution restricts, and
//! nothing in the exercise answers it.

use std::collections::{BTreeMap, BTreeSet};

use crate::model::exercise::Exercise;
use crate::model::finding::{Level, Subject};
use crate::model::nearest::quoted;
use crate::model::series::Series;
use crate::model::vocabulary::Vocabulary;
use crate::model::week::{Week, WeekExercise};
use crate::reckon::answer::{Unanswered, unanswered};
use crate::reckon::choice::{Need, choose};
use crate::reckon::safety::{Offer, Why, is_readable, refusals};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "unanswered-demand",
    level: Level::Error,
    safety: true,
    finds: "A week uses an exercise, and no form of it is safe for people with one of the precautions of its series: not\n\
            the exercise as it stands, no variation of it, and no exercise that its regressions lead to. Each form is judged as\n\
            it is for a person, for that precaution alone and with nothing cleared. A demand to `avoid` or to\n\
            `ask` about must be gone from the form. One to `modify` needs a caution with `level = \"adapt\"` for that\n\
            precaution and about that demand, which belongs to the form and sends to no other. A caution that only\n\
            names the precaution answers nothing; one that says `stop` or `ask`, or with `use` to do another form, takes\n\
            its form away from them. Where a caution alone leaves them no form, this is told at the caution.\n\
            A week that asks for a longer hold is told too: the cautions were written for the hold of the exercise.\n\
            What everybody in the audience has (`all_have`) must leave the exercise safe as it stands.",
    why: "The series promises to serve people with that precaution. They would get a movement that can hurt them, or\n\
          be left without this exercise.",
    bad: Example::lines(
        "content/exercises/tall-sit.md",
        &[
            (
                ASKS_NOTHING,
                r#"
# What the movement asks of the body, such as "narrow-stance".
demands = ["end-range-extension"]
           ^^^^^^^^^^^^^^^^^^^^^ `end-range-extension` has no answer for `spine-fracture`, which week 1 of `first-steps` serves"#,
            ),
            (ADAPT, ADAPT),
        ],
    ),
    good: Example::lines(
        "content/exercises/tall-sit.md",
        &[
            (
                ASKS_NOTHING,
                r#"
# What the movement asks of the body, such as "narrow-stance".
demands = ["end-range-extension"]"#,
            ),
            (
                ADAPT,
                r#"
for = ["spine-fracture"]
level = "ask"
about = ["end-range-extension"]
use = "Tall sit with a straight back"
text = "Ask your clinician before you arch your back. Until then do the tall sit with a straight back."

[[variation]]
title = "Tall sit with a straight back"
removes = ["end-range-extension"]
text = "The same with your back against the chair."
steps = [
  "Sit with your back against a sturdy chair, both feet flat.",
  "Reach the top of your head to the ceiling.",
  "Hold, and keep breathing.",
  "Let go and rest.",
]"#,
            ),
        ],
    ),
    check: Check::Model(check),
};

/// What the sample's exercise asks.
const ASKS_NOTHING: &str = r#"
# What the movement asks of the body, such as "narrow-stance". This one asks nothing that could harm.
demands = []"#;

/// The sample's caution: it names the precaution, and is no answer to a demand that the precaution asks about.
const ADAPT: &str = r#"
for = ["spine-fracture"]
level = "adapt"
text = "Grow tall gently. Do not arch your back.""#;

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
            let mut changed = BTreeSet::new();
            let serves: BTreeSet<&str> =
                series.serves.iter().chain(&series.all_have).map(|p| p.value.as_str()).collect();
            for precaution in serves {
                let open = unanswered(exercise, None, &[precaution], case.model);
                let fresh = !told.contains(precaution);
                for one in open.iter().filter(|_| fresh) {
                    report(case, exercise, one, series, week, sink);
                }
                if !open.is_empty() {
                    told.insert(precaution);
                } else if report_change(exercise, used, precaution, series, case, sink) {
                    changed.insert(precaution);
                }
            }
            report_for_all(exercise, used, series, &changed, &mut told, case, sink);
        }
    }
}

/// The exercises that weeks use, each with its uses in the order of the weeks; those of which all could be read.
fn uses<'a>(case: &Case<'a>) -> Vec<(&'a Exercise, Vec<Use<'a>>)> {
    let mut uses: BTreeMap<&str, (&Exercise, Vec<Use<'_>>)> = BTreeMap::new();
    for (series, week) in case.model.weeks() {
        for (used, exercise) in case.model.exercises_of(week) {
            if is_readable(exercise) {
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
        (None, Some(caution)) => {
            (caution.level.span, format!("this `{}` has no answer", caution.level.value.word()))
        }
        (None, None) => (exercise.place(), "this exercise has no answer".to_string()),
    };
    sink.about(subjects(&open.why, precaution, series, Some(week))).add(
        place,
        format!("{what} for `{precaution}`, which week {} of `{}` serves", week.number.value, series.id),
        help(case, exercise, open),
    );
}

/// What has no answer: a demand, or a caution by its level; for whom, and where they are served.
fn subjects(why: &Why<'_>, precaution: &str, series: &Series, week: Option<&Week>) -> Vec<Subject> {
    let what = why.demand().map(|demand| Subject::Demand(demand.id.into()));
    let what = what.or_else(|| Some(Subject::Words(why.caution()?.level.value.word().into())));
    let whom = [Subject::Precaution(precaution.into()), Subject::Series(series.id.clone())];
    what.into_iter().chain(whom).chain(week.map(|week| Subject::Week(week.number.value))).collect()
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
        _ => format!(
            "add a [[variation]] with its own `steps` that is safe for `{precaution}`, and name it with `use` in a [[caution]]"
        ),
    };
    let row = open.demand().and_then(|d| case.model.site.catalogue.row(precaution, d.id));
    if let Some(instead) = row.and_then(|row| row.instead.as_deref()) {
        help.push_str(&format!(" (for instance: {instead})"));
    }
    let choice = choose(exercise, None, &Need::only(&[precaution]), case.model);
    for refused in
        choice.refused.iter().filter(|r| r.offer.form.variation.is_some() || r.offer.link.is_some())
    {
        help.push_str(&format!("; {} is no answer: {}", refused.offer.form, refused.why[0]));
    }
    help
}

/// A week that changes the dose so that people whom the series serves can no longer do the exercise as it stands, or no
/// form of it: what was reviewed is the other dose. True when there is something to tell.
fn report_change(
    exercise: &Exercise,
    used: &WeekExercise,
    precaution: &str,
    series: &Series,
    case: &Case<'_>,
    sink: &mut Sink<'_>,
) -> bool {
    let Some(changed) = &used.dose else { return false };
    let against = |changed| {
        let offer = Offer::base(exercise, changed);
        let why = refusals(&offer, &[precaution], case.model).remove(precaution).unwrap_or_default();
        why.iter().filter_map(Why::demand).map(|demand| demand.id.to_string()).collect::<BTreeSet<String>>()
    };
    let open = unanswered(exercise, Some(used), &[precaution], case.model);
    let mut asked: BTreeSet<String> = against(Some(changed)).difference(&against(None)).cloned().collect();
    if asked.is_empty() && open.is_empty() {
        return false;
    }
    if asked.is_empty() {
        asked.extend(open.iter().filter_map(Unanswered::demand).map(|demand| demand.id.to_string()));
    }
    let asks = if asked.is_empty() {
        "changes the exercise".to_string()
    } else {
        format!("asks for {}", quoted(&asked.iter().map(String::as_str).collect::<Vec<_>>()))
    };
    let form = if open.is_empty() { "as it stands" } else { "in any form" };
    let whom = [Subject::Exercise(exercise.id.clone()), Subject::Precaution(precaution.into())];
    let subjects = whom.into_iter().chain(asked.into_iter().map(Subject::Demand));
    sink.about(subjects.chain([Subject::Series(series.id.clone())])).add(
        changed.hold.as_ref().map_or(changed.span, |hold| hold.span),
        format!(
            "this dose {asks}: nobody with `{precaution}`, whom `{}` serves, can do `{}` {form}",
            series.id, exercise.id
        ),
        "keep to the hold of the exercise, or shorter; a longer hold is for an exercise of its own, with its own cautions",
    );
    true
}

/// What everybody in the audience has counts for everybody: the exercise as it stands must be safe for them. Says nothing of
/// those for whom the dose of the week is told already.
fn report_for_all<'m>(
    exercise: &'m Exercise,
    used: &'m WeekExercise,
    series: &'m Series,
    changed: &BTreeSet<&str>,
    told: &mut BTreeSet<&'m str>,
    case: &Case<'m>,
    sink: &mut Sink<'_>,
) {
    let offer = Offer::base(exercise, used.dose.as_ref());
    let all: Vec<&str> =
        series.all_have.iter().map(|p| p.value.as_str()).filter(|p| !changed.contains(p)).collect();
    for (precaution, why) in refusals(&offer, &all, case.model) {
        let Some(why) = why.iter().find(|why| !why.is_told_elsewhere()) else { continue };
        if !told.insert(precaution) {
            continue;
        }
        sink.about(subjects(why, precaution, series, None)).add(
            why.demand()
                .map_or_else(|| why.caution().map_or(exercise.place(), |c| c.level.span), |d| d.place()),
            format!(
                "as it stands this is for nobody in `{}`, where all have `{precaution}`: {why}",
                series.id
            ),
            "make the safe form the exercise itself, or use another exercise in the week",
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::review::testing::{edited, found, review_files};

    const DROP: &str = "content/exercises/heel-drop.md";
    const RAISE: &str = "content/exercises/heel-raise.md";
    const FEET: &str = "content/exercises/feet-together-stand.md";
    const SIT: &str = "content/exercises/tall-sit.md";
    const SERIES: &str = "content/series/first-steps/series.toml";
    const WEEK: &str = "content/series/first-steps/week-02.md";

    /// The seated form of the sample's heel drop, asking as much as the drop itself.
    const NO_SEAT: (&str, &str) = ("removes = [\"impact-low\", \"tiptoe\"]\n", "");
    /// Its easier exercise, asking for a landing as well.
    const NO_EASIER: (&str, &str) = (
        "exercise = \"heel-raise\"\nremoves = [\"impact-low\"]\n",
        "exercise = \"heel-raise\"\nadds = [\"impact-low\"]\n",
    );
    const OPEN: &str = "6:12 impact-low spine-fracture";

    /// The findings of the rule alone, each as its place, the demand and the precaution.
    fn of(files: &[(&str, &str)]) -> Vec<String> {
        let found = found(files).into_iter();
        let found = found.filter_map(|f| f.strip_prefix("unanswered-demand ").map(str::to_string));
        let short = found.map(|f| {
            let words: Vec<&str> = f.split('`').collect();
            format!("{}{} {}", words[0], words[1], words.get(3).unwrap_or(&""))
        });
        short.collect()
    }

    /// Those of the sample's heel drop with passages replaced.
    fn drop(replaced: &[(&str, &str)]) -> Vec<String> {
        of(&[(DROP, &edited(DROP, replaced))])
    }

    #[test]
    fn a_form_that_is_safe_is_an_answer_be_it_a_variation_or_an_easier_exercise() {
        assert_eq!(drop(&[]), [""; 0]);
        assert_eq!(drop(&[NO_SEAT]), [""; 0], "the easier exercise");
        assert_eq!(drop(&[NO_EASIER]), [""; 0], "the seated form");
        assert_eq!(drop(&[NO_SEAT, NO_EASIER]), [OPEN]);
    }

    #[test]
    fn a_caution_that_only_names_the_precaution_answers_nothing() {
        // spine-fracture: impact-low ask, end-range-flexion avoid.
        let caution = "level = \"ask\"\nabout = [\"impact-low\"]\nuse = \"Seated heel press\"\n\
                       text = \"Ask your clinician before you do this standing. Until then do the seated heel press.\"";
        for other in [
            "level = \"ask\"\nabout = [\"impact-low\"]\ntext = \"Ask your clinician first.\"",
            "level = \"adapt\"\nabout = [\"impact-low\"]\ntext = \"Let your heels drop softly.\"",
            "level = \"adapt\"\ntext = \"Let your heels drop softly.\"",
        ] {
            assert_eq!(drop(&[NO_SEAT, NO_EASIER, (caution, other)]), [OPEN], "{other}");
        }
        let bent = [
            ("demands = [\"impact-low\", \"tiptoe\"]", "demands = [\"end-range-flexion\", \"tiptoe\"]"),
            NO_SEAT,
            (NO_EASIER.0, "exercise = \"heel-raise\"\nadds = [\"end-range-flexion\"]\n"),
            ("for = [\"spine-fracture\"]", "for = [\"spine-fracture\", \"low-bone-density\"]"),
            (caution, "level = \"adapt\"\nabout = [\"end-range-flexion\"]\ntext = \"Bend at your hips.\""),
        ];
        assert_eq!(
            drop(&bent),
            ["6:12 end-range-flexion spine-fracture"],
            "modify for one, avoid for the other"
        );
    }

    #[test]
    fn what_is_to_be_modified_needs_a_caution_that_says_how_to_do_this_form() {
        let caution = "for = [\"unsteady\"]\nlevel = \"adapt\"\n";
        let narrow = "7:12 narrow-stance unsteady";
        let with = |replaced: &[(&str, &str)]| {
            // Without its variation's answer.
            let all = [&[("removes = [\"narrow-stance\"]\n", "")][..], replaced].concat();
            of(&[(FEET, &edited(FEET, &all))])
        };
        for (new, expected) in [
            (caution, None),
            ("for = [\"unsteady\"]\nlevel = \"adapt\"\nabout = [\"narrow-stance\"]\n", None),
            ("for = [\"unsteady\"]\nlevel = \"adapt\"\nform = \"Feet a little apart\"\n", None),
            ("for = \"everyone\"\nlevel = \"adapt\"\n", Some(narrow)),
            ("for = [\"spine-fracture\"]\nlevel = \"adapt\"\n", Some(narrow)),
            ("for = [\"unsteady\"]\nlevel = \"ask\"\n", Some(narrow)),
            ("for = [\"unsteady\"]\nlevel = \"stop\"\n", Some(narrow)),
            ("for = [\"unsteady\"]\nlevel = \"adapt\"\nuse = \"Feet a little apart\"\n", Some(narrow)),
        ] {
            assert_eq!(with(&[(caution, new)]), Vec::from_iter(expected), "{new}");
        }
        let two = ("demands = [\"narrow-stance\"]", "demands = [\"narrow-stance\", \"head-turn\"]");
        let about = |demands: &str| format!("{caution}about = [{demands}]\n");
        let turn = "7:29 head-turn unsteady";
        assert_eq!(with(&[two]), [narrow, turn], "nobody can tell which of the two it is about");
        assert_eq!(with(&[two, (caution, &about("\"head-turn\""))]), [narrow]);
        assert_eq!(with(&[two, (caution, &about("\"narrow-stance\", \"head-turn\""))]), [""; 0]);
    }

    #[test]
    fn a_form_that_adds_what_the_precaution_restricts_is_no_answer_unless_its_own_caution_says_how() {
        let adding = |adds: &str, caution: &str| {
            let removes = format!("{}adds = [\"{adds}\"]\n", NO_SEAT.0);
            let before = "[[caution]]\nfor = [\"unsteady\"]";
            let text =
                edited(DROP, &[NO_EASIER, (NO_SEAT.0, &removes), (before, &format!("{caution}{before}"))]);
            (of(&[(DROP, &text)]), text)
        };
        assert_eq!(adding("kneeling", "").0, [""; 0], "not restricted for those served");
        for adds in ["impact-moderate", "end-range-flexion", "floor-transfer"] {
            let (open, text) = adding(adds, "");
            assert_eq!(open, [OPEN], "{adds}");
            let (review, _) = review_files(&[(DROP, &text)]);
            let help = &review.findings[0].help;
            assert!(
                help.contains("`heel-drop` (Seated heel press) is no answer: `spine-fracture` says to"),
                "{help}"
            );
            assert!(help.contains(&format!("`{adds}`")), "{help}");
        }
        let caution = |level: &str, form: &str| {
            format!(
                "[[caution]]\nfor = [\"spine-fracture\"]\nlevel = \"{level}\"\nabout = [\"floor-transfer\"]\n{form}\
                 text = \"Go down one knee at a time.\"\n\n"
            )
        };
        assert_eq!(
            adding("floor-transfer", &caution("adapt", "")).0,
            [""; 0],
            "it belongs to the form that asks it"
        );
        let named = "form = \"Seated heel press\"\n";
        assert_eq!(adding("floor-transfer", &caution("adapt", named)).0, [""; 0]);
        assert_eq!(adding("floor-transfer", &caution("ask", named)).0, [OPEN]);
    }

    #[test]
    fn a_regression_to_an_exercise_that_asks_the_same_is_no_answer_whatever_it_removes() {
        let text = edited(DROP, &[NO_SEAT]);
        let same = edited(RAISE, &[("demands = [\"tiptoe\"]", "demands = [\"impact-low\", \"tiptoe\"]")]);
        assert!(text.contains("exercise = \"heel-raise\"\nremoves = [\"impact-low\"]"));
        assert_eq!(of(&[(DROP, &text), (RAISE, &same)]), [OPEN, OPEN], "the drop's and the raise's own");
    }

    #[test]
    fn what_no_served_precaution_restricts_needs_no_answer() {
        let grip = [
            ("demands = [\"impact-low\", \"tiptoe\"]", "demands = [\"grip\", \"tiptoe\"]"),
            NO_SEAT,
            (NO_EASIER.0, "exercise = \"heel-raise\"\nadds = [\"grip\"]\n"),
        ];
        assert_eq!(drop(&grip), [""; 0], "no precaution that the series serves");
        let serves = edited(SERIES, &[("  \"unsteady\",\n", "  \"unsteady\",\n  \"wrist-fracture\",\n")]);
        assert_eq!(of(&[(DROP, &edited(DROP, &grip)), (SERIES, &serves)]), ["6:12 grip wrist-fracture"]);
        let raise = edited(WEEK, &[("id = \"heel-drop\"", "id = \"heel-raise\", dose = { reps = 12 }")]);
        let drop = edited(DROP, &[NO_SEAT, NO_EASIER]);
        assert_eq!(found(&[(DROP, &drop), (WEEK, &raise)]), [""; 0], "no week uses it");
    }

    #[test]
    fn the_first_week_that_uses_the_exercise_is_named_once() {
        let drop = edited(DROP, &[NO_SEAT, NO_EASIER]);
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
        for (replaced, count, rule) in [
            (vec![(NO_SEAT.0, "removes = \"impact-low\"\n"), NO_EASIER], 1, "wrong-value"),
            (vec![(NO_SEAT.0, "remove = [\"impact-low\"]\n"), NO_EASIER], 1, "unknown-field"),
            (vec![("for = [\"spine-fracture\"]", "for = 1"), NO_SEAT, NO_EASIER], 1, "wrong-value"),
            (vec![("[[regression]]", "[[regressions]]"), NO_SEAT], 1, "unknown-field"),
            (vec![("component = \"power\"", "component = \"yoga\""), NO_SEAT, NO_EASIER], 1, "wrong-value"),
            // The tables inside it have no variation to stand in.
            (vec![("[[variation]]", "[[variations]]"), NO_EASIER], 2, "unknown-field"),
        ] {
            let found = found(&[(DROP, &edited(DROP, &replaced))]);
            assert_eq!(found.len(), count, "{replaced:?}: {found:?}");
            assert!(found[0].starts_with(rule), "{replaced:?}: {found:?}");
            assert!(found.iter().all(|f| !f.starts_with("unanswered-demand")), "{replaced:?}: {found:?}");
        }
    }

    #[test]
    fn a_caution_that_leaves_nobody_a_form_is_told_at_the_caution() {
        let caution = "level = \"adapt\"\ntext = \"Grow tall gently. Do not arch your back.\"";
        let at = |level: &str| caution.replace("adapt", level);
        let seated = "[[variation]]\ntitle = \"With a cushion\"\ntext = \"The same with a cushion.\"\n\
                      steps = [\"Sit tall.\", \"Rest.\"]\n\n[[progression]]";
        for level in ["stop", "ask"] {
            let alone = edited(SIT, &[(caution, &at(level))]);
            assert_eq!(
                found(&[(SIT, &alone)]),
                [format!(
                    "unanswered-demand 33:9 this `{level}` has no answer for `spine-fracture`, which week 1 of `first-steps` serves"
                )]
            );
            let other = edited(SIT, &[(caution, &at(level)), ("[[progression]]", seated)]);
            assert_eq!(of(&[(SIT, &other)]), [""; 0], "{level}: another form stays open");
            let kept = seated.replace("steps = [\"Sit tall.\", \"Rest.\"]", "keeps_steps = true");
            let kept = edited(SIT, &[(caution, &at(level)), ("[[progression]]", &kept)]);
            assert_eq!(
                of(&[(SIT, &kept)]).len(),
                1,
                "{level}: the caution belongs to a form with the same steps"
            );
        }
    }

    #[test]
    fn a_week_that_holds_for_longer_than_the_cautions_were_written_for_is_an_error() {
        let caution = |form: &str| {
            format!(
                "[[caution]]\nfor = [\"high-blood-pressure\"]\nlevel = \"adapt\"\nabout = [\"long-hold\"]\n{form}\
                 text = \"Keep breathing.\"\n\n[[figure]]"
            )
        };
        // A hold of 12 seconds, in a posture exercise: long, and answered by a caution.
        let held = |form: &str, variation: &str, hold: &str| {
            let sit = edited(
                SIT,
                &[
                    ("demands = []", "demands = [\"long-hold\"]"),
                    ("hold = \"3-5 s\"", "hold = \"12 s\""),
                    ("[[progression]]", &format!("{variation}[[progression]]")),
                    ("[[figure]]", &caution(form)),
                ],
            );
            let week = edited(WEEK, &[("dose = { reps = 8 }", &format!("dose = {{ hold = \"{hold}\" }}"))]);
            let found = found(&[(SIT, &sit), (WEEK, &week)]).into_iter();
            found.filter(|f| f.starts_with("unanswered-demand")).collect::<Vec<_>>()
        };
        let told = |form: &str| {
            [format!(
                "unanswered-demand 8:38 this dose asks for `long-hold`: nobody with `high-blood-pressure`, whom \
                 `first-steps` serves, can do `tall-sit` {form}"
            )]
        };
        for hold in ["8 s", "12 s"] {
            assert_eq!(held("", "", hold), [""; 0], "{hold}");
        }
        for hold in ["13 s", "10-13 s", "2 min"] {
            assert_eq!(held("", "", hold), told("in any form"), "{hold}");
        }
        let short = "[[variation]]\ntitle = \"Short holds\"\nkeeps_steps = true\nremoves = [\"long-hold\"]\n\
                     dose = { hold = \"5 s\" }\ntext = \"Hold for 5 seconds.\"\n\n";
        assert_eq!(
            held("", short, "2 min"),
            told("as it stands"),
            "a form with a hold of its own stays as it is"
        );
        let leaning =
            "[[variation]]\ntitle = \"Leaning back\"\nkeeps_steps = true\ntext = \"Lean back.\"\n\n";
        let own = "form = \"Leaning back\"\n";
        assert_eq!(held(own, leaning, "12 s"), [""; 0], "the caution answers the one form it names");
        assert_eq!(
            held(own, leaning, "2 min"),
            told("in any form"),
            "and the week makes that form longer too"
        );
    }

    #[test]
    fn a_hold_that_a_week_makes_long_is_an_error_where_nothing_answers_it() {
        let week =
            |hold: &str| edited(WEEK, &[("dose = { reps = 8 }", &format!("dose = {{ hold = \"{hold}\" }}"))]);
        assert_eq!(of(&[(WEEK, &week("10 s"))]), [""; 0]);
        let long = found(&[(WEEK, &week("2 min"))]);
        assert!(
            long.iter().any(|f| f.starts_with("unanswered-demand 8:38 this dose asks for `long-hold`")),
            "{long:?}"
        );
    }

    #[test]
    fn what_all_have_must_leave_every_exercise_safe_as_it_stands() {
        let all_have = |precaution: &str| {
            edited(SERIES, &[("[targets]", &format!("all_have = [\"{precaution}\"]\n\n[targets]"))])
        };
        assert_eq!(found(&[(SERIES, &all_have("low-bone-density"))]), [""; 0]);
        assert_eq!(
            found(&[(SERIES, &all_have("spine-fracture"))]),
            [
                "unanswered-demand 52:9 as it stands this is for nobody in `first-steps`, where all have `spine-fracture`: \
                 its caution for `spine-fracture` says to ask first, and nothing is cleared"
            ],
            "its seated form is an answer for some, and not for all"
        );
        // What a caution names and is not there is told by its own rule.
        let lost =
            edited(SIT, &[("text = \"Grow tall gently.", "use = \"Nothing\"\ntext = \"Grow tall gently.")]);
        assert_eq!(of(&[(SIT, &lost), (SERIES, &all_have("spine-fracture"))]).len(), 1);
        let without = edited(
            DROP,
            &[(
                "for = [\"spine-fracture\"]\nlevel = \"ask\"\nabout = [\"impact-low\"]\nuse = \"Seated heel press\"\n",
                "for = \"everyone\"\nlevel = \"adapt\"\n",
            )],
        );
        let found = of(&[(DROP, &without), (SERIES, &all_have("spine-fracture"))]);
        assert_eq!(
            found,
            ["6:12 as it stands this is for nobody in first-steps spine-fracture"],
            "a demand is told where it stands"
        );
    }
}
