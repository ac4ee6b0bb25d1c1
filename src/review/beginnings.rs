//! Whether a word begins as one of some words does: most words of a text do not, and need not be compared
//! with them.

use std::ops::Range;

/// The beginnings of some words, as a set of bits.
pub(super) struct Beginnings {
    bits: [u64; 1 << (ROWS - 6)],
}

/// The bits of the number of a bit: so many that hardly two beginnings share one.
const ROWS: u32 = 14;

/// The bit that a small letter has and its capital lacks, in each byte.
const SMALL: u64 = u64::from_le_bytes([b' '; 8]);

/// The bit that bytes outside ASCII have, in each byte.
const OTHER: u64 = u64::from_le_bytes([0x80; 8]);

impl Beginnings {
    pub(super) const NONE: Beginnings = Beginnings { bits: [0; 1 << (ROWS - 6)] };

    /// Adds the beginning of a word, which is in small letters.
    pub(super) const fn add(&mut self, word: &str) {
        let (row, bit) = place(beginning(word.as_bytes(), 0, word.len()));
        self.bits[row] |= bit;
    }

    /// The beginnings of words, which are in small letters.
    pub(super) fn of<'w>(words: impl IntoIterator<Item = &'w str>) -> Beginnings {
        let mut beginnings = Beginnings::NONE;
        words.into_iter().for_each(|word| beginnings.add(word));
        beginnings
    }

    /// False when none of the words begins as the one at a place of a text, in any letter case; true says
    /// little.
    #[inline]
    pub(super) fn have(&self, text: &[u8], word: Range<usize>) -> bool {
        let (row, bit) = place(beginning(text, word.start, word.end));
        self.bits[row] & bit != 0
    }
}

/// Where the bit of a beginning is.
const fn place(beginning: u64) -> (usize, u64) {
    // The upper bits of a product with an odd number are mixed best.
    let number = beginning.wrapping_mul(0x9e37_79b9_7f4a_7c15) >> (64 - ROWS);
    ((number >> 6) as usize, 1 << (number & 63))
}

/// The first eight bytes of a word, its letters small; whatever stands from a letter outside ASCII on, whose
/// letter case a bit does not tell, is left out.
const fn beginning(text: &[u8], start: usize, end: usize) -> u64 {
    let length = if end - start < 8 { end - start } else { 8 };
    if length == 0 {
        return 0;
    }
    let bytes = match text.split_at(start).1.first_chunk() {
        Some(bytes) => u64::from_le_bytes(*bytes),
        None => {
            let (mut bytes, mut at) = (0, 0);
            while at < length {
                bytes |= (text[start + at] as u64) << (8 * at);
                at += 1;
            }
            bytes
        }
    };
    let unused = 64 - 8 * length as u32;
    let bytes = (bytes | SMALL) << unused >> unused;
    match bytes & OTHER {
        0 => bytes,
        others => bytes & ((1 << (others.trailing_zeros() - 7)) - 1),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_begins_as_it_does_in_any_letter_case_wherever_it_stands() {
        let words = Beginnings::of(["bone", "osteoporosis", "día", "él"]);
        for (text, word, expected) in [
            ("build bone mass and more", "bone", true),
            ("BONE", "BONE", true),
            ("of bones", "bones", false),
            ("of osteoporotic people", "osteoporotic", true),
            ("of osteopathy", "osteopathy", false),
            ("un día", "día", true),
            ("un DÍA", "DÍA", true),
            ("da", "da", false),
            ("", "", true),
        ] {
            let start = text.find(word).unwrap();
            assert_eq!(words.have(text.as_bytes(), start..start + word.len()), expected, "{text}");
        }
    }
}
