//! Photos for pages: upright, in the widths that screens need, and without anything that the camera wrote into them,
//! such as the place where the photo was taken. Bytes to bytes.

mod jpeg;

#[cfg(test)]
mod tests;

use std::fmt;
use std::io::Cursor;

use crate::model::figure::Crop;
use crate::model::limits::DECODED_PHOTO;
use image::codecs::jpeg::JpegEncoder;
use image::codecs::png::PngEncoder;
use image::imageops::FilterType;
use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder, ImageFormat, ImageReader, ImageResult, Limits};

/// Widths to offer, in pixels: half a column, a column, and a column on a dense screen.
const WIDTHS: [u32; 3] = [480, 960, 1600];

/// The tallest rendition, in pixels: decoders of sheets and of browsers stop at 16,384.
const TALLEST: u32 = 16_000;

/// JPEG quality, 0 to 100: above it the files grow faster than a viewer can see (common practice, no source).
const QUALITY: u8 = 82;

/// One photo in one size.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rendition {
    /// In pixels.
    pub width: u32,
    /// In pixels.
    pub height: u32,
    /// The file.
    pub bytes: Vec<u8>,
    /// `jpg`, or `png` where something shows through.
    pub extension: &'static str,
}

/// Why a photo cannot be shown.
#[derive(Debug)]
pub enum PhotoError {
    /// Not a JPEG, PNG or WebP.
    UnknownKind,
    /// It would take too much memory.
    TooLarge {
        /// In pixels, as the file says.
        width: u32,
        /// In pixels, as the file says.
        height: u32,
    },
    /// The file ends before the picture does.
    Truncated,
    /// The file is damaged; the words of the decoder.
    Damaged(String),
}

impl fmt::Display for PhotoError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::UnknownKind => f.write_str("expected a JPEG, PNG or WebP photo"),
            Self::TooLarge { width, height } => {
                write!(f, "a photo of {width} by {height} pixels is too large")
            }
            Self::Truncated => f.write_str("the photo is cut off: the file is not complete"),
            Self::Damaged(why) => write!(f, "the photo is damaged: {why}"),
        }
    }
}

impl std::error::Error for PhotoError {}

/// What is left of the photo in one to three widths, narrowest first, never wider than it is. The same photo gives the
/// same bytes.
pub fn renditions(bytes: &[u8], crop: Crop) -> Result<Vec<Rendition>, PhotoError> {
    let (photo, orientation) = decode(bytes)?;
    let (left, right) = edges(crop.left, crop.right);
    // So large that what is left can still have the largest width.
    let largest = WIDTHS[WIDTHS.len() - 1] * 100 / (100 - left - right);
    let mut photo = cut(upright(photo, orientation, largest), crop);
    let fitting = side(photo.width(), TALLEST, photo.height(), 1).min(photo.width());
    let mut widths = WIDTHS.map(|width| width.min(fitting)).to_vec();
    widths.dedup();
    let mut renditions = Vec::new();
    for width in widths.into_iter().rev() {
        // Each from the next larger one, which is much faster than each from the whole photo.
        photo = scaled(photo, width);
        renditions.push(encode(&photo).map_err(damaged)?);
    }
    renditions.reverse();
    Ok(renditions)
}

fn decode(bytes: &[u8]) -> Result<(DynamicImage, Orientation), PhotoError> {
    let format = image::guess_format(bytes).map_err(|_| PhotoError::UnknownKind)?;
    match format {
        // The decoder fills up with gray what is missing.
        ImageFormat::Jpeg if !jpeg::is_whole(bytes) => return Err(PhotoError::Truncated),
        ImageFormat::Jpeg | ImageFormat::Png | ImageFormat::WebP => {}
        _ => return Err(PhotoError::UnknownKind),
    }
    let mut limits = Limits::no_limits();
    limits.max_alloc = Some(DECODED_PHOTO);
    let mut reader = ImageReader::with_format(Cursor::new(bytes), format);
    reader.limits(limits);
    let mut decoder = reader.into_decoder().map_err(damaged)?;
    if decoder.total_bytes() > DECODED_PHOTO {
        let (width, height) = decoder.dimensions();
        return Err(PhotoError::TooLarge { width, height });
    }
    let orientation = decoder.orientation().map_err(damaged)?;
    let photo = DynamicImage::from_decoder(decoder).map_err(damaged)?;
    Ok((photo, orientation))
}

fn damaged(error: image::ImageError) -> PhotoError {
    PhotoError::Damaged(error.to_string())
}

/// Turns the photo as it was held, at the largest size that is offered: turning the whole of it would take as much
/// memory again.
fn upright(photo: DynamicImage, orientation: Orientation, largest: u32) -> DynamicImage {
    use Orientation::{Rotate90, Rotate90FlipH, Rotate270, Rotate270FlipH};
    let lies_on_its_side = matches!(orientation, Rotate90 | Rotate270 | Rotate90FlipH | Rotate270FlipH);
    let (width, height) = (photo.width(), photo.height());
    let mut photo = if lies_on_its_side && height > largest {
        photo.resize_exact(side(width, largest, height, 1), largest, FilterType::Lanczos3)
    } else if !lies_on_its_side {
        scaled(photo, largest.min(width))
    } else {
        photo
    };
    photo.apply_orientation(orientation);
    if shows_through(&photo) {
        DynamicImage::ImageRgba8(photo.into_rgba8())
    } else {
        DynamicImage::ImageRgb8(photo.into_rgb8())
    }
}

/// Without its edges.
fn cut(photo: DynamicImage, crop: Crop) -> DynamicImage {
    if crop == Crop::default() {
        return photo;
    }
    let (width, height) = (photo.width(), photo.height());
    let ((left, right), (top, bottom)) = (edges(crop.left, crop.right), edges(crop.top, crop.bottom));
    photo.crop_imm(
        side(width, left, 100, 0),
        side(height, top, 100, 0),
        side(width, 100 - left - right, 100, 1),
        side(height, 100 - top - bottom, 100, 1),
    )
}

/// Hundredths to cut off at two opposite edges: a tenth of the photo stays, whatever a draft says.
fn edges(one: u8, other: u8) -> (u32, u32) {
    let one = u32::from(one).min(90);
    (one, u32::from(other).min(90 - one))
}

fn shows_through(photo: &DynamicImage) -> bool {
    photo.has_alpha() && photo.to_rgba8().pixels().any(|pixel| pixel.0[3] < u8::MAX)
}

fn scaled(photo: DynamicImage, width: u32) -> DynamicImage {
    if photo.width() == width {
        return photo;
    }
    let height = side(photo.height(), width, photo.width(), 1);
    photo.resize_exact(width, height, FilterType::Lanczos3)
}

/// `length * new / old`, to the nearest pixel and at least so many.
fn side(length: u32, new: u32, old: u32, least: u32) -> u32 {
    let (length, new, old) = (u64::from(length), u64::from(new), u64::from(old));
    u32::try_from((length * new + old / 2) / old).unwrap_or(u32::MAX).max(least)
}

fn encode(photo: &DynamicImage) -> ImageResult<Rendition> {
    let mut bytes = Vec::new();
    let extension = if photo.has_alpha() {
        photo.write_with_encoder(PngEncoder::new(&mut bytes))?;
        "png"
    } else {
        photo.write_with_encoder(JpegEncoder::new_with_quality(&mut bytes, QUALITY))?;
        "jpg"
    };
    Ok(Rendition { width: photo.width(), height: photo.height(), bytes, extension })
}
