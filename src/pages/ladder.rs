//! A ladder as a drawing with a list beside it, which says the same.

use std::collections::BTreeMap;

use serde::Serialize;

use super::Pages;
use crate::model::exercise::Exercise;
use crate::outputs::Address;
use crate::outputs::address::Links;

/// The ladder of an exercise.
#[derive(Serialize)]
pub(super) struct LadderView {
    /// Name and description of the drawing.
    title: String,
    description: String,
    width: usize,
    height: usize,
    lines: Vec<LineView>,
    steps: Vec<StepView>,
    rungs: Vec<RungView>,
}

/// From an easier exercise down to a harder one.
#[derive(Serialize)]
struct LineView {
    x1: usize,
    y1: usize,
    x2: usize,
    y2: usize,
}

/// An exercise on the drawing.
#[derive(Serialize)]
struct StepView {
    x: usize,
    y: usize,
    here: bool,
}

#[derive(Serialize)]
struct RungView {
    exercises: Vec<RungExercise>,
}

#[derive(Serialize)]
struct RungExercise {
    title: String,
    href: String,
    here: bool,
}

/// How far apart the exercises of a rung stand, and the rungs, in units of the drawing.
const ACROSS: usize = 64;
const DOWN: usize = 56;

/// The ladder that an exercise stands on, if it stands on one.
pub(super) fn view(pages: &Pages<'_>, links: &Links, exercise: &Exercise) -> Option<LadderView> {
    let ladder = pages.ladders().ladder_of(&exercise.id)?;
    let number = pages.ladders().rung_of(&exercise.id)?;
    let widest = ladder.rungs.iter().map(Vec::len).max().unwrap_or(1);
    let mut at: BTreeMap<&str, (usize, usize)> = BTreeMap::new();
    for (row, rung) in ladder.rungs.iter().enumerate() {
        let left = (widest - rung.len()) * ACROSS / 2;
        for (column, id) in rung.iter().enumerate() {
            at.insert(id, (left + column * ACROSS + ACROSS / 2, row * DOWN + DOWN / 2));
        }
    }
    let count = ladder.rungs.len();
    let said = |id: &str| {
        pages.words.say_with(
            id,
            &[
                ("title", exercise.title.value.as_str().into()),
                ("number", number.to_string().into()),
                ("count", count.to_string().into()),
            ],
        )
    };
    // In order of the easier exercise's id.
    let lines = at.iter().flat_map(|(easier, &(x1, y1))| {
        let harder = pages.ladders().harder(easier).into_iter().filter_map(|id| at.get(id));
        harder.map(move |&(x2, y2)| LineView { x1, y1, x2, y2 })
    });
    Some(LadderView {
        title: said("ladder-drawing"),
        description: said("ladder-drawing-about"),
        width: widest * ACROSS,
        height: count * DOWN,
        lines: lines.collect(),
        steps: at.iter().map(|(id, &(x, y))| StepView { x, y, here: *id == exercise.id }).collect(),
        rungs: ladder.rungs.iter().map(|rung| rung_view(pages, links, rung, exercise)).collect(),
    })
}

fn rung_view(pages: &Pages<'_>, links: &Links, rung: &[&str], here: &Exercise) -> RungView {
    let exercises = rung.iter().filter_map(|id| pages.model.exercises.get(id));
    RungView {
        exercises: exercises
            .map(|e| RungExercise {
                title: e.title.value.clone(),
                href: links.to(&Address::Exercise(e.id.clone())),
                here: e.id == here.id,
            })
            .collect(),
    }
}

/// "Rung 3 of 5", for an exercise on a ladder.
pub(super) fn rung_line(pages: &Pages<'_>, id: &str) -> Option<String> {
    let number = pages.ladders().rung_of(id)?;
    let count = pages.ladders().ladder_of(id)?.rungs.len();
    let arguments = [("number", number.to_string().into()), ("count", count.to_string().into())];
    Some(pages.words.say_with("ladder-rung", &arguments))
}
