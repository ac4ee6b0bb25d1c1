//! What is said in the video of a week, on a page of its own.

use serde::Serialize;

use super::frame::{About, frame};
use super::home::week_title;
use super::video::{self, TranscriptView};
use super::{Filled, Link, Pages};
use crate::model::series::Series;
use crate::model::week::Week;
use crate::outputs::Address;

#[derive(Serialize)]
pub(super) struct TranscriptPage {
    /// "Week 7: Light on your feet".
    week: String,
    said: TranscriptView,
}

/// `None` where nobody knows what is said.
pub(super) fn page(
    pages: &Pages<'_>,
    address: &Address,
    series: &Series,
    week: &Week,
) -> Option<Filled<TranscriptPage>> {
    let links = pages.links(address);
    let title = week_title(pages, week);
    let body = TranscriptPage { said: video::transcript(pages, series, week)?, week: title.clone() };
    let mut about = About::titled(pages.words.say("transcript-title"));
    about.head_title = Some(pages.words.say_with("transcript-of", &[("week", title.as_str().into())]));
    about.description = about.head_title.clone();
    about.trail = Some(Link { href: links.to(&Address::week(series, week)), text: title });
    Some(frame(pages, address, about, body))
}
