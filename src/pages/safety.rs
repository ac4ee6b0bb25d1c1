//! The safety page and the not-found page, whose words are the theme's.

use serde::Serialize;

use super::frame::{About, frame};
use super::{Filled, Link, Pages};
use crate::outputs::Address;

/// Nothing but the theme's words.
#[derive(Serialize)]
pub(super) struct Safety {}

pub(super) fn page(pages: &Pages<'_>, address: &Address) -> Filled<Safety> {
    let mut about = About::titled(pages.words.say("safety-title"));
    about.description = Some(pages.words.say("safety-page-lead"));
    frame(pages, address, about, Safety {})
}

#[derive(Serialize)]
pub(super) struct NotFound {
    links: Vec<Link>,
}

pub(super) fn not_found(pages: &Pages<'_>, address: &Address) -> Filled<NotFound> {
    let links = pages.links(address);
    let link = |to: Address, id: &str| Link { href: links.to(&to), text: pages.words.say(id) };
    let body = NotFound {
        links: vec![
            link(Address::Home, "nav-home"),
            link(Address::Library, "nav-exercises"),
            link(Address::Safety, "nav-safety"),
        ],
    };
    frame(pages, address, About::titled(pages.words.say("not-found-title")), body)
}
