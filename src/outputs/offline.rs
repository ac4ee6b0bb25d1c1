//! What a reader's device keeps of the site, so that it opens without a network.

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::Date;

use super::{Address, Output, Shot};
use crate::model::Model;
use crate::model::series::Series;
use crate::model::week::Week;

/// The program that keeps them (W3C Service Workers), at the root so that all pages are under it.
pub const WORKER: &str = "worker.js";

/// The theme's file that says what that program does.
pub const KEEPER: &str = "script/keep.js";

/// What the site is called and how it looks among the apps of a device (W3C Web Application Manifest).
pub const MANIFEST: &str = "site.webmanifest";

/// The week of each series that a reader is in on a day.
pub fn current(model: &Model, today: Date) -> impl Iterator<Item = (&Series, &Week)> {
    model.series.values().filter_map(move |series| Some((series, series.week_on(today)?)))
}

/// The files that are kept from the first visit on, by their paths: how the site looks, its general pages and those of
/// its menu, and the current week of each series with its exercises, their photos and its sheets. `photos` are the paths of each photo's
/// widths. What else a reader opens is kept as well, from then on.
pub fn saved(
    model: &Model,
    today: Date,
    outputs: &[Output],
    photos: &BTreeMap<Shot, Vec<String>>,
) -> BTreeSet<String> {
    use Address::{Days, Evidence, Home, Library, Safety, Saved, Yours};
    let mut pages = BTreeSet::from([Home, Library, Safety, Evidence, Saved, Yours, Days]);
    pages.extend(model.menu().into_iter().map(|(id, _)| Address::Free(id.to_string())));
    let mut weeks = BTreeSet::new();
    let mut pictures = BTreeSet::new();
    for (series, week) in current(model, today) {
        let page = Address::week(series, week);
        pages.extend(page.practice());
        weeks.insert(page);
        pages.insert(Address::Series(series.id.clone()));
        for (_, e) in model.exercises_of(week) {
            let page = Address::Exercise(e.id.clone());
            pages.extend(page.practice());
            pages.insert(page);
            pictures.extend(e.all_figures().filter_map(|figure| figure.photo().map(Shot::of)));
        }
    }
    pages.extend(weeks.iter().cloned());
    let is_saved = |output: &&Output| match output {
        Output::Page(address) => pages.contains(address),
        Output::Asset(name) => !name.ends_with(".txt"),
        Output::Sheet(sheet) => weeks.contains(&sheet.of),
        Output::Photo(shot) => pictures.contains(shot),
        _ => false,
    };
    outputs.iter().filter(is_saved).flat_map(|output| output.paths(photos)).collect()
}
