//! Which files are made, and every address and link between them. Never renders one.

pub mod address;
pub mod blocks;
pub mod links;
pub mod media;
pub mod sheet;
mod uses;

use std::collections::BTreeMap;

use crate::model::Model;
use crate::workspace::theme::Theme;
pub use address::Address;
pub use sheet::Sheet;
pub use uses::Uses;

/// One file, or one set of files, to make.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Output {
    Page(Address),
    /// A theme file that the pages load, by its name in the theme.
    Asset(String),
    /// A photo in its widths, by its name below `content/`.
    Photo(String),
    /// A file of `content/` as it is.
    Media(String),
    /// A printed sheet, as PDF.
    Sheet(Sheet),
}

impl Output {
    /// The paths of its files, relative to the site's root; `photos` are the paths of each photo's widths.
    pub fn paths(&self, photos: &BTreeMap<String, Vec<String>>) -> Vec<String> {
        match self {
            Output::Page(address) => vec![address.path()],
            Output::Asset(name) => vec![name.clone()],
            Output::Photo(name) => photos.get(name).cloned().unwrap_or_default(),
            Output::Media(name) => vec![address::published_name(name)],
            Output::Sheet(sheet) => vec![sheet.path()],
        }
    }
}

/// Every output of a workspace, in a fixed order.
pub fn all(model: &Model, theme: &Theme) -> Vec<Output> {
    let mut pages = vec![
        Address::Home,
        Address::Library,
        Address::Evidence,
        Address::Safety,
        Address::Plan,
        Address::NotFound,
    ];
    for series in model.series.values() {
        pages.push(Address::Series(series.id.clone()));
        pages.extend(series.weeks.iter().map(|w| Address::week(series, w)));
    }
    pages.extend(model.exercises.keys().map(|id| Address::Exercise(id.clone())));
    pages.extend(model.pages.keys().map(|id| Address::Free(id.clone())));
    let assets = ["style/", "script/", "fonts/"].into_iter().flat_map(|folder| theme.below(folder));
    let assets = assets.map(|(name, _)| name).filter(|n| is_loaded(n));
    pages
        .into_iter()
        .map(Output::Page)
        .chain(assets.map(|n| Output::Asset(n.to_string())))
        .chain(media::photos(model).into_iter().map(Output::Photo))
        .chain(media::files(model).into_iter().map(Output::Media))
        .chain(sheet::all(model).into_iter().map(Output::Sheet))
        .collect()
}

/// Of the theme's files, those a browser loads.
fn is_loaded(name: &str) -> bool {
    [".css", ".js", ".svg", ".woff2"].iter().any(|ending| name.ends_with(ending)) || name.ends_with("OFL.txt")
}
