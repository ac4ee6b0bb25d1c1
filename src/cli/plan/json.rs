//! The plan as JSON, for programs.

mod proposals;

use serde::Serialize;

use super::text::unknown;
use super::{Plan, SeriesPlan};
use crate::model::vocabulary::Component;
use crate::reckon::aims::{NoAim, Origin, Side};
use crate::reckon::between::Between;
use crate::reckon::coverage::Cell;
use crate::reckon::overview::{LadderUse, Limit, Load, PlannedWeek, TargetUse, Trained, Unmeasured};
use crate::reckon::regions::{ADVISED_SOURCE, Advised};
use crate::review::accepted::Accepted;

/// The plan as one JSON object. Every range is `{ low, high }`; what is not known, and what is not there, is
/// null. Weeks of `ladders`, `targets` and `limits` stand in the order of `weeks`.
pub(super) fn render(plan: &Plan<'_>) -> String {
    let report = Report {
        errors: plan.errors,
        accepted: plan.accepted.iter().map(accepted).collect(),
        series: plan.series.iter().map(series).collect(),
    };
    let mut text = serde_json::to_string_pretty(&report).unwrap_or_default();
    text.push('\n');
    text
}

#[derive(Serialize)]
struct Report<'a> {
    /// Of the review of the whole workspace.
    errors: usize,
    /// The safety findings that somebody has accepted.
    accepted: Vec<AcceptedReport<'a>>,
    series: Vec<SeriesReport<'a>>,
}

#[derive(Serialize)]
struct AcceptedReport<'a> {
    rule: &'a str,
    /// Relative to the workspace.
    file: &'a str,
    /// Of the exception.
    line: usize,
    message: &'a str,
    by: &'a str,
    on: String,
    /// Days since then.
    days: i32,
    because: &'a str,
}

#[derive(Serialize)]
struct SeriesReport<'a> {
    id: &'a str,
    title: &'a str,
    weeks: Vec<WeekReport<'a>>,
    ladders: Vec<LadderReport<'a>>,
    targets: Vec<TargetReport<'a>>,
    limits: Vec<LimitReport<'a>>,
    proposals: proposals::ProposalsReport<'a>,
}

#[derive(Serialize)]
struct WeekReport<'a> {
    /// The name of its file without the ending.
    id: &'a str,
    number: Option<u32>,
    title: &'a str,
    date: Option<String>,
    exercises: ComponentsReport<'a>,
    /// False when some of its exercises, or their components, could not be read.
    exercises_known: bool,
    /// Why there are no minutes, landings and figures of targets.
    unknown: Option<String>,
    session_minutes: Option<Range>,
    week_minutes: Option<Range>,
    landings: Option<LandingsReport>,
    reading: Option<ReadingReport>,
    /// Why there is no `reading`: `language` or `too-short`.
    unmeasured: Option<&'static str>,
}

#[derive(Serialize)]
struct ComponentsReport<'a> {
    posture: Vec<ExerciseReport<'a>>,
    balance: Vec<ExerciseReport<'a>>,
    strength: Vec<ExerciseReport<'a>>,
    power: Vec<ExerciseReport<'a>>,
}

#[derive(Serialize)]
struct ExerciseReport<'a> {
    id: &'a str,
    title: &'a str,
    /// The first rung is 1.
    rung: Option<usize>,
    /// How many rungs its ladder has.
    rungs: Option<usize>,
}

#[derive(Serialize)]
struct Range {
    low: u64,
    high: u64,
}

#[derive(Serialize)]
struct LandingsReport {
    low: LevelReport,
    moderate: LevelReport,
    high: LevelReport,
}

#[derive(Serialize)]
struct LevelReport {
    session: Range,
    week: Range,
}

#[derive(Serialize)]
struct ReadingReport {
    /// Grades, to one decimal.
    flesch_kincaid: f64,
    smog: f64,
}

#[derive(Serialize)]
struct LadderReport<'a> {
    /// The easiest first.
    rungs: Vec<RungReport<'a>>,
}

#[derive(Serialize)]
struct RungReport<'a> {
    exercises: Vec<&'a str>,
    /// The ids of the weeks that use one of them.
    weeks: Vec<&'a str>,
}

#[derive(Serialize)]
struct TargetReport<'a> {
    name: &'static str,
    aim: Option<Range>,
    /// `series`, `site` or `default`.
    set_by: Option<&'static str>,
    /// Where the default is from.
    default_source: String,
    /// Why there is no aim: `not-for` with the precaution, or `unread`.
    no_aim: Option<String>,
    weeks: Vec<ScoreReport<'a>>,
}

#[derive(Serialize)]
struct ScoreReport<'a> {
    /// The id of the week.
    week: &'a str,
    /// Null when they are not known; empty when the week has nothing of it.
    figures: Option<Vec<FigureReport<'a>>>,
}

#[derive(Serialize)]
struct FigureReport<'a> {
    /// The exercise it is of, when it is not of the whole week.
    exercise: Option<&'a str>,
    low: u64,
    high: u64,
    /// `below`, `perhaps`, `met` or `above`; null when there is no aim.
    verdict: Option<&'static str>,
}

#[derive(Serialize)]
struct LimitReport<'a> {
    /// `regions`: weeks without a strength exercise for each of the five regions of the body that advice counts.
    limit: &'static str,
    /// How many strength exercises a week has.
    strength_exercises: Range,
    source: &'static str,
    weeks: Vec<RegionsReport<'a>>,
}

#[derive(Serialize)]
struct RegionsReport<'a> {
    /// The id of the week.
    week: &'a str,
    /// `legs`, `arms`, `chest`, `shoulders`, `back`; null when they are not known.
    trained: Option<Vec<&'static str>>,
    missing: Option<Vec<&'static str>>,
}

fn accepted(a: &Accepted) -> AcceptedReport<'_> {
    AcceptedReport {
        rule: a.rule,
        file: &a.file,
        line: a.line,
        message: &a.message,
        by: &a.by,
        on: a.on.to_string(),
        days: a.days,
        because: &a.because,
    }
}

fn series<'a>(plan: &'a SeriesPlan<'_>) -> SeriesReport<'a> {
    let overview = &plan.overview;
    let ids: Vec<&str> = overview.weeks.iter().map(|planned| planned.week.id.as_str()).collect();
    SeriesReport {
        id: &overview.series.id,
        title: &overview.series.title.value,
        weeks: overview.weeks.iter().map(week).collect(),
        ladders: overview.ladders.iter().map(|used| ladder(used, &ids)).collect(),
        targets: overview.targets.iter().map(|used| target(used, &ids)).collect(),
        limits: overview.limits.iter().map(|one| limit(one, &ids)).collect(),
        proposals: proposals::report(&plan.proposal),
    }
}

fn week<'a>(planned: &'a PlannedWeek<'_>) -> WeekReport<'a> {
    let week = planned.week;
    let load = planned.load.as_ref().ok();
    let one_decimal = |grade: f64| (grade * 10.0).round() / 10.0;
    WeekReport {
        id: &week.id,
        number: planned.number(),
        title: &week.title.value,
        date: week.standing.knows("date").then(|| week.date.value.to_string()),
        exercises: ComponentsReport {
            posture: exercises(planned, Component::Posture),
            balance: exercises(planned, Component::Balance),
            strength: exercises(planned, Component::Strength),
            power: exercises(planned, Component::Power),
        },
        exercises_known: planned.cells.iter().all(|cell| cell.is_whole),
        unknown: planned.load.as_ref().err().map(unknown),
        session_minutes: load.map(|load| minutes(load.session)),
        week_minutes: load.map(|load| minutes(load.week)),
        landings: load.map(landings),
        reading: planned.reading.ok().map(|score| ReadingReport {
            flesch_kincaid: one_decimal(score.grade),
            smog: one_decimal(score.smog),
        }),
        unmeasured: planned.reading.err().map(|why| match why {
            Unmeasured::Language => "language",
            Unmeasured::TooShort => "too-short",
        }),
    }
}

fn exercises<'a>(planned: &'a PlannedWeek<'_>, component: Component) -> Vec<ExerciseReport<'a>> {
    let cell = planned.cells.iter().filter(|cell: &&Cell<'_>| cell.component == component);
    cell.flat_map(|cell| &cell.exercises)
        .map(|(_, exercise)| {
            let rung = planned.rung_of(exercise);
            ExerciseReport {
                id: &exercise.id,
                title: &exercise.title.value,
                rung: rung.map(|rung| rung.number),
                rungs: rung.map(|rung| rung.of),
            }
        })
        .collect()
}

fn landings(load: &Load) -> LandingsReport {
    let [low, moderate, high] =
        load.landings.map(|level| LevelReport { session: range(level.session), week: range(level.week) });
    LandingsReport { low, moderate, high }
}

fn ladder<'a>(used: &'a LadderUse<'_>, ids: &[&'a str]) -> LadderReport<'a> {
    let rungs = used.rungs.iter().map(|rung| RungReport {
        exercises: rung.exercises.iter().map(|exercise| exercise.id.as_str()).collect(),
        weeks: rung.weeks.iter().map(|&at| ids[at]).collect(),
    });
    LadderReport { rungs: rungs.collect() }
}

fn target<'a>(used: &'a TargetUse<'_>, ids: &[&'a str]) -> TargetReport<'a> {
    let aim = used.aim.ok();
    let figure = |value: Between| {
        aim.map(|aim| match Side::of(value, aim.amount) {
            Side::Below => "below",
            Side::Perhaps => "perhaps",
            Side::Met => "met",
            Side::Above => "above",
        })
    };
    let weeks = used.weeks.iter().zip(ids).map(|(score, week)| ScoreReport {
        week,
        figures: score.figures.as_ref().ok().map(|figures| {
            figures
                .iter()
                .map(|of| FigureReport {
                    exercise: of.of.map(|(_, exercise)| exercise.id.as_str()),
                    low: of.value.low,
                    high: of.value.high,
                    verdict: figure(of.value),
                })
                .collect()
        }),
    });
    TargetReport {
        name: used.target.name,
        aim: aim.map(|aim| range(aim.amount.into())),
        set_by: aim.map(|aim| match aim.origin {
            Origin::Series => "series",
            Origin::Site => "site",
            Origin::Default => "default",
        }),
        default_source: used.target.source_as_read(),
        no_aim: used.aim.err().map(|why| match why {
            NoAim::NotFor(precaution) => format!("not-for {precaution}"),
            NoAim::Unread => "unread".to_string(),
        }),
        weeks: weeks.collect(),
    }
}

fn limit<'a>(limit: &Limit, ids: &[&'a str]) -> LimitReport<'a> {
    let words = |regions: &[Advised]| regions.iter().map(|region| region.word()).collect();
    let week = |(week, &id): (&Option<Trained>, &&'a str)| RegionsReport {
        week: id,
        trained: week.as_ref().map(|week| words(&week.trained)),
        missing: week.as_ref().map(|week| words(&week.missing)),
    };
    match limit {
        Limit::Regions { strength, weeks } => LimitReport {
            limit: "regions",
            strength_exercises: range(*strength),
            source: ADVISED_SOURCE,
            weeks: weeks.iter().zip(ids).map(week).collect(),
        },
    }
}

fn minutes(time: Between) -> Range {
    let (low, high) = time.minutes();
    Range { low, high }
}

fn range(value: Between) -> Range {
    Range { low: value.low, high: value.high }
}
