//! Tests of photos, on photos made here.

use std::io::Cursor;

use image::{DynamicImage, ImageFormat, Rgb, RgbImage, Rgba, RgbaImage};

use super::*;

/// Left half red, right half blue, with some texture.
fn two_halves(width: u32, height: u32) -> DynamicImage {
    let image = RgbImage::from_fn(width, height, |x, y| {
        let texture = ((x * 7 + y * 13) % 32) as u8;
        if x < width / 2 { Rgb([220, texture, texture]) } else { Rgb([texture, texture, 220]) }
    });
    DynamicImage::ImageRgb8(image)
}

fn file(photo: &DynamicImage, format: ImageFormat) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    photo.write_to(&mut bytes, format).unwrap();
    bytes.into_inner()
}

/// An Exif block as phones write it: the orientation, and the place.
fn exif(orientation: u8) -> Vec<u8> {
    let mut tiff = b"MM\0\x2A\0\0\0\x08".to_vec();
    tiff.extend([0, 2]); // two entries
    tiff.extend([0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation, 0, 0]); // Orientation, SHORT
    tiff.extend([0x88, 0x25, 0, 4, 0, 0, 0, 1, 0, 0, 0, 38]); // GPS block, at 38
    tiff.extend([0, 0, 0, 0]); // no further directory
    tiff.extend([0, 1]); // one entry
    tiff.extend([0, 1, 0, 2, 0, 0, 0, 2, b'N', 0, 0, 0]); // GPSLatitudeRef
    tiff.extend([0, 0, 0, 0]);
    tiff.extend(b"the place is 51.5 N");
    tiff
}

fn with_exif(jpeg: &[u8], orientation: u8) -> Vec<u8> {
    let mut block = b"Exif\0\0".to_vec();
    block.extend(exif(orientation));
    let length = u16::try_from(block.len() + 2).unwrap().to_be_bytes();
    let mut bytes = jpeg[..2].to_vec();
    bytes.extend([0xFF, 0xE1, length[0], length[1]]);
    bytes.extend(block);
    bytes.extend(&jpeg[2..]);
    bytes
}

fn whole(bytes: &[u8]) -> Result<Vec<Rendition>, PhotoError> {
    renditions(bytes, Crop::default())
}

fn contains(bytes: &[u8], part: &[u8]) -> bool {
    bytes.windows(part.len()).any(|window| window == part)
}

fn sizes(renditions: &[Rendition]) -> Vec<(u32, u32)> {
    let size = |one: &Rendition| (one.width, one.height);
    renditions.iter().map(size).collect()
}

fn is_red(photo: &RgbImage, x: u32, y: u32) -> bool {
    let Rgb([red, _, blue]) = *photo.get_pixel(x, y);
    red > 150 && blue < 100
}

#[test]
fn the_place_is_removed_and_the_photo_stands_upright() {
    let photo = with_exif(&file(&two_halves(2000, 1200), ImageFormat::Jpeg), 6);
    assert!(contains(&photo, b"Exif") && contains(&photo, b"51.5 N"));
    let made = whole(&photo).unwrap();
    // Turned to the right, 1200 wide: the left half is on top.
    assert_eq!(sizes(&made), [(480, 800), (960, 1600), (1200, 2000)]);
    for one in made {
        assert!(!contains(&one.bytes, b"Exif") && !contains(&one.bytes, b"51.5 N"));
        let seen = image::load_from_memory(&one.bytes).unwrap().into_rgb8();
        assert_eq!(seen.dimensions(), (one.width, one.height));
        assert!(is_red(&seen, one.width - 9, 9), "top");
        assert!(!is_red(&seen, 9, one.height - 9), "bottom");
    }
}

#[test]
fn a_photo_on_its_side_is_offered_in_upright_widths() {
    let photo = with_exif(&file(&two_halves(1000, 3200), ImageFormat::Jpeg), 8);
    let made = whole(&photo).unwrap();
    assert_eq!(sizes(&made), [(480, 150), (960, 300), (1600, 500)]);
}

#[test]
fn every_kind_gives_three_widths_and_never_a_wider_one() {
    for format in [ImageFormat::Jpeg, ImageFormat::Png, ImageFormat::WebP] {
        let sizes_of = |width, height| {
            let made = whole(&file(&two_halves(width, height), format)).unwrap();
            assert!(made.iter().all(|one| one.extension == "jpg"), "{format:?}");
            sizes(&made)
        };
        assert_eq!(sizes_of(2000, 1000), [(480, 240), (960, 480), (1600, 800)]);
        assert_eq!(sizes_of(700, 350), [(480, 240), (700, 350)]);
        assert_eq!(sizes_of(100, 60), [(100, 60)]);
        assert_eq!(sizes_of(5000, 1), [(480, 1), (960, 1), (1600, 1)]);
    }
}

#[test]
fn what_shows_through_stays_so_and_an_idle_alpha_channel_does_not() {
    let drawing = |alpha| {
        let image =
            RgbaImage::from_fn(600, 300, |x, _| Rgba([10, 80, 40, if x < 300 { alpha } else { 255 }]));
        whole(&file(&DynamicImage::ImageRgba8(image), ImageFormat::Png)).unwrap()
    };
    for one in drawing(0) {
        assert_eq!(one.extension, "png");
        let seen = image::load_from_memory(&one.bytes).unwrap().into_rgba8();
        assert_eq!(seen.get_pixel(5, 5).0[3], 0);
    }
    assert!(drawing(255).iter().all(|one| one.extension == "jpg"));
}

#[test]
fn a_cut_off_photo_is_an_error_wherever_it_is_cut() {
    for format in [ImageFormat::Jpeg, ImageFormat::Png, ImageFormat::WebP] {
        let photo = file(&two_halves(300, 200), format);
        whole(&photo).unwrap();
        for tenth in 0..10 {
            let cut = &photo[..photo.len() * tenth / 10];
            whole(cut).expect_err(&format!("{format:?}, {tenth} tenths"));
        }
    }
    let photo = file(&two_halves(300, 200), ImageFormat::Jpeg);
    let error = whole(&photo[..photo.len() - 2]).unwrap_err();
    assert!(matches!(error, PhotoError::Truncated));
}

#[test]
fn what_a_phone_adds_behind_the_photo_does_not_matter() {
    let mut photo = file(&two_halves(300, 200), ImageFormat::Jpeg);
    let alone = whole(&photo).unwrap();
    photo.extend(b"\0\0\0\x18ftypmp42 a short video");
    assert_eq!(whole(&photo).unwrap(), alone);
}

#[test]
fn an_end_marker_inside_the_exif_block_is_not_the_end_of_the_photo() {
    let jpeg = file(&two_halves(300, 200), ImageFormat::Jpeg);
    let mut photo = jpeg[..2].to_vec();
    photo.extend([0xFF, 0xE1, 0, 6, 0xFF, 0xD8, 0xFF, 0xD9]); // as of a thumbnail
    photo.extend(&jpeg[2..jpeg.len() / 2]);
    let error = whole(&photo).unwrap_err();
    assert!(matches!(error, PhotoError::Truncated));
}

#[test]
fn a_small_file_that_declares_a_huge_photo_is_refused() {
    let mut photo = file(&two_halves(16, 16), ImageFormat::Jpeg);
    let frame = photo.windows(2).position(|pair| pair == [0xFF, 0xC0]);
    let size = frame.unwrap() + 5;
    photo[size..size + 4].copy_from_slice(&[0x23, 0x28, 0x23, 0x28]);
    let error = whole(&photo).unwrap_err();
    assert!(matches!(error, PhotoError::TooLarge { width: 9000, height: 9000 }), "{error}");

    // A PNG header with its checksum, and nothing behind it.
    let mut header = b"IHDR\0\0\x23\x28\0\0\x23\x28\x08\x06\0\0\0".to_vec();
    header.extend(0x6DD5_72BA_u32.to_be_bytes());
    let mut photo = b"\x89PNG\r\n\x1A\n\0\0\0\x0D".to_vec();
    photo.extend(header);
    photo.extend(b"\0\0\0\0IDAT\x35\xAF\x06\x1E");
    let error = whole(&photo).unwrap_err();
    assert!(matches!(error, PhotoError::TooLarge { .. }), "{error}");
}

#[test]
fn other_kinds_of_files_are_refused_by_name() {
    for bytes in [&b""[..], b"GIF89a\x01\0\x01\0", b"<svg/>", b"BM"] {
        let error = whole(bytes).unwrap_err();
        assert!(matches!(error, PhotoError::UnknownKind), "{error}");
    }
}

#[test]
fn the_same_photo_gives_the_same_bytes() {
    let photo = file(&two_halves(1000, 700), ImageFormat::Jpeg);
    assert_eq!(whole(&photo).unwrap(), whole(&photo).unwrap());
}

#[test]
fn what_is_cut_off_is_measured_on_the_upright_photo_and_what_is_left_keeps_its_pixels() {
    // Turned to the right, 1200 by 2000: the upper half is red, the lower blue.
    let photo = with_exif(&file(&two_halves(2000, 1200), ImageFormat::Jpeg), 6);
    for (crop, red) in
        [(Crop { bottom: 52, ..Crop::default() }, true), (Crop { top: 52, ..Crop::default() }, false)]
    {
        let made = renditions(&photo, crop).unwrap();
        assert_eq!(sizes(&made), [(480, 384), (960, 768), (1200, 960)]);
        let shown = image::load_from_memory(&made[0].bytes).unwrap().to_rgb8();
        for (x, y) in [(10, 10), (470, 374), (240, 190)] {
            assert_eq!(is_red(&shown, x, y), red, "{crop:?} at {x}, {y}");
        }
    }
    // A third of a large photo still has the largest width.
    let third = Crop { left: 40, right: 27, ..Crop::default() };
    let made = renditions(&file(&two_halves(4800, 300), ImageFormat::Jpeg), third).unwrap();
    assert_eq!(made.last().unwrap().width, 1584);
}

#[test]
fn a_crop_that_leaves_nothing_leaves_a_tenth() {
    let all = Crop { left: 90, right: 90, top: 90, bottom: 90 };
    let made = renditions(&file(&two_halves(200, 100), ImageFormat::Png), all).unwrap();
    assert_eq!(sizes(&made), [(20, 10)]);
}

#[test]
fn a_strip_is_made_no_taller_than_decoders_bear() {
    for (width, height) in [(40, 20_000), (1700, 17_000)] {
        let strip = DynamicImage::ImageRgb8(RgbImage::new(width, height));
        let made = renditions(&file(&strip, ImageFormat::Png), Crop::default()).unwrap();
        assert!(made.iter().all(|r| (1..=16_384).contains(&r.height) && r.width >= 1), "{:?}", sizes(&made));
        assert_eq!(made.last().unwrap().height, 16_000);
    }
}
