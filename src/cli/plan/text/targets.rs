//! What each week has of each target, and who set the aims.

use super::{hanging, number, section, week_column};
use crate::cli::plan::columns::{GAP, INDENT, range};
use crate::model::amount::Amount;
use crate::reckon::aims::{NoAim, Origin};
use crate::reckon::overview::{Overview, Score, TargetUse, Verdict};
use crate::review::report::text::Look;

/// The row of the weeks that may meet an aim.
const MAY_BE: &str = "may be";

pub(super) fn targets(overview: &Overview<'_>, look: Look) -> Option<String> {
    const COLUMN: usize = 9;
    let week = week_column(overview).max(MAY_BE.len());
    let at_once = (look.width.saturating_sub(INDENT.len() + week) / (COLUMN + GAP.len())).max(1);
    let mut body = String::new();
    for (at, targets) in overview.targets.chunks(at_once).enumerate() {
        if at > 0 {
            body.push('\n');
        }
        let line = |head: &str, cells: Vec<String>| {
            let cells: String = cells.into_iter().map(|cell| format!("{GAP}{cell:<COLUMN$}")).collect();
            format!("{}\n", format!("{INDENT}{head:<week$}{cells}").trim_end())
        };
        let names = |part: usize| {
            targets.iter().map(|t| t.target.name.split('_').nth(part).unwrap_or("").to_string()).collect()
        };
        body.push_str(&line("week", names(0)));
        body.push_str(&line("", names(1)));
        body.push_str(&line(
            "aim",
            targets.iter().map(|t| t.aim.map_or("none".to_string(), |aim| aim.amount.to_string())).collect(),
        ));
        for (row, planned) in overview.weeks.iter().enumerate() {
            body.push_str(&line(&number(planned), targets.iter().map(|t| score(&t.weeks[row])).collect()));
        }
        let met = |t: &TargetUse<'_>| match t.aim {
            Ok(_) => format!("{}/{}", t.count(Verdict::Met), t.judged()),
            Err(_) => "-".to_string(),
        };
        body.push_str(&line("met", targets.iter().map(met).collect()));
        let perhaps = |t: &TargetUse<'_>| match t.aim {
            Ok(_) => t.count(Verdict::Perhaps).to_string(),
            Err(_) => "-".to_string(),
        };
        body.push_str(&line(MAY_BE, targets.iter().map(perhaps).collect()));
    }
    body.push('\n');
    for target in &overview.targets {
        let words = format!("{}: {}", target.target.name, aim_words(target));
        body.push_str(&hanging(&words, INDENT, look));
    }
    let key = "For strength, a week shows the lowest to the highest of its exercises. A dash: nothing of it; \
               < below the aim, ~ may be met (by the high end alone), > above it, ? not known.";
    Some(section("Targets", key, &body, look))
}

fn score(score: &Score<'_>) -> String {
    let value = score.range().map_or(String::new(), range);
    match score.verdict {
        Verdict::Met => value,
        Verdict::Perhaps => format!("{value} ~"),
        Verdict::Below => format!("{value} <"),
        Verdict::Above => format!("{value} >"),
        Verdict::BelowAndAbove => format!("{value} <>"),
        Verdict::Nothing => "-".to_string(),
        Verdict::Open if score.figures.is_err() => "?".to_string(),
        Verdict::Open if value.is_empty() => "-".to_string(),
        Verdict::Open => value,
    }
}

/// An aim and who set it.
fn aim_words(target: &TargetUse<'_>) -> String {
    let of = |amount: Amount, from: &str| format!("{amount}, {from}");
    match target.aim {
        Ok(aim) => match aim.origin {
            Origin::Series => of(aim.amount, "set in series.toml"),
            Origin::Site => of(aim.amount, "set in site.toml"),
            Origin::Default => of(aim.amount, &format!("the default: {}", target.target.source_as_read())),
        },
        Err(NoAim::NotFor(precaution)) => format!(
            "no aim: the series serves `{precaution}`, and the default is not meant for it ({})",
            target.target.source_as_read()
        ),
        Err(NoAim::Unread) => "no aim: what the series serves, or its targets, could not be read".to_string(),
    }
}
