//! Atom (RFC 4287): the weeks that have begun, the newest first.

use atom_syndication::{Entry, Feed, FixedDateTime, Generator, Link, Person, Text};
use jiff::civil::Date;

use super::Feeds;
use crate::model::series::Series;
use crate::model::week::Week;
use crate::outputs::Address;
use crate::outputs::feed::Feed as File;

/// How many weeks a feed holds: about as many as a reader could have missed.
const MOST: usize = 50;

/// The weeks of one series, or of all.
pub(super) fn write(feeds: &Feeds<'_>, only: Option<&Series>) -> String {
    let site = &feeds.model.site;
    let mut weeks: Vec<(&Series, &Week)> = feeds
        .model
        .weeks()
        .filter(|(series, week)| only.is_none_or(|s| s.id == series.id) && week.date.value <= feeds.today())
        .collect();
    weeks.sort_by_key(|(series, week)| (std::cmp::Reverse(week.date.value), &series.id, week.number.value));
    weeks.truncate(MOST);
    let page = only.map_or(Address::Home, |series| Address::Series(series.id.clone()));
    let own = only.map_or(File::Site, |series| File::Series(series.id.clone()));
    let address = feeds.address(&page);
    let updated = weeks.iter().map(|(_, week)| feeds.updated(week)).max();
    let begun =
        || only.map(|s| s.start.value).or_else(|| feeds.model.series.values().map(|s| s.start.value).min());

    let mut feed = Feed::default();
    feed.set_lang(site.language.value.clone());
    feed.set_title(only.map_or(site.title.value.as_str(), |series| &series.title.value));
    feed.set_id(address.clone());
    // A feed without a week has changed on no day: that of its series stands in.
    feed.set_updated(moment(updated.or_else(begun).unwrap_or(feeds.today())));
    feed.set_subtitle(summary(feeds, only).map(Text::plain));
    feed.set_generator(Generator { value: "steadyleaf".to_string(), ..Generator::default() });
    feed.set_authors(vec![Person { name: site.educator.name.clone(), ..Person::default() }]);
    feed.set_links(vec![
        link("self", &format!("{}{}", site.address.value, own.path()), "application/atom+xml"),
        link("alternate", &address, "text/html"),
    ]);
    feed.set_entries(weeks.into_iter().map(|(series, week)| entry(feeds, series, week)).collect::<Vec<_>>());
    feed.to_string()
}

fn summary(feeds: &Feeds<'_>, only: Option<&Series>) -> Option<String> {
    match only {
        Some(series) => Some(series.summary.value.clone()),
        None => feeds.model.site.summary.as_ref().map(|summary| summary.value.clone()),
    }
}

fn entry(feeds: &Feeds<'_>, series: &Series, week: &Week) -> Entry {
    let address = feeds.address(&Address::week(series, week));
    let mut entry = Entry::default();
    entry.set_title(feeds.week_title(week));
    entry.set_id(address.clone());
    entry.set_published(moment(week.date.value));
    entry.set_updated(moment(feeds.updated(week)));
    entry.set_links(vec![link("alternate", &address, "text/html")]);
    entry.set_summary(Text::plain(feeds.exercises(week).join("\n")));
    entry
}

fn link(rel: &str, href: &str, mime_type: &str) -> Link {
    Link {
        rel: rel.to_string(),
        href: href.to_string(),
        mime_type: Some(mime_type.to_string()),
        ..Link::default()
    }
}

/// The first moment of a day, as RFC 3339 writes it (RFC 4287, section 3.3).
fn moment(day: Date) -> FixedDateTime {
    format!("{day}T00:00:00Z").parse().unwrap_or_default()
}
