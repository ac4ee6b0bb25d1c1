//! `demand-not-declared`: fields or a drawn figure that ask of the body what their form does not name.

use crate::model::exercise::{Exercise, Way};
use crate::model::figure::{Pose, Side};
use crate::model::finding::{Level, Subject};
use crate::model::form::Form;
use crate::model::source::{Span, Spanned};
use crate::model::vocabulary::Vocabulary;
use crate::model::week::WeekExercise;
use crate::reckon::demands::{self, Demand, Origin};
use crate::reckon::figure::{Ask, Measured, Sign};
use crate::review::figures::{movement, turn_place};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Drawn, Sink};

pub(super) static RULE: Rule = Rule {
    name: "demand-not-declared",
    level: Level::Error,
    safety: true,
    finds: "The fields of a form say a demand that it does not name: lying, kneeling or being on hands and knees on\n\
            the floor, lying on the back or front, kneeling, weight on the hands, a hold of more than 10 seconds in\n\
            strength or posture (common practice, no source; `long_hold` under `[targets]` sets another number), also\n\
            one that a week makes so long. Or a drawn figure shows a demand that its form does not name: a hip bent\n\
            over 90 degrees; a knee that carries bent over 90, any knee over 110; one foot that stands alone; feet\n\
            together or in a line; a hand over the head; a back bent over 30 degrees, arched or twisted over 20; a head\n\
            turned over 30; a leg across the middle of the body; a head lower than the heart; weight on flat hands;\n\
            lying on the back or front, kneeling, or being on the floor without a bed; a jump. A low jump is a moderate\n\
            impact, so `impact-low` does not name it. Or `removes` takes away what the exercise does not ask: its\n\
            `demands` may have lost it, and until that is clear the exercise is on nobody's handout.",
    why: "The demands decide who gets the exercise and with which caution. A picture that asks more than they say sends\n\
          a movement to the person it can hurt.",
    bad: Example::lines(
        "content/exercises/tall-sit.md",
        &[(
            "[[progression]]",
            r#"
[[figure]]
description = "She leans forward on her chair."
props = ["chair"]

[[figure.pose]]
base = "seated"
hip.flexion = 115
              ^^^ `115` degrees of flexion of both hips ask for `deep-hip-bend`, which `demands` does not name

[[progression]]"#,
        )],
    ),
    good: Example::lines(
        "content/exercises/tall-sit.md",
        &[(
            "[[progression]]",
            r#"
[[figure]]
description = "She leans forward on her chair."
props = ["chair"]

[[figure.pose]]
base = "seated"
hip.flexion = 90

[[progression]]"#,
        )],
    ),
    check: Check::ModelAndFigures(check, check_figure),
};

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    for exercise in case.model.exercises.values() {
        let sound = |field: &&str| exercise.standing.is_sound(field);
        if ["demands", "variation", "position", "surface", "dose", "component"].iter().all(sound) {
            Form::all(exercise).for_each(|form| check_fields(&form, case, sink));
            check_removed(exercise, case, sink);
        }
    }
    for (_, week) in case.model.weeks() {
        for (used, exercise) in case.model.exercises_of(week) {
            check_week(exercise, used, case, sink);
        }
    }
}

/// What the fields of a form say, beside its figures.
fn check_fields(form: &Form<'_>, case: &Case<'_>, sink: &mut Sink<'_>) {
    let removed = |id: &str| form.variation.and_then(|v| v.removes.iter().find(|r| r.value == id));
    let base = demands::of_base(form.exercise, &case.model.site);
    for demand in demands::of(form, &form.dose(None), &case.model.site) {
        let Some(shown) = source(&demand) else { continue };
        if let Some(removed) = removed(demand.id) {
            sink.about(subjects(&demand, form.title().value.as_str(), "removes")).add(
                removed.span,
                format!("`removes` takes away `{}`, but {shown} for it", demand.id),
                "take it out of `removes`, or write the variation without it",
            );
            continue;
        }
        // What the exercise itself is told of is not told again of each of its variations; figures are told by themselves.
        let of_base = form.variation.is_some() && base.iter().any(|known| known.place() == demand.place());
        if of_base || matches!(demand.from, Origin::Figure(..)) {
            continue;
        }
        let list = if form.variation.is_some() { "adds" } else { "demands" };
        let otherwise = match demand.from {
            Origin::Surface(_) => ", or write `surface = \"bed\"` where it is done on a bed",
            Origin::Hold(_) => ", or hold for less time",
            _ => "",
        };
        sink.about(subjects(&demand, form.title().value.as_str(), list)).add(
            demand.place(),
            format!("{shown} for `{}`, which `{list}` does not name", demand.id),
            format!("add `{}` to `{list}` and answer it{otherwise}", demand.id),
        );
    }
}

/// What is taken away and was never there.
fn check_removed(exercise: &Exercise, case: &Case<'_>, sink: &mut Sink<'_>) {
    if !["figure", "regression", "progression"].iter().all(|field| exercise.standing.is_sound(field)) {
        return;
    }
    for removed in demands::lost(exercise, &case.model.site).removed {
        let by = remover(exercise, removed);
        let about = [Subject::Demand(removed.value.clone())].into_iter().chain(by);
        sink.about(about.chain([Subject::Field("removes".into())])).add(
            removed.span,
            format!("`removes` takes away `{}`, which the exercise does not ask", removed.value),
            format!("add `{}` to `demands` and answer it, or take it out of `removes`", removed.value),
        );
    }
}

/// The variation, or the easier or harder way, that takes a demand away.
fn remover(exercise: &Exercise, removed: &Spanned<String>) -> Option<Subject> {
    let here = |removes: &[Spanned<String>]| removes.iter().any(|demand| demand.span == removed.span);
    let variation = exercise.variations.iter().find(|v| here(&v.removes));
    let title = variation.map(|v| Subject::Title(v.title.value.clone()));
    title.or_else(|| {
        let mut changes = exercise.regressions.iter().chain(&exercise.progressions);
        Some(match &changes.find(|change| here(&change.removes))?.way {
            Way::Exercise { id, .. } => Subject::Exercise(id.value.clone()),
            Way::Text(text) => Subject::Words(text.value.clone()),
        })
    })
}

/// What a finding about a derived demand of a form is about, that a list of the form does not name.
fn subjects(demand: &Demand<'_>, title: &str, list: &str) -> Vec<Subject> {
    let first = [Subject::Demand(demand.id.into()), Subject::Title(title.into())];
    first.into_iter().chain(asker(demand)).chain([Subject::Field(list.into())]).collect()
}

/// What asks for a derived demand, where a word or a number says it.
fn asker(demand: &Demand<'_>) -> Option<Subject> {
    match demand.from {
        Origin::Surface(position) | Origin::Position(position) => Some(Subject::Position(position.value)),
        Origin::Hold(hold) => Some(Subject::number(hold.value)),
        Origin::Declared(_) | Origin::Figure(..) => None,
    }
}

/// What asks for a derived demand, as a sentence that ends in "asks"; `None` for one that the author declares.
fn source(demand: &Demand<'_>) -> Option<String> {
    Some(match demand.from {
        Origin::Declared(_) => return None,
        Origin::Surface(position) => format!("what is done `{}` on the floor asks", position.value.word()),
        Origin::Position(position) => format!("what is done `{}` asks", position.value.word()),
        Origin::Hold(hold) => format!("a hold of {} asks", hold.value),
        Origin::Figure(..) => "its figure asks".to_string(),
    })
}

/// A hold that a week makes long.
fn check_week(exercise: &Exercise, used: &WeekExercise, case: &Case<'_>, sink: &mut Sink<'_>) {
    let known = ["demands", "dose", "component"].iter().all(|field| exercise.standing.is_sound(field));
    let Some(changed) = used.dose.as_ref().filter(|_| known) else { return };
    let form = Form::base(exercise);
    let own = demands::of_base(exercise, &case.model.site);
    let asked = demands::of(&form, &form.dose(Some(changed)), &case.model.site);
    for demand in asked.iter().filter(|demand| !demands::has(&own, demand.id)) {
        let Some(shown) = source(demand) else { continue };
        let about = [Subject::Demand(demand.id.into()), Subject::Exercise(exercise.id.clone())];
        sink.about(about.into_iter().chain(asker(demand))).add(
            demand.place(),
            format!("{shown} for `{}`, which `{}` does not name", demand.id, exercise.id),
            format!(
                "hold for less time, or add `{}` to the `demands` of `{}` and answer it",
                demand.id, exercise.id
            ),
        );
    }
}

fn check_figure(figure: &Drawn<'_>, sink: &mut Sink<'_>) {
    if !figure.form.exercise.standing.is_sound("demands") {
        return;
    }
    let declared = figure.form.declared();
    let list = if figure.form.variation.is_some() { "adds" } else { "demands" };
    let mut told: Vec<&[&str]> = Vec::new();
    for (index, pose) in figure.drawing.poses.iter().enumerate() {
        for Ask { demands, shown_by } in figure.scene.asks(index) {
            // Each demand once a figure: naming it answers all its poses.
            if demands.iter().any(|d| declared.iter().any(|known| known.value == *d))
                || told.contains(&demands)
            {
                continue;
            }
            told.push(demands);
            let (place, shown, asker) = sign(shown_by, pose);
            let mut fault: Vec<_> =
                demands.iter().map(|demand| Subject::Demand(demand.to_string())).collect();
            fault.extend(asker);
            fault.push(Subject::Field(list.into()));
            let (names, which) = match demands {
                [one] => (format!("`{one}`"), format!("`{one}`")),
                several => {
                    let all: Vec<String> = several.iter().map(|d| format!("`{d}`")).collect();
                    (all.join(" or "), "the one that is true".to_string())
                }
            };
            sink.about(figure.about(index, fault)).add(
                place,
                format!("{shown} for {names}, which `{list}` does not name"),
                format!("add {which} to `{list}` and answer it, or draw the movement without it"),
            );
        }
    }
}

/// Where a demand shows in a pose, a sentence that begins with it and ends in "asks" or "ask", and what of it is a subject.
fn sign(sign: Sign, pose: &Pose) -> (Span, String, Vec<Subject>) {
    let turned = |m: Measured, sides: &[Option<Side>]| {
        let what = movement(m.joint, sides, m.motion);
        let degrees = format!("{:.0}", m.degrees);
        let shown = format!("`{degrees}` degrees of {what} ask");
        let about = vec![Subject::Body(what), Subject::Number(degrees)];
        (turn_place(pose, m.joint, m.side, m.motion), shown, about)
    };
    let of = |side: Side, part: &str| vec![Subject::Body(format!("{} {part}", side.word()))];
    let hold = |side: Side| {
        let said = pose.holds.of(side).as_ref().map(|h| h.span);
        said.or_else(|| pose.turns.iter().find(|t| t.side == Some(side)).map(|t| t.degrees.span))
    };
    let foot = |side: Side| pose.feet.of(side).as_ref().map_or(pose.span, |f| f.span);
    match sign {
        Sign::Turn(m) => turned(m, &[m.side]),
        Sign::Pair(m) => turned(m, &[Some(Side::Left), Some(Side::Right)]),
        Sign::OneFoot(side) => {
            let shown = format!("standing on the {} foot alone asks", side.word());
            (foot(side.other()), shown, of(side, "foot"))
        }
        Sign::Narrow(stance) => {
            let place = pose.stance.as_ref().map_or(pose.span, |s| s.span);
            let about = vec![Subject::Words(stance.word().into())];
            (place, format!("the stance `{}` asks", stance.word()), about)
        }
        Sign::Base(base) => {
            let shown = format!("a figure that is `{}` asks", base.word());
            (pose.base.span, shown, vec![Subject::Position(base)])
        }
        Sign::OnTheFloor(base) => {
            let shown = format!("a figure that is `{}` on the floor asks", base.word());
            (pose.base.span, shown, vec![Subject::Position(base)])
        }
        Sign::HandOverHead(side) => {
            let shown = format!("the {} hand over the head asks", side.word());
            (arm_place(pose, side), shown, of(side, "hand"))
        }
        Sign::LoadOverHead(side) => {
            let shown = format!("a load in the {} hand over the head asks", side.word());
            (arm_place(pose, side), shown, of(side, "hand"))
        }
        Sign::LoadedBack(m) => (
            turn_place(pose, m.joint, m.side, m.motion),
            "a load in the hands of a bent back asks".to_string(),
            Vec::new(),
        ),
        Sign::HandCarries(side) => {
            let place = hold(side).unwrap_or(pose.base.span);
            (place, format!("weight on the {} hand asks", side.word()), of(side, "hand"))
        }
        Sign::HeadLow => {
            let raised = pose.hips_raised.as_ref().map(|h| h.span);
            (raised.unwrap_or(pose.span), "a head lower than the heart asks".to_string(), Vec::new())
        }
        Sign::Crosses(side) => {
            let shown = format!("the {} leg across the middle of the body asks", side.word());
            (foot(side), shown, of(side, "leg"))
        }
        Sign::Jump(height) => {
            let place = pose.jump.as_ref().map_or(pose.span, |j| j.span);
            (place, format!("a jump of `{height}` cm asks"), vec![Subject::number(height)])
        }
    }
}

/// Where the author places an arm: its hold, else the turn of its shoulder.
fn arm_place(pose: &Pose, side: Side) -> Span {
    use crate::model::figure::Joint;
    let turn = pose.turns.iter().find(|t| t.side == Some(side) && t.joint == Joint::Shoulder);
    let hold = pose.holds.of(side).as_ref().map(|h| h.span);
    let height = pose.hold_at.of(side).as_ref().map(|h| h.span);
    height.or(hold).or_else(|| turn.map(|t| t.degrees.span)).unwrap_or(pose.span)
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use crate::review::figures::with_figure;
    use crate::review::testing::{edited, found, undrawn};

    const RAISE: &str = "content/exercises/heel-raise.md";

    /// The demands that the review misses in an exercise without any, in alphabetical order.
    fn asked(props: &str, poses: &str) -> Vec<String> {
        let side_lying = poses.contains("side-lying");
        let view = if side_lying { "view = \"front\"\n" } else { "" };
        let figure = format!("{view}props = [{props}]\n[[figure.pose]]\n{poses}");
        let found = found(&[(RAISE, &with_figure(RAISE, &figure))]);
        let of = found.iter().filter_map(|f| f.strip_prefix("demand-not-declared "));
        let demand = |message: &str| {
            let names = message.split(" for ").last().unwrap_or("").split(", which").next().unwrap_or("");
            names.replace('`', "")
        };
        of.map(demand).collect::<BTreeSet<_>>().into_iter().collect()
    }

    #[test]
    fn what_a_pose_asks_of_the_body_is_seen() {
        for (props, pose, demands) in [
            ("", "base = \"standing\"", &[][..]),
            ("", "base = \"standing\"\nleft_foot = \"lifted\"", &["single-leg-stance"]),
            ("", "base = \"standing\"\nleft_foot = \"toes\"\nweight = \"right\"", &[]),
            ("", "base = \"standing\"\nstance = \"together\"", &["narrow-stance"]),
            ("", "base = \"standing\"\nstance = \"semi-tandem\"", &["narrow-stance"]),
            ("", "base = \"standing\"\nstance = \"tandem\"", &["narrow-stance"]),
            ("", "base = \"standing\"\nstance = \"step\"", &[]),
            ("", "base = \"standing\"\nknee.flexion = 60\nhip.flexion = 70", &[]),
            ("", "base = \"standing\"\nknee.flexion = 100\nhip.flexion = 85", &["deep-knee-bend"]),
            ("", "base = \"standing\"\nknee.flexion = 60\nhip.flexion = 95", &["deep-hip-bend"]),
            (
                "",
                "base = \"standing\"\nleft_foot = \"lifted\"\nleft_hip.flexion = 100\nleft_knee.flexion = 90",
                &["deep-hip-bend", "single-leg-stance"],
            ),
            (
                "",
                "base = \"standing\"\nleft_foot = \"lifted\"\nleft_hip.flexion = 0\nleft_knee.flexion = 100",
                &["single-leg-stance"],
            ),
            (
                "",
                "base = \"standing\"\nleft_foot = \"lifted\"\nleft_hip.flexion = 0\nleft_knee.flexion = 115",
                &["deep-knee-bend", "single-leg-stance"],
            ),
            (
                "",
                "base = \"standing\"\nleft_foot = \"lifted\"\nleft_hip.adduction = 20\nleft_hip.flexion = 10\nleft_knee.flexion = 5",
                &["crossing-midline", "single-leg-stance"],
            ),
            ("", "base = \"standing\"\nshoulder.flexion = 170", &["overhead-reach"]),
            ("", "base = \"standing\"\nshoulder.flexion = 90", &[]),
            (
                "\"weights\"",
                "base = \"standing\"\nshoulder.flexion = 170",
                &["overhead-load", "overhead-reach"],
            ),
            ("", "base = \"standing\"\nspine.flexion = 40", &["end-range-flexion"]),
            ("", "base = \"standing\"\nspine.flexion = 20", &[]),
            (
                "\"weights\"",
                "base = \"standing\"\nspine.flexion = 40",
                &["end-range-flexion", "loaded-flexion"],
            ),
            ("", "base = \"standing\"\nspine.extension = 25", &["end-range-extension"]),
            ("", "base = \"standing\"\nspine.rotation_left = 25", &["end-range-twist"]),
            ("", "base = \"standing\"\nneck.rotation_right = 50", &["head-turn"]),
            ("", "base = \"standing\"\njump = 3", &["impact-moderate or impact-high"]),
            ("\"chair\"", "base = \"seated\"", &[]),
            ("\"chair\"", "base = \"seated\"\nhip.flexion = 100", &["deep-hip-bend"]),
            ("\"chair\"", "base = \"seated\"\nknee.flexion = 100", &[]),
            (
                "\"chair\"",
                "base = \"seated\"\nknee.flexion = 100\n[[figure.pose]]\nbase = \"standing\"",
                &["deep-knee-bend"],
            ),
            ("\"bed\"", "base = \"lying\"\nfeet = \"flat\"", &["lying-flat"]),
            ("", "base = \"lying\"", &["floor-transfer", "lying-flat"]),
            (
                "\"bed\"",
                "base = \"lying\"\nfeet = \"flat\"\nhips_raised = 20",
                &["head-below-heart", "lying-flat"],
            ),
            ("\"bed\"", "base = \"prone\"", &["lying-prone"]),
            ("\"bed\"", "base = \"side-lying\"", &[]),
            ("", "base = \"side-lying\"", &["floor-transfer"]),
            ("", "base = \"kneeling\"", &["floor-transfer", "kneeling"]),
            ("\"bed\"", "base = \"hands-and-knees\"", &["kneeling", "wrist-load"]),
            ("\"counter\"", "base = \"standing\"\nhold = \"counter\"", &[]),
            (
                "{ thing = \"wall\", distance = 60 }",
                "base = \"standing\"\nhold = \"wall\"\nankle.dorsiflexion = 25",
                &["wrist-load"],
            ),
        ] {
            assert_eq!(asked(props, pose), demands, "{props} {pose}");
        }
    }

    #[test]
    fn a_demand_that_is_named_or_cannot_be_read_is_not_missed() {
        let figure = "[[figure.pose]]\nbase = \"standing\"\njump = 3";
        let text = with_figure(RAISE, figure);
        let with = |demands: &str| {
            let found =
                found(&[(RAISE, &text.replace("demands = [\"tiptoe\"]", &format!("demands = [{demands}]")))]);
            found.iter().filter(|f| f.starts_with("demand-not-declared")).count()
        };
        assert_eq!(with("\"tiptoe\""), 1);
        assert_eq!(with("\"tiptoe\", \"impact-moderate\""), 0);
        assert_eq!(with("\"tiptoe\", \"impact-high\""), 0);
        assert_eq!(with("\"tiptoe\", \"impact-low\""), 1);
        assert_eq!(with("\"impact-modrate\""), 0, "a slip in the list is one finding");
    }

    #[test]
    fn what_is_taken_away_and_was_never_there_may_be_lost() {
        let text = undrawn(&edited(RAISE, &[("demands = [\"tiptoe\"]", "demands = []")]));
        let lost: Vec<String> =
            found(&[(RAISE, &text)]).into_iter().filter(|f| f.starts_with("demand-not-declared")).collect();
        assert_eq!(
            lost,
            ["demand-not-declared 23:12 `removes` takes away `tiptoe`, which the exercise does not ask"]
        );
    }

    #[test]
    fn a_demand_is_told_once_a_figure_and_points_at_the_turn() {
        let figure = "[[figure.pose]]\nbase = \"standing\"\nspine.flexion = 40\n[[figure.pose]]\nbase = \"standing\"\nspine.flexion = 50";
        let found = found(&[(RAISE, &with_figure(RAISE, figure))]);
        let missed: Vec<&String> = found.iter().filter(|f| f.starts_with("demand-not-declared")).collect();
        assert_eq!(
            missed,
            [
                "demand-not-declared 46:17 `40` degrees of flexion of the spine ask for `end-range-flexion`, which `demands` does not name"
            ]
        );
    }
}
