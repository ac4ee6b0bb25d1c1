//! Files as the standards describe them, put together by hand: what says where it was made, and what does not.

use std::io::Cursor;

use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::Index;

use super::*;
use crate::outputs::media::MediaKind;

/// A place in the middle of the ocean, as ISO 6709 writes it.
const PLACE: &str = "+10.0000-030.0000/";

/// A box (ISO/IEC 14496-12, 4.2).
fn boxed(kind: &[u8; 4], holds: &[u8]) -> Vec<u8> {
    let size = u32::try_from(8 + holds.len()).unwrap();
    [&size.to_be_bytes()[..], kind, holds].concat()
}

/// The same with the size in eight bytes.
fn large(kind: &[u8; 4], holds: &[u8]) -> Vec<u8> {
    let size = 16 + holds.len() as u64;
    [&b"\0\0\0\x01"[..], kind, &size.to_be_bytes(), holds].concat()
}

/// A text of user data (QuickTime File Format): its length, a language, the text.
fn user_text(kind: &[u8; 4], text: &str) -> Vec<u8> {
    let length = u16::try_from(text.len()).unwrap();
    boxed(kind, &[&length.to_be_bytes()[..], &[0x15, 0xc7], text.as_bytes()].concat())
}

/// Metadata of the QuickTime File Format with these keys, each with its text.
fn metadata(texts: &[(&str, &[u8])]) -> Vec<u8> {
    let keys: Vec<u8> = texts.iter().flat_map(|(key, _)| boxed(b"mdta", key.as_bytes())).collect();
    let count = u32::try_from(texts.len()).unwrap();
    let keys = boxed(b"keys", &[&[0; 4][..], &count.to_be_bytes(), &keys].concat());
    let values = (1_u32..).zip(texts).flat_map(|(number, (_, text))| {
        // The kind of the data, 1 for UTF-8, and a locale.
        let data = boxed(b"data", &[&[0, 0, 0, 1, 0, 0, 0, 0][..], *text].concat());
        boxed(&number.to_be_bytes(), &data)
    });
    let handler = boxed(b"hdlr", &[0; 24]);
    boxed(b"meta", &[handler, keys, boxed(b"ilst", &values.collect::<Vec<u8>>())].concat())
}

/// The same as files of ISO/IEC 14496-12 have it, with version and flags.
fn versioned(metadata: &[u8]) -> Vec<u8> {
    boxed(b"meta", &[&[0; 4][..], &metadata[8..]].concat())
}

/// Where it was filmed (3GPP TS 26.244): version and flags, language, name, role, three numbers, a body, notes.
fn location() -> Vec<u8> {
    boxed(b"loci", b"\0\0\0\0\x15\xc7\0\0\xff\xe2\0\0\0\x0a\0\0\0\0\0\0earth\0\0")
}

/// A video: its kind, pictures, and this beside the description of its one track.
fn video(described: &[u8]) -> Vec<u8> {
    let track = boxed(b"trak", &[boxed(b"tkhd", &[0; 84]), boxed(b"mdia", &[0; 40])].concat());
    let moov = boxed(b"moov", &[&boxed(b"mvhd", &[0; 100])[..], &track, described].concat());
    [boxed(b"ftyp", b"isom\0\0\x02\0isommp41"), boxed(b"mdat", &[7; 500]), moov].concat()
}

fn user_data(holds: &[u8]) -> Vec<u8> {
    boxed(b"udta", holds)
}

/// An element (RFC 8794) with its size in two bytes.
fn element(kind: &[u8], holds: &[u8]) -> Vec<u8> {
    let size = u16::try_from(holds.len()).unwrap() | 0x4000;
    [kind, &size.to_be_bytes(), holds].concat()
}

fn simple_tag(name: &str, holds: &[u8]) -> Vec<u8> {
    element(&[0x67, 0xc8], &[&element(&[0x45, 0xa3], name.as_bytes())[..], holds].concat())
}

fn tag_text(text: &str) -> Vec<u8> {
    element(&[0x44, 0x87], text.as_bytes())
}

const SEGMENT: [u8; 4] = [0x18, 0x53, 0x80, 0x67];
const CLUSTER: [u8; 4] = [0x1f, 0x43, 0xb6, 0x75];
const UNKNOWN: [u8; 8] = [0x01, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff];

/// What a WebM file holds with this tag: pictures, and the tag after them.
fn tagged(tag: &[u8]) -> Vec<u8> {
    let tags = element(&[0x12, 0x54, 0xc3, 0x67], &element(&[0x73, 0x73], tag));
    [element(&CLUSTER, &[7; 500]), tags].concat()
}

/// A WebM file with such a segment.
fn webm(segment: &[u8]) -> Vec<u8> {
    [element(&elements::FIRST, &[0x42, 0x82, 0x84, b'w', b'e', b'b', b'm']), segment.to_vec()].concat()
}

fn says(bytes: &[u8]) -> bool {
    says_where(Cursor::new(bytes))
}

#[test]
fn a_place_is_found_wherever_cameras_write_it() {
    let key = "com.apple.quicktime.location.ISO6709";
    let place = PLACE.as_bytes();
    let wide: Vec<u8> = PLACE.bytes().flat_map(|b| [0, b]).collect();
    let of_keys = metadata(&[("com.apple.quicktime.make", b"A camera"), (key, place)]);
    let of_letters = boxed(b"ilst", &boxed(b"\xa9xyz", &boxed(b"data", &[&[0; 8][..], place].concat())));
    for (what, described) in [
        ("user data", user_data(&user_text(b"\xa9xyz", PLACE))),
        ("user data after others, with the zeros that end them", {
            let others = [user_text(b"\xa9nam", "Week 1"), user_text(b"\xa9xyz", PLACE), vec![0; 4]];
            user_data(&others.concat())
        }),
        ("user data of a track", boxed(b"trak", &user_data(&user_text(b"\xa9xyz", PLACE)))),
        ("a box of 3GPP", user_data(&location())),
        ("a key of QuickTime", of_keys.clone()),
        ("a key of QuickTime, in user data of MP4", user_data(&versioned(&of_keys))),
        ("a key that was kept", metadata(&[("location-eng", place), ("x", b"y")])),
        ("letters of two bytes", metadata(&[(key, &wide)])),
        ("letters for a key", user_data(&versioned(&boxed(b"meta", &of_letters)))),
    ] {
        assert!(says(&video(&described)), "{what}");
    }
}

#[test]
fn what_names_no_place_says_nothing() {
    let key = "com.apple.quicktime.location.ISO6709";
    for (what, described) in [
        ("nothing", Vec::new()),
        ("no user data", user_data(&[])),
        ("an empty text", user_data(&user_text(b"\xa9xyz", ""))),
        ("another text", user_data(&user_text(b"\xa9nam", PLACE))),
        ("a text that is no place", user_data(&user_text(b"\xa9xyz", "switched off"))),
        ("a box of 3GPP that is too short", user_data(&boxed(b"loci", &[0; 19]))),
        ("an empty key", metadata(&[(key, b"")])),
        ("another key", metadata(&[(key, b"none"), ("com.apple.quicktime.creationdate", b"2026-05-01")])),
        ("a key that begins alike", metadata(&[("locations", PLACE.as_bytes())])),
        ("keys without values", {
            let keys = metadata(&[(key, PLACE.as_bytes())]);
            let end = keys.windows(4).position(|w| w == b"ilst").unwrap() - 4;
            boxed(b"meta", &keys[8..end])
        }),
        ("a place in what is no container of hidden data", boxed(b"free", &location())),
    ] {
        assert!(!says(&video(&described)), "{what}");
    }
    // Pictures can hold any bytes.
    assert!(!says(&boxed(b"mdat", &video(&user_data(&location())))));
    for other in [&b""[..], b"moov", b"WEBVTT\n\n", b"ID3\x04\0\0\0\0\0\0", b"%PDF-1.7\n+1 -2", &[0; 5000]] {
        assert!(!says(other), "{other:?}");
    }
}

#[test]
fn sizes_are_read_in_each_of_their_three_ways() {
    let user_data = user_data(&user_text(b"\xa9xyz", PLACE));
    assert!(says(&[large(b"mdat", &[7; 500]), video(&user_data)].concat()));
    assert!(says(&large(b"moov", &large(b"udta", &user_data[8..]))));
    let mut to_the_end = boxed(b"moov", &user_data);
    to_the_end[..4].fill(0);
    assert!(says(&to_the_end), "a last box that goes on to the end of the file");
    let moov_first = [boxed(b"moov", &user_data), vec![0; 4], b"mdat".to_vec(), vec![7; 500]].concat();
    assert!(says(&moov_first));
    // A box that says it ends in its own header, or far behind the file, ends the search.
    for size in [2_u32, 7, 5_000, u32::MAX] {
        let damaged = [&size.to_be_bytes()[..], b"free", &video(&user_data)].concat();
        assert!(!says(&damaged), "{size}");
    }
    for size in [0_u64, 15, u64::MAX - 7, u64::MAX] {
        let damaged = [&b"\0\0\0\x01free"[..], &size.to_be_bytes(), &video(&user_data)].concat();
        assert!(!says(&damaged), "{size}");
    }
}

#[test]
fn a_file_that_is_cut_off_says_nothing() {
    let key = "com.apple.quicktime.location.ISO6709";
    let files = [
        video(&user_data(&user_text(b"\xa9xyz", PLACE))),
        video(&user_data(&location())),
        video(&metadata(&[(key, PLACE.as_bytes())])),
        webm(&element(&SEGMENT, &tagged(&simple_tag("LOCATION", &tag_text(PLACE))))),
    ];
    for file in files {
        assert!(says(&file));
        for end in 0..file.len() {
            assert!(!says(&file[..end]), "{end} of {}", file.len());
        }
    }
}

#[test]
fn a_tag_of_webm_says_where() {
    let segment = |tag: &[u8]| webm(&element(&SEGMENT, &tagged(tag)));
    let text = tag_text(PLACE);
    for name in ["LOCATION", "location", "LOCATION-eng", "RECORDING_LOCATION", "LOCATION\0\0"] {
        assert!(says(&segment(&simple_tag(name, &text))), "{name}");
    }
    for name in ["", "TITLE", "LOCATIONS", "COMPOSITION_LOCATION", "LOC"] {
        assert!(!says(&segment(&simple_tag(name, &text))), "{name}");
    }
    assert!(!says(&segment(&simple_tag("LOCATION", &tag_text(" \0")))));
    assert!(!says(&segment(&simple_tag("LOCATION", &[]))));
    let inside = simple_tag("TITLE", &simple_tag("LOCATION", &text));
    assert!(says(&segment(&inside)));
    // A text belongs to the name beside it.
    assert!(!says(&segment(&simple_tag("LOCATION", &simple_tag("TITLE", &text)))));

    let tag = simple_tag("LOCATION", &text);
    let open = [&SEGMENT[..], &UNKNOWN, &tagged(&tag)].concat();
    assert!(says(&webm(&open)), "a segment whose size is not known");
    let cluster = [&SEGMENT[..], &UNKNOWN, &CLUSTER, &UNKNOWN, &tagged(&tag)].concat();
    assert!(!says(&webm(&cluster)), "nobody can tell where this cluster ends");
}

/// A file that counts what is read of it.
struct Counted<'b> {
    bytes: Cursor<&'b [u8]>,
    read: u64,
}

impl Read for Counted<'_> {
    fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
        let read = self.bytes.read(into)?;
        self.read += read as u64;
        Ok(read)
    }
}

impl Seek for Counted<'_> {
    fn seek(&mut self, to: SeekFrom) -> io::Result<u64> {
        self.bytes.seek(to)
    }
}

/// Whether it says where, and how many bytes were read for it.
fn counted(bytes: &[u8]) -> (bool, u64) {
    let mut file = Counted { bytes: Cursor::new(bytes), read: 0 };
    (says_where(&mut file), file.read)
}

#[test]
fn pictures_are_passed_over_and_no_more_is_read_than_it_takes() {
    let pictures = boxed(b"mdat", &vec![7; 5_000_000]);
    let (says, read) = counted(&[pictures, video(&user_data(&location()))].concat());
    assert!(says && read < 500, "{read}");

    let place = video(&user_data(&location()));
    let empty = boxed(b"free", &[]).repeat(300_000);
    let long = user_data(&boxed(b"\xa9xyz", &vec![b' '; 500_000]).repeat(30));
    for bytes in [[empty, place.clone()].concat(), [boxed(b"moov", &long), place].concat()] {
        let (says, read) = counted(&bytes);
        assert!(!says && read <= MOST && read > MOST / 2, "{read}");
    }
}

#[test]
fn boxes_and_tags_in_each_other_without_end_are_not_followed() {
    let nest = |times: usize| {
        let inside = user_data(&user_text(b"\xa9xyz", PLACE));
        boxed(b"moov", &(0..times).fold(inside, |inside, _| user_data(&inside)))
    };
    assert!(says(&nest(3)));
    assert!(!says(&nest(3_000)));
    let place = simple_tag("LOCATION", &tag_text(PLACE));
    let tags = |times: usize| (0..times).fold(place.clone(), |inside, _| simple_tag("TITLE", &inside));
    assert!(says(&webm(&element(&SEGMENT, &tagged(&tags(3))))));
    assert!(!says(&webm(&element(&SEGMENT, &tagged(&tags(1_000))))));
}

#[test]
fn of_what_is_published_every_video_is_looked_at_and_no_text() {
    for ending in MediaKind::Video.endings().split(", ") {
        assert!(is_looked_at(&format!("media/a{ending}")), "{ending}");
    }
    for ending in ENDINGS {
        let kind = MediaKind::of(&format!("media/a.{ending}"));
        assert!(matches!(kind, Some(MediaKind::Video | MediaKind::Sound)), "{ending}");
    }
    assert!(is_looked_at("media/A.MP4"));
    for name in ["media/a.jpg", "media/a.vtt", "media/mp4", "mp4", "media/a.mp4.pdf", ""] {
        assert!(!is_looked_at(name), "{name}");
    }
}

/// What a file of some kind begins with.
const STARTS: [&[u8]; 4] = [b"", b"\0\0\x01\0moov", b"\0\0\0\0moov", &elements::FIRST];

/// A file of each kind that says where.
fn files() -> [Vec<u8>; 3] {
    let keys = metadata(&[("x", b"y"), ("com.apple.quicktime.location.ISO6709", PLACE.as_bytes())]);
    [
        video(&user_data(&[user_text(b"\xa9xyz", PLACE), location()].concat())),
        video(&user_data(&versioned(&keys))),
        webm(&element(&SEGMENT, &tagged(&simple_tag("LOCATION", &tag_text(PLACE))))),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_bytes_are_read_to_an_end(
        start in prop::sample::select(&STARTS[..]),
        bytes in vec(any::<u8>(), 0..600),
    ) {
        let (_, read) = counted(&[start, &bytes].concat());
        prop_assert!(read <= MOST);
    }

    #[test]
    fn damaged_files_are_read_to_an_end(
        file in 0..3_usize,
        damages in vec((any::<Index>(), any::<u8>()), 1..20),
        end in any::<Index>(),
    ) {
        let mut bytes = files()[file].clone();
        for (at, byte) in damages {
            let at = at.index(bytes.len());
            bytes[at] = byte;
        }
        bytes.truncate(end.index(bytes.len()) + 1);
        let (_, read) = counted(&bytes);
        prop_assert!(read <= MOST);
    }
}
