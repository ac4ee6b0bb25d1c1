//! Reads `content/references.bib` (BibLaTeX) with hayagriva.

mod bounds;

use std::ops::Range;

use biblatex::RawBibliography;

use hayagriva::io::BibLaTeXError;

use super::limits;
use crate::model::finding::Finding;
use crate::model::references::{Reference, References};
use crate::model::source::{FileId, Span, Spanned};

pub(super) fn read(text: &str, file: FileId) -> (References, Vec<Finding>) {
    let mut references = References { file: Some(file), complete: true, entries: Vec::new() };
    let mut findings = Vec::new();
    if let Some((range, what)) = RawBibliography::parse(text).ok().and_then(|raw| bounds::beyond(&raw)) {
        references.complete = false;
        let help = "write the fields out where they are used, or take the reference out";
        findings.push(limits::beyond(
            Span::new(file, range),
            format!("the references cannot be read: {what}"),
            help,
        ));
        return (references, findings);
    }
    match hayagriva::io::from_biblatex_str(text) {
        Ok(library) => {
            let mut from = 0;
            for entry in &library {
                let span = key_span(text, from, entry.key(), file);
                from = span.range().end;
                references.entries.push(Reference {
                    key: Spanned::new(entry.key().to_string(), span),
                    entry: entry.clone(),
                });
            }
        }
        Err(errors) => {
            references.complete = false;
            for error in errors {
                let (range, what) = describe(&error);
                findings.push(Finding::new(
                    "unreadable-entry",
                    Span::new(file, range),
                    format!("the references cannot be read here: {what}"),
                    "mend this reference; each is written `@article{key, title = {…}, author = {…}, date = {2022}}`",
                ));
            }
        }
    }
    (references, findings)
}

/// Where the library saw a mistake, and what it says of it.
fn describe(error: &BibLaTeXError) -> (Range<usize>, String) {
    match error {
        BibLaTeXError::Parse(e) => (e.span.clone(), e.kind.to_string()),
        BibLaTeXError::Type(e) => (e.span.clone(), e.kind.to_string()),
    }
}

/// The place of a key: between the brace that opens its reference and the first comma. References stand in
/// the order of the file, so the search goes on `from` the last one.
fn key_span(text: &str, from: usize, key: &str, file: FileId) -> Span {
    let opens = |at: usize| text[..at].trim_end().ends_with('{');
    let closes = |at: usize| text[at + key.len()..].trim_start().starts_with(',');
    let after = |from: usize| {
        let found = text.get(from..)?.match_indices(key).map(|(at, _)| from + at);
        found.into_iter().find(|&at| opens(at) && closes(at))
    };
    let at = after(from).or_else(|| after(0)).unwrap_or(0);
    Span::new(file, at..at + key.len())
}
