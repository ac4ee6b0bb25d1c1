//! Which files are made, and every address and link between them. Never renders one.

pub mod address;
pub mod blocks;
pub mod links;
mod uses;

use std::collections::BTreeSet;

use crate::model::Model;
use crate::model::week::VideoPlace;
use crate::workspace::theme::Theme;
pub use address::Address;
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
}

/// Every output of a workspace, in a fixed order.
pub fn all(model: &Model, theme: &Theme) -> Vec<Output> {
    let mut pages =
        vec![Address::Home, Address::Library, Address::Evidence, Address::Safety, Address::NotFound];
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
        .chain(photos(model).into_iter().map(Output::Photo))
        .chain(media(model).into_iter().map(Output::Media))
        .collect()
}

/// The photos that figures and prose show or link to, by their names below `content/`. They are always
/// encoded anew: a photo as it came from the camera says where it was taken.
pub fn photos(model: &Model) -> BTreeSet<String> {
    let figures = model.exercises.values().flat_map(|e| e.figures.iter().map(|f| f.photo.value.clone()));
    let pictures = model.proses().flat_map(|(_, prose)| &prose.images);
    let pictures = pictures.filter_map(|i| address::media_of(&i.address.value));
    let linked = linked_media(model).filter(|name| is_photo(name));
    figures.chain(pictures).chain(linked).filter(|name| model.attachments.contains(name)).collect()
}

/// Files of `content/` that are published as they are: videos, captions, and what prose links to.
pub fn media(model: &Model) -> BTreeSet<String> {
    let videos = model.weeks().filter_map(|(_, w)| w.video.as_ref()).filter_map(|v| match &v.place {
        VideoPlace::File(name) => Some(name.value.clone()),
        VideoPlace::Address(_) => None,
    });
    let linked = linked_media(model).filter(|name| !is_photo(name));
    videos.chain(linked).filter(|name| model.attachments.contains(name)).collect()
}

fn linked_media(model: &Model) -> impl Iterator<Item = String> {
    model.proses().flat_map(|(_, prose)| &prose.links).filter_map(|link| address::media_of(&link.value))
}

fn is_photo(name: &str) -> bool {
    let name = name.to_ascii_lowercase();
    [".jpg", ".jpeg", ".png", ".webp"].iter().any(|ending| name.ends_with(ending))
}

/// Of the theme's files, those a browser loads.
fn is_loaded(name: &str) -> bool {
    [".css", ".js", ".svg", ".woff2"].iter().any(|ending| name.ends_with(ending)) || name.ends_with("OFL.txt")
}
