//! Grids read out.

use super::*;
use crate::model::Model;
use crate::model::words::Words;
use crate::outputs::blocks::practice::of_week;
use crate::review::testing::{edited, with_sample, words};

const DROP: &str = "content/exercises/heel-drop.md";

/// A row as a letter a day: planned, open, rest.
fn letters(row: &RowBlock<'_>) -> String {
    let letter = |cell: &CellBlock| match cell.kind {
        Cell::Planned => 'P',
        Cell::Open => 'o',
        Cell::Rest => '-',
    };
    row.cells.iter().map(letter).collect()
}

/// The grid of the second week of the sample for everyone.
fn everyone(model: &Model, words: &Words, look: impl FnOnce(&GridBlock<'_>)) {
    let say = Phrases { words };
    let (_, week) = model.weeks().nth(1).unwrap();
    let spread = of_week(model, week, say).unwrap().spread;
    look(&GridBlock::of(&UsedExercise::of_week(model, week), spread.as_ref(), say));
}

#[test]
fn everyone_chooses_among_all_days_and_sees_one_way_to_spread_them() {
    with_sample(&[], |model| {
        everyone(model, words(), |grid| {
            let days: Vec<&str> = grid.days.iter().map(|day| day.name.as_str()).collect();
            assert_eq!(days.join(" "), "Monday Tuesday Wednesday Thursday Friday Saturday Sunday");
            assert_eq!(grid.how, words().say("log-how-spread"));
            for row in &grid.rows {
                let exercise = model.exercises.values().find(|e| e.title.span == row.title.span).unwrap();
                let days = exercise.dose.days.as_ref().unwrap().value;
                let planned = letters(row).matches('P').count() as u32;
                assert!((days.low..=days.high).contains(&planned), "{}: {}", row.title.value, letters(row));
                assert_eq!(row.choose.is_some(), days.high < 7, "{}", row.title.value);
                assert!(!letters(row).contains('-'));
            }
        });
    });
}

#[test]
fn every_cell_says_its_day_its_exercise_and_what_to_do() {
    let few = edited(DROP, &[("days = \"3-4\"", "days = 1")]);
    with_sample(&[(DROP, &few)], |model| {
        everyone(model, words(), |grid| {
            let row = grid.rows.iter().find(|row| row.title.value.starts_with("Heel drop")).unwrap();
            assert_eq!(row.choose.as_deref(), Some("Choose 1 day"));
            assert_eq!(letters(row).matches('P').count(), 1);
            for (cell, day) in row.cells.iter().zip(&grid.days) {
                let to_do = match cell.kind {
                    Cell::Planned => "check it off. This is a good day for it.",
                    _ => "check it off",
                };
                assert_eq!(cell.said, format!("{}, {}: {to_do}", day.name, row.title.value));
            }
        });
    });
}

#[test]
fn a_grid_without_a_plan_has_open_days_and_speaks_of_no_heavy_boxes() {
    with_sample(&[], |model| {
        let say = Phrases { words: words() };
        let exercises = UsedExercise::of_each(&[&model.exercises["heel-drop"]]);
        let grid = GridBlock::of(&exercises, None, say);
        assert_eq!(letters(&grid.rows[0]), "ooooooo");
        assert_eq!((grid.how, grid.advice.len()), (words().say("log-how"), 0));
    });
}
