//! Each target: what it asks for, where that is from, and what the weeks have of it.

use serde::Serialize;

use super::{amount, runs, unknown};
use crate::pages::Pages;
use crate::reckon::aims::{NoAim, Origin};
use crate::reckon::overview::{Overview, Score, TargetUse, Verdict};

#[derive(Serialize)]
pub(super) struct TargetView {
    title: String,
    /// "Aim: 5 to 7", or that there is none.
    aim: String,
    /// Who set it, and where a default is from.
    origin: String,
    /// "Met in 3 of 12 weeks", where there is an aim.
    met: Option<String>,
    /// "May be met in 5 more", where only the high end of some weeks meets it.
    perhaps: Option<String>,
    weeks: Vec<ScoreView>,
}

/// Weeks that follow each other and have the same of it.
#[derive(Serialize)]
struct ScoreView {
    weeks: String,
    value: String,
    /// "may be met", "below", "above", where it does not meet its aim for certain.
    verdict: Option<String>,
    /// True where it misses its aim.
    is_missed: bool,
}

pub(super) fn targets(pages: &Pages<'_>, overview: &Overview<'_>) -> Vec<TargetView> {
    overview.targets.iter().map(|used| target(pages, overview, used)).collect()
}

fn target(pages: &Pages<'_>, overview: &Overview<'_>, used: &TargetUse<'_>) -> TargetView {
    let words = pages.words;
    let (aim, origin) = aim_words(pages, used);
    let same = |one: usize, other: usize| {
        let (one, other) = (&used.weeks[one], &used.weeks[other]);
        one.range() == other.range()
            && one.verdict == other.verdict
            && one.figures.is_ok() == other.figures.is_ok()
    };
    let places: Vec<usize> = (0..used.weeks.len()).collect();
    let weeks = runs(pages, &overview.weeks, &places, same).into_iter().map(|(weeks, at)| ScoreView {
        weeks,
        value: value(pages, &used.weeks[at]),
        verdict: verdict(used.weeks[at].verdict).map(|id| words.say(id)),
        is_missed: !matches!(
            used.weeks[at].verdict,
            Verdict::Met | Verdict::Perhaps | Verdict::Nothing | Verdict::Open
        ),
    });
    let counts =
        [("met", used.count(Verdict::Met).to_string().into()), ("count", (used.judged() as f64).into())];
    let perhaps = used.count(Verdict::Perhaps);
    TargetView {
        title: words.say(&format!("plan-target-{}", used.target.name.replace('_', "-"))),
        aim,
        origin,
        met: (used.aim.is_ok() && used.judged() > 0).then(|| words.say_with("plan-met", &counts)),
        perhaps: (perhaps > 0)
            .then(|| pages.say().counted("plan-perhaps-met", perhaps.to_string(), perhaps as f64)),
        weeks: weeks.collect(),
    }
}

fn value(pages: &Pages<'_>, score: &Score<'_>) -> String {
    match (&score.figures, score.range()) {
        (Err(why), _) => unknown(pages, why),
        (Ok(_), Some(range)) => amount(pages, range),
        (Ok(_), None) => pages.words.say("plan-nothing"),
    }
}

fn verdict(verdict: Verdict) -> Option<&'static str> {
    match verdict {
        Verdict::Perhaps => Some("plan-perhaps"),
        Verdict::Below => Some("plan-below"),
        Verdict::Above => Some("plan-above"),
        Verdict::BelowAndAbove => Some("plan-below-and-above"),
        Verdict::Met | Verdict::Nothing | Verdict::Open => None,
    }
}

fn aim_words(pages: &Pages<'_>, used: &TargetUse<'_>) -> (String, String) {
    let words = pages.words;
    let source = ("source", used.target.source.into());
    match used.aim {
        Ok(aim) => {
            let asked = words.say_with("plan-aim", &[("amount", amount(pages, aim.amount.into()).into())]);
            let default = amount(pages, used.target.default.into());
            let beside = [("amount", default.into()), source.clone()];
            let origin = match aim.origin {
                Origin::Series => words.say_with("plan-aim-series", &beside),
                Origin::Site => words.say_with("plan-aim-site", &beside),
                Origin::Default => words.say_with("plan-aim-default", &[source]),
            };
            (asked, origin)
        }
        Err(NoAim::NotFor(precaution)) => {
            let who = pages.say().precaution(&pages.model.site, precaution);
            (
                words.say("plan-aim-none"),
                words.say_with("plan-aim-not-for", &[("precaution", who.into()), source]),
            )
        }
        Err(NoAim::Unread) => (words.say("plan-aim-none"), words.say("plan-aim-unread")),
    }
}
