//! A small, complete workspace that the program holds: `begin` writes it, and tests review it.

use include_dir::{Dir, include_dir};
use jiff::ToSpan;
use jiff::civil::Date;

use crate::model::week::next_monday;

static SAMPLE: Dir<'static> = include_dir!("$CARGO_MANIFEST_DIR/src/workspace/sample");

/// The day on which the sample's exercises were reviewed, as its files say it.
const REVIEWED: &str = "2026-01-05";

/// The Monday on which the sample's series starts, as its files say it.
const START: &str = "2026-01-12";

/// The Monday of its second week.
const SECOND_WEEK: &str = "2026-01-19";

/// The names and bytes of its files, sorted by name.
pub fn files() -> Vec<(String, Vec<u8>)> {
    let mut files = Vec::new();
    collect(&SAMPLE, &mut files);
    files.sort();
    files
}

/// The same, with its series starting on the Monday after today.
pub fn files_begun(today: Date) -> Vec<(String, Vec<u8>)> {
    files().into_iter().map(|(name, bytes)| (name, dated(bytes, today))).collect()
}

fn dated(bytes: Vec<u8>, today: Date) -> Vec<u8> {
    let Ok(text) = String::from_utf8(bytes.clone()) else { return bytes };
    let start = next_monday(today);
    let days = [(START, start), (SECOND_WEEK, start.saturating_add(7.days())), (REVIEWED, today)];
    // Each day once: what is put in the place of one may look like another.
    let mut dated = String::with_capacity(text.len());
    let mut rest = text.as_str();
    while let Some((at, (old, new))) =
        days.iter().filter_map(|day| Some((rest.find(day.0)?, day))).min_by_key(|(at, _)| *at)
    {
        dated.push_str(&rest[..at]);
        dated.push_str(&new.to_string());
        rest = &rest[at + old.len()..];
    }
    dated.push_str(rest);
    dated.into_bytes()
}

/// The text of one of its files.
pub fn text(name: &str) -> Option<&'static str> {
    SAMPLE.get_file(name)?.contents_utf8()
}

fn collect(folder: &Dir<'static>, files: &mut Vec<(String, Vec<u8>)>) {
    for file in folder.files() {
        let parts = file.path().components().map(|c| c.as_os_str().to_string_lossy());
        files.push((parts.collect::<Vec<_>>().join("/"), file.contents().to_vec()));
    }
    folder.dirs().for_each(|dir| collect(dir, files));
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;

    #[test]
    fn weeks_stay_a_week_apart_whatever_day_it_is() {
        let days = format!("{} {} {}", REVIEWED, START, SECOND_WEEK);
        for (today, expected) in [
            (date(2026, 1, 12), "2026-01-12 2026-01-19 2026-01-26"),
            (date(2026, 1, 5), "2026-01-05 2026-01-12 2026-01-19"),
            (date(2027, 3, 3), "2027-03-03 2027-03-08 2027-03-15"),
        ] {
            assert_eq!(String::from_utf8(dated(days.clone().into_bytes(), today)).unwrap(), expected);
        }
    }
}
