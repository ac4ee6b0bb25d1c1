//! The media files of a workspace that the site shows or links to, and which kinds it publishes at all.

use std::collections::BTreeSet;

use super::address::media_of;
use crate::model::Model;
use crate::model::exercise::Exercise;
use crate::model::figure::{Crop, Photo};
use crate::model::prose::Prose;
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

/// A photo as it is shown: whole, or without its edges.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Shot {
    /// Its name below `content/`.
    pub file: String,
    pub crop: Crop,
}

impl Shot {
    pub fn of(photo: &Photo) -> Shot {
        Shot { file: photo.file.value.clone(), crop: photo.crop.unwrap_or_default() }
    }

    pub fn whole(file: impl Into<String>) -> Shot {
        Shot { file: file.into(), crop: Crop::default() }
    }
}

/// The photos that figures and prose show or link to.
pub fn photos(model: &Model) -> BTreeSet<Shot> {
    let mut all = photos_of(model, model.exercises.values(), model.proses().map(|(_, prose)| prose));
    all.extend(linked(model).map(Shot::whole).filter(|shot| is_photo(model, shot)));
    all
}

/// The photos that the figures of these exercises and this prose show.
pub fn photos_of<'m>(
    model: &Model,
    exercises: impl Iterator<Item = &'m Exercise>,
    proses: impl Iterator<Item = &'m Prose>,
) -> BTreeSet<Shot> {
    let figures = exercises.flat_map(|e| e.all_figures()).filter_map(|figure| figure.photo().map(Shot::of));
    let pictures = proses.flat_map(|prose| &prose.images).filter_map(|i| media_of(&i.address.value));
    figures.chain(pictures.map(Shot::whole)).filter(|shot| is_photo(model, shot)).collect()
}

fn is_photo(model: &Model, shot: &Shot) -> bool {
    is_there(model, &shot.file, |kind| kind == MediaKind::Photo)
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
    all.filter(|name| is_there(model, name, |kind| kind != MediaKind::Photo)).collect()
}

fn linked(model: &Model) -> impl Iterator<Item = String> {
    model.proses().flat_map(|(_, prose)| &prose.links).filter_map(|link| media_of(&link.address.value))
}

fn is_there(model: &Model, name: &str, fits: impl Fn(MediaKind) -> bool) -> bool {
    MediaKind::of(name).is_some_and(fits) && model.attachments.contains(name)
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

    #[test]
    fn a_photo_of_a_variation_is_shown_too() {
        use crate::review::testing::{PHOTO, edited, found, with_case};

        const DROP: &str = "content/exercises/heel-drop.md";
        let with = |file: &str| {
            let figure = format!(
                "[[variation.figure]]\nfile = \"{file}\"\ndescription = \"She sits.\"\n\n[[regression]]"
            );
            edited(DROP, &[("[[regression]]", &figure)])
        };
        let name = PHOTO.strip_prefix("content/").unwrap();
        with_case(&[(DROP, &with(name)), (PHOTO, "")], |case| {
            assert!(photos(case.model).iter().any(|shot| shot.file == name));
        });
        let lost = found(&[(DROP, &with("media/gone.jpg"))]);
        assert!(
            lost.iter().any(|f| f.starts_with("broken-link") && f.contains("media/gone.jpg")),
            "{lost:?}"
        );
    }
}
