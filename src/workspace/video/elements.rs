//! Files of elements (EBML, RFC 8794): WebM, which is Matroska (RFC 9559) with fewer kinds of sound and picture. A
//! place stands in a tag, `Segment/Tags/Tag/SimpleTag`, which has a name and a text.

use std::io::{self, Read, Seek};

use super::{Looked, NESTED};

/// What such a file begins with: the type of its first element.
pub(super) const FIRST: [u8; 4] = [0x1a, 0x45, 0xdf, 0xa3];

// Types of elements, as they are written.
const SEGMENT: u64 = 0x1853_8067;
const TAGS: u64 = 0x1254_c367;
const TAG: u64 = 0x7373;
const SIMPLE_TAG: u64 = 0x67c8;
const TAG_NAME: u64 = 0x45a3;
const TAG_STRING: u64 = 0x4487;

/// The names of tags for a place: Matroska's own, and that which programs make of `©xyz`. A language can follow after
/// a hyphen.
const NAMES: [&[u8]; 2] = [b"RECORDING_LOCATION", b"LOCATION"];

/// An element: its type, and where what it holds begins and ends.
struct ElementAt {
    kind: u64,
    start: u64,
    end: u64,
}

pub(super) fn say_where<F: Read + Seek>(file: &mut Looked<F>) -> io::Result<bool> {
    let length = file.length;
    say_where_within(file, (0, length), NESTED)
}

/// True when the elements between two places are those of a tag that says where, or a tag inside them does.
fn say_where_within<F: Read + Seek>(
    file: &mut Looked<F>,
    (mut at, end): (u64, u64),
    deeper: usize,
) -> io::Result<bool> {
    let (mut of_a_place, mut says) = (false, false);
    while let Some(found) = element_at(file, at, end)? {
        match found.kind {
            SEGMENT | TAGS | TAG | SIMPLE_TAG
                if deeper > 0 && say_where_within(file, (found.start, found.end), deeper - 1)? =>
            {
                return Ok(true);
            }
            TAG_NAME => of_a_place = is_for_a_place(&file.text(found.start, found.end)?),
            TAG_STRING => says = file.text(found.start, found.end)?.iter().any(|b| *b > b' '),
            _ => {}
        }
        at = found.end;
    }
    Ok(of_a_place && says)
}

fn is_for_a_place(name: &[u8]) -> bool {
    NAMES.iter().any(|known| {
        let (start, rest) = name.split_at(known.len().min(name.len()));
        // A text may be filled up with zeros (RFC 8794, 7.5).
        start.eq_ignore_ascii_case(known) && rest.first().is_none_or(|b| matches!(b, b'-' | 0))
    })
}

/// The element that begins at a place, within what ends at another; none where no whole one does.
fn element_at<F: Read + Seek>(file: &mut Looked<F>, at: u64, end: u64) -> io::Result<Option<ElementAt>> {
    // Four bytes of type and eight of size at most.
    let head = file.read(at, end, 12)?;
    let Some((kind, after)) = number(&head, 4) else { return Ok(None) };
    let Some((size, header)) = number(&head[after..], 8).map(|(size, more)| (size, after + more)) else {
        return Ok(None);
    };
    let start = at + header as u64;
    // Of the size the bit that says its length is no part; with all others set it is not known.
    let bits = 1_u64 << (7 * (header - after));
    let size = size ^ bits;
    let end = match size == bits - 1 {
        // A recorder that does not know yet how long all of it will be leaves it open. Where something that it leaves
        // open inside that ends, nobody can tell without reading it.
        true if kind == SEGMENT => end,
        true => return Ok(None),
        false if size > end - start => return Ok(None),
        false => start + size,
    };
    Ok(Some(ElementAt { kind, start, end }))
}

/// A number at the beginning of some bytes, with the bit that says its length, and that length, at most `most` bytes.
fn number(bytes: &[u8], most: usize) -> Option<(u64, usize)> {
    let length = bytes.first()?.leading_zeros() as usize + 1;
    let bytes = bytes.get(..length).filter(|_| length <= most)?;
    Some((bytes.iter().fold(0, |number, byte| (number << 8) | u64::from(*byte)), length))
}
