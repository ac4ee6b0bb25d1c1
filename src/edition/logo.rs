//! The clinic's own mark: read where the settings name it, looked through, and put among the files of the theme as one
//! that is safe to publish and to print.

mod drawing;

use std::borrow::Cow;
use std::io::Cursor;
use std::path::Path;

use image::codecs::png::PngEncoder;
use image::imageops::FilterType;
use image::{ImageFormat, ImageReader, Limits};

use crate::model::finding::Finding;
use crate::model::limits::{self, DECODED_PHOTO, LOGO};
use crate::model::nearest::shown;
use crate::model::site::Site;
use crate::workspace;
use crate::workspace::theme::{LOGO_DRAWN, LOGO_FOLDER, LOGO_PHOTO, Theme};

/// The largest sides of a mark of pixels, which is made smaller to them: for 18 mm in height, 300 to the inch are 213.
const SIDES: (u32, u32) = (1600, 400);

/// Puts the mark that the settings name in the place of whatever the theme had there, and returns what is wrong with it.
pub(super) fn put(theme: &mut Theme, root: &Path, site: &Site) -> Option<Finding> {
    theme.files.retain(|name, _| !name.starts_with(LOGO_FOLDER));
    let written = site.educator.logo.as_ref()?;
    let name = shown(&written.value);
    let bytes = match workspace::photo(root, &written.value) {
        Ok(bytes) => bytes,
        Err(why) => {
            return Some(Finding::new(
                "broken-link",
                written.span,
                format!("{name} cannot be read: {why}"),
                "put the file into content/media/ and write its name as in `logo = \"media/clinic.svg\"`, or leave the \
                 field out",
            ));
        }
    };
    if bytes.len() as u64 > LOGO {
        let (has, most) = (bytes.len() as f64 / 1e6, LOGO as f64 / 1e6);
        return Some(limits::beyond(
            written.span,
            format!("{name} has {has:.1} MB, expected at most {most:.0} MB in a logo"),
            "save it smaller: it stands 18 mm high at most",
        ));
    }
    let safe = match image::guess_format(&bytes) {
        Ok(ImageFormat::Png) => pixels(&bytes).map(|png| (LOGO_PHOTO, png)),
        Ok(_) => Err("it is no SVG and no PNG".to_string()),
        Err(_) => drawing::safe(&bytes).map(|svg| (LOGO_DRAWN, svg)),
    };
    match safe {
        Ok((file, bytes)) => {
            theme.files.insert(file.to_string(), Cow::Owned(bytes));
            None
        }
        Err(why) => Some(Finding::new(
            "wrong-value",
            written.span,
            format!("{name} cannot stand on pages and handouts: {why}"),
            "save it as a plain SVG of shapes alone, with its words turned into outlines, or as PNG",
        )),
    }
}

/// The pixels alone, without what else stands in the file.
fn pixels(bytes: &[u8]) -> Result<Vec<u8>, String> {
    let damaged = |why: image::ImageError| format!("it is damaged: {why}");
    let mut limits = Limits::no_limits();
    limits.max_alloc = Some(DECODED_PHOTO);
    let mut reader = ImageReader::with_format(Cursor::new(bytes), ImageFormat::Png);
    reader.limits(limits);
    let mut picture = reader.decode().map_err(damaged)?;
    if picture.width() > SIDES.0 || picture.height() > SIDES.1 {
        picture = picture.resize(SIDES.0, SIDES.1, FilterType::Lanczos3);
    }
    let mut png = Vec::new();
    picture.to_rgba8().write_with_encoder(PngEncoder::new(&mut png)).map_err(damaged)?;
    Ok(png)
}

#[cfg(test)]
mod tests;
