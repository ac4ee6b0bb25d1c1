//! The plan of the demonstration reckoned by hand, and of the sample with something in it that cannot be read.

use super::*;
use crate::model::amount::Amount;
use crate::model::vocabulary::Component;
use crate::reckon::aims::{Aim, NoAim, Origin, Unknown};
use crate::reckon::between::Between;
use crate::reckon::regions::Advised;
use crate::review::testing::{self, edited, with_case};

const WEEK: &str = "content/series/first-steps/week-02.md";
const SERIES: &str = "content/series/first-steps/series.toml";
const STAND: &str = "content/exercises/feet-together-stand.md";

/// Looks at the demonstration's series.
fn demonstration(look: impl FnOnce(&Overview<'_>)) {
    let edition = testing::demonstration();
    let (model, sources) = (edition.model(), edition.sources());
    let ladders = Ladders::of(model);
    look(&Overview::of(model, sources, edition.words(), &ladders, &model.series["lantern-hill"]));
}

/// Looks at the sample's series with `files` laid over it.
fn sample(files: &[(&str, &str)], look: impl FnOnce(&Overview<'_>)) {
    with_case(files, |case| {
        let ladders = Ladders::of(case.model);
        let series = &case.model.series["first-steps"];
        look(&Overview::of(case.model, case.sources, case.words, &ladders, series));
    });
}

fn target<'o, 'm>(overview: &'o Overview<'m>, name: &str) -> &'o TargetUse<'m> {
    overview.targets.iter().find(|used| used.target.name == name).unwrap()
}

/// Week 7 of the demonstration in seconds, the way into each exercise (30 to 60) included, a session and a week:
///
/// ```text
/// wall slide     6 x 3                  18          48 to  78    5 to 7 days   240 to  546
/// tandem stand   3 x 10 to 15 x 2 sides 60 to  90
///                one change of side      5 to  10   95 to 160    5 to 7 days   475 to 1120
/// sit to stand   2 x 8 to 12 x 6        96 to 144
///                one rest               60         186 to 264    2 to 3 days   372 to  792
/// knee curl      8 to 12 x 5 x 2 sides  80 to 120
///                one change of side      5 to  10  115 to 190    2 to 3 days   230 to  570
/// heel drop      2 x 10 x 4             80
///                one rest               60         170 to 200    3 to 4 days   510 to  800
///                                                  614 to 892                 1827 to 3828
/// ```
#[test]
fn a_week_takes_what_its_doses_come_to_by_hand() {
    demonstration(|overview| {
        let load = overview.weeks[6].load.as_ref().unwrap();
        assert_eq!(load.session, Between::new(614_000, 892_000));
        assert_eq!(load.week, Between::new(1_827_000, 3_828_000));
        assert_eq!((load.session.minutes(), load.week.minutes()), ((10, 15), (30, 64)));
        // Two sets of ten heel drops on three or four days.
        assert_eq!(load.landings_a_session(), Between::exactly(20));
        assert_eq!(load.landings[0].week, Between::new(60, 80));
        assert_eq!(load.landings[1].session, Between::ZERO);
        // The tandem stand without the way into it: 65 to 100 seconds on 5 to 7 days. The series aims for 7 minutes itself.
        let balance = &target(overview, "balance_minutes").weeks[6];
        assert_eq!((balance.range(), balance.verdict), (Some(Between::new(5, 12)), Verdict::Perhaps));
        // Two exercises of 2 to 3 days that both train the thighs: they go on the same days.
        let strength = &target(overview, "strength_days").weeks[6];
        assert_eq!((strength.range(), strength.verdict), (Some(Between::new(2, 3)), Verdict::Met));
    });
}

#[test]
fn an_exercise_stands_on_its_rung_and_a_ladder_shows_the_weeks_of_each() {
    sample(&[], |overview| {
        let [ladder] = &overview.ladders[..] else { panic!("{} ladders", overview.ladders.len()) };
        let drawn: Vec<_> = ladder.rungs.iter().map(|r| (r.exercises[0].id.as_str(), &r.weeks[..])).collect();
        assert_eq!(drawn, [("heel-raise", &[0][..]), ("heel-drop", &[1])]);
        let power = &overview.weeks[1].cells[3];
        assert_eq!(power.component, Component::Power);
        let (_, drop) = power.exercises[0];
        assert_eq!(overview.weeks[1].rung_of(drop), Some(Rung { number: 2, of: 2 }));
        let (_, sit) = overview.weeks[1].cells[0].exercises[0];
        assert_eq!(overview.weeks[1].rung_of(sit), None);
    });
}

#[test]
fn an_aim_says_who_set_it() {
    sample(&[], |overview| {
        let aim = |name| target(overview, name).aim;
        let amount = |low, high| Amount { low, high };
        assert_eq!(aim("balance_minutes"), Ok(Aim { amount: amount(2, 120), origin: Origin::Series }));
        assert_eq!(aim("posture_days"), Ok(Aim { amount: amount(5, 7), origin: Origin::Default }));
        assert_eq!(aim("impacts"), Err(NoAim::NotFor("spine-fracture")));
    });
    let site = edited("site.toml", &[("# [targets]\n# balance_days", "[targets]\nbalance_days")]);
    sample(&[("site.toml", &site)], |overview| {
        let set = Aim { amount: Amount { low: 5, high: 7 }, origin: Origin::Site };
        assert_eq!(target(overview, "balance_days").aim, Ok(set));
    });
    let unread = edited(SERIES, &[("\"2-120\"", "\"many\"")]);
    sample(&[(SERIES, &unread)], |overview| {
        assert_eq!(target(overview, "posture_days").aim, Err(NoAim::Unread));
        assert_eq!(target(overview, "posture_days").weeks[0].verdict, Verdict::Open);
    });
}

#[test]
fn each_week_meets_its_aims_or_misses_them() {
    let week = edited(
        WEEK,
        &[
            ("dose = { reps = \"10-12\" }", "dose = { reps = 20, days = 1 }"),
            ("  { id = \"heel-drop\", focus = \"Both feet land together.\" },\n", ""),
        ],
    );
    sample(&[(WEEK, &week)], |overview| {
        let verdict = |name, week: usize| target(overview, name).weeks[week].verdict;
        assert_eq!(verdict("posture_days", 1), Verdict::Met);
        assert_eq!(verdict("strength_reps", 0), Verdict::Met);
        assert_eq!(verdict("strength_reps", 1), Verdict::Above);
        assert_eq!(verdict("strength_days", 1), Verdict::Below);
        assert_eq!(verdict("impacts", 1), Verdict::Open);
        let counts = |name| (target(overview, name).count(Verdict::Met), target(overview, name).judged());
        assert_eq!(counts("strength_days"), (1, 2));
        assert_eq!(counts("impacts"), (0, 0));
    });
    let two = edited(WEEK, &[("\"10-12\" } },", "20 } },\n  { id = \"heel-raise\" },")]);
    let raise = "content/exercises/heel-raise.md";
    let strong =
        edited(raise, &[("component = \"power\"", "component = \"strength\""), ("reps = 10", "reps = 5")]);
    sample(&[(WEEK, &two), (raise, &strong)], |overview| {
        assert_eq!(target(overview, "strength_reps").weeks[1].verdict, Verdict::BelowAndAbove);
    });
}

#[test]
fn a_week_of_which_something_is_not_known_has_no_figures_and_says_why() {
    let whole =
        |overview: &Overview<'_>, week: usize| overview.weeks[week].cells.iter().all(|cell| cell.is_whole);
    let missing = edited(WEEK, &[("\"feet-together-stand\"", "\"toe-stand\"")]);
    sample(&[(WEEK, &missing)], |overview| {
        assert_eq!(overview.weeks[1].load, Err(Unknown::Missing("toe-stand")));
        assert!(overview.weeks[0].load.is_ok());
        assert!(!whole(overview, 1) && whole(overview, 0));
        assert!(overview.weeks[1].cells.iter().all(|cell| !cell.is_gap()), "a gap is not concluded");
        assert_eq!(target(overview, "posture_days").weeks[1].verdict, Verdict::Open);
    });
    let often = edited(STAND, &[("days = \"5-7\"", "days = \"often\"")]);
    sample(&[(STAND, &often)], |overview| {
        assert_eq!(overview.weeks[0].load, Err(Unknown::Unread("feet-together-stand")));
        assert!(whole(overview, 0), "its component is known");
    });
    let component = edited(STAND, &[("\"balance\"", "\"yoga\"")]);
    sample(&[(STAND, &component)], |overview| {
        let shown: usize = overview.weeks[0].cells.iter().map(|cell| cell.exercises.len()).sum();
        assert_eq!(shown, 3, "it is put into no component");
    });
    let twice = edited(
        WEEK,
        &[("  { id = \"heel-drop\", focus", "  { id = \"sit-to-stand\" },\n  { id = \"heel-drop\", focus")],
    );
    sample(&[(WEEK, &twice)], |overview| {
        assert_eq!(overview.weeks[1].load, Err(Unknown::Twice("sit-to-stand")));
    });
    let list = edited(WEEK, &[("reps = \"10-12\"", "repz = 3")]);
    sample(&[(WEEK, &list)], |overview| {
        assert_eq!(overview.weeks[1].load, Err(Unknown::List));
    });
    let number = edited(WEEK, &[("week = 2", "week = \"two\"")]);
    sample(&[(WEEK, &number)], |overview| {
        let numbers: Vec<_> = overview.weeks.iter().map(PlannedWeek::number).collect();
        assert!(numbers.contains(&None) && numbers.contains(&Some(1)), "{numbers:?}");
    });
}

/// An aim of 3 days for exercises of 2 days each: on the same days 2, in the practice week up to 4.
#[test]
fn days_of_several_exercises_are_those_of_the_practice_week_and_are_not_added_up() {
    let often = |id: &str, days: &str| {
        let file = format!("content/exercises/{id}.md");
        let text = crate::workspace::sample::text(&file).unwrap();
        let own = ["days = \"5-7\"", "days = \"3-4\"", "days = \"2-3\""];
        let own = own.into_iter().find(|own| text.contains(own)).unwrap();
        let text = text.replace(own, &format!("days = {days}"));
        (file, text.replace("component = \"posture\"", "component = \"balance\""))
    };
    let days = |stand: &str, sit: &str| {
        let files = [often("feet-together-stand", stand), often("tall-sit", sit)];
        let files: Vec<(&str, &str)> =
            files.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
        let mut told = None;
        sample(&files, |overview| {
            let score = &target(overview, "balance_days").weeks[1];
            told = Some((score.range().unwrap(), score.verdict));
        });
        told.unwrap()
    };
    // Never 7 of 5 and 5 days, nor 14.
    assert_eq!(days("5", "5").0.low, 5);
    assert_eq!(days("7", "7"), (Between::new(7, 7), Verdict::Met));
    let (two, verdict) = days("2", "2");
    assert!(two.low == 2 && (3..=4).contains(&two.high), "{two:?}");
    assert_eq!(verdict, Verdict::Perhaps);
    assert_eq!(days("1", "1").1, Verdict::Below);
}

#[test]
fn rests_are_no_minutes_of_balance() {
    let minutes = |rest: &str, hold: &str| {
        let text = edited(STAND, &[("rest = \"10 s\"", rest), ("hold = \"10 s\"", hold)]);
        let mut told = None;
        sample(&[(STAND, &text)], |overview| told = target(overview, "balance_minutes").weeks[0].range());
        told.unwrap()
    };
    let short = minutes("rest = \"10 s\"", "hold = \"10 s\"");
    // 3 x 10 s on 5 to 7 days: 150 to 210 s.
    assert_eq!(short, Between::new(3, 4));
    assert_eq!(minutes("rest = \"5 min\"", "hold = \"10 s\""), short);
    assert_eq!(minutes("rest = \"10 s\"", "hold = \"20 s\""), Between::new(5, 7));
}

/// One exercise each for legs, arms, chest, shoulders and back: Giangregorio et al. 2015, Osteoporos Int
/// 26(3):891-910, Table 4.
#[test]
fn a_region_without_a_strength_exercise_is_a_limit_and_all_five_are_none() {
    use Advised::{Arms, Back, Chest, Legs, Shoulders};
    demonstration(|overview| {
        let [Limit::Regions { strength, weeks }] = &overview.limits[..] else {
            panic!("{:?}", overview.limits)
        };
        let counts = overview.weeks.iter().map(|week| week.cells[2].exercises.len() as u64);
        assert_eq!(*strength, Between::new(counts.clone().min().unwrap(), counts.max().unwrap()));
        let trained = |week: usize| weeks[week].as_ref().unwrap().trained.clone();
        // The wall push-up; then the sit to stand and the knee curl.
        assert_eq!(trained(1), [Arms, Chest, Shoulders]);
        assert_eq!(trained(6), [Legs]);
        assert_eq!(weeks[1].as_ref().unwrap().missing, [Legs, Back]);
    });
    let stand = "content/exercises/sit-to-stand.md";
    let trains = |regions: &str| {
        let text = edited(stand, &[("trains = [\"thighs\", \"hips\"]", &format!("trains = {regions}"))]);
        let mut limits = Vec::new();
        sample(&[(stand, &text)], |overview| limits = overview.limits.clone());
        limits
    };
    assert_eq!(trains("[\"calves\", \"arms\", \"chest\", \"shoulders\", \"lower-back\"]"), []);
    let [Limit::Regions { weeks, .. }] = &trains("[\"neck\", \"belly\", \"upper-back\"]")[..] else {
        panic!()
    };
    let back = Trained { trained: vec![Back], missing: vec![Legs, Arms, Chest, Shoulders] };
    assert_eq!(weeks[..], [Some(back.clone()), Some(back)]);
    // What could not be read trains nothing for certain, and lacks nothing for certain.
    assert_eq!(trains("[\"wings\"]"), []);
}

#[test]
fn a_text_is_graded_or_it_is_said_why_it_is_not() {
    demonstration(|overview| {
        let score = overview.weeks[0].reading.unwrap();
        assert!((1.0..6.0).contains(&score.grade) && score.smog > score.grade, "{score:?}");
    });
    let short = "```toml\nweek = 2\ntitle = \"W\"\ndate = 2026-01-19\nexercises = []\n```\nWelcome.\n";
    sample(&[(WEEK, short)], |overview| {
        assert_eq!(overview.weeks[1].reading, Err(Unmeasured::TooShort));
    });
    with_case(&[], |case| {
        let theme = crate::workspace::theme::Theme::built_in();
        let fluent = theme.text("words/es.ftl").unwrap();
        let spanish = Words::read("es", fluent, theme.lists("es")).unwrap();
        let ladders = Ladders::of(case.model);
        let series = &case.model.series["first-steps"];
        let overview = Overview::of(case.model, case.sources, &spanish, &ladders, series);
        assert_eq!(overview.weeks[0].reading, Err(Unmeasured::Language));
    });
}
