//! The plan in plain letters, for a terminal.

mod accepted;
mod coverage;
mod ladders;
mod load;
mod proposals;
mod targets;

use self::accepted::accepted;
use self::coverage::coverage;
use self::ladders::ladders;
use self::load::{landings, minutes};
pub(super) use self::proposals::chosen;
use self::proposals::proposals;
use self::targets::targets;
use super::columns::{GAP, INDENT, range, wrap};
use super::{Plan, SeriesPlan};
use crate::reckon::aims::Unknown;
use crate::reckon::overview::{Limit, Overview, PlannedWeek, Trained, Unmeasured};
use crate::reckon::regions::{ADVISED_SOURCE, Advised};
use crate::review::report::text::Look;

/// Every series, one after the other.
pub(super) fn render(plan: &Plan<'_>, look: Look) -> String {
    let mut text = String::new();
    if plan.errors > 0 {
        let errors = match plan.errors {
            1 => "is 1 error".to_string(),
            n => format!("are {n} errors"),
        };
        let line = format!(
            "There {errors} in this workspace; what could not be read is left open. Run `steadyleaf review` to see more."
        );
        text.push_str(&paragraph(&line, "", look));
        text.push('\n');
    }
    if let Some(accepted) = accepted(&plan.accepted, look) {
        text.push_str(&accepted);
        text.push('\n');
    }
    if plan.series.is_empty() {
        let line = "There is no series yet. Begin one with `steadyleaf add series TITLE`.";
        text.push_str(&paragraph(line, "", look));
    }
    let series: Vec<String> = plan.series.iter().map(|plan| series(plan, look)).collect();
    text.push_str(&series.join("\n\n"));
    text
}

/// One series: a section for each question about it.
fn series(plan: &SeriesPlan<'_>, look: Look) -> String {
    let overview = &plan.overview;
    let series = overview.series;
    let weeks = match overview.weeks.len() {
        1 => "1 week".to_string(),
        n => format!("{n} weeks"),
    };
    let start = match series.standing.knows("start") {
        true => format!(" from {}", series.start.value),
        false => String::new(),
    };
    let title = title(&format!("{} ({}): {weeks}{start}", series.title.value, series.id), look);
    let proposals = proposals(&plan.proposal, look);
    if overview.weeks.is_empty() {
        let line =
            format!("It has no week yet. Begin one with `steadyleaf add week --series {}`.", series.id);
        return format!("{title}\n\n{}\n{proposals}", paragraph(&line, "", look));
    }
    let sections = [
        coverage(overview, look),
        minutes(overview, look),
        landings(overview, look),
        reading(overview, look),
        ladders(overview, look),
        targets(overview, look),
        limits(overview, look),
        Some(proposals),
    ];
    let sections: Vec<String> = sections.into_iter().flatten().collect();
    format!("{title}\n\n{}", sections.join("\n"))
}

/// A section, with what its signs mean.
fn section(title: &str, key: &str, body: &str, look: Look) -> String {
    let key = if key.is_empty() { String::new() } else { paragraph(key, INDENT, look) };
    format!("{}\n{key}{body}", bold(title, look))
}

fn reading(overview: &Overview<'_>, look: Look) -> Option<String> {
    let title = "Reading grade";
    let all = |why| overview.weeks.iter().all(|planned| planned.reading == Err(why));
    if all(Unmeasured::Language) {
        return Some(section(
            title,
            "",
            &paragraph("Not measured: only English texts are.", INDENT, look),
            look,
        ));
    }
    let week = week_column(overview);
    let mut body = format!("{INDENT}{:week$}{GAP}Flesch-Kincaid{GAP}SMOG\n", "week");
    for planned in &overview.weeks {
        let line = match planned.reading {
            Ok(score) => format!("{:>14.1}{GAP}{:>4.1}", score.grade, score.smog),
            Err(Unmeasured::Language) => "not measured: not English".to_string(),
            Err(Unmeasured::TooShort) => "not measured: too short".to_string(),
        };
        body.push_str(&row(planned, week, &line));
    }
    Some(section(
        title,
        "Of the week's own text: its welcome, cues and question, in years of school.",
        &body,
        look,
    ))
}

fn limits(overview: &Overview<'_>, look: Look) -> Option<String> {
    let sections: Vec<String> =
        overview.limits.iter().map(|limit| match limit {
            Limit::Regions { weeks, .. } => {
                let key = format!(
                    "Regions of the body that each week's strength exercises train. Advice asks for one exercise each for legs, arms, chest, shoulders and back ({ADVISED_SOURCE}). Short weeks have this limit. It is not a mistake."
                );
                let line = |(planned, week): (&PlannedWeek<'_>, &Option<Trained>)| {
                    let regions = week.as_ref().map_or("not known".to_string(), regions);
                    hanging(&format!("week {}: {regions}", number(planned)), INDENT, look)
                };
                let body: String = overview.weeks.iter().zip(weeks).map(line).collect();
                section("Limits", &key, &body, look)
            }
        }).collect();
    (!sections.is_empty()).then(|| sections.concat())
}

/// "legs, arms; not chest, shoulders, back".
fn regions(week: &Trained) -> String {
    let words =
        |regions: &[Advised]| regions.iter().map(|region| region.word()).collect::<Vec<_>>().join(", ");
    match (week.trained.is_empty(), week.missing.is_empty()) {
        (true, _) => "none of the five".to_string(),
        (_, true) => "all five".to_string(),
        _ => format!("{}; not {}", words(&week.trained), words(&week.missing)),
    }
}

/// Why the numbers of a week are not known.
pub(super) fn unknown(why: &Unknown<'_>) -> String {
    match why {
        Unknown::List => "its list of exercises could not be read".to_string(),
        Unknown::Missing(id) => format!("there is no `{id}`"),
        Unknown::Unread(id) => format!("`{id}` could not be read"),
        Unknown::Twice(id) => format!("`{id}` is in it twice"),
    }
}

/// A week's number, or its file's name where that could not be read.
fn number(planned: &PlannedWeek<'_>) -> String {
    planned.number().map_or_else(|| planned.week.id.clone(), |number| number.to_string())
}

fn week_column(overview: &Overview<'_>) -> usize {
    overview
        .weeks
        .iter()
        .map(|planned| number(planned).chars().count())
        .chain(["week".len()])
        .max()
        .unwrap_or(0)
}

fn row(planned: &PlannedWeek<'_>, week: usize, figures: &str) -> String {
    format!("{}\n", format!("{INDENT}{:<week$}{GAP}{figures}", number(planned)).trim_end())
}

fn paragraph(text: &str, indent: &str, look: Look) -> String {
    let lines = wrap(text, look.width.saturating_sub(indent.len()), "");
    lines.into_iter().map(|line| format!("{indent}{line}\n")).collect()
}

fn hanging(text: &str, indent: &str, look: Look) -> String {
    let lines = wrap(text, look.width.saturating_sub(indent.len()), "    ");
    lines.into_iter().map(|line| format!("{indent}{line}\n")).collect()
}

fn title(text: &str, look: Look) -> String {
    let lines: Vec<String> = wrap(text, look.width, "").iter().map(|line| bold(line, look)).collect();
    lines.join("\n")
}

fn bold(text: &str, look: Look) -> String {
    if look.color { format!("\u{1b}[1m{text}\u{1b}[0m") } else { text.to_string() }
}
