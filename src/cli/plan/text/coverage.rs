//! Which exercises each week has of each component.

use super::{number, paragraph, section, week_column};
use crate::cli::plan::columns::{GAP, INDENT, table};
use crate::model::vocabulary::Vocabulary;
use crate::reckon::overview::{Overview, PlannedWeek};
use crate::review::report::text::Look;

pub(super) fn coverage(overview: &Overview<'_>, look: Look) -> Option<String> {
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
