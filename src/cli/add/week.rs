//! A new week of a series as a file, every field explained in a comment.

use jiff::civil::Date;

use super::New;
use crate::model::exercise::Exercise;
use crate::model::series::Series;
use crate::model::vocabulary::{Component, Vocabulary};

/// The week with blanks in place of its exercises, one of each component.
pub(super) fn blank(series: &Series, number: u32, date: Date) -> New {
    let lines = Component::ALL.iter().map(|component| format!("  {{ id = \"\" }}, # {}\n", component.word()));
    week(series, number, date, &lines.collect::<String>())
}

/// The week with these exercises, each with its component and title in a comment.
pub(in crate::cli) fn filled<'m>(
    series: &Series,
    number: u32,
    date: Date,
    exercises: impl Iterator<Item = &'m Exercise>,
) -> New {
    let lines = exercises.map(|exercise| {
        let title: Vec<&str> = exercise.title.value.split_whitespace().collect();
        let (id, component) = (&exercise.id, exercise.component.value.word());
        format!("  {{ id = \"{id}\" }}, # {component}: {}\n", title.join(" "))
    });
    week(series, number, date, &lines.collect::<String>())
}

fn week(series: &Series, number: u32, date: Date, exercises: &str) -> New {
    let text = include_str!("week.md")
        .replace("NUMBER", &number.to_string())
        .replace("DATE", &date.to_string())
        .replace("EXERCISES\n", exercises);
    New { name: format!("content/series/{}/week-{number:02}.md", series.id), text }
}
