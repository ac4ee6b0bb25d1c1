//! Sitemaps (sitemaps.org, protocol 0.9) and `robots.txt` (RFC 9309).

use super::Feeds;
use crate::outputs::address::folder;
use crate::outputs::feed::{EDUCATOR, Feed, MOST_ADDRESSES};
use crate::outputs::{Address, pages};

const NAMESPACE: &str = "http://www.sitemaps.org/schemas/sitemap/0.9";

/// All pages, or the list of the parts that hold them.
pub(super) fn whole(feeds: &Feeds<'_>) -> String {
    let pages = found(feeds);
    if pages.len() <= MOST_ADDRESSES {
        return listed(feeds, &pages);
    }
    let site = &feeds.model.site.address.value;
    let parts = (1..=pages.len().div_ceil(MOST_ADDRESSES)).map(|part| {
        format!(
            "<sitemap><loc>{}</loc></sitemap>\n",
            escaped(&format!("{site}{}", Feed::SitemapPart(part).path()))
        )
    });
    let parts: String = parts.collect();
    format!("{DECLARATION}<sitemapindex xmlns=\"{NAMESPACE}\">\n{parts}</sitemapindex>\n")
}

/// One part of the pages, from 1.
pub(super) fn part(feeds: &Feeds<'_>, part: usize) -> String {
    let pages = found(feeds);
    listed(feeds, pages.chunks(MOST_ADDRESSES).nth(part.saturating_sub(1)).unwrap_or(&[]))
}

const DECLARATION: &str = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";

/// The pages that a search should find.
fn found(feeds: &Feeds<'_>) -> Vec<Address> {
    pages(feeds.model).into_iter().filter(Address::is_found).collect()
}

fn listed(feeds: &Feeds<'_>, pages: &[Address]) -> String {
    let url = |page: &Address| {
        let changed = feeds.reviewed(page).map(|day| format!("<lastmod>{day}</lastmod>")).unwrap_or_default();
        format!("<url><loc>{}</loc>{changed}</url>\n", escaped(&feeds.address(page)))
    };
    let urls: String = pages.iter().map(url).collect();
    format!("{DECLARATION}<urlset xmlns=\"{NAMESPACE}\">\n{urls}</urlset>\n")
}

/// The five characters that the protocol asks to escape.
fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('\'', "&apos;")
        .replace('"', "&quot;")
        .replace('>', "&gt;")
        .replace('<', "&lt;")
}

/// Everything may be searched but what is for the educator to paste elsewhere.
pub(super) fn robots(feeds: &Feeds<'_>) -> String {
    let site = &feeds.model.site.address.value;
    let (own, map) = (folder(site), Feed::Sitemap.path());
    format!("User-agent: *\nAllow: /\nDisallow: {own}{EDUCATOR}\n\nSitemap: {site}{map}\n")
}
