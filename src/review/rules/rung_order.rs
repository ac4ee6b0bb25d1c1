//! `rung-order`: a progression that is no harder, or a regression that is no easier.

use std::collections::BTreeSet;

use crate::model::dose::Dose;
use crate::model::exercise::{Change, Exercise, Way};
use crate::model::finding::{Level, Subject};
use crate::model::nearest::quoted;
use crate::model::site::Site;
use crate::model::source::{Span, Spanned};
use crate::reckon::assumed::Assumed;
use crate::reckon::between::Between;
use crate::reckon::demands;
use crate::reckon::dose::{Field, Impact, Practice};
use crate::reckon::ladder::{Ladders, Link};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "rung-order",
    level: Level::Warning,
    safety: false,
    finds: "What is named as harder asks for fewer demands and for less work in a session; or what is named as easier\n\
            for more of both. Fewer demands: some that the other asks for are missing, and none is new (a harder\n\
            landing counts as the softer ones too). Less work: repetitions and holds without rests, at the high\n\
            end of the dose less, and at the low end no more; where a default has to be used for the pace of one\n\
            of the two only, nothing is said. Of a link to another exercise the demands and doses of the two\n\
            count, with what the link's `dose` changes; of a way in words, its `removes`, `adds` and `dose`. A\n\
            link that both exercises name is told once, at the progression.",
    why: "A client who is ready for more would be led to less, and one who needs the easier way to the harder one.\n\
          Fewer demands with more work, or a smaller dose of something that asks more, may well be a step up:\n\
          that is left to the author.",
    bad: Example::lines(
        "content/exercises/heel-drop.md",
        &[(
            r#"text = "Let go with one hand.""#,
            r#"
text = "Sit down, lift both heels and press them down firmly."
       ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ this harder way asks less than the exercise: no `impact-low`, and `40` seconds of work a session, not `80`
removes = ["impact-low"]
dose = { sets = 1 }"#,
        )],
    ),
    good: Example::lines(
        "content/exercises/heel-drop.md",
        &[(
            r#"
[[progression]]
text = "Let go with one hand.""#,
            r#"
[[regression]]
text = "Sit down, lift both heels and press them down firmly."
removes = ["impact-low"]
dose = { sets = 1 }"#,
        )],
    ),
    check: Check::Ladders(check),
};

fn check(case: &Case<'_>, ladders: &Ladders<'_>, sink: &mut Sink<'_>) {
    for (easier, harder, link) in ladders.steps() {
        let [from, to] = [easier, harder].map(|id| case.model.exercises.get(id));
        if let (Some(from), Some(to)) = (from, to) {
            check_link(from, to, link, &case.model.site, sink);
        }
    }
    for exercise in case.model.exercises.values().filter(|e| is_known(e)) {
        check_ways(exercise, &case.model.site, sink);
    }
}

fn check_link(easier: &Exercise, harder: &Exercise, link: Link, site: &Site, sink: &mut Sink<'_>) {
    // A link between components is told as that.
    if !is_known(easier) || !is_known(harder) || easier.component.value != harder.component.value {
        return;
    }
    let progression = written_at(&easier.progressions, link.progression);
    let regression = written_at(&harder.regressions, link.regression);
    let below = Form::of(easier, regression.and_then(|change| change.dose.as_ref()), site);
    let above = Form::of(harder, progression.and_then(|change| change.dose.as_ref()), site);
    if let (Some(place), Some(less)) = (link.place(), above.asks_less_than(&below)) {
        let exercises = [harder, easier].map(|exercise| Subject::Exercise(exercise.id.clone()));
        sink.about(exercises.into_iter().chain(less.subjects)).add(
            place,
            format!(
                "`{}` is the harder one here, but asks less than `{}`: no {}, and {}",
                harder.id, easier.id, less.demands, less.work
            ),
            "link them the other way round, or correct the demands or the dose that is wrong",
        );
    }
}

fn check_ways(exercise: &Exercise, site: &Site, sink: &mut Sink<'_>) {
    let own = Form::of(exercise, None, site);
    for (change, text) in in_words(&exercise.progressions) {
        if let Some(less) = Form::changed(exercise, change, site).asks_less_than(&own) {
            let Less { demands, work, subjects } = less;
            let message = format!("this harder way asks less than the exercise: no {demands}, and {work}");
            let help = "make it a [[regression]], or correct its `removes` or its `dose`";
            sink.about(subjects.into_iter().chain([way_in(text)])).add(text.span, message, help);
        }
    }
    for (change, text) in in_words(&exercise.regressions) {
        let way = Form::changed(exercise, change, site);
        if let Some(less) = own.asks_less_than(&way) {
            let (now, then) = (seconds(way.work), seconds(own.work));
            let message = format!(
                "this easier way asks more than the exercise: {} as well, and `{now}` seconds of work a session, not `{then}`",
                less.demands
            );
            let help = "make it a [[progression]], or correct its `adds` or its `dose`";
            sink.about(less.subjects.into_iter().chain([way_in(text)])).add(text.span, message, help);
        }
    }
}

/// A way that is told in words alone.
fn way_in(text: &Spanned<String>) -> Subject {
    Subject::Words(text.value.clone())
}

/// The change that says a link which is written there.
fn written_at(changes: &[Change], place: Option<Span>) -> Option<&Change> {
    changes.iter().find(|change| place.is_some() && change.exercise().map(|id| id.span) == place)
}

/// The changes that are told in words alone.
fn in_words(changes: &[Change]) -> impl Iterator<Item = (&Change, &Spanned<String>)> {
    changes.iter().filter_map(|change| match &change.way {
        Way::Text(text) => Some((change, text)),
        Way::Exercise { .. } => None,
    })
}

/// True when nothing about what the exercise asks had to be guessed.
fn is_known(exercise: &Exercise) -> bool {
    let sound = |field: &&str| exercise.standing.is_sound(field);
    ["component", "demands", "dose", "progression", "regression"].iter().all(sound)
}

/// What a form of an exercise asks of a client in one session.
struct Form<'m> {
    demands: BTreeSet<&'m str>,
    /// Milliseconds.
    work: Between,
    /// What stands in for the length of a repetition where the dose does not say it.
    pace: Option<Assumed>,
}

/// What one form asks less than another, in words.
struct Less {
    demands: String,
    work: String,
    /// The demands, and the seconds of both.
    subjects: Vec<Subject>,
}

impl<'m> Form<'m> {
    /// An exercise, its dose changed as a link to it says.
    fn of(exercise: &'m Exercise, changes: Option<&Dose>, site: &Site) -> Form<'m> {
        let demands = demands::of_base(exercise, site).into_iter().map(|d| d.id);
        Form::reckoned(exercise, demands.collect(), changes)
    }

    /// An exercise changed as one of its easier or harder ways says.
    fn changed(exercise: &'m Exercise, change: &'m Change, site: &Site) -> Form<'m> {
        let removed = |demand: &&str| !change.removes.iter().any(|d| d.value == *demand);
        let own = demands::of_base(exercise, site).into_iter().map(|d| d.id).filter(removed);
        let demands = own.chain(change.adds.iter().map(|d| d.value.as_str()));
        Form::reckoned(exercise, demands.collect(), change.dose.as_ref())
    }

    fn reckoned(exercise: &'m Exercise, mut demands: BTreeSet<&'m str>, changes: Option<&Dose>) -> Form<'m> {
        let practice = match changes {
            Some(changes) => Practice::of(exercise, &exercise.dose.overridden_by(changes)),
            None => Practice::of(exercise, &exercise.dose),
        };
        let hardest = Impact::ALL.into_iter().rev().find(|level| demands.contains(level.demand()));
        let softer = Impact::ALL.into_iter().filter(|level| Some(*level) <= hardest);
        demands.extend(softer.map(|level| level.demand() as &str));
        let pace = practice.assumed.iter().find(|(field, _)| *field == Field::Pace).map(|(_, pace)| *pace);
        Form { demands, work: practice.work, pace }
    }

    /// What it asks less than the other, if it asks for fewer demands and for less work.
    fn asks_less_than(&self, other: &Form<'_>) -> Option<Less> {
        let missing: Vec<&str> = other.demands.difference(&self.demands).copied().collect();
        let fewer = !missing.is_empty() && self.demands.is_subset(&other.demands);
        let less = self.work.high < other.work.high && self.work.low <= other.work.low;
        (fewer && less && self.pace == other.pace).then(|| {
            let [now, then] = [self.work, other.work].map(seconds);
            let work = format!("`{now}` seconds of work a session, not `{then}`");
            let demands = missing.iter().map(|demand| Subject::Demand(demand.to_string()));
            let subjects = demands.chain([now, then].map(Subject::Number)).collect();
            Less { demands: quoted(&missing), work, subjects }
        })
    }
}

/// A length of time in seconds, as an author writes a range.
fn seconds(time: Between) -> String {
    let (low, high) = time.seconds();
    if low == high { format!("{low}") } else { format!("{low}-{high}") }
}

#[cfg(test)]
mod tests {
    use crate::review::testing::{edited, found};

    const RAISE: &str = "content/exercises/heel-raise.md";
    const DROP: &str = "content/exercises/heel-drop.md";
    const RAISED: &str = "demands = [\"tiptoe\"]";
    const DROPPED: &str = "demands = [\"impact-low\", \"tiptoe\"]";

    /// The findings of the rule with the sample's link turned round: a heel drop (`impact-low`, 10 x 2 of 4 s) that
    /// leads up to a heel raise (10 of 4 s), with more of the two files replaced.
    fn turned(raise: &[(&str, &str)], drop: &[(&str, &str)]) -> Vec<String> {
        let raise = [&[("[[progression]]\n", "[[regression]]\n")], raise].concat();
        let up = (
            "[[regression]]\nexercise = \"heel-raise\"\nremoves = [\"impact-low\"]\n",
            "[[progression]]\nexercise = \"heel-raise\"\n",
        );
        let drop = [&[up], drop].concat();
        of_the_rule(&[(RAISE, &edited(RAISE, &raise)), (DROP, &edited(DROP, &drop))])
    }

    fn of_the_rule(files: &[(&str, &str)]) -> Vec<String> {
        found(files).into_iter().filter(|f| f.starts_with("rung-order")).collect()
    }

    #[test]
    fn a_link_that_leads_up_to_less_is_told_once_where_it_is_written() {
        let message = "`heel-raise` is the harder one here, but asks less than `heel-drop`: no `impact-low`, and `40` seconds of work a session, not `80`";
        assert_eq!(turned(&[], &[]), [format!("rung-order 43:12 {message}")], "at the progression");
        let only = edited(RAISE, &[("[[progression]]\n", "[[regression]]\n")]);
        let none =
            edited(DROP, &[("[[regression]]\nexercise = \"heel-raise\"\nremoves = [\"impact-low\"]\n", "")]);
        let told = of_the_rule(&[(RAISE, &only), (DROP, &none)]);
        assert_eq!(told, [format!("rung-order 40:12 {message}")], "at the regression");
    }

    #[test]
    fn both_the_demands_and_the_work_must_be_less() {
        for (raise, drop, count, what) in [
            (vec![("sets = 1", "sets = 2")], vec![], 0, "as much work"),
            (vec![("reps = 10", "reps = \"8-19\"")], vec![], 1, "less at both ends"),
            (vec![("reps = 10", "reps = \"8-20\"")], vec![], 0, "as much at the high end"),
            (
                vec![("reps = 10", "reps = 10")],
                vec![("reps = 10", "reps = \"4-10\"")],
                0,
                "more at the low end",
            ),
            (vec![(RAISED, "demands = [\"impact-low\", \"tiptoe\"]")], vec![], 0, "the same demands"),
            (vec![(RAISED, "demands = [\"narrow-stance\", \"tiptoe\"]")], vec![], 0, "another demand"),
            (
                vec![(RAISED, "demands = [\"impact-low\", \"tiptoe\"]")],
                vec![(DROPPED, "demands = [\"impact-moderate\", \"tiptoe\"]")],
                1,
                "a softer landing",
            ),
            (
                vec![(RAISED, "demands = [\"impact-high\", \"tiptoe\"]")],
                vec![(DROPPED, "demands = [\"impact-low\", \"impact-moderate\", \"tiptoe\"]")],
                0,
                "a harder landing",
            ),
        ] {
            assert_eq!(turned(&raise, &drop).len(), count, "{what}");
        }
    }

    #[test]
    fn the_dose_of_the_link_counts() {
        let up = (
            "exercise = \"heel-raise\"\nremoves = [\"impact-low\"]\n",
            "exercise = \"heel-raise\"\ndose = { sets = 2 }\n",
        );
        let turned = |up: (&str, &str)| {
            let raise = edited(RAISE, &[("[[progression]]\n", "[[regression]]\n")]);
            let drop = edited(DROP, &[("[[regression]]\n", "[[progression]]\n"), up]);
            of_the_rule(&[(RAISE, &raise), (DROP, &drop)]).len()
        };
        assert_eq!(turned((up.0, "exercise = \"heel-raise\"\n")), 1);
        assert_eq!(turned(up), 0);
    }

    #[test]
    fn nothing_is_concluded_from_a_pace_that_only_one_of_the_two_says() {
        let without = ("pace = \"4 s\"\n", "");
        assert_eq!(turned(&[without], &[]), [""; 0]);
        // A landing and a slow rise have different defaults.
        assert_eq!(turned(&[without], &[without]), [""; 0]);
        let stance = [(DROPPED, "demands = [\"narrow-stance\", \"tiptoe\"]"), without];
        assert_eq!(turned(&[without], &stance).len(), 1, "the same default for both");
    }

    #[test]
    fn an_easier_way_in_words_that_asks_more_is_found_at_its_words() {
        let words = "text = \"Lean on the back of the chair, and rest after each one.\"";
        let sit = "content/exercises/tall-sit.md";
        let with = |more: &str| of_the_rule(&[(sit, &edited(sit, &[(words, &format!("{words}\n{more}"))]))]);
        assert_eq!(
            with("adds = [\"kneeling\"]\ndose = { reps = 8 }"),
            [
                "rung-order 24:8 this easier way asks more than the exercise: `kneeling` as well, and `24-40` seconds of work a session, not `15-25`"
            ]
        );
        assert_eq!(with("adds = [\"kneeling\"]"), [""; 0], "the same dose");
        assert_eq!(with("dose = { reps = 8 }"), [""; 0], "the same demands");
    }

    #[test]
    fn what_could_not_be_read_is_not_compared() {
        for slip in [("reps = 10", "reps = \"many\""), (RAISED, "demands = [\"jumpy\"]")] {
            assert_eq!(turned(&[slip], &[]), [""; 0], "{slip:?}");
        }
        assert_eq!(
            turned(&[("component = \"power\"", "component = \"balance\"")], &[]),
            [""; 0],
            "two components"
        );
    }
}
