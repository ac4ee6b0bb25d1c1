//! What each file of the site is: the one place from which `make` stages it and `proof` serves it.

use std::borrow::Cow;
use std::path::PathBuf;

use super::load::Loaded;
use crate::feeds::{self, Feeds, offline, webvtt};
use crate::model::figure::Crop;
use crate::model::finding::Finding;
use crate::model::series::Series;
use crate::model::week::Week;
use crate::outputs::address::published_name;
use crate::outputs::blocks::phrases::Phrases;
use crate::outputs::blocks::{chapters, digest};
use crate::outputs::feed::Paste;
use crate::outputs::media::MediaKind;
use crate::outputs::offline::MANIFEST;
use crate::outputs::video::{captions_path, chapters_path};
use crate::outputs::{Output, Shot};
use crate::pages::{Pages, Photo, PhotoWidth, TemplateError, photo};
use crate::print;
use crate::workspace;

/// One file of the site.
pub(super) struct Made<'a> {
    /// Relative to the site's root.
    pub(super) path: String,
    pub(super) body: Body<'a>,
}

/// What a file of the site holds.
pub(super) enum Body<'a> {
    /// A page, which is looked at once more when it is finished.
    Page(String),
    Bytes(Cow<'a, [u8]>),
    /// The same as this file below `content/`.
    Attachment(PathBuf),
}

/// Makes the file of an output; `None` for what is set or drawn (photos, sheets and the images of weeks) and for the
/// program that keeps the site on a device, which names all other files.
///
/// # Errors
/// When a template of the theme has a mistake.
pub(super) fn file<'a>(
    output: &Output,
    pages: &Pages<'_>,
    feeds: &Feeds<'_>,
    loaded: &'a Loaded,
) -> Result<Option<Made<'a>>, TemplateError> {
    let made = |path: String, body| Ok(Some(Made { path, body }));
    match output {
        Output::Page(address) => made(address.path(), Body::Page(pages.render(address)?)),
        Output::Asset(name) => match loaded.theme.files.get(name) {
            Some(bytes) => made(name.clone(), Body::Bytes(Cow::Borrowed(bytes))),
            None => Ok(None),
        },
        Output::Media(name) => {
            made(published_name(name), Body::Attachment(workspace::attachment_path(&loaded.root, name)))
        }
        Output::Captions(name) => match loaded.model.captions.get(name) {
            Some(captions) => made(captions_path(name), written(webvtt::captions(captions))),
            None => Ok(None),
        },
        Output::Chapters { series, week } => {
            let found = loaded.model.series.get(series).and_then(|s| s.weeks.iter().find(|w| w.id == *week));
            let Some(found) = found else { return Ok(None) };
            let chapters = chapters::of_week(&loaded.model, &loaded.words, found);
            made(chapters_path(series, week), written(webvtt::chapters(&chapters)))
        }
        Output::Feed(feed) => match feeds.write(feed) {
            Some(text) => made(feed.path(), written(text)),
            None => Ok(None),
        },
        Output::Words { series, week, kind } => {
            let found = loaded.model.series.get(series);
            let of_it = found.and_then(|s| Some((s, s.weeks.iter().find(|w| w.id == *week)?)));
            let Some((series, week)) = of_it else { return Ok(None) };
            made(kind.path(&series.id, &week.id), written(words(pages, loaded, series, week, *kind)?))
        }
        Output::Manifest => made(MANIFEST.to_string(), written(offline::manifest(&loaded.model))),
        // It names all other files and is made when they are.
        Output::Worker => Ok(None),
        Output::Photo(_) | Output::Sheet(_) | Output::Preview { .. } => Ok(None),
    }
}

/// Words about a week to paste elsewhere.
fn words(
    pages: &Pages<'_>,
    loaded: &Loaded,
    series: &Series,
    week: &Week,
    kind: Paste,
) -> Result<String, TemplateError> {
    let (model, words, draft) = (&loaded.model, &loaded.words, pages.draft);
    let digest = || digest::of_week(model, &loaded.sources, series, week, Phrases { words });
    Ok(match kind {
        Paste::Description => feeds::words::description(&digest(), words, draft),
        Paste::Letter => feeds::words::letter(&digest(), &model.site, words, draft),
        Paste::LetterPage => pages.letter(series, week)?,
    })
}

fn written<'a>(text: String) -> Body<'a> {
    Body::Bytes(Cow::Owned(text.into_bytes()))
}

/// A photo as pages show it and as sheets do.
pub(super) struct MadePhoto {
    pub(super) shown: Photo,
    /// Each width's path and bytes.
    pub(super) files: Vec<(String, Vec<u8>)>,
    pub(super) printed: Option<print::Photo>,
}

/// Makes the widths of a photo.
///
/// # Errors
/// The finding for a photo that cannot be shown.
pub(super) fn photo(loaded: &Loaded, shot: &Shot, bytes: &[u8]) -> Result<MadePhoto, Finding> {
    let renditions = photo::renditions(bytes, shot.crop)
        .map_err(|error| crate::pages::photo_finding(&loaded.model, &shot.file, &error.to_string()))?;
    let mut made = MadePhoto { shown: Photo { widths: Vec::new() }, files: Vec::new(), printed: None };
    for r in renditions {
        let path = photo_path(shot, is_alone(loaded, &shot.file), r.width, r.extension);
        made.shown.widths.push(PhotoWidth { path: path.clone(), width: r.width, height: r.height });
        made.printed = Some(print::Photo { extension: r.extension, bytes: r.bytes.clone() });
        made.files.push((path, r.bytes));
    }
    Ok(made)
}

/// `media/heel-drop.jpg` at 480 pixels is `media/heel-drop-480.jpg`; what is cut off at each edge stands before the
/// width. A name that a photo of another kind has too keeps its ending: `media/heel-drop.png-480.jpg`.
fn photo_path(shot: &Shot, alone: bool, width: u32, extension: &str) -> String {
    let name = published_name(&shot.file);
    let stem = if alone { stem(&name) } else { name.as_str() };
    let Crop { left, right, top, bottom } = shot.crop;
    match shot.crop == Crop::default() {
        true => format!("{stem}-{width}.{extension}"),
        false => format!("{stem}-without-{left}-{right}-{top}-{bottom}-{width}.{extension}"),
    }
}

fn stem(name: &str) -> &str {
    name.rsplit_once('.').map_or(name, |(stem, _)| stem)
}

/// True when no other photo has this name but for its ending, which is lost where it is encoded anew.
fn is_alone(loaded: &Loaded, file: &str) -> bool {
    let own = published_name(file);
    let others = loaded.model.attachments.iter().filter(|other| *other != file);
    let mut photos = others.filter(|other| MediaKind::of(other) == Some(MediaKind::Photo));
    !photos.any(|other| stem(&published_name(other)).eq_ignore_ascii_case(stem(&own)))
}
