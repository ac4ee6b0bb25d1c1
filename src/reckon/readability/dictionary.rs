//! The CMU pronouncing dictionary: how many syllables the first pronunciation of a word has. It lies in the program in an
//! order in which a word is found without reading it first.

use std::cmp::Ordering;

/// A word on each line, a space, and its syllables as a hexadecimal digit; in order of length, then of letters.
static WORDS: &[u8] = include_bytes!("cmudict.txt");

/// How many words there are of each length in bytes, from 0.
const OF_LENGTH: [usize; 29] = [
    0, 26, 244, 1635, 6665, 14922, 22400, 23610, 19487, 14524, 9911, 5855, 3328, 1846, 835, 429, 188, 87, 32,
    11, 8, 0, 1, 0, 0, 0, 0, 0, 1,
];

/// What a line has beside its word.
const BESIDE: usize = " 1\n".len();

/// Where the words of each length begin.
const STARTS: [usize; OF_LENGTH.len()] = {
    let mut starts = [0; OF_LENGTH.len()];
    let mut length = 1;
    while length < OF_LENGTH.len() {
        starts[length] = starts[length - 1] + OF_LENGTH[length - 1] * (length - 1 + BESIDE);
        length += 1;
    }
    starts
};

/// The syllables of a word in small letters; `None` for one that the dictionary lacks.
pub(super) fn syllables(word: &str) -> Option<u32> {
    let length = word.len();
    let (mut low, mut high) = (0, *OF_LENGTH.get(length)?);
    while low < high {
        let middle = low.midpoint(high);
        let line = &WORDS[STARTS[length] + middle * (length + BESIDE)..];
        match line[..length].cmp(word.as_bytes()) {
            Ordering::Less => low = middle + 1,
            Ordering::Greater => high = middle,
            Ordering::Equal => return char::from(line[length + 1]).to_digit(16),
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The words with their syllables.
    fn all() -> Vec<(&'static str, u32)> {
        let lines = std::str::from_utf8(WORDS).unwrap().lines();
        let each = lines.map(|line| line.split_once(' ').unwrap());
        each.map(|(word, count)| (word, u32::from_str_radix(count, 16).unwrap())).collect()
    }

    /// Each of its words, and what is often no word: with another ending, and without its last letter.
    #[test]
    fn the_dictionary_answers_as_another_reader_of_it_does() {
        let check = |word: &str| {
            let known = syllarust::try_count_syllables(word).map(|count| count as u32);
            assert_eq!(syllables(word), known, "{word}");
            known
        };
        let (mut known, mut unknown) = (0, 0);
        for (word, count) in all() {
            assert_eq!(check(word), Some(count), "{word}");
            for other in [format!("{word}s"), format!("{word}'s"), word[..word.len() - 1].to_string()] {
                match check(&other) {
                    Some(_) => known += 1,
                    None => unknown += 1,
                }
            }
        }
        assert!(known > 10_000 && unknown > 100_000, "{known} {unknown}");
    }

    #[test]
    fn the_words_stand_in_order_and_their_numbers_are_those_of_the_table() {
        let words: Vec<(usize, &str)> = all().into_iter().map(|(word, _)| (word.len(), word)).collect();
        assert!(words.is_sorted_by(|one, next| one < next));
        for (length, number) in OF_LENGTH.iter().enumerate() {
            assert_eq!(words.iter().filter(|(of, _)| *of == length).count(), *number, "{length}");
        }
        assert_eq!(words.len(), OF_LENGTH.iter().sum::<usize>());
    }

    #[test]
    fn what_is_longer_than_any_word_or_empty_is_none() {
        assert_eq!(syllables(""), None);
        assert_eq!(syllables(&"a".repeat(100)), None);
        // As many bytes as some words have, and fewer letters.
        assert_eq!(syllables("caf\u{e9}"), None);
    }
}
