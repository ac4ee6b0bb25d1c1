//! Reads `content/references.bib` (BibLaTeX) with hayagriva.

mod bounds;

use std::ops::Range;

use biblatex::RawBibliography;

use hayagriva::io::BibLaTeXError;

use crate::model::finding::Finding;
use crate::model::limits;
use crate::model::references::{Reference, References};
use crate::model::source::{FileId, Span, Spanned};

pub(super) fn read(text: &str, file: FileId) -> (References, Vec<Finding>) {
    let mut references = References { complete: true, entries: Vec::new() };
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
    let Ok(read) = apart(|| hayagriva::io::from_biblatex_str(text)) else {
        references.complete = false;
        findings.push(Finding::new(
            "unreadable-entry",
            Span::start_of(file),
            "the references cannot be read: something in them stops the library that reads them",
            "take out what was added last, and add it again reference by reference",
        ));
        return (references, findings);
    };
    match read {
        Ok(library) => {
            let mut from = 0;
            for entry in &library {
                let span = key_span(text, from, entry.key(), file);
                from = span.range().end;
                findings.extend(year_that_nobody_means(entry, span));
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
                    "fix this reference; each is written `@article{key, title = {…}, author = {…}, date = {2022}}`",
                ));
            }
        }
    }
    (references, findings)
}

/// Does what the library of references does on a thread of its own, whose stack is large: it follows what its inputs
/// name, and calls itself for each brace. That it panicked is an answer, and not the end of the program. An overflow of
/// the stack would still be one: `bounds` keeps away whatever goes so deep.
pub(crate) fn apart<T: Send>(work: impl FnOnce() -> T + Send) -> std::thread::Result<T> {
    std::thread::scope(|scope| {
        let begun = std::thread::Builder::new().stack_size(STACK).spawn_scoped(scope, work);
        match begun {
            Ok(thread) => thread.join(),
            Err(why) => Err(Box::new(why) as Box<dyn std::any::Any + Send>),
        }
    })
}

/// Bytes: thirty-two times what a thread has by default.
const STACK: usize = 64 << 20;

/// A year as nobody writes it stands for a slip, and is sorted and cited like any other.
fn year_that_nobody_means(entry: &hayagriva::Entry, span: Span) -> Option<Finding> {
    let year = entry.date()?.year;
    (!limits::YEARS.contains(&year)).then(|| {
        Finding::new(
            "wrong-value",
            span,
            format!(
                "expected a year from {} to {} in `date`, found {year}",
                limits::YEARS.start(),
                limits::YEARS.end()
            ),
            "write the year in which it appeared, such as `date = {2022}`",
        )
    })
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

#[cfg(test)]
mod tests {
    use super::apart;

    /// Calls itself so often, with a frame of 1 kB and more.
    fn deep(calls: usize) -> u8 {
        let frame = std::hint::black_box([1u8; 1024]);
        if calls == 0 { frame[0] } else { std::hint::black_box(deep(calls - 1)).min(frame[calls % 1024]) }
    }

    #[test]
    fn what_panics_apart_is_an_answer_and_there_is_room_to_go_deep() {
        assert!(apart(|| panic!("the library stops")).is_err());
        // More than the 2 MB of a thread as it comes, and less than a quarter of this one's in a build for tests.
        assert_eq!(apart(|| deep(6_000)).unwrap(), 1);
    }
}
