//! Photos in their widths: as pages show them, and as sheets do.

use crate::model::Model;
use crate::model::figure::Crop;
use crate::model::finding::Finding;
use crate::outputs::Shot;
use crate::outputs::address::published_name;
use crate::outputs::media::MediaKind;
use crate::pages::{Photo, PhotoWidth, photo, photo_finding};
use crate::print;

/// A photo as pages show it and as sheets do.
pub struct MadePhoto {
    pub shown: Photo,
    /// Each width's path and bytes.
    pub files: Vec<(String, Vec<u8>)>,
    pub printed: Option<print::Photo>,
}

/// Makes the widths of a photo.
///
/// # Errors
/// The finding for a photo that cannot be shown.
pub fn make_photo(model: &Model, shot: &Shot, bytes: &[u8]) -> Result<MadePhoto, Finding> {
    let renditions = photo::renditions(bytes, shot.crop)
        .map_err(|error| photo_finding(model, &shot.file, &error.to_string()))?;
    let mut made = MadePhoto { shown: Photo { widths: Vec::new() }, files: Vec::new(), printed: None };
    for r in renditions {
        let path = photo_path(shot, is_alone(model, &shot.file), r.width, r.extension);
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
fn is_alone(model: &Model, file: &str) -> bool {
    let own = published_name(file);
    let others = model.attachments.iter().filter(|other| *other != file);
    let mut photos = others.filter(|other| MediaKind::of(other) == Some(MediaKind::Photo));
    !photos.any(|other| stem(&published_name(other)).eq_ignore_ascii_case(stem(&own)))
}
