//! What a page shows of an entry, and why it should stay as it is while that entry cannot be read.

use std::collections::BTreeSet;

use super::Edition;
use crate::model::Model;
use crate::model::finding::Finding;
use crate::model::source::FileId;
use crate::outputs::Address;
use crate::workspace::layout::{FileKind, kind};

/// What stands in the way of reading an entry whole. A page that is made all the same shows a gap or a stand-in.
const BREAKING: [&str; 3] = ["unreadable-entry", "wrong-value", "missing-field"];

impl Edition {
    /// The first finding of each entry that could not be read whole.
    pub fn broken(&self) -> Vec<&Finding> {
        let mut seen = BTreeSet::new();
        let breaking = self.findings.iter().filter(|f| BREAKING.contains(&f.rule));
        breaking.filter(|f| seen.insert(f.span.file)).collect()
    }

    /// Why the page at this path should stay as it is, in a line for a person. `broken` is [`Edition::broken`].
    pub fn why_held(&self, path: &str, broken: &[&Finding]) -> Option<String> {
        let finding = broken.iter().find(|f| {
            let kind = kind(&self.sources.get(f.span.file).name);
            kind.is_some_and(|kind| shows(path, &kind, &self.model))
        })?;
        let name = &self.sources.get(finding.span.file).name;
        let line = self.sources.positions(finding.span).0.line;
        Some(format!("`{name}`, line {line}: {}", finding.message))
    }

    /// The entries that the page at this path is about.
    pub fn shown_on(&self, path: &str) -> BTreeSet<FileId> {
        let entries = self.sources.iter().filter(|(_, source)| {
            kind(&source.name).is_some_and(|kind| kind != FileKind::Site && shows(path, &kind, &self.model))
        });
        entries.map(|(file, _)| file).collect()
    }
}

/// True when the page at this path shows what stands in a file of this kind.
fn shows(path: &str, kind: &FileKind, model: &Model) -> bool {
    let is = |address: Address| address.path() == path;
    match kind {
        FileKind::Site => true,
        FileKind::References => is(Address::Evidence),
        FileKind::Page { id } => is(Address::Free(id.clone())),
        FileKind::Exercise { id } => {
            let lists_it = || match Address::at(path, model) {
                Some(Address::Library | Address::LibraryPage(_)) => true,
                Some(Address::Week { series, id: week } | Address::WeekPractice { series, id: week }) => {
                    let week = model.series.get(&series).and_then(|s| s.weeks.get(&week));
                    week.is_some_and(|week| week.exercises.iter().any(|e| e.id.value == *id))
                }
                _ => false,
            };
            is(Address::Exercise(id.clone())) || is(Address::ExercisePractice(id.clone())) || lists_it()
        }
        FileKind::Series { id } => is(Address::Series(id.clone())) || is(Address::Home),
        FileKind::Week { series, id } => {
            is(Address::Week { series: series.clone(), id: id.clone() })
                || is(Address::WeekPractice { series: series.clone(), id: id.clone() })
                || is(Address::Series(series.clone()))
                || is(Address::Home)
        }
        FileKind::Captions { .. } | FileKind::Style | FileKind::Stray { .. } | FileKind::Aside { .. } => {
            false
        }
    }
}
