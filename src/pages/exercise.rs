//! An exercise as HTML: its block, on its own page or on a week's, and its own page.

use std::mem::take;

use serde::Serialize;

use super::figure::{self, FigureView};
use super::frame::{About, frame};
use super::home::week_title;
use super::ladder::LadderView;
use super::prose::{ProseContext, exercise_prefix, html};
use super::yours::{Mine, Place};
use super::{Filled, Link, Pages};
use crate::model::exercise::Exercise;
use crate::model::form::Form;
use crate::model::series::Series;
use crate::model::week::Week;
use crate::outputs::Address;
use crate::outputs::address::Links;
use crate::outputs::blocks::caution::{CautionBlock, CautionsTogether, to_stop_and_to_ask};
use crate::outputs::blocks::exercise::{ExerciseBlock, block};
use crate::outputs::blocks::now::NowBlock;
use crate::outputs::blocks::used::UsedExercise;
use crate::outputs::blocks::way::{OfVariation, WayBlock};
use crate::outputs::blocks::week::number_line;
use crate::reckon::approval;
use crate::reckon::this_week::{Time, stretches};

/// An exercise as templates show it: its block, and what only a page knows.
#[derive(Serialize)]
pub(super) struct View<'m> {
    id: String,
    #[serde(flatten)]
    block: ExerciseBlock<'m>,
    pub(super) video: Option<VideoLine>,
    /// The exercises before and after it in its week.
    pub(super) beside: Beside,
    /// Where the form stands that is the reader's; a page with a table fills it.
    pub(super) yours: Option<Place<'m>>,
    cautions: Vec<CautionView<'m>>,
    /// Those of the cautions that say to stop or to ask first, together.
    strict: Vec<CautionsTogether<'m>>,
    /// How many of the others wait to be opened.
    folded: String,
    figures: Vec<FigureView>,
    /// A figure can show its movement.
    moves: bool,
    intro_html: String,
    sections: Vec<SectionView>,
    easier: Vec<WayView<'m>>,
    other_ways: Vec<WayView<'m>>,
    harder: Vec<WayView<'m>>,
}

/// The exercises of a week beside one of them.
#[derive(Default, Serialize)]
pub(super) struct Beside {
    pub(super) previous: Option<Link>,
    pub(super) next: Option<Link>,
}

/// A caution with its place: for one condition or another it waits to be opened, so that the first step is near the top.
#[derive(Serialize)]
struct CautionView<'m> {
    #[serde(flatten)]
    block: CautionBlock<'m>,
    folded: bool,
    everyone: bool,
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
    /// Of a variation: what it leaves out of what the exercise asks of the body, and whom it is not for.
    of_variation: OfVariation,
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
    let mut other_ways = ways("other", take(&mut b.other_ways));
    for (way, variation) in other_ways.iter_mut().zip(&exercise.variations) {
        way.of_variation =
            OfVariation::of(&Form { exercise, variation: Some(variation) }, pages.model, pages.say());
    }
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
    let cautions: Vec<CautionView<'m>> = take(&mut b.cautions)
        .into_iter()
        .map(|block| CautionView { folded: !block.comes_first(), everyone: block.everyone, block })
        .collect();
    let folded = cautions.iter().filter(|caution| caution.folded).count();
    View {
        id,
        video: None,
        beside: Beside::default(),
        yours: None,
        folded: match folded {
            0 => String::new(),
            count => pages.say().counted("cautions-more", count.to_string(), count as f64),
        },
        cautions,
        strict: to_stop_and_to_ask(exercise, pages.model, pages.say()),
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
        of_variation: OfVariation::default(),
        block: way,
    }
}

/// The dose of a week, on its days.
#[derive(Serialize)]
struct DoseNow {
    #[serde(flatten)]
    now: NowBlock,
    /// "This week: 1 set, 3 days a week".
    text: String,
    /// Its place on the page of the week.
    link: Link,
}

#[derive(Serialize)]
pub(super) struct ExercisePage<'m> {
    block: View<'m>,
    /// In which the script looks up the form that is the reader's.
    yours: String,
    /// Its doses in the weeks that use it, each on the days of that week.
    now: Vec<DoseNow>,
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
    let mut mine = Mine::of(pages, address, &[(exercise, None)], &pages.model.all_have());
    let mut block = view(pages, address, &UsedExercise::alone(exercise), 1);
    block.yours = mine.places.pop();
    let body = ExercisePage {
        block,
        practice: address.practice().map(|practice| links.to(&practice)),
        yours: mine.table,
        now: doses_now(pages, &links, exercise),
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

fn doses_now(pages: &Pages<'_>, links: &Links, exercise: &Exercise) -> Vec<DoseNow> {
    let say = pages.say();
    let one = |(series, week): (&Series, &Week)| {
        let stretch = stretches(series).into_iter().find(|s| s.week == week.id && s.time == Time::During)?;
        let row = week.exercises.iter().find(|row| row.id.value == exercise.id)?;
        let used = UsedExercise::in_row(exercise, row);
        Some(DoseNow {
            now: NowBlock::of(&stretch, pages.today(), say),
            text: pages.words.say_with("now-dose", &[("dose", used.glance(say).dose.into())]),
            link: Link {
                href: super::week::place(links, &Address::week(series, week), &exercise.id),
                text: number_line(week, say),
            },
        })
    };
    pages.uses().weeks_of(&exercise.id).filter_map(one).collect()
}
