//! The demonstration, for tests of what stands on its sheets.

use std::sync::LazyLock;

use super::{Photos, Press};
use crate::model::Model;
use crate::model::source::{Sources, Spanned};
use crate::model::vocabulary::Restriction;
use crate::review::testing::{self, words};
use crate::workspace::theme::Theme;

/// Texts, their model, and what a press needs beside.
pub(super) struct Read {
    pub(super) model: Model,
    pub(super) sources: Sources,
    pub(super) photos: Photos<'static>,
}

pub(super) static DEMONSTRATION: LazyLock<Read> = LazyLock::new(|| demonstration(|_| ()));

/// The demonstration without variations, where precautions say to avoid whatever they speak of: much has to
/// be left out.
pub(super) static STRICT: LazyLock<Read> = LazyLock::new(|| {
    demonstration(|model| {
        for e in model.exercises.values_mut() {
            // What sends to a variation goes with it.
            let titles: Vec<String> = e.variations.drain(..).map(|v| v.title.value).collect();
            let is_gone = |name: &Spanned<String>| titles.contains(&name.value);
            e.cautions.retain(|c| c.form.is_none() && !c.instead.as_ref().is_some_and(is_gone));
        }
        let rows = model.site.catalogue.precautions.values_mut().flat_map(|p| p.restricts.values_mut());
        rows.for_each(|row| row.by = Restriction::Avoid);
    })
});

fn demonstration(change: impl Fn(&mut Model)) -> Read {
    let (mut model, sources) = testing::demonstration().into_parts();
    assert!(model.exercises.len() > 40 && model.weeks().count() == 12);
    change(&mut model);
    Read { model, sources, photos: Photos::default() }
}

impl Read {
    pub(super) fn press(&self) -> Press<'_> {
        let program = blake3::hash(b"test");
        let theme = Theme::built_in();
        Press::new(&self.model, &self.sources, words(), &theme, &self.photos, false, &program).unwrap()
    }
}
