//! `impact-cap`: more landings in a session than the cap.

use crate::model::finding::{Level, Subject};
use crate::model::targets::IMPACTS;
use crate::model::week::Week;
use crate::reckon::dose::{Practice, Session};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "impact-cap",
    level: Level::Warning,
    safety: false,
    finds: "A week's session, or one exercise by itself, asks for more landings (heel drops, stamps, hops, jumps; both\n\
            feet count) than the cap: the high end of the target `impacts` in [targets], 100 unless the site or\n\
            the series says otherwise.",
    why: "In the trials bones had what they need after 50 to 100 landings. More bring sore feet, knees and backs,\n\
          and people who stop.",
    bad: Example::lines(
        "content/series/first-steps/week-02.md",
        &[(
            r#"  { id = "heel-drop", focus = "Both feet land together." },"#,
            r#"
  { id = "heel-drop", dose = { reps = 40, sets = 3, pace = "2 s", days = 1 } },
         ^^^^^^^^^^^ the session of week 2 asks for `120` landings, more than `100`"#,
        )],
    ),
    good: Example::lines(
        "content/series/first-steps/week-02.md",
        &[(
            r#"  { id = "heel-drop", focus = "Both feet land together." },"#,
            r#"  { id = "heel-drop", dose = { reps = 12 } },"#,
        )],
    ),
    check: Check::Model(check),
};

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for exercise in case.model.exercises.values() {
        let most = u64::from(IMPACTS.of(None, &case.model.site).high);
        let practice = Practice::of(exercise, &exercise.dose);
        let known = exercise.standing.is_sound("dose") && exercise.standing.is_sound("demands");
        if known && practice.all_impacts().high > most {
            let span = exercise.dose.reps.as_ref().map_or(exercise.dose.span, |reps| reps.span);
            let landings = practice.all_impacts().high;
            let message = format!("`{landings}` landings a session, more than `{most}`");
            sink.about([Subject::number(landings), Subject::number(most)]).add(span, message, HELP);
        }
    }
    for (series, week) in case.model.weeks().filter(|(_, week)| is_known(case, week)) {
        let most = u64::from(IMPACTS.of(Some(series), &case.model.site).high);
        let session = Session::of(case.model, week);
        let landings = session.sum(Practice::all_impacts).high;
        let alone = session.practices.iter().any(|(e, _)| Practice::of(e, &e.dose).all_impacts().high > most);
        let last = case
            .model
            .exercises_of(week)
            .filter(|(used, e)| Practice::of(e, &used.dose_of(e)).all_impacts().high > 0);
        if landings > most
            && !alone
            && let Some((used, _)) = last.last()
        {
            let message = format!(
                "the session of week {} asks for `{landings}` landings, more than `{most}`",
                week.number.value
            );
            sink.about([Subject::number(landings), Subject::number(most)]).add(used.id.span, message, HELP);
        }
    }
}

const HELP: &str =
    "ask for fewer repetitions or sets, or change `impacts` under [targets] for clients who are supervised";

/// True when nothing about the landings of the week had to be guessed.
fn is_known(case: &Case<'_>, week: &Week) -> bool {
    let sound = |field: &'static str| case.model.exercises_of(week).all(|(_, e)| e.standing.is_sound(field));
    week.standing.is_sound("exercises") && sound("dose") && sound("demands")
}

#[cfg(test)]
mod tests {
    use crate::review::testing::{edited, found};

    const DROP: &str = "content/exercises/heel-drop.md";
    const WEEK: &str = "content/series/first-steps/week-02.md";

    /// The cap of 100: Beck et al. 2017, J Sci Med Sport 20(5):438-445 (50 to 100 a session; from memory, not
    /// verified).
    #[test]
    fn a_hundred_landings_are_the_most_of_a_session() {
        let with = |replaced: &[(&str, &str)]| {
            let found = found(&[(DROP, &edited(DROP, replaced))]);
            found.into_iter().filter(|f| f.starts_with("impact-cap")).collect::<Vec<_>>()
        };
        let dose = |dose: &str| with(&[("reps = 10\nsets = 2", dose)]);
        assert_eq!(dose("reps = 50\nsets = 2"), [""; 0]);
        assert_eq!(
            dose("reps = 51\nsets = 2"),
            ["impact-cap 11:8 `102` landings a session, more than `100`"]
        );
        assert_eq!(dose("reps = \"20-51\"\nsets = 2").len(), 1);
        assert_eq!(
            with(&[("reps = 10", "reps = 30"), ("\"both-together\"", "\"each\"")]),
            ["impact-cap 11:8 `120` landings a session, more than `100`"]
        );
        let seated = with(&[
            ("reps = 10", "reps = 60"),
            ("demands = [\"impact-low\", \"tiptoe\"]", "demands = [\"tiptoe\"]"),
        ]);
        assert_eq!(seated, [""; 0], "no landing at all");
    }

    #[test]
    fn the_exercises_of_a_session_are_added_up_and_the_cap_can_be_set() {
        let raise = "content/exercises/heel-raise.md";
        let landing = edited(
            raise,
            &[
                ("demands = [\"tiptoe\"]", "demands = [\"impact-low\", \"tiptoe\"]"),
                ("reps = 10", "reps = 60"),
            ],
        );
        let week = edited(
            WEEK,
            &[(
                "{ id = \"heel-drop\"",
                "{ id = \"heel-raise\" },\n  { id = \"heel-drop\", dose = { reps = 25 }",
            )],
        );
        let files = [(raise, landing.as_str()), (WEEK, week.as_str())];
        let expected = "impact-cap 12:10 the session of week 2 asks for `110` landings, more than `100`";
        let found_cap: Vec<String> =
            found(&files).into_iter().filter(|f| f.starts_with("impact-cap")).collect();
        assert_eq!(found_cap, [expected]);
        let site = edited("site.toml", &[("[educator]", "[targets]\nimpacts = \"50-120\"\n\n[educator]")]);
        let raised = found(&[files[0], files[1], ("site.toml", &site)]);
        assert!(raised.iter().all(|f| !f.starts_with("impact-cap")), "{raised:?}");
    }
}
