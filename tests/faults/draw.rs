//! Chance with a fixed seed: the same draws in every run, each kind of fault with draws of its own.

use proptest::prelude::Rng;
use proptest::test_runner::{RngAlgorithm, TestRng};

pub(crate) struct Draw(TestRng);

impl Draw {
    pub(crate) fn seeded(name: &str) -> Draw {
        let mut seed = [7; 32];
        for (at, byte) in name.bytes().enumerate() {
            seed[at % 32] ^= byte;
        }
        Draw(TestRng::from_seed(RngAlgorithm::ChaCha, &seed))
    }

    /// A number below `end`.
    pub(crate) fn below(&mut self, end: usize) -> usize {
        (self.0.next_u64() % end as u64) as usize
    }

    /// A number from `from` to `to`, both included.
    pub(crate) fn within(&mut self, from: i64, to: i64) -> i64 {
        from + self.below((to - from + 1) as usize) as i64
    }

    pub(crate) fn one<'l, T>(&mut self, list: &'l [T]) -> &'l T {
        &list[self.below(list.len())]
    }

    pub(crate) fn shuffle<T>(&mut self, list: &mut [T]) {
        for at in (1..list.len()).rev() {
            let other = self.below(at + 1);
            list.swap(at, other);
        }
    }

    /// A word with a slip of the finger: two letters exchanged, one left out, doubled or hit beside. Never one of `not`.
    pub(crate) fn slip(&mut self, word: &str, not: &[&str]) -> String {
        loop {
            let mut letters: Vec<char> = word.chars().collect();
            let at = self.below(letters.len());
            match self.below(4) {
                0 if at + 1 < letters.len() => letters.swap(at, at + 1),
                1 if letters.len() > 2 => {
                    letters.remove(at);
                }
                2 => letters.insert(at, letters[at]),
                3 => letters[at] = *self.one(&['a', 'e', 'i', 'o', 'n', 's', 't', 'r']),
                _ => continue,
            }
            let slipped: String = letters.into_iter().collect();
            if slipped != word && !not.contains(&slipped.as_str()) {
                return slipped;
            }
        }
    }
}
