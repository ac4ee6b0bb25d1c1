//! The files that programs read rather than people, and the images that stand for a page elsewhere.

use super::{Address, Output};
use crate::model::Model;

/// A file for programs.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Feed {
    /// Atom, of all series.
    Site,
    /// Atom, of one series.
    Series(String),
    /// iCalendar, of one series.
    Calendar(String),
    /// All pages, or the list of the parts below.
    Sitemap,
    /// One part of the pages, from 1, where they are too many for one file.
    SitemapPart(usize),
    Robots,
}

/// The most addresses of one sitemap (sitemaps.org, protocol). Every address of ours is far shorter than the
/// 1,000 bytes at which the limit of 50 MB would come first.
pub const MOST_ADDRESSES: usize = 50_000;

impl Feed {
    /// Where the file is, relative to the site's root.
    pub fn path(&self) -> String {
        match self {
            Feed::Site => "feed.xml".to_string(),
            Feed::Series(id) => format!("series/{id}/feed.xml"),
            Feed::Calendar(id) => format!("series/{id}/calendar.ics"),
            Feed::Sitemap => "sitemap.xml".to_string(),
            Feed::SitemapPart(part) => format!("sitemap-{part}.xml"),
            Feed::Robots => "robots.txt".to_string(),
        }
    }
}

/// In how many files so many pages are listed beside the list of these; none where one holds them all.
pub fn sitemap_parts(pages: usize) -> usize {
    if pages > MOST_ADDRESSES { pages.div_ceil(MOST_ADDRESSES) } else { 0 }
}

/// The image that stands for a week where its address is shared.
pub fn preview_path(series: &str, week: &str) -> String {
    format!("series/{series}/{week}-preview.png")
}

/// Every file for programs; `pages` are the pages of the site.
pub(super) fn all(model: &Model, pages: &[Address]) -> Vec<Output> {
    let series = |feed: fn(String) -> Feed| model.series.keys().cloned().map(feed);
    let count = pages.iter().filter(|page| page.is_found()).count();
    let parts = sitemap_parts(count);
    let feeds = [Feed::Site].into_iter().chain(series(Feed::Series)).chain(series(Feed::Calendar));
    let sitemaps = [Feed::Sitemap].into_iter().chain((1..=parts).map(Feed::SitemapPart));
    feeds.chain(sitemaps).chain([Feed::Robots]).map(Output::Feed).collect()
}

/// The folder of what is for the educator and not for clients.
pub const EDUCATOR: &str = "educator/";

/// Words about a week to paste elsewhere.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Paste {
    /// What stands below its video.
    Description,
    /// A letter as plain text.
    Letter,
    /// The same as HTML.
    LetterPage,
}

impl Paste {
    pub const ALL: [Paste; 3] = [Paste::Description, Paste::Letter, Paste::LetterPage];

    /// Where the file is, relative to the site's root.
    pub fn path(self, series: &str, week: &str) -> String {
        let name = match self {
            Paste::Description => "below-the-video.txt",
            Paste::Letter => "letter.txt",
            Paste::LetterPage => "letter.html",
        };
        format!("{EDUCATOR}{series}/{week}-{name}")
    }
}
