//! An exercise as HTML: its block, on its own page or on a week's, and its own page.

use serde::Serialize;

use super::figure::{self, FigureView};
use super::frame::{About, frame};
use super::home::week_title;
use super::ladder::LadderView;
use super::markdown::Parts;
use super::prose::{Entry, exercise_prefix, html};
use super::series::named;
use super::{Filled, Link, Named, Pages};
use crate::model::exercise::Exercise;
use crate::model::vocabulary::Vocabulary;
use crate::outputs::Address;
use crate::outputs::address::Links;
use crate::outputs::blocks::dose::DoseBlock;
use crate::outputs::blocks::exercise::{CautionBlock, ExerciseBlock, WayBlock, block};
use crate::outputs::blocks::part::Part;
use crate::reckon::approval;

/// An exercise block as templates show it.
#[derive(Serialize)]
pub(super) struct View {
    id: String,
    title: String,
    also_called: Option<String>,
    component: Named,
    /// "Exercise 2 of 4", on a week's page.
    number_line: Option<String>,
    summary: String,
    focus: Option<String>,
    position_word: String,
    support_text: Option<String>,
    equipment_text: String,
    pub(super) video: Option<VideoLine>,
    dose: DoseBlock,
    cautions: Vec<CautionView>,
    figures: Vec<FigureView>,
    /// A figure can show its movement.
    pub(super) moves: bool,
    intro_html: String,
    sections: Vec<SectionView>,
    easier: Vec<WayView>,
    other_ways: Vec<WayView>,
    harder: Vec<WayView>,
    reviewed: String,
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
struct CautionView {
    level: &'static str,
    who: String,
    level_word: String,
    text: String,
}

#[derive(Serialize)]
struct SectionView {
    name: &'static str,
    id: String,
    title: String,
    html: String,
}

#[derive(Serialize)]
struct WayView {
    title: Option<String>,
    href: Option<String>,
    text: Option<String>,
    steps: Vec<String>,
    figures: Vec<FigureView>,
    needs: Option<String>,
    dose: Option<String>,
    cautions: Vec<CautionView>,
    not_for: Option<String>,
}

/// The id of an exercise's block on a page.
pub(super) fn block_id(id: &str) -> String {
    format!("{}{id}", super::findings::BLOCK)
}

/// The view of an exercise whose own heading has the given level.
pub(super) fn view(pages: &Pages<'_>, address: &Address, part: &Part<'_, '_>, level: u8) -> View {
    let exercise = part.exercise;
    let links = pages.links(address);
    let b: ExerciseBlock<'_> = block(part, pages.model, pages.say());
    // A section's heading stands one level below the exercise's, and its own headings, from level 3
    // in the prose, below that.
    let entry = Entry {
        address,
        file: exercise.file,
        deeper: level - 1,
        label: exercise.title.value.clone(),
        prefix: exercise_prefix(&exercise.id),
    };
    let mut parts = html(pages, &entry, Parts::Sections, exercise.prose.span).into_iter();
    let id = block_id(b.id);
    let ways = |kind: &str, list: Vec<WayBlock<'_>>| {
        let each = list.into_iter().enumerate();
        each.map(|(at, w)| way(pages, &links, w, &format!("{id}.{kind}.{}", at + 1), b.title)).collect()
    };
    let (easier, other_ways, harder) =
        (ways("easier", b.easier), ways("other", b.other_ways), ways("harder", b.harder));
    // Only an exercise's own page is worth the weight of movements.
    let moving = part.used.is_none();
    let figures: Vec<FigureView> = b
        .figures
        .iter()
        .enumerate()
        .filter_map(|(at, f)| {
            let figure_id = format!("{id}.figure.{}", at + 1);
            figure::view(pages, &links, f, &figure_id, b.title, moving)
        })
        .collect();
    View {
        id,
        title: b.title.to_string(),
        also_called: b.also_called,
        component: named(pages, b.component),
        number_line: b.number_line,
        summary: b.summary.to_string(),
        focus: b.focus.map(str::to_string),
        position_word: b.position,
        support_text: b.support,
        equipment_text: b.equipment,
        video: None,
        dose: b.dose,
        cautions: b.cautions.into_iter().map(caution).collect(),
        moves: figures.iter().any(FigureView::moves),
        figures,
        intro_html: parts.next().unwrap_or_default(),
        sections: b
            .sections
            .into_iter()
            .zip(parts)
            .map(|(s, html)| SectionView {
                name: s.name,
                id: format!("{}{}", entry.prefix, s.anchor),
                title: s.title.to_string(),
                html,
            })
            .collect(),
        easier,
        other_ways,
        harder,
        reviewed: b.reviewed,
    }
}

fn caution(c: CautionBlock<'_>) -> CautionView {
    CautionView { level: c.level.word(), who: c.who, level_word: c.strict, text: c.text.to_string() }
}

fn way(pages: &Pages<'_>, links: &Links, way: WayBlock<'_>, id: &str, title: &str) -> WayView {
    // A picture of another form is called as that form is.
    let title = way.title.as_deref().unwrap_or(title);
    let figures = way.figures.iter().enumerate();
    let figures = figures.filter_map(|(at, f)| {
        figure::view(pages, links, f, &format!("{id}.figure.{}", at + 1), title, false)
    });
    WayView {
        figures: figures.collect(),
        steps: way.steps.into_iter().map(|step| step.value.clone()).collect(),
        cautions: way.cautions.into_iter().map(caution).collect(),
        not_for: way.not_for,
        href: way.exercise.map(|id| links.to(&Address::Exercise(id.to_string()))),
        title: way.title,
        text: way.text.map(str::to_string),
        needs: way.needs,
        dose: way.dose,
    }
}

#[derive(Serialize)]
pub(super) struct ExercisePage {
    block: View,
    ladder: Option<LadderView>,
    weeks: Vec<Link>,
    references: Vec<Link>,
    handouts: Vec<Link>,
}

pub(super) fn page(pages: &Pages<'_>, address: &Address, exercise: &Exercise) -> Filled<ExercisePage> {
    let links = pages.links(address);
    let body = ExercisePage {
        block: view(pages, address, &Part::alone(exercise), 1),
        ladder: super::ladder::view(pages, &links, exercise),
        weeks: pages
            .uses
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
