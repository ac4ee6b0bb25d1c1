//! The feeds of the sample as they are published.

use jiff::civil::date;

use super::*;
use crate::review::testing::{TODAY, edited, with_sample, words};

const SERIES: &str = "content/series/first-steps/series.toml";

/// A feed of the sample with `files` laid over it.
fn fed(feed: &Feed, today: Date, files: &[(&str, &str)]) -> String {
    let mut text = String::new();
    with_sample(files, |model| {
        text = Feeds { model, words: words(), day: today }.write(feed).expect("a feed");
    });
    text
}

fn series() -> String {
    "first-steps".to_string()
}

#[test]
fn a_feed_holds_the_weeks_that_have_begun() {
    insta::assert_snapshot!(fed(&Feed::Series(series()), date(2026, 1, 20), &[]).replace("><", ">\n<"));
    let before = fed(&Feed::Site, TODAY, &[]);
    assert!(
        !before.contains("<entry>") && before.contains("<updated>2026-01-12T00:00:00+00:00</updated>"),
        "{before}"
    );
}

#[test]
fn a_calendar_holds_every_week_and_every_day_of_practice() {
    insta::assert_snapshot!(fed(&Feed::Calendar(series()), TODAY, &[]).replace("\r\n", "\n"));
}

/// RFC 5545, section 3.1: lines end with CR and LF and have at most 75 octets, and no letter is cut in two.
#[test]
fn lines_of_a_calendar_are_short_enough_with_letters_of_several_octets_too() {
    for length in 60..230 {
        let title = format!("title = \"{}\"", "a".repeat(length));
        let own = edited(SERIES, &[("title = \"First Steps\"", &title)]);
        let calendar = fed(&Feed::Calendar(series()), TODAY, &[(SERIES, &own)]);
        assert!(calendar.split("\r\n").all(|line| line.len() <= 75), "{length}");
    }
    let title = format!("title = \"{}\"", "Évelyne, ça; va \\\\ 体操 ".repeat(12));
    let own = edited(SERIES, &[("title = \"First Steps\"", &title)]);
    let calendar = fed(&Feed::Calendar(series()), TODAY, &[(SERIES, &own)]);
    assert!(calendar.ends_with("\r\n"));
    for line in calendar.split_terminator("\r\n") {
        assert!(line.len() <= 75, "{} octets: {line}", line.len());
        assert!(!line.contains(['\n', '\r']), "{line:?}");
    }
    let unfolded = calendar.replace("\r\n ", "");
    let name = unfolded.lines().find_map(|line| line.strip_prefix("X-WR-CALNAME:")).expect("a name");
    assert!(name.starts_with("Évelyne\\, ça\\; va \\\\ 体操"), "{name}");
}

/// RFC 5545, section 3.3.11: what a reader of the calendar sees is what the author wrote, and no text begins a line of
/// its own.
#[test]
fn every_text_of_a_calendar_is_escaped_once() {
    let hard = "Slow, steady; a\\\\b \u{e9}\u{1f642}\\r\\nBEGIN:VEVENT\\nX:y";
    let meant = "Slow, steady; a\\b \u{e9}\u{1f642}\nBEGIN:VEVENT\nX:y";
    let own = edited(
        SERIES,
        &[
            ("title = \"First Steps\"", &format!("title = \"{hard}\"")),
            ("summary = \"Two weeks of gentle exercise at home.\"", &format!("summary = \"{hard}\"")),
        ],
    );
    let calendar = fed(&Feed::Calendar(series()), TODAY, &[(SERIES, &own)]);
    let unfolded = calendar.replace("\r\n ", "");
    let read = |name: &str| {
        let line = unfolded.split("\r\n").find_map(|line| line.strip_prefix(name)).unwrap_or_default();
        let mut text = String::new();
        let mut letters = line.chars();
        while let Some(letter) = letters.next() {
            match letter {
                '\\' => text.push(letters.next().map_or('?', |next| if next == 'n' { '\n' } else { next })),
                other => text.push(other),
            }
        }
        text
    };
    for name in ["NAME:", "X-WR-CALNAME:", "DESCRIPTION:"] {
        assert_eq!(read(name), meant, "{name}");
    }
    let events = calendar.matches("\r\nBEGIN:VEVENT").count();
    assert_eq!(events, fed(&Feed::Calendar(series()), TODAY, &[]).matches("\r\nBEGIN:VEVENT").count());
}

#[test]
fn uids_differ_and_never_change_with_the_day() {
    let calendar = fed(&Feed::Calendar(series()), TODAY, &[]);
    let uids: Vec<&str> = calendar.lines().filter(|line| line.starts_with("UID:")).collect();
    let unique: std::collections::BTreeSet<&&str> = uids.iter().collect();
    assert_eq!(unique.len(), uids.len());
    assert_eq!(calendar, fed(&Feed::Calendar(series()), date(2026, 6, 1), &[]));
}

#[test]
fn a_sitemap_lists_every_page_but_the_one_for_what_is_not_there() {
    let map = fed(&Feed::Sitemap, TODAY, &[]);
    assert!(map.contains("<loc>https://"), "{map}");
    assert!(map.contains("/exercises/heel-drop.html</loc><lastmod>2026-01-05</lastmod>"), "{map}");
    assert!(!map.contains("404"));
    insta::assert_snapshot!(fed(&Feed::Robots, TODAY, &[]));
}
