//! A text as phrases are looked for in it: in small letters, with one space for whatever may stand between two words
//! of a phrase.

use super::words::is_space;

/// A text folded, and the way back.
pub(super) struct Folded {
    pub(super) text: String,
    /// Where the distance to the text as it is written changes: a place here, and the same place there.
    shifts: Vec<(usize, usize)>,
}

impl Folded {
    /// Has the same words as `text`, at places that [`Folded::place`] knows.
    pub(super) fn of(text: &str) -> Folded {
        let mut folded = Folded { text: String::with_capacity(text.len()), shifts: Vec::new() };
        let (mut at, mut shift) = (0, 0);
        while at < text.len() {
            // Letters may be longer or shorter in small, so the distance may go below zero.
            let distance = at.wrapping_sub(folded.text.len());
            if distance != shift {
                folded.shifts.push((folded.text.len(), at));
                shift = distance;
            }
            let run = plain(&text.as_bytes()[at..]);
            folded.text.push_str(&text[at..at + run]);
            at += run;
            let Some(c) = text[at..].chars().next() else { break };
            if is_space(c) {
                folded.text.push(' ');
                at = text.len() - text[at..].trim_start_matches(is_space).len();
            } else {
                folded.text.push(small(c));
                at += c.len_utf8();
            }
        }
        folded.text.make_ascii_lowercase();
        let end = folded.text.len();
        if text.len().wrapping_sub(end) != shift {
            folded.shifts.push((end, text.len()));
        }
        folded
    }

    /// Where the edge of a word is in the text as it is written.
    pub(super) fn place(&self, edge: usize) -> usize {
        let before = self.shifts.partition_point(|(here, _)| *here <= edge);
        match before.checked_sub(1).map(|i| self.shifts[i]) {
            Some((here, there)) => there + (edge - here),
            None => edge,
        }
    }
}

/// How many bytes at the start of a text may be taken over as they stand, but for their letter case: ASCII, and no space
/// but a single one between two others.
fn plain(text: &[u8]) -> usize {
    let is_space = |at: usize| text.get(at).is_some_and(|byte| BYTES[usize::from(*byte)] == Byte::Space);
    let ends = |(at, byte): (usize, &u8)| match BYTES[usize::from(*byte)] {
        Byte::Plain => false,
        Byte::Space => {
            *byte != b' ' || is_space(at + 1) || text.get(at + 1).is_some_and(|next| !next.is_ascii())
        }
        Byte::Other => true,
    };
    text.iter().enumerate().position(ends).unwrap_or(text.len())
}

/// What a byte is to [`plain`].
#[derive(Clone, Copy, PartialEq, Eq)]
enum Byte {
    Plain,
    Space,
    /// Part of a character outside ASCII.
    Other,
}

static BYTES: [Byte; 256] = {
    let mut bytes = [Byte::Plain; 256];
    let mut byte = 0;
    while byte < 256 {
        bytes[byte] = match byte as u8 {
            b' ' | b'*' | b'_' | b'\t'..=b'\r' => Byte::Space,
            0x80.. => Byte::Other,
            _ => Byte::Plain,
        };
        byte += 1;
    }
    bytes
};

/// The small letter of a letter. One that would become two characters stays: no word has the second of them.
fn small(c: char) -> char {
    let mut small = c.to_lowercase();
    match (small.next(), small.next()) {
        (Some(one), None) => one,
        _ => c,
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::text::words::words;

    #[test]
    fn space_and_emphasis_between_words_become_one_space() {
        for (text, folded) in [
            ("Build  *Bone*\r\n mass", "build bone mass"),
            ("Reduce la\u{a0}PRESI\u{d3}N", "reduce la presi\u{f3}n"),
            ("build, __bone__.", "build, bone ."),
            ("", ""),
        ] {
            assert_eq!(Folded::of(text).text, folded);
        }
    }

    proptest! {
        /// U+0130 has no single small letter, U+023A a longer one, U+212A (the sign for kelvin) a shorter one.
        #[test]
        fn each_word_is_found_again_at_its_place(
            text in "([a-cXY \n*_.,'0\u{e9}\u{c9}\u{130}\u{23a}\u{212a}-]|\\PC){0,40}"
        ) {
            let folded = Folded::of(&text);
            let found: Vec<_> = words(&folded.text).map(|at| folded.place(at.start)..folded.place(at.end)).collect();
            prop_assert_eq!(found, words(&text).collect::<Vec<_>>());
        }
    }
}
