//! A week: its exercises at a glance, each of them whole, then what is around them.

use serde::Serialize;

use super::exercise::{Beside, VideoLine, View, block_id, view};
use super::figure::{Small, small};
use super::frame::{About, frame};
use super::home::week_title;
use super::prose::{ProseContext, html};
use super::video::{self, TranscriptView, VideoView, chapter_href};
use super::yours::Mine;
use super::{Filled, Link, Pages};
use crate::model::series::Series;
use crate::model::week::{Week, clock};
use crate::outputs::Address;
use crate::outputs::address::Links;
use crate::outputs::blocks::practice::{PracticeBlock, of_week};
use crate::outputs::blocks::used::{GlanceBlock, UsedExercise};
use crate::outputs::blocks::week::{WeekBlock, thanks};
use crate::reckon::approval;

#[derive(Serialize)]
pub(super) struct WeekPage<'m> {
    #[serde(flatten)]
    block: WeekBlock<'m>,
    welcome_html: String,
    glance: Vec<GlanceItem<'m>>,
    practice: Option<PracticeBlock<'m>>,
    video: Option<VideoView>,
    /// For themes that show it on the week's own page.
    transcript: Option<TranscriptView>,
    /// The page of what is said in the video.
    transcript_page: Option<String>,
    handouts: Vec<Link>,
    /// To the page that counts it out; none for a week without exercises.
    practice_now: Option<String>,
    exercises: Vec<View<'m>>,
    /// In which the script looks up the forms that are the reader's.
    yours: String,
    /// "Thank you, Ida and Joan."
    thanks: Option<String>,
    previous: Option<Link>,
    next: Option<Link>,
}

/// One exercise of the week at a glance.
#[derive(Serialize)]
pub(super) struct GlanceItem<'m> {
    #[serde(flatten)]
    block: GlanceBlock<'m>,
    href: String,
    #[serde(flatten)]
    small: Small,
    id: &'m str,
}

impl GlanceItem<'_> {
    /// Its drawn picture with the id by which it is found again.
    pub(super) fn lend_picture(&mut self) -> Option<(String, String)> {
        let figure = self.small.figure.take()?;
        self.small.picture = Some(self.id.to_string());
        Some((self.id.to_string(), figure))
    }
}

/// The place of an exercise on the page of a week.
pub(super) fn place(links: &Links, week: &Address, exercise: &str) -> String {
    format!("{}#{}", links.to(week), block_id(exercise))
}

/// The exercises of a week at a glance, each led to by `href` of its id.
pub(super) fn glance<'m>(
    pages: &Pages<'m>,
    links: &Links,
    week: &'m Week,
    href: impl Fn(&str) -> String,
) -> Vec<GlanceItem<'m>> {
    let exercises = UsedExercise::of_week(pages.model, week);
    exercises
        .iter()
        .map(|used| GlanceItem {
            block: used.glance(pages.say()),
            href: href(&used.exercise.id),
            small: small(pages, links, used.exercise),
            id: &used.exercise.id,
        })
        .collect()
}

pub(super) fn page<'m>(
    pages: &Pages<'m>,
    address: &Address,
    series: &Series,
    week: &'m Week,
) -> Filled<WeekPage<'m>> {
    let words = pages.words;
    let links = pages.links(address);
    let entry = ProseContext { address, deeper: 0, label: week.title.value.clone(), prefix: String::new() };
    let (before, after) = series.weeks.beside(&week.id);
    let neighbor = |other: Option<&Week>| {
        other.map(|w| Link { href: links.to(&Address::week(series, w)), text: w.title.value.clone() })
    };
    let each: Vec<_> =
        UsedExercise::of_week(pages.model, week).iter().map(|used| (used.exercise, used.in_week)).collect();
    let have: Vec<&str> = series.all_have_ids().collect();
    let mine = Mine::of(pages, address, &each, &have);
    let mut exercises = exercises(pages, address, &links, week);
    for (view, place) in exercises.iter_mut().zip(mine.places) {
        view.yours = Some(place);
    }
    let body = WeekPage {
        block: WeekBlock::of(week, pages.say()),
        welcome_html: html(pages, &entry, week.prose.blocks()),
        glance: glance(pages, &links, week, |id| format!("#{}", block_id(id))),
        video: video::view(pages, &links, series, week),
        transcript: video::transcript(pages, series, week),
        transcript_page: Address::transcript(pages.model, series, week).map(|page| links.to(&page)),
        practice: of_week(pages.model, week, pages.say()),
        handouts: pages.handouts(address),
        practice_now: address
            .practice()
            .filter(|_| !week.exercises.is_empty())
            .map(|practice| links.to(&practice)),
        exercises,
        yours: mine.table,
        thanks: thanks(week, pages.say()),
        previous: neighbor(before),
        next: neighbor(after),
    };
    let mut about = About::titled(&week.title.value);
    about.head_title = Some(week_title(pages, week));
    let exercises = || pages.model.exercises_of(week).map(|(_, e)| e);
    if !exercises().any(approval::has_changed) {
        about.updated = exercises().filter_map(|e| Some(e.reviewed.as_ref()?.on.value)).max();
    }
    about.description = Some(series.summary.value.clone());
    about.structured_data = Some(super::structured::week(pages, series, week));
    about.trail = Some(Link {
        href: links.to(&Address::Series(series.id.clone())),
        text: words.say_with("week-back-to-series", &[("series", series.title.value.as_str().into())]),
    });
    frame(pages, address, about, body)
}

fn exercises<'m>(pages: &Pages<'m>, address: &Address, links: &Links, week: &'m Week) -> Vec<View<'m>> {
    let shown = |used: &UsedExercise<'_, 'm>| {
        let at = used.in_week.and_then(|row| row.at.as_ref());
        let mut view = view(pages, address, used, 2);
        view.video = at.zip(week.video.as_ref()).map(|(at, video)| VideoLine {
            href: chapter_href(pages, links, video, at.value),
            seconds: at.value,
            text: pages.words.say_with("video-at", &[("time", clock(at.value).into())]),
        });
        view
    };
    let all = UsedExercise::of_week(pages.model, week);
    let beside = |at: Option<usize>| {
        let other = all.get(at?)?;
        Some(Link { href: format!("#{}", block_id(&other.exercise.id)), text: other.title().value.clone() })
    };
    let each = all.iter().enumerate().map(|(at, used)| {
        let mut view = shown(used);
        view.beside = Beside { previous: beside(at.checked_sub(1)), next: beside(Some(at + 1)) };
        view
    });
    each.collect()
}
