//! Where the author wrote what stands on a sheet. The typesetter carries a number with each piece, and
//! the table leads from the number back to the line.

use std::cmp::Reverse;
use std::collections::BTreeSet;

use crate::model::source::{FileId, Span};

/// The number of a piece of a sheet.
pub(super) type Place = usize;

/// The lines that the pieces of one sheet come from, by number.
#[derive(Clone, Debug, Default)]
pub(super) struct Places(Vec<Span>);

impl Places {
    /// The number for a piece that was written at `span`.
    pub(super) fn at(&mut self, span: Span) -> Place {
        self.0.push(span);
        self.0.len() - 1
    }

    /// How many texts there are among those that are meant, each once: what holds others that have a place of their own is
    /// not counted.
    pub(super) fn texts(&self, meant: impl Fn(&Span) -> bool) -> usize {
        let spans: BTreeSet<(FileId, u32, Reverse<u32>)> =
            self.0.iter().filter(|span| meant(span)).map(|s| (s.file, s.start, Reverse(s.end))).collect();
        // In this order what holds another stands right before it.
        let spans: Vec<_> = spans.into_iter().collect();
        let holds = |outer: &(FileId, u32, Reverse<u32>), inner: &(FileId, u32, Reverse<u32>)| {
            outer.0 == inner.0 && inner.1 < outer.2.0 && inner.2.0 <= outer.2.0
        };
        let last = spans.len().saturating_sub(1);
        (0..spans.len()).filter(|&at| at == last || !holds(&spans[at], &spans[at + 1])).count()
    }

    pub(super) fn get(&self, place: Place) -> Option<Span> {
        self.0.get(place).copied()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_is_counted_once_and_what_holds_it_is_not() {
        let mut places = Places::default();
        let file = FileId(1);
        // A list with two items, of which the first holds two paragraphs; the second stands twice on the sheet.
        for range in [0..40, 0..20, 2..10, 12..20, 22..40, 22..40, 50..60] {
            places.at(Span::new(file, range));
        }
        places.at(Span::new(FileId(2), 0..9));
        assert_eq!(places.texts(|_| true), 5);
        assert_eq!(places.texts(|span| span.file == file), 4);
    }
}
