//! An exercise as HTML: its block, on its own page or on a week's, and its own page.

use std::mem::take;

use serde::Serialize;

use super::figure::{self, FigureView};
use super::frame::{About, frame};
use super::home::week_title;
use super::ladder::LadderView;
use super::prose::{ProseContext, exercise_prefix, html};
use super::{Filled, Link, Pages};
use crate::model::exercise::Exercise;
use crate::outputs::Address;
use crate::outputs::address::Links;
use crate::outputs::blocks::caution::CautionBlock;
use crate::outputs::blocks::exercise::{ExerciseBlock, block};
use crate::outputs::blocks::used::UsedExercise;
use crate::outputs::blocks::way::WayBlock;
use crate::reckon::approval;

/// An exercise as templates show it: its block, and what only a page knows.
#[derive(Serialize)]
pub(super) struct View<'m> {
    id: String,
    #[serde(flatten)]
    block: ExerciseBlock<'m>,
    pub(super) video: Option<VideoLine>,
    cautions: Vec<CautionBlock<'m>>,
    figures: Vec<FigureView>,
    /// A figure can show its movement.
    moves: bool,
    intro_html: String,
    sections: Vec<SectionView>,
    easier: Vec<WayView<'m>>,
    other_ways: Vec<WayView<'m>>,
    harder: Vec<WayView<'m>>,
}

/// Where the exercise starts in the video.
#[derive(Serialize)]
pub(super) struct VideoLine {
    pub(super) href: Option<String>,
    /// For the player on the page.
    pub(super) seconds: u32,
    pub(super) text: String,
}

#[derive(Serialize)]
struct SectionView {
    name: &'static str,
    id: String,
    title: String,
    html: String,
}

/// A way with the page that it leads to, and its pictures.
#[derive(Serialize)]
struct WayView<'m> {
    #[serde(flatten)]
    block: WayBlock<'m>,
    href: Option<String>,
    figures: Vec<FigureView>,
    cautions: Vec<CautionBlock<'m>>,
}

/// The id of an exercise's block on a page.
pub(super) fn block_id(id: &str) -> String {
    format!("{}{id}", super::findings::BLOCK)
}

/// The view of an exercise whose own heading has the given level.
pub(super) fn view<'m>(
    pages: &Pages<'m>,
    address: &Address,
    used: &UsedExercise<'_, 'm>,
    level: u8,
) -> View<'m> {
    let exercise = used.exercise;
    let links = pages.links(address);
    let mut b: ExerciseBlock<'m> = block(used, pages.model, pages.say());
    // A section's heading stands one level below the exercise's, and its own headings, from level 3
    // in the prose, below that.
    let entry = ProseContext {
        address,
        deeper: level - 1,
        label: exercise.title.value.clone(),
        prefix: exercise_prefix(&exercise.id),
    };
    let id = block_id(b.id);
    let title = b.title.value.as_str();
    let ways = |kind: &str, list: Vec<WayBlock<'m>>| -> Vec<WayView<'m>> {
        let each = list.into_iter().enumerate();
        each.map(|(at, w)| way(pages, &links, w, &format!("{id}.{kind}.{}", at + 1), title)).collect()
    };
    let easier = ways("easier", take(&mut b.easier));
    let other_ways = ways("other", take(&mut b.other_ways));
    let harder = ways("harder", take(&mut b.harder));
    // Only an exercise's own page is worth the weight of movements.
    let moving = used.in_week.is_none();
    let figures: Vec<FigureView> = b
        .figures
        .iter()
        .enumerate()
        .filter_map(|(at, f)| {
            let figure_id = format!("{id}.figure.{}", at + 1);
            figure::view(pages, &links, f, &figure_id, title, moving)
        })
        .collect();
    View {
        id,
        video: None,
        cautions: take(&mut b.cautions),
        moves: figures.iter().any(FigureView::moves),
        figures,
        intro_html: html(pages, &entry, b.intro),
        sections: take(&mut b.sections)
            .into_iter()
            .map(|s| SectionView {
                name: s.name,
                id: format!("{}{}", entry.prefix, s.section.anchor),
                title: s.section.title.value.clone(),
                html: html(pages, &entry, &s.section.blocks),
            })
            .collect(),
        easier,
        other_ways,
        harder,
        block: b,
    }
}

fn way<'m>(pages: &Pages<'m>, links: &Links, mut way: WayBlock<'m>, id: &str, title: &str) -> WayView<'m> {
    // A picture of another form is called as that form is.
    let title = way.title.as_deref().unwrap_or(title);
    let figures = way.figures.iter().enumerate();
    let figures = figures.filter_map(|(at, f)| {
        figure::view(pages, links, f, &format!("{id}.figure.{}", at + 1), title, false)
    });
    WayView {
        figures: figures.collect(),
        href: way.exercise.map(|id| links.to(&Address::Exercise(id.to_string()))),
        cautions: take(&mut way.cautions),
        block: way,
    }
}

#[derive(Serialize)]
pub(super) struct ExercisePage<'m> {
    block: View<'m>,
    /// To the page that counts it out.
    practice: Option<String>,
    ladder: Option<LadderView>,
    weeks: Vec<Link>,
    references: Vec<Link>,
    handouts: Vec<Link>,
}

pub(super) fn page<'m>(
    pages: &Pages<'m>,
    address: &Address,
    exercise: &'m Exercise,
) -> Filled<ExercisePage<'m>> {
    let links = pages.links(address);
    let body = ExercisePage {
        block: view(pages, address, &UsedExercise::alone(exercise), 1),
        practice: address.practice().map(|practice| links.to(&practice)),
        ladder: super::ladder::view(pages, &links, exercise),
        weeks: pages
            .uses()
            .weeks_of(&exercise.id)
            .map(|(series, week)| Link {
                href: links.to(&Address::week(series, week)),
                text: match pages.model.series.len() {
                    1 => week_title(pages, week),
                    _ => format!("{}, {}", series.title.value, week_title(pages, week)),
                },
            })
            .collect(),
        references: super::evidence::cited(pages, &links, &exercise.prose),
        handouts: pages.handouts(address),
    };
    let mut about = About::titled(&exercise.title.value);
    about.description = Some(exercise.summary.value.clone());
    about.structured_data = Some(super::structured::exercise(pages, exercise));
    about.trail =
        Some(Link { href: links.to(&Address::Library), text: pages.words.say("exercise-back-to-library") });
    about.updated = approval::standing(exercise).map(|r| r.on.value);
    frame(pages, address, about, body)
}
