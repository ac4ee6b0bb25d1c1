//! The plan in plain letters, for a terminal.

mod proposals;

use std::ops::Range;

use super::columns::{GAP, INDENT, bar, range, table, wrap};
use super::{Plan, SeriesPlan};
use crate::model::amount::Amount;
use crate::model::vocabulary::Vocabulary;
use crate::reckon::aims::{NoAim, Origin, Unknown};
use crate::reckon::between::Between;
use crate::reckon::overview::{
    LadderUse, Limit, Load, Overview, PlannedWeek, REGIONS_SOURCE, Score, TargetUse, Unmeasured, Verdict,
};
use crate::review::report::text::Look;
pub(super) use proposals::chosen;

/// Every series, one after the other.
pub(super) fn render(plan: &Plan<'_>, look: Look) -> String {
    let mut text = String::new();
    if plan.errors > 0 {
        let (count, are) = if plan.errors == 1 {
            ("1 error".to_string(), "is")
        } else {
            (format!("{} errors", plan.errors), "are")
        };
        let line = format!(
            "There {are} {count} in this workspace; what could not be read is left open. Run `steadyleaf review` to see more."
        );
        text.push_str(&paragraph(&line, "", look));
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
    let proposals = proposals::proposals(&plan.proposal, look);
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

fn coverage(overview: &Overview<'_>, look: Look) -> Option<String> {
    let week = week_column(overview);
    let width = look.width.saturating_sub(INDENT.len() + week + 4 * GAP.len()) / 4;
    let cells = |planned: &PlannedWeek<'_>| {
        planned
            .cells
            .iter()
            .map(|cell| {
                let exercises = cell.exercises.iter().map(|(_, exercise)| match planned.rung_of(exercise) {
                    Some(rung) => format!("{} {}/{}", exercise.title.value, rung.number, rung.of),
                    None => exercise.title.value.clone(),
                });
                let mut lines: Vec<String> = exercises.collect();
                match cell.exercises.is_empty() {
                    true if cell.is_gap() => lines.push("none".to_string()),
                    _ if !cell.is_whole => lines.push("(not all known)".to_string()),
                    _ => {}
                }
                lines.join("\n")
            })
            .collect::<Vec<_>>()
    };
    let mut body = String::new();
    if width < 12 {
        // Too narrow for four columns: one line a component.
        for planned in &overview.weeks {
            body.push_str(&format!("{INDENT}week {}\n", number(planned)));
            for (cell, words) in planned.cells.iter().zip(cells(planned)) {
                let line = format!("{}: {}", cell.component.word(), words.replace('\n', ", "));
                body.push_str(&paragraph(&line, "    ", look));
            }
        }
    } else {
        let head = ["week", "posture", "balance", "strength", "power"].map(String::from).to_vec();
        let rows = overview.weeks.iter().map(|planned| [vec![number(planned)], cells(planned)].concat());
        let rows: Vec<Vec<String>> = std::iter::once(head).chain(rows).collect();
        body.push_str(&table(&rows, &[week, width, width, width, width]));
    }
    Some(section("Coverage", "Beside an exercise: its rung, and how many rungs its ladder has.", &body, look))
}

fn minutes(overview: &Overview<'_>, look: Look) -> Option<String> {
    let in_minutes = |time: Between| {
        let (low, high) = time.minutes();
        Between::new(low, high)
    };
    let session = |load: &Load| in_minutes(load.session);
    let a_week = |load: &Load| in_minutes(load.week);
    let most =
        |figure: &dyn Fn(&Load) -> Between| loads(overview).map(|load| figure(load).high).max().unwrap_or(0);
    let label = |figure: &dyn Fn(&Load) -> Between| {
        loads(overview).map(|load| range(figure(load)).len()).max().unwrap_or(0)
    };
    let (sessions, weeks) = (label(&session), label(&a_week));
    let week = week_column(overview);
    let blocks = look.width.saturating_sub(INDENT.len() + week + 4 * GAP.len() + 2 + sessions + weeks) / 2;
    let mut body = format!(
        "{INDENT}{:week$}{GAP}{:<first$}{GAP}{GAP}a week\n",
        "week",
        "a session",
        first = blocks + GAP.len() + sessions
    );
    for planned in &overview.weeks {
        let figures = match &planned.load {
            Ok(load) => format!(
                "{}{GAP}{:>sessions$}{GAP}{GAP}{}{GAP}{:>weeks$}",
                bar(session(load), most(&session), blocks),
                range(session(load)),
                bar(a_week(load), most(&a_week), blocks),
                range(a_week(load)),
            ),
            Err(why) => format!("not known: {}", unknown(why)),
        };
        body.push_str(&row(planned, week, &figures));
    }
    let key = "A session does every exercise of the week; a week is each of them on all its days. Full blocks: the low end; light blocks: up to the high end.";
    Some(section("Minutes", key, &body, look))
}

fn landings(overview: &Overview<'_>, look: Look) -> Option<String> {
    let most = loads(overview).map(|load| load.landings_a_session().high).max().unwrap_or(0);
    let all_known = overview.weeks.iter().all(|planned| planned.load.is_ok());
    if most == 0 && all_known {
        return Some(section("Landings", "", &paragraph("No week asks for one.", INDENT, look), look));
    }
    let week = week_column(overview);
    let columns = ["all", "low", "moderate", "high", "a week"];
    let figures = |load: &Load| {
        let level = |at: usize| load.landings[at].session;
        [load.landings_a_session(), level(0), level(1), level(2), load.landings_a_week()].map(|count| {
            match count.high {
                0 => "-".to_string(),
                _ => range(count),
            }
        })
    };
    let widths: Vec<usize> = (0..columns.len())
        .map(|at| {
            loads(overview).map(|load| figures(load)[at].len()).chain([columns[at].len()]).max().unwrap_or(0)
        })
        .collect();
    let used: usize = widths.iter().map(|width| width + GAP.len()).sum();
    let room = look.width.saturating_sub(INDENT.len() + week + GAP.len() + used).min(40);
    // Where there is hardly any room, the figures stand alone.
    let blocks = if room < 5 { 0 } else { room };
    let line = |bar: String, cells: &[String]| {
        let cells = cells.iter().zip(&widths).map(|(cell, &width)| format!("{cell:>width$}"));
        let bar = (blocks > 0).then_some(bar);
        bar.into_iter().chain(cells).collect::<Vec<_>>().join(GAP)
    };
    let head = line(" ".repeat(blocks), &columns.map(String::from));
    let mut body = format!("{INDENT}{:week$}{GAP}{head}\n", "week");
    for planned in &overview.weeks {
        let figures = match &planned.load {
            Ok(load) => line(bar(load.landings_a_session(), most, blocks), &figures(load)),
            Err(why) => format!("not known: {}", unknown(why)),
        };
        body.push_str(&row(planned, week, &figures));
    }
    let key = "Heel drops, stamps, hops and jumps; both feet count. Bars, and all but the last column, are of a session.";
    Some(section("Landings", key, &body, look))
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

fn ladders(overview: &Overview<'_>, look: Look) -> Option<String> {
    if overview.ladders.is_empty() {
        let body = paragraph("No exercise of its weeks stands on a ladder.", INDENT, look);
        return Some(section("Ladders", "", &body, look));
    }
    // A number and two blanks stand before the title of a rung; a week takes three letters.
    let label = (look.width / 3).clamp(16, 34);
    let at_once = (look.width.saturating_sub(INDENT.len() + 4 + label) / 3).max(1);
    let mut blocks: Vec<String> = Vec::new();
    for same in overview.ladders.chunk_by(|one, other| one.component() == other.component()) {
        let component = same.first().and_then(LadderUse::component).map_or("", |component| component.word());
        for first in (0..overview.weeks.len()).step_by(at_once) {
            let weeks = first..(first + at_once).min(overview.weeks.len());
            let short =
                |planned: &PlannedWeek<'_>| planned.number().map_or("?".to_string(), |n| n.to_string());
            let heads: String = overview.weeks[weeks.clone()]
                .iter()
                .map(|planned| format!("{:>3}", short(planned)))
                .collect();
            let drawn: Vec<String> = same.iter().map(|ladder| rungs(ladder, weeks.clone(), label)).collect();
            let width = 4 + label;
            blocks.push(format!("{INDENT}{component:<width$}{heads}\n{}", drawn.join("\n")));
        }
    }
    let body = blocks.join("\n");
    Some(section(
        "Ladders",
        "The easiest rung first; # is a week that uses an exercise of the rung.",
        &body,
        look,
    ))
}

/// The rungs of a ladder, with a mark for each of these weeks.
fn rungs(ladder: &LadderUse<'_>, weeks: Range<usize>, label: usize) -> String {
    let mut text = String::new();
    for (at, rung) in ladder.rungs.iter().enumerate() {
        let titles: Vec<&str> = rung.exercises.iter().map(|e| e.title.value.as_str()).collect();
        let mut titles = wrap(&titles.join(", "), label, "  ").into_iter();
        let mark = |week: usize| if rung.weeks.contains(&week) { "  #" } else { "  ." };
        let marks: String = weeks.clone().map(mark).collect();
        let title = titles.next().unwrap_or_default();
        text.push_str(&format!("{INDENT}{:>2}  {title:<label$}{marks}\n", at + 1));
        titles.for_each(|rest| text.push_str(&format!("{INDENT}    {rest}\n")));
    }
    text
}

fn targets(overview: &Overview<'_>, look: Look) -> Option<String> {
    const COLUMN: usize = 9;
    let week = week_column(overview);
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
    }
    body.push('\n');
    for target in &overview.targets {
        let words = format!("{}: {}", target.target.name, aim_words(target));
        body.push_str(&hanging(&words, INDENT, look));
    }
    let key = "Of strength, a week has the lowest to the highest of its exercises. A dash: nothing of it; \
               < below the aim, > above it, ? not known.";
    Some(section("Targets", key, &body, look))
}

fn limits(overview: &Overview<'_>, look: Look) -> Option<String> {
    let lines: Vec<String> = overview.limits.iter().map(|limit| match limit {
        Limit::Regions { strength } => hanging(
            &format!(
                "One exercise a component cannot train five regions of the body: strength asks for one each for legs, arms, chest, shoulders and back ({REGIONS_SOURCE}), and these weeks have {}. This is how short weeks are, and no fault.",
                range(*strength)
            ),
            INDENT,
            look,
        ),
    }).collect();
    (!lines.is_empty()).then(|| section("Limits", "", &lines.concat(), look))
}

fn score(score: &Score<'_>) -> String {
    let value = score.range().map_or(String::new(), range);
    match score.verdict {
        Verdict::Met => value,
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
            Origin::Default => of(aim.amount, &format!("the default: {}", target.target.source)),
        },
        Err(NoAim::NotFor(precaution)) => format!(
            "no aim: the series serves `{precaution}`, and the default is not meant for it ({})",
            target.target.source
        ),
        Err(NoAim::Unread) => "no aim: what the series serves, or its targets, could not be read".to_string(),
    }
}

/// Why the figures of a week are not known.
pub(super) fn unknown(why: &Unknown<'_>) -> String {
    match why {
        Unknown::List => "its list of exercises could not be read".to_string(),
        Unknown::Missing(id) => format!("there is no `{id}`"),
        Unknown::Unread(id) => format!("`{id}` could not be read"),
        Unknown::Twice(id) => format!("`{id}` stands in it twice"),
    }
}

fn loads<'o>(overview: &'o Overview<'_>) -> impl Iterator<Item = &'o Load> {
    overview.weeks.iter().filter_map(|planned| planned.load.as_ref().ok())
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
