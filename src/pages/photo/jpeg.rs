//! Whether a JPEG is complete. Markers are those of ITU-T T.81 (1992), table B.1 (from memory, not verified).

/// True when the picture ends with an end-of-image marker. What follows it does not matter: some phones add a video.
pub(super) fn is_whole(bytes: &[u8]) -> bool {
    reach_the_end(bytes).is_some()
}

/// `None` when the bytes end first.
fn reach_the_end(bytes: &[u8]) -> Option<()> {
    let mut at = 2; // behind the start of the image
    loop {
        at = next_marker(bytes, at)?;
        match bytes[at + 1] {
            0xD9 => return Some(()),
            // Temporary and restart markers stand alone.
            0x01 | 0xD0..=0xD7 => at += 2,
            // A segment with its length, which counts itself. The data of a scan, if one follows, is passed over by the
            // search for the next marker.
            _ => {
                let length = bytes.get(at + 2..at + 4)?;
                at += 2 + usize::from(u16::from_be_bytes([length[0], length[1]]));
            }
        }
    }
}

/// The place of the next `FF` with a marker behind it: in the data of a scan, `FF 00` is a value; `FF FF` fills up.
fn next_marker(bytes: &[u8], from: usize) -> Option<usize> {
    let rest = bytes.get(from..)?;
    let found = rest.windows(2).position(|pair| pair[0] == 0xFF && !matches!(pair[1], 0x00 | 0xFF))?;
    Some(from + found)
}
