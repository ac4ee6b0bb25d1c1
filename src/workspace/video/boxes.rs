//! Files of boxes, which the older standard calls atoms: MP4 (ISO/IEC 14496-12) and the QuickTime File Format. Cameras
//! write where they are into `moov/udta/©xyz` or under the metadata key for it into `moov/meta` (QuickTime, in the
//! notation of ISO 6709: `+10.0000-030.0000/`), or into `moov/udta/loci` (3GPP TS 26.244).

use std::io::{self, Read, Seek};

use super::{Looked, NESTED};

/// User data with a place, `©xyz` in the letters of the Macintosh.
const XYZ: [u8; 4] = *b"\xa9xyz";

/// The metadata key of the QuickTime File Format for a place.
const KEY: &[u8] = b"com.apple.quicktime.location.ISO6709";

/// The key for `©xyz` where a program has kept all it knew; a language can follow after a hyphen.
const PLAIN_KEY: &[u8] = b"location";

/// The least that `loci` holds: its version and flags, a language, an empty name, a role, three numbers of four bytes.
const LEAST_LOCI: u64 = 4 + 2 + 1 + 1 + 3 * 4;

/// A box: its type, and where what it holds begins and ends.
struct BoxAt {
    kind: [u8; 4],
    start: u64,
    end: u64,
}

pub(super) fn say_where<F: Read + Seek>(file: &mut Looked<F>) -> io::Result<bool> {
    let length = file.length;
    say_where_within(file, (0, length), NESTED)
}

/// True when a box between two places, or one inside it, says where.
fn say_where_within<F: Read + Seek>(
    file: &mut Looked<F>,
    (mut at, end): (u64, u64),
    deeper: usize,
) -> io::Result<bool> {
    while let Some(found) = box_at(file, at, end)? {
        let says = match &found.kind {
            b"moov" | b"trak" | b"udta" if deeper > 0 => {
                say_where_within(file, (found.start, found.end), deeper - 1)?
            }
            b"meta" => metadata_say_where(file, &found)?,
            b"loci" => found.end - found.start >= LEAST_LOCI,
            kind if *kind == XYZ => is_place(&file.text(found.start, found.end)?),
            _ => false,
        };
        if says {
            return Ok(true);
        }
        at = found.end;
    }
    Ok(false)
}

/// True when one of the metadata says where. Their values stand in `ilst`, each under its type or, where there are
/// `keys`, under the number of its key, from 1 on.
fn metadata_say_where<F: Read + Seek>(file: &mut Looked<F>, meta: &BoxAt) -> io::Result<bool> {
    // In ISO/IEC 14496-12 four bytes of version and flags come first. In QuickTime a box does, and begins with its size.
    let versioned = file.read(meta.start, meta.end, 4)? == [0; 4];
    let mut at = meta.start + if versioned { 4 } else { 0 };
    let (mut keys, mut values) = (Vec::new(), None);
    while let Some(found) = box_at(file, at, meta.end)? {
        at = found.end;
        match &found.kind {
            b"keys" => keys = keys_for_places(&file.text(found.start, found.end)?),
            b"ilst" => values = Some((found.start, found.end)),
            _ => {}
        }
    }
    let Some((mut at, end)) = values else { return Ok(false) };
    while let Some(value) = box_at(file, at, end)? {
        let wanted = value.kind == XYZ || keys.contains(&u32::from_be_bytes(value.kind));
        if wanted && is_place(&file.text(value.start, value.end)?) {
            return Ok(true);
        }
        at = value.end;
    }
    Ok(false)
}

/// The numbers of the keys that are for a place. After version, flags and a count each key has its size, its kind and
/// its name.
fn keys_for_places(bytes: &[u8]) -> Vec<u32> {
    let mut found = Vec::new();
    let mut rest = bytes.get(8..).unwrap_or_default();
    for number in 1.. {
        let Some((size, _)) = rest.split_first_chunk::<4>() else { break };
        let size = u32::from_be_bytes(*size) as usize;
        let Some(name) = rest.get(8..size) else { break };
        let plain = name.strip_prefix(PLAIN_KEY).is_some_and(|rest| rest.is_empty() || rest[0] == b'-');
        if name == KEY || plain {
            found.push(number);
        }
        rest = &rest[size..];
    }
    found
}

/// True when a place stands in a text as ISO 6709 writes it, which begins with a sign and a digit. What stands before
/// the text, such as its length and its language, is no such pair; of letters of two bytes one is left.
fn is_place(text: &[u8]) -> bool {
    let letters: Vec<u8> = text.iter().copied().filter(|b| *b != 0).collect();
    letters.windows(2).any(|pair| matches!(pair[0], b'+' | b'-') && pair[1].is_ascii_digit())
}

/// The box that begins at a place, within what ends at another; none where no whole one does.
fn box_at<F: Read + Seek>(file: &mut Looked<F>, at: u64, end: u64) -> io::Result<Option<BoxAt>> {
    let head = file.read(at, end, 16)?;
    let Some((size, rest)) = head.split_first_chunk::<4>() else { return Ok(None) };
    let Some((kind, rest)) = rest.split_first_chunk::<4>() else { return Ok(None) };
    let within = end - at;
    let (header, size) = match u32::from_be_bytes(*size) {
        // The last box of a file may go on to its end.
        0 if end == file.length => (8, within),
        1 => match rest.first_chunk::<8>() {
            Some(large) => (16, u64::from_be_bytes(*large)),
            None => return Ok(None),
        },
        size => (8, u64::from(size)),
    };
    let whole = (header..=within).contains(&size);
    Ok(whole.then_some(BoxAt { kind: *kind, start: at + header, end: at + size }))
}
