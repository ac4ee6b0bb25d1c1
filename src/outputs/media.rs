//! The media files of a workspace that the site shows or links to, and which kinds it publishes at all.

use std::collections::BTreeSet;

use super::address::media_of;
use crate::model::Model;
use crate::model::week::VideoPlace;

/// What kind of media a file is. Kinds that a browser would run, or whose hidden data nobody removes,
/// are none of these.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MediaKind {
    /// Always encoded anew: a photo as it came from the camera says where it was taken.
    Photo,
    Video,
    Captions,
    Sound,
    Document,
}

impl MediaKind {
    const ENDINGS: [(MediaKind, &'static [&'static str]); 5] = [
        (MediaKind::Photo, &["jpg", "jpeg", "png", "webp"]),
        (MediaKind::Video, &["mp4", "m4v", "webm"]),
        (MediaKind::Captions, &["vtt", "srt"]),
        (MediaKind::Sound, &["mp3", "m4a", "ogg"]),
        (MediaKind::Document, &["pdf"]),
    ];

    /// The kind of a file by its ending; `None` for what is not published.
    pub fn of(name: &str) -> Option<MediaKind> {
        let ending = name.rsplit_once('.')?.1.to_ascii_lowercase();
        Self::ENDINGS.iter().find(|(_, endings)| endings.contains(&ending.as_str())).map(|(kind, _)| *kind)
    }

    /// The endings of this kind, as a person reads them.
    pub fn endings(self) -> String {
        let found = Self::ENDINGS.iter().find(|(kind, _)| *kind == self);
        found
            .map_or(&[][..], |(_, endings)| endings)
            .iter()
            .map(|e| format!(".{e}"))
            .collect::<Vec<_>>()
            .join(", ")
    }

    /// The endings of every kind.
    pub fn all_endings() -> String {
        Self::ENDINGS.iter().map(|(kind, _)| kind.endings()).collect::<Vec<_>>().join(", ")
    }
}

/// The photos that figures and prose show or link to, by their names below `content/`.
pub fn photos(model: &Model) -> BTreeSet<String> {
    let figures = model
        .exercises
        .values()
        .flat_map(|e| e.figures.iter().filter_map(|f| Some(f.photo()?.file.value.clone())));
    let pictures = model.proses().flat_map(|(_, prose)| &prose.images);
    let pictures = pictures.filter_map(|i| media_of(&i.address.value));
    present(model, figures.chain(pictures).chain(linked(model)), |kind| kind == MediaKind::Photo)
}

/// Files that are published as they are: videos, and what prose links to.
pub fn files(model: &Model) -> BTreeSet<String> {
    let videos = model.weeks().filter_map(|(_, w)| w.video.as_ref()).filter_map(|v| match &v.place {
        VideoPlace::File(name) => Some(name.value.clone()),
        VideoPlace::Address(_) => None,
    });
    let own = super::video::captions(model);
    // Captions of a week are written anew, under the same name.
    let all = videos.chain(linked(model)).filter(|name| !own.contains(name));
    present(model, all, |kind| kind != MediaKind::Photo)
}

fn linked(model: &Model) -> impl Iterator<Item = String> {
    model.proses().flat_map(|(_, prose)| &prose.links).filter_map(|link| media_of(&link.value))
}

fn present(
    model: &Model,
    names: impl Iterator<Item = String>,
    fits: impl Fn(MediaKind) -> bool,
) -> BTreeSet<String> {
    names.filter(|n| MediaKind::of(n).is_some_and(&fits) && model.attachments.contains(n)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_browser_would_run_or_nobody_cleans_is_no_media() {
        assert_eq!(MediaKind::of("media/a.JPG"), Some(MediaKind::Photo));
        assert_eq!(MediaKind::of("media/week-07.mp4"), Some(MediaKind::Video));
        for name in ["media/x.html", "media/x.svg", "media/x.heic", "media/x.tif", "media/x", "media/x.js"] {
            assert_eq!(MediaKind::of(name), None, "{name}");
        }
    }
}
