//! What was counted in the words that have just come up. Most words of a text are among them, and the
//! dictionary is too large for the processor's own memory.

use std::ops::Range;

use super::Counts;

/// Words with their counts, each in the row that its letters say.
#[derive(Debug, Default)]
pub(super) struct RecentCache {
    /// The letters of a word, as [`letters`] has them.
    rows: Vec<(u128, Counts)>,
}

/// Longer words are always counted anew.
const SHORT: usize = size_of::<u128>();

impl RecentCache {
    const ROWS: usize = 1 << 12;

    /// What was counted in the word at a place of a text, or what `count` says of it.
    #[inline]
    pub(super) fn counts(
        &mut self,
        text: &str,
        at: Range<usize>,
        count: impl FnOnce(&str) -> Counts,
    ) -> Counts {
        let Some(letters) = letters(text.as_bytes(), at.clone()) else { return count(&text[at]) };
        if self.rows.is_empty() {
            self.rows = vec![(0, Counts::default()); RecentCache::ROWS];
        }
        // Both halves, mixed by an odd number; the upper bits are mixed best.
        let mixed = (letters as u64 ^ (letters >> 64) as u64).wrapping_mul(0x9e37_79b9_7f4a_7c15);
        let row = &mut self.rows[(mixed >> 32) as usize % RecentCache::ROWS];
        if row.0 != letters {
            *row = (letters, count(&text[at]));
        }
        row.1
    }
}

/// The bits of the first so many bytes.
const FIRST: [u128; SHORT + 1] = {
    let mut first = [0; SHORT + 1];
    let mut length = 0;
    while length < SHORT {
        first[length + 1] = first[length] << 8 | 0xff;
        length += 1;
    }
    first
};

/// The bytes of a word of one to [`SHORT`] bytes, filled up with zeros, which no word has.
fn letters(text: &[u8], at: Range<usize>) -> Option<u128> {
    let length = at.len();
    if !(1..=SHORT).contains(&length) {
        return None;
    }
    match text[at.start..].first_chunk() {
        Some(bytes) => Some(u128::from_le_bytes(*bytes) & FIRST[length]),
        None => {
            let mut bytes = [0; SHORT];
            bytes[..length].copy_from_slice(&text[at]);
            Some(u128::from_le_bytes(bytes))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::text::words::words;

    #[test]
    fn a_word_is_counted_once_wherever_it_stands() {
        let text = "rise, rise, Rise, rises, electromyographic, electromyographic, rise";
        let mut recent = RecentCache::default();
        let mut counted = Vec::new();
        for at in words(text) {
            let length = at.len();
            let counts = recent.counts(text, at, |word| {
                counted.push(word.to_string());
                Counts { syllables: word.len() as u32, ..Counts::default() }
            });
            assert_eq!(counts.syllables as usize, length);
        }
        // The long one does not fit into a row.
        assert_eq!(counted, ["rise", "Rise", "rises", "electromyographic", "electromyographic"]);
    }
}
