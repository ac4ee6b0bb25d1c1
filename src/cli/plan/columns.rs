//! Columns, bars and lines of plain letters that fit a width.

use crate::reckon::between::Between;

/// Rows of cells in columns of these widths. Cells are wrapped, the lines of a cell after its first set in;
/// where any cell takes several lines, a blank line separates the rows. The first row is their head.
pub(super) fn table(rows: &[Vec<String>], widths: &[usize]) -> String {
    let rows: Vec<Vec<Vec<String>>> = rows
        .iter()
        .map(|row| row.iter().zip(widths).map(|(cell, width)| lines(cell, *width)).collect())
        .collect();
    let several = rows.iter().flatten().any(|cell| cell.len() > 1);
    let mut text = String::new();
    for (at, row) in rows.iter().enumerate() {
        if several && at > 1 {
            text.push('\n');
        }
        for line in 0..row.iter().map(Vec::len).max().unwrap_or(0) {
            let mut drawn = INDENT.to_string();
            for (cell, width) in row.iter().zip(widths) {
                let part = cell.get(line).map_or("", String::as_str);
                drawn.push_str(&format!("{part:<width$}{GAP}"));
            }
            text.push_str(drawn.trim_end());
            text.push('\n');
        }
    }
    text
}

/// What stands before each line of a section.
pub(super) const INDENT: &str = "  ";

/// What stands between two columns.
pub(super) const GAP: &str = "  ";

/// The lines of a cell; each line of its text begins one.
fn lines(cell: &str, width: usize) -> Vec<String> {
    cell.lines().flat_map(|line| wrap(line, width, "  ")).collect()
}

/// A text in lines of at most so many letters, those after the first with `hanging` before them. A word that
/// is longer than a line is cut.
pub(super) fn wrap(text: &str, width: usize, hanging: &str) -> Vec<String> {
    let width = width.max(hanging.len() + 1);
    let mut lines: Vec<String> = Vec::new();
    let mut line = String::new();
    for word in text.split_whitespace() {
        let mut word = word.to_string();
        let empty = |line: &str| line.trim().is_empty();
        if !empty(&line) && line.chars().count() + 1 + word.chars().count() > width {
            lines.push(std::mem::replace(&mut line, hanging.to_string()));
        }
        while empty(&line) && line.chars().count() + word.chars().count() > width {
            let room = width - line.chars().count();
            let rest: String = word.chars().skip(room).collect();
            line.extend(word.chars().take(room));
            lines.push(std::mem::replace(&mut line, hanging.to_string()));
            word = rest;
        }
        if !empty(&line) {
            line.push(' ');
        }
        line.push_str(&word);
    }
    if !line.trim().is_empty() || lines.is_empty() {
        lines.push(line);
    }
    lines
}

/// A bar of blocks: full up to the low end, light up to the high end, where `most` fills the width. What is
/// more than nothing has a block.
pub(super) fn bar(value: Between, most: u64, width: usize) -> String {
    let blocks = |n: u64| match n {
        0 => 0,
        n => ((n as usize * width + most as usize / 2) / most.max(1) as usize)
            .clamp(usize::from(width > 0), width),
    };
    let (low, high) = (blocks(value.low), blocks(value.high));
    format!("{:<width$}", "█".repeat(low) + &"░".repeat(high.saturating_sub(low)))
}

/// "12" or "12-16".
pub(super) fn range(value: Between) -> String {
    match value.low == value.high {
        true => value.low.to_string(),
        false => format!("{}-{}", value.low, value.high),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_is_wrapped_within_its_width_and_nothing_of_it_is_lost() {
        assert_eq!(wrap("Stand up from a high seat", 12, "  "), ["Stand up", "  from a", "  high seat"]);
        assert_eq!(wrap("unaffordable é", 6, "  "), ["unaffo", "  rdab", "  le é"]);
        assert_eq!(wrap("", 6, "  "), [""]);
        for width in 3..20 {
            let lines = wrap("One two threefour fivesixseven eight", width, "  ");
            assert!(lines.iter().all(|line| line.chars().count() <= width), "{lines:?}");
            let letters: String = lines.concat().split_whitespace().collect();
            assert_eq!(letters, "Onetwothreefourfivesixseveneight");
        }
    }

    #[test]
    fn a_bar_is_full_to_its_low_end_and_light_to_its_high_end() {
        assert_eq!(bar(Between::new(5, 10), 20, 8), "██░░    ");
        assert_eq!(bar(Between::new(20, 20), 20, 8), "████████");
        assert_eq!(bar(Between::new(5, 5), 20, 6), "██    ", "rounded");
        assert_eq!(bar(Between::new(0, 1), 100, 8), "░       ");
        assert_eq!(bar(Between::new(0, 0), 0, 4), "    ");
        assert_eq!(bar(Between::new(1, 2), 2, 0), "");
    }

    #[test]
    fn rows_of_one_line_stand_close_and_others_apart() {
        let row = |cells: [&str; 2]| cells.map(String::from).to_vec();
        assert_eq!(table(&[row(["1", "Tall sit"]), row(["2", ""])], &[2, 8]), "  1   Tall sit\n  2\n");
        assert_eq!(
            table(&[row(["no", "form"]), row(["1", "Tall sit"]), row(["2", "Sit\nStand"])], &[2, 5]),
            "  no  form\n  1   Tall\n        sit\n\n  2   Sit\n      Stand\n"
        );
    }
}
