//! Where the author wrote what stands on a sheet. The typesetter carries a number with each piece, and
//! the table leads from the number back to the line.

use crate::model::source::Span;

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

    pub(super) fn get(&self, place: Place) -> Option<Span> {
        self.0.get(place).copied()
    }
}
