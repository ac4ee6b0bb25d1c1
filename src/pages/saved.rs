//! What a reader's device keeps of the site.

use serde::Serialize;

use super::frame::{About, frame};
use super::home::week_title;
use super::{Filled, Link, Pages};
use crate::outputs::{Address, offline};

#[derive(Serialize)]
pub(super) struct Saved {
    /// The current week of each series, with its sheets.
    weeks: Vec<SavedWeek>,
}

#[derive(Serialize)]
struct SavedWeek {
    page: Link,
    sheets: Vec<Link>,
}

pub(super) fn page(pages: &Pages<'_>, address: &Address) -> Filled<Saved> {
    let links = pages.links(address);
    let weeks = offline::current(pages.model, pages.today()).map(|(series, week)| {
        let page = Address::week(series, week);
        SavedWeek {
            page: Link { href: links.to(&page), text: week_title(pages, week) },
            sheets: pages.handouts_from(&links, &page),
        }
    });
    let body = Saved { weeks: weeks.collect() };
    let mut about = About::titled(pages.words.say("saved-title"));
    about.description = Some(pages.words.say("saved-lead"));
    frame(pages, address, about, body)
}
