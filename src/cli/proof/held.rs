//! Which pages keep their last good version while an entry that they are made from cannot be read.

use std::collections::BTreeSet;

use super::super::load::Loaded;
use crate::model::Model;
use crate::model::finding::Finding;
use crate::model::source::FileId;
use crate::outputs::Address;
use crate::workspace::layout::{Kind, kind};

/// What stands in the way of reading an entry whole. A page that is made all the same shows a gap or a stand-in.
const BREAKING: [&str; 3] = ["unreadable-entry", "wrong-value", "missing-field"];

/// The first finding of each entry that could not be read whole.
pub(super) fn broken(loaded: &Loaded) -> Vec<&Finding> {
    let mut seen = BTreeSet::new();
    let breaking = loaded.found_while_reading().iter().filter(|f| BREAKING.contains(&f.rule));
    breaking.filter(|f| seen.insert(f.span.file)).collect()
}

/// Why the page at this path should stay as it is, in a line for a person.
pub(super) fn reason(path: &str, loaded: &Loaded, broken: &[&Finding]) -> Option<String> {
    let finding = broken.iter().find(|f| {
        let kind = kind(&loaded.sources.get(f.span.file).name);
        kind.is_some_and(|kind| shows(path, &kind, &loaded.model))
    })?;
    let name = &loaded.sources.get(finding.span.file).name;
    let line = loaded.sources.positions(finding.span).0.line;
    Some(format!("`{name}`, line {line}: {}", finding.message))
}

/// The entries that the page at this path is made from.
pub(super) fn entries(path: &str, loaded: &Loaded) -> BTreeSet<FileId> {
    let entries = loaded.sources.iter().filter(|(_, source)| {
        kind(&source.name).is_some_and(|kind| kind != Kind::Site && shows(path, &kind, &loaded.model))
    });
    entries.map(|(file, _)| file).collect()
}

/// True when the page at this path shows what stands in a file of this kind.
fn shows(path: &str, kind: &Kind, model: &Model) -> bool {
    let is = |address: Address| address.path() == path;
    match kind {
        Kind::Site => true,
        Kind::References => is(Address::Evidence),
        Kind::Page { id } => is(Address::Free(id.clone())),
        Kind::Exercise { id } => {
            let lists_it = || match Address::at(path, model) {
                Some(Address::Library | Address::LibraryPart(_)) => true,
                Some(Address::Week { series, id: week }) => {
                    let weeks = model.series.get(&series).map_or(&[][..], |s| &s.weeks);
                    weeks.iter().any(|w| w.id == week && w.exercises.iter().any(|e| e.id.value == *id))
                }
                _ => false,
            };
            is(Address::Exercise(id.clone())) || lists_it()
        }
        Kind::Series { id } => is(Address::Series(id.clone())) || is(Address::Home),
        Kind::Week { series, id } => {
            is(Address::Week { series: series.clone(), id: id.clone() })
                || is(Address::Series(series.clone()))
                || is(Address::Home)
        }
        Kind::Captions { .. } | Kind::Stray { .. } | Kind::Aside { .. } => false,
    }
}
