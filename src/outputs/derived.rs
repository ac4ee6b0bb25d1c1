//! What is worked out of a whole model: each part when somebody first asks for it, and once for all who share it.

use std::sync::{Arc, OnceLock};

use super::blocks::evidence::{Formatted, format};
use super::{Citing, Uses};
use crate::model::Model;
use crate::model::reads::unwatched;
use crate::model::words::Words;
use crate::reckon::ladder::Ladders;

/// The ladders, uses and references of a model, and who cites these. What is asked of them is noted, not what they are made from: that is the
/// whole workspace.
pub struct Derived<'m> {
    pub model: &'m Model,
    pub words: &'m Words,
    ladders: OnceLock<Ladders<'m>>,
    uses: OnceLock<Uses<'m>>,
    citing: OnceLock<Citing<'m>>,
    references: Arc<OnceLock<Formatted>>,
}

impl<'m> Derived<'m> {
    pub fn of(model: &'m Model, words: &'m Words) -> Derived<'m> {
        Derived::with_references(model, words, Arc::default())
    }

    /// The same, where the references of this model may have been formatted before in these words: that takes longer than
    /// all else.
    pub fn with_references(
        model: &'m Model,
        words: &'m Words,
        references: Arc<OnceLock<Formatted>>,
    ) -> Derived<'m> {
        let (ladders, uses, citing) = (OnceLock::new(), OnceLock::new(), OnceLock::new());
        Derived { model, words, ladders, uses, citing, references }
    }

    pub fn ladders(&self) -> &Ladders<'m> {
        self.ladders.get_or_init(|| unwatched(|| Ladders::of(self.model)))
    }

    pub fn uses(&self) -> &Uses<'m> {
        self.uses.get_or_init(|| unwatched(|| Uses::of(self.model)))
    }

    pub fn citing(&self) -> &Citing<'m> {
        self.citing.get_or_init(|| unwatched(|| Citing::of(self.model)))
    }

    pub fn references(&self) -> &Formatted {
        self.references.get_or_init(|| unwatched(|| format(&self.model.references, self.words)))
    }
}
