//! The words about each week that an educator pastes elsewhere.

use serde::Serialize;

use super::super::home::week_title;
use super::super::{Link, Pages};
use crate::model::series::Series;
use crate::model::week::Week;
use crate::outputs::address::Links;
use crate::outputs::feed::Paste;

/// The files of one week.
#[derive(Serialize)]
pub(super) struct WordsRow {
    week: String,
    files: Vec<Link>,
}

pub(super) fn words(pages: &Pages<'_>, links: &Links, series: &Series) -> Vec<WordsRow> {
    let row = |week: &Week| {
        let file = |kind: Paste| Link {
            href: links.file(&kind.path(&series.id, &week.id)),
            text: pages.words.say(match kind {
                Paste::Description => "plan-words-video",
                Paste::Letter => "plan-words-letter",
                Paste::LetterPage => "plan-words-letter-page",
            }),
        };
        WordsRow { week: week_title(pages, week), files: Paste::ALL.map(file).into() }
    };
    series.weeks.iter().map(row).collect()
}
