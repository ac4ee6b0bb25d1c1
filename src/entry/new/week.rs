//! A new week of a series as a file, every field explained in a comment.

use jiff::civil::Date;

use super::NewEntry;
use crate::model::exercise::Exercise;
use crate::model::series::Series;
use crate::model::vocabulary::{Component, Vocabulary};

/// The week after the last, with blanks in place of its exercises, one of each component.
pub fn blank_week(series: &Series) -> NewEntry {
    let (number, date) = series.next_week();
    let lines = Component::ALL.iter().map(|component| format!("  {{ id = \"\" }}, # {}\n", component.word()));
    week(series, number, date, &lines.collect::<String>())
}

/// A week with these exercises, each with its component and title in a comment.
pub fn filled_week<'m>(
    series: &Series,
    number: u32,
    date: Date,
    exercises: impl Iterator<Item = &'m Exercise>,
) -> NewEntry {
    let lines = exercises.map(|exercise| {
        let title: Vec<&str> = exercise.title.value.split_whitespace().collect();
        let (id, component) = (&exercise.id, exercise.component.value.word());
        format!("  {{ id = \"{id}\" }}, # {component}: {}\n", title.join(" "))
    });
    week(series, number, date, &lines.collect::<String>())
}

fn week(series: &Series, number: u32, date: Date, exercises: &str) -> NewEntry {
    let text = include_str!("week.md")
        .replace("NUMBER", &number.to_string())
        .replace("DATE", &date.to_string())
        .replace("EXERCISES\n", exercises);
    NewEntry { name: format!("content/series/{}/week-{number:02}.md", series.id), text }
}
