//! What stands around every page: its head, its navigation, its safety line.

use jiff::civil::Date;
use serde::Serialize;

use super::home::week_title;
use super::{Filled, Link, Pages};
use crate::outputs::address::Links;
use crate::outputs::feed::preview_path;
use crate::outputs::{Address, Feed};
use crate::print::preview;

/// The frame of one page.
#[derive(Debug, Serialize)]
pub(crate) struct Frame {
    title: String,
    head_title: String,
    description: Option<String>,
    canonical: Option<String>,
    /// The way to the site's root, such as `../../`.
    root: String,
    home: String,
    safety: String,
    saved: String,
    yours: String,
    days: String,
    library: String,
    /// Every page of the menu.
    nav: Vec<NavLink>,
    /// Those of it that are always in sight.
    menu: Vec<NavLink>,
    /// The others, behind "More".
    more: Vec<NavLink>,
    /// The way back up.
    trail: Option<Link>,
    /// To the plan, on the pages of a preview.
    plan: Option<Link>,
    /// From one page for educators to the others.
    educators: Vec<Link>,
    updated: Option<String>,
    draft: bool,
    /// Links for machines in the page's head.
    head_links: Vec<HeadLink>,
    structured_data: Option<String>,
    /// The image that stands for it where its address is shared.
    preview: Option<Preview>,
}

#[derive(Debug, Serialize)]
struct Preview {
    href: String,
    width: u32,
    height: u32,
    description: String,
}

#[derive(Debug, Serialize)]
struct NavLink {
    href: String,
    text: String,
    current: bool,
}

#[derive(Debug, Serialize)]
struct HeadLink {
    rel: &'static str,
    r#type: &'static str,
    title: String,
    href: String,
}

/// What is particular about a page's frame.
pub(crate) struct About {
    pub(crate) title: String,
    pub(crate) description: Option<String>,
    pub(crate) trail: Option<Link>,
    /// When the exercises on it were last reviewed, if none has changed since.
    pub(crate) updated: Option<Date>,
    /// What stands in the browser's tab before the site's name, where it is not the title.
    pub(crate) head_title: Option<String>,
    /// JSON-LD.
    pub(crate) structured_data: Option<String>,
}

impl About {
    pub(crate) fn titled(title: impl Into<String>) -> About {
        About {
            title: title.into(),
            description: None,
            trail: None,
            updated: None,
            head_title: None,
            structured_data: None,
        }
    }
}

/// Puts a page's body into its frame.
pub(crate) fn frame<T>(pages: &Pages<'_>, address: &Address, about: About, body: T) -> Filled<T> {
    let links = pages.links(address);
    let site = &pages.model.site;
    let head_title = match address {
        Address::Home => site.title.value.clone(),
        _ => pages.words.say_with(
            "page-title",
            &[
                ("title", about.head_title.as_deref().unwrap_or(&about.title).into()),
                ("site", site.title.value.as_str().into()),
            ],
        ),
    };
    let canonical = match address {
        Address::NotFound => None,
        Address::Home => Some(site.address.value.clone()),
        other => Some(format!("{}{}", site.address.value, other.path())),
    };
    let frame = Frame {
        head_title,
        title: about.title,
        description: about.description,
        canonical,
        root: links.root(),
        home: links.to(&Address::Home),
        safety: links.to(&Address::Safety),
        saved: links.to(&Address::Saved),
        yours: links.to(&Address::Yours),
        days: links.to(&Address::Days),
        library: links.to(&Address::Library),
        nav: nav(pages, address),
        menu: menu(pages, address),
        more: more(pages, address),
        trail: about.trail,
        plan: (pages.are_for_educators() || address.is_for_educators()).then(|| plan(pages, &links)),
        educators: educators(pages, address, &links),
        updated: about
            .updated
            .map(|date| pages.words.say_with("footer-updated", &[("date", pages.say().date(date).into())])),
        draft: pages.draft,
        head_links: feed_of(pages, address, &links).into_iter().collect(),
        preview: preview(pages, address),
        structured_data: about.structured_data,
    };
    Filled { frame, body }
}

/// The feed in which the weeks of a page can be followed.
fn feed_of(pages: &Pages<'_>, address: &Address, links: &Links) -> Option<HeadLink> {
    let (feed, title) = match address {
        Address::Home => (Feed::Site, &pages.model.site.title),
        Address::Series(id) | Address::Week { series: id, .. } => {
            (Feed::Series(id.clone()), &pages.model.series.get(id)?.title)
        }
        _ => return None,
    };
    let href = links.file(&feed.path());
    Some(HeadLink { rel: "alternate", r#type: "application/atom+xml", title: title.value.clone(), href })
}

fn preview(pages: &Pages<'_>, address: &Address) -> Option<Preview> {
    let Address::Week { series, id } = address else { return None };
    let (_, week) = pages.week(series, id)?;
    let site = &pages.model.site;
    let about = [("week", week_title(pages, week).into()), ("site", site.title.value.as_str().into())];
    Some(Preview {
        href: format!("{}{}", site.address.value, preview_path(series, id)),
        width: preview::WIDTH,
        height: preview::HEIGHT,
        description: pages.words.say_with("preview-alt", &about),
    })
}

/// Only the foot leads to the plan, and only in a preview: clients need not read it.
fn plan(pages: &Pages<'_>, links: &Links) -> Link {
    let count = [("count", (pages.model.series.len() as f64).into())];
    Link { href: links.to(&Address::Plan), text: pages.words.say_with("footer-plan", &count) }
}

fn educators(pages: &Pages<'_>, address: &Address, links: &Links) -> Vec<Link> {
    if !address.is_for_educators() {
        return Vec::new();
    }
    let all = [
        (Address::Plan, "plan-title"),
        (Address::Figures, "figures-title"),
        (Address::Drawing, "drawing-title"),
    ];
    let others = all.into_iter().filter(|(other, _)| other != address);
    others.map(|(other, title)| Link { href: links.to(&other), text: pages.words.say(title) }).collect()
}

/// Home, exercises, the free pages in their order, safety, evidence.
fn nav(pages: &Pages<'_>, address: &Address) -> Vec<NavLink> {
    let mut nav = named(pages, address, [(Address::Home, "nav-home"), (Address::Library, "nav-exercises")]);
    nav.extend(free(pages, address));
    nav.extend(named(pages, address, [(Address::Safety, "nav-safety"), (Address::Evidence, "nav-evidence")]));
    nav
}

/// This week, exercises, safety: what a reader comes for.
fn menu(pages: &Pages<'_>, address: &Address) -> Vec<NavLink> {
    let all = [
        (Address::Home, "home-this-week"),
        (Address::Library, "nav-exercises"),
        (Address::Safety, "nav-safety"),
    ];
    named(pages, address, all)
}

/// What the reader has done and what is true for her, the free pages in their order, evidence, what the device keeps.
fn more(pages: &Pages<'_>, address: &Address) -> Vec<NavLink> {
    let mut more = named(pages, address, [(Address::Days, "nav-days"), (Address::Yours, "yours-title")]);
    more.extend(free(pages, address));
    let all = [(Address::Evidence, "nav-evidence"), (Address::Saved, "footer-saved")];
    more.extend(named(pages, address, all));
    more
}

fn free(pages: &Pages<'_>, address: &Address) -> Vec<NavLink> {
    let free = pages.model.menu().into_iter();
    free.map(|(id, title)| nav_link(pages, address, &Address::Free(id.to_string()), title.to_string()))
        .collect()
}

fn named<const N: usize>(pages: &Pages<'_>, address: &Address, all: [(Address, &str); N]) -> Vec<NavLink> {
    all.iter().map(|(to, id)| nav_link(pages, address, to, pages.words.say(id))).collect()
}

fn nav_link(pages: &Pages<'_>, address: &Address, to: &Address, text: String) -> NavLink {
    NavLink { href: pages.links(address).to(to), current: to == address, text }
}
