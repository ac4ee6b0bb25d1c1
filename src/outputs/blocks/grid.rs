//! The grid to check off a week: each exercise a row, each day a column.

use serde::Serialize;

use super::dose::count;
use super::phrases::Phrases;
use super::practice::Spread;
use super::turn::weekday;
use super::used::UsedExercise;
use crate::model::source::Spanned;
use crate::model::vocabulary::{Day, Vocabulary};

/// The grid of a week.
#[derive(Clone, Debug, Serialize)]
pub struct GridBlock<'m> {
    /// How to use it.
    pub how: String,
    /// Seven, Monday first.
    pub days: Vec<ColumnBlock>,
    #[serde(skip)]
    pub rows: Vec<RowBlock<'m>>,
    /// What stays when the days are changed.
    pub advice: Vec<String>,
}

/// The head of a day's column, and what is asked below it besides the exercises.
#[derive(Clone, Debug, Serialize)]
pub struct ColumnBlock {
    /// "Mon".
    pub short: String,
    /// "Monday".
    pub name: String,
    /// "Monday: how hard it was. Write a number".
    pub effort: String,
}

/// The row of an exercise.
#[derive(Clone, Debug, Serialize)]
pub struct RowBlock<'m> {
    pub title: &'m Spanned<String>,
    /// "10 times, 2 sets".
    pub count: String,
    /// "Choose 3 to 4 days", where the reader chooses.
    pub choose: Option<String>,
    /// Seven, Monday first.
    pub cells: Vec<CellBlock>,
}

/// A day of an exercise.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CellBlock {
    pub kind: Cell,
    /// What a screen reader says: "Monday, Heel drop: check it off".
    pub said: String,
}

/// What a day asks of an exercise.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Cell {
    /// It is planned for that day.
    Planned,
    /// It may be done on that day.
    Open,
    /// It is not done on that day.
    Rest,
}

/// The most days of a week.
const EVERY_DAY: u32 = 7;

impl<'m> GridBlock<'m> {
    /// For everyone any day is open, and those of one way to spread the practice are planned; a person has her days.
    pub fn of(
        exercises: &[UsedExercise<'_, 'm>],
        spread: Option<&Spread<'m>>,
        say: Phrases<'_>,
    ) -> GridBlock<'m> {
        let rows: Vec<RowBlock<'m>> = exercises.iter().map(|used| row(used, spread, say)).collect();
        let has = |kind: Cell| rows.iter().flat_map(|row| &row.cells).any(|cell| cell.kind == kind);
        let how = match (has(Cell::Planned), has(Cell::Open)) {
            (true, true) => "log-how-spread",
            _ => "log-how",
        };
        let column = |&day: &Day| {
            let name = say.capital(&weekday(day, say));
            ColumnBlock {
                short: say.capital(&say.words.say(&format!("weekday-short-{}", day.number()))),
                effort: say.words.say_with("log-effort-of", &[("day", name.as_str().into())]),
                name,
            }
        };
        GridBlock {
            how: say.words.say(how),
            days: Day::ALL.iter().map(column).collect(),
            rows,
            advice: spread.map(|spread| spread.advice.clone()).unwrap_or_default(),
        }
    }
}

fn row<'m>(used: &UsedExercise<'_, 'm>, spread: Option<&Spread<'m>>, say: Phrases<'_>) -> RowBlock<'m> {
    let title = used.title();
    let dose = used.dose();
    let asked = dose.days.as_ref().map(|days| days.value).filter(|days| days.high < EVERY_DAY);
    let planned = |day: Day| match used.chosen {
        Some(chosen) => chosen.days.contains(day),
        None => spread.is_some_and(|spread| {
            let of_day = spread.days.get(day as usize);
            of_day.is_some_and(|day| day.exercises.iter().any(|done| done.title.span == title.span))
        }),
    };
    let cell = |&day: &Day| {
        let kind = match (planned(day), used.chosen.is_some()) {
            (true, _) => Cell::Planned,
            (false, true) => Cell::Rest,
            (false, false) => Cell::Open,
        };
        let id = match kind {
            Cell::Planned if used.chosen.is_none() && asked.is_some() => "log-cell-planned",
            Cell::Planned | Cell::Open => "log-cell",
            Cell::Rest => "log-cell-rest",
        };
        let day = say.capital(&weekday(day, say));
        let both = [("day", day.into()), ("exercise", title.value.as_str().into())];
        CellBlock { kind, said: say.words.say_with(id, &both) }
    };
    RowBlock {
        title,
        count: count(&dose, say),
        choose: asked
            .filter(|_| used.chosen.is_none())
            .map(|days| say.counted("log-choose", say.amount(days), f64::from(days.high))),
        cells: Day::ALL.iter().map(cell).collect(),
    }
}

#[cfg(test)]
mod tests;
