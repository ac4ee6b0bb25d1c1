//! The ladders, with a mark for each week on each rung.

use std::ops::Range;

use super::{paragraph, section};
use crate::cli::plan::columns::{INDENT, wrap};
use crate::model::vocabulary::Vocabulary;
use crate::reckon::overview::{LadderUse, Overview, PlannedWeek};
use crate::review::report::text::Look;

pub(super) fn ladders(overview: &Overview<'_>, look: Look) -> Option<String> {
    if overview.ladders.is_empty() {
        let body = paragraph("No exercise of its weeks is on a ladder.", INDENT, look);
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
