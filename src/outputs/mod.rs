//! Which files are made, and every address and link between them. Never renders one.

pub mod address;
pub mod blocks;
mod citing;
mod derived;
pub mod feed;
pub mod lists;
pub mod media;
pub mod offline;
pub mod sheet;
mod uses;
pub mod video;

use std::collections::BTreeMap;

use crate::model::Model;
use crate::reckon::chapters;
use crate::workspace::theme::{LOGO_FOLDER, Theme};
pub use address::Address;
pub use citing::Citing;
pub use derived::Derived;
pub use feed::Feed;
pub use lists::{List, ListPage};
pub use media::Shot;
pub use sheet::Sheet;
pub use uses::Uses;

/// One file, or one set of files, to make.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Output {
    Page(Address),
    /// A theme file that the pages load, by its name in the theme.
    Asset(String),
    /// A photo in its widths.
    Photo(Shot),
    /// A file of `content/` as it is.
    Media(String),
    /// Captions as WebVTT, by their name below `content/`.
    Captions(String),
    /// The chapters of a week's video, as WebVTT.
    Chapters {
        series: String,
        week: String,
    },
    /// A file for programs.
    Feed(Feed),
    /// The image that stands for a week where its address is shared.
    Preview {
        series: String,
        week: String,
    },
    /// Words about a week to paste elsewhere.
    Words {
        series: String,
        week: String,
        kind: feed::Paste,
    },
    /// What the site is called among the apps of a device.
    Manifest,
    /// The program that keeps the site on a device. It names all other files, so it is made last.
    Worker,
    /// A printed sheet, as PDF.
    Sheet(Sheet),
}

impl Output {
    /// The paths of its files, relative to the site's root; `photos` are the paths of each photo's widths.
    pub fn paths(&self, photos: &BTreeMap<Shot, Vec<String>>) -> Vec<String> {
        match self {
            Output::Page(address) => vec![address.path()],
            Output::Asset(name) => vec![name.clone()],
            Output::Photo(shot) => photos.get(shot).cloned().unwrap_or_default(),
            Output::Media(name) => vec![address::published_name(name)],
            Output::Captions(name) => vec![video::captions_path(name)],
            Output::Chapters { series, week } => vec![video::chapters_path(series, week)],
            Output::Feed(feed) => vec![feed.path()],
            Output::Preview { series, week } => vec![feed::preview_path(series, week)],
            Output::Words { series, week, kind } => vec![kind.path(series, week)],
            Output::Manifest => vec![offline::MANIFEST.to_string()],
            Output::Worker => vec![offline::WORKER.to_string()],
            Output::Sheet(sheet) => vec![sheet.path()],
        }
    }
}

/// Every page of a site, in a fixed order.
pub fn pages(model: &Model) -> Vec<Address> {
    let mut pages = vec![
        Address::Home,
        Address::Library,
        Address::Evidence,
        Address::Safety,
        Address::Saved,
        Address::Yours,
        Address::Days,
        Address::NotFound,
    ];
    pages.extend(List::Library.pages(model).into_iter().map(Address::LibraryPage));
    for series in model.series.values() {
        pages.push(Address::Series(series.id.clone()));
        pages.extend(series.weeks.iter().map(|week| Address::week(series, week)));
        pages.extend(series.weeks.iter().filter_map(|week| Address::transcript(model, series, week)));
    }
    pages.extend(model.exercises.keys().map(|id| Address::Exercise(id.clone())));
    let practices: Vec<Address> = pages.iter().filter_map(Address::practice).collect();
    pages.extend(practices);
    pages.extend(model.pages.keys().map(|id| Address::Free(id.clone())));
    pages
}

/// The pages for educators, which a preview has beside those of the site, in a fixed order.
pub fn pages_for_educators(model: &Model) -> Vec<Address> {
    let mut pages = vec![Address::Plan, Address::Figures, Address::Drawing];
    pages.extend(List::Figures.pages(model).into_iter().map(Address::FiguresPage));
    pages.extend(lists::planned_alone(model).map(|series| Address::SeriesPlan(series.id.clone())));
    pages
}

/// Every output of a workspace and the pages for educators, in a fixed order: what a preview shows.
pub fn previewed(model: &Model, theme: &Theme) -> Vec<Output> {
    let for_educators = pages_for_educators(model).into_iter().map(Output::Page);
    all(model, theme).into_iter().chain(for_educators).collect()
}

/// Every output that a workspace publishes, in a fixed order.
pub fn all(model: &Model, theme: &Theme) -> Vec<Output> {
    let pages = pages(model);
    let feeds = feed::all(model, &pages);
    let previews = model.weeks();
    let words = model.weeks().flat_map(|(series, week)| {
        let words = |kind| Output::Words { series: series.id.clone(), week: week.id.clone(), kind };
        feed::Paste::ALL.map(words)
    });
    let chapters = model.weeks().filter(|(_, week)| !chapters::of_week(model, week).is_empty());
    let assets =
        ["style/", "script/", "fonts/", LOGO_FOLDER].into_iter().flat_map(|folder| theme.below(folder));
    let assets = assets.map(|(name, _)| name).filter(|n| is_loaded(n));
    pages
        .into_iter()
        .map(Output::Page)
        .chain(assets.map(|n| Output::Asset(n.to_string())))
        .chain(media::photos(model).into_iter().map(Output::Photo))
        .chain(media::files(model).into_iter().map(Output::Media))
        .chain(video::captions(model).into_iter().map(Output::Captions))
        .chain(
            chapters
                .map(|(series, week)| Output::Chapters { series: series.id.clone(), week: week.id.clone() }),
        )
        .chain(feeds)
        .chain(
            previews
                .map(|(series, week)| Output::Preview { series: series.id.clone(), week: week.id.clone() }),
        )
        .chain(words)
        .chain([Output::Manifest, Output::Worker])
        .chain(sheet::all(model).into_iter().map(Output::Sheet))
        .collect()
}

/// Of the theme's files, those a browser loads. The scripts of pages stand in the pages.
fn is_loaded(name: &str) -> bool {
    let loaded = [".css", ".svg", ".woff2", "OFL.txt"];
    name == offline::KEEPER
        || name.starts_with(LOGO_FOLDER)
        || loaded.iter().any(|ending| name.ends_with(ending))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::review::testing::with_sample;

    #[test]
    fn the_only_script_among_the_files_is_the_one_that_keeps_the_site() {
        with_sample(&[], |model| {
            let outputs = all(model, &Theme::built_in());
            let paths: Vec<String> =
                outputs.iter().flat_map(|output| output.paths(&BTreeMap::new())).collect();
            let scripts: Vec<&String> = paths.iter().filter(|path| path.ends_with(".js")).collect();
            assert_eq!(scripts, [offline::KEEPER, offline::WORKER]);
            assert!(paths.iter().any(|path| path.starts_with("fonts/") && path.ends_with("OFL.txt")));
        });
    }
}
