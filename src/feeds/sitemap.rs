//! Sitemaps (sitemaps.org, protocol 0.9) and `robots.txt` (RFC 9309).

use super::Feeds;
use crate::outputs::address::folder;
use crate::outputs::feed::{EDUCATOR, Feed, MOST_ADDRESSES, sitemap_parts};
use crate::outputs::{Address, pages};

const NAMESPACE: &str = "http://www.sitemaps.org/schemas/sitemap/0.9";

/// All pages, or the list of the parts that hold them.
pub(super) fn whole(feeds: &Feeds<'_>) -> String {
    of(feeds, &found(feeds), None)
}

/// One part of the pages, from 1.
pub(super) fn part(feeds: &Feeds<'_>, part: usize) -> String {
    of(feeds, &found(feeds), Some(part))
}

fn of(feeds: &Feeds<'_>, pages: &[Address], part: Option<usize>) -> String {
    match (part, sitemap_parts(pages.len())) {
        (Some(part), _) => {
            listed(feeds, pages.chunks(MOST_ADDRESSES).nth(part.saturating_sub(1)).unwrap_or(&[]))
        }
        (None, 0) => listed(feeds, pages),
        (None, parts) => {
            let site = &feeds.model.site.address.value;
            let part = |part| {
                let address = format!("{site}{}", Feed::SitemapPart(part).path());
                format!("<sitemap><loc>{}</loc></sitemap>\n", escaped(&address))
            };
            let parts: String = (1..=parts).map(part).collect();
            format!("{DECLARATION}<sitemapindex xmlns=\"{NAMESPACE}\">\n{parts}</sitemapindex>\n")
        }
    }
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::review::testing::{TODAY, with_sample, words};

    /// 50,000 addresses are the most of one file (sitemaps.org, protocol).
    #[test]
    fn more_pages_than_one_file_may_hold_are_parted() {
        with_sample(&[], |model| {
            let feeds = Feeds { model, words: words(), day: TODAY };
            let pages = |count: usize| -> Vec<Address> {
                (0..count).map(|number| Address::Free(format!("page-{number}"))).collect()
            };
            let (fits, split) = (pages(50_000), pages(100_001));
            let count = |text: &str| text.matches("<loc>").count();
            assert_eq!(count(&of(&feeds, &fits, None)), 50_000);
            let list = of(&feeds, &split, None);
            assert!(list.contains("<sitemapindex") && count(&list) == 3, "{list}");
            assert!(list.contains("<loc>https://first-steps.example/sitemap-3.xml</loc>"), "{list}");
            let parts = [1, 2, 3].map(|part| of(&feeds, &split, Some(part)));
            assert_eq!(parts.each_ref().map(|part| count(part)), [50_000, 50_000, 1]);
            assert!(parts[2].contains("page-100000.html"));
            assert!(parts.iter().all(|part| part.len() < 52_428_800));
        });
    }
}
