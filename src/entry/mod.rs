//! Text to the typed model, with spans. Never a path on disk, never a panic, never an early stop: a
//! broken entry gives findings and whatever could be read of it.

pub mod edit;
pub mod links;
pub mod new;
pub mod schema;

mod accept;
mod block;
mod captions;
mod client;
mod dose;
mod exercise;
mod fields;
pub(crate) mod figure;
mod grammar;
mod markdown;
mod messages;
mod opening;
mod page;
mod parts;
mod prose;
mod references;
mod series;
mod site;
mod style;
mod values;
mod week;

#[cfg(test)]
mod tests;

use std::collections::{BTreeMap, BTreeSet};

use rayon::prelude::*;

pub use client::read_client;
pub use parts::{Parts, parts};
#[cfg(test)]
pub(crate) use prose::drawn;
pub use prose::read_alone as read_prose;
pub(crate) use references::apart;
pub use site::read_site;
pub use style::read_style;

use crate::model::catalogue::Catalogue;
use crate::model::entries::Entries;
use crate::model::finding::Finding;
use crate::model::series::Series;
use crate::model::site::Site;
use crate::model::source::{FileId, Span};
use crate::model::vocabulary::{SectionName, Vocabulary};
use crate::model::week::Week;
use crate::model::words::Words;
use crate::model::{Model, Twin};
use crate::workspace::layout::FileKind;
use crate::workspace::{Bytes, Content, File, Texts};

/// What an entry may name: the demands and precautions, and the sections of an exercise's prose.
pub(crate) struct Known<'a> {
    pub(crate) catalogue: &'a Catalogue,
    /// What the site's language calls each section.
    pub(crate) sections: Vec<(SectionName, String)>,
}

impl<'a> Known<'a> {
    fn of(catalogue: &'a Catalogue, words: &Words) -> Known<'a> {
        Known { catalogue, sections: SectionName::ALL.iter().map(|&n| (n, words.section(n))).collect() }
    }
}

/// The file that an entry is read from.
#[derive(Clone, Copy)]
pub(crate) struct Origin<'a> {
    pub(crate) file: FileId,
    /// Its path relative to the workspace, from which its links lead.
    pub(crate) name: &'a str,
}

/// The events of a text, by which tests of other rooms see what its tree must hold.
#[cfg(test)]
pub(crate) fn events(
    text: &str,
) -> impl Iterator<Item = (pulldown_cmark::Event<'_>, std::ops::Range<usize>)> {
    markdown::events(text)
}

/// What the address of a citation begins with in these events.
#[cfg(test)]
pub(crate) const CITATION: &str = markdown::CITATION;

/// Reads every entry of a workspace. Findings come in no particular order.
pub fn read(texts: &Texts, site: Site, words: &Words) -> (Model, Vec<Finding>) {
    let known = Known::of(&site.catalogue, words);
    let each = texts.files.par_iter().filter_map(|file| {
        let source = texts.sources.get(file.id);
        read_file(&source.text, file, &source.name, &known)
    });
    let read: Vec<(Entry, Vec<Finding>)> = each.collect();

    let mut findings = Vec::new();
    let mut model = Model {
        exercises: Entries::default(),
        unreadable: BTreeSet::new(),
        series: Entries::default(),
        pages: Entries::default(),
        references: Default::default(),
        captions: Entries::default(),
        attachments: texts.attachments.clone().into(),
        positions: texts.positions.clone(),
        twins: Vec::new(),
        things: words.things.clone(),
        site: site.clone(),
    };
    let mut weeks: Vec<(String, Week)> = Vec::new();
    let mut lost_series: BTreeSet<String> = BTreeSet::new();
    let mut ids = Ids::default();
    for (entry, found) in read {
        findings.extend(found);
        match entry {
            Entry::Exercise(e) => {
                if ids.is_new("exercise", &e.id, e.place(), texts, &mut model.twins) {
                    model.exercises.insert(e.id.clone(), *e);
                }
            }
            Entry::Page(p) => {
                if ids.is_new("page", &p.id, p.title.span, texts, &mut model.twins) {
                    model.pages.insert(p.id.clone(), *p);
                }
            }
            Entry::Series(s) => {
                if ids.is_new("series", &s.id, s.title.span, texts, &mut model.twins) {
                    model.series.insert(s.id.clone(), *s);
                }
            }
            Entry::Week(series, week) => weeks.push((series, *week)),
            Entry::References(references) => model.references = references,
            Entry::Captions(captions) => {
                model.captions.insert(captions.name.clone(), captions);
            }
            Entry::UnreadableExercise(id) => {
                model.unreadable.insert(id);
            }
            Entry::UnreadableSeries(id) => {
                lost_series.insert(id);
            }
            Entry::Nothing => {}
        }
    }
    for (series, week) in weeks {
        match model.series.get_mut(&series) {
            Some(owner) => owner.weeks.push(week),
            // What a series that cannot be read has lost is reported at its own file, once.
            None if lost_series.contains(&series) => {}
            None => findings.push(orphan(&series, &week)),
        }
    }
    let is_entry = |f: &File| {
        !matches!(
            f.kind,
            FileKind::Site
                | FileKind::References
                | FileKind::Captions { .. }
                | FileKind::Style
                | FileKind::Stray { .. }
                | FileKind::Aside { .. }
        )
    };
    if !texts.files.iter().any(is_entry) {
        findings.push(Finding::new(
            "unreadable-entry",
            Span::start_of(model.site.file),
            "the workspace has no entries",
            "add one with `steadyleaf add exercise TITLE --component posture` or `steadyleaf add series TITLE`",
        ));
    }
    for Series { weeks, .. } in model.series.values_mut() {
        weeks.list_mut().sort_by_key(|w| (w.number.value, w.file));
    }
    (model, findings)
}

/// Reads one entry again whose text has changed, and puts it in the place of what it was; `name` is the path of its file
/// relative to the workspace. Returns the findings of reading it; `None`, with the model as it was, where only reading all tells what becomes of the others: an entry
/// that cannot be read any more or could not be read before, or that has a twin.
pub fn read_again(
    model: &mut Model,
    text: &str,
    file: &File,
    name: &str,
    words: &Words,
) -> Option<Vec<Finding>> {
    let (entry, findings) = read_file(text, file, name, &Known::of(&model.site.catalogue, words))?;
    match entry {
        Entry::Exercise(new) => {
            let old = model.exercises.get_mut(&new.id).filter(|old| old.file == file.id)?;
            *old = *new;
        }
        Entry::Page(new) => {
            let old = model.pages.get_mut(&new.id).filter(|old| old.file == file.id)?;
            *old = *new;
        }
        Entry::Series(mut new) => {
            let old = model.series.get_mut(&new.id).filter(|old| old.file == file.id)?;
            new.weeks = std::mem::take(&mut old.weeks);
            *old = *new;
        }
        Entry::Week(series, new) => {
            let weeks = model.series.get_mut(&series)?.weeks.list_mut();
            let old = weeks.iter_mut().find(|old| old.file == file.id)?;
            *old = *new;
            weeks.sort_by_key(|w| (w.number.value, w.file));
        }
        Entry::References(new) => model.references = new,
        Entry::Captions(new) => {
            let old = model.captions.get_mut(&new.name)?;
            *old = new;
        }
        Entry::UnreadableExercise(_) | Entry::UnreadableSeries(_) | Entry::Nothing => return None,
    }
    Some(findings)
}

/// What would be found while reading an entry with this text, beside everything that is read already.
pub fn found_in(text: &str, file: &File, name: &str, model: &Model, words: &Words) -> Vec<Finding> {
    if file.kind == FileKind::Site {
        let bytes = Bytes::of(text.as_bytes().to_vec());
        let texts =
            Texts::sorted(vec![(name.to_string(), bytes)], model.attachments.iter().cloned().collect());
        return read_site(&texts).1;
    }
    let read = read_file(text, file, name, &Known::of(&model.site.catalogue, words));
    read.map(|(_, findings)| findings).unwrap_or_default()
}

/// What one file gave.
enum Entry {
    Exercise(Box<crate::model::exercise::Exercise>),
    UnreadableExercise(String),
    UnreadableSeries(String),
    Series(Box<Series>),
    Week(String, Box<Week>),
    Page(Box<crate::model::page::FreePage>),
    References(crate::model::references::References),
    Captions(crate::model::captions::Captions),
    Nothing,
}

fn read_file(text: &str, file: &File, name: &str, known: &Known<'_>) -> Option<(Entry, Vec<Finding>)> {
    if let FileKind::Aside { instead } = &file.kind {
        return Some((Entry::Nothing, vec![aside(file.id, instead)]));
    }
    if file.kind == FileKind::Style {
        return Some((Entry::Nothing, read_style(text, file.id, &file.content)));
    }
    if let Some(finding) = unreadable(file.id, &file.content) {
        let entry = match &file.kind {
            FileKind::Exercise { id } => Entry::UnreadableExercise(id.clone()),
            FileKind::Series { id } => Entry::UnreadableSeries(id.clone()),
            _ => Entry::Nothing,
        };
        return (file.kind != FileKind::Site).then_some((entry, vec![finding]));
    }
    let origin = Origin { file: file.id, name };
    let (entry, mut findings) = match &file.kind {
        FileKind::Site | FileKind::Style | FileKind::Aside { .. } => return None,
        FileKind::Exercise { id } => match exercise::read(text, origin, id, known) {
            (Some(e), findings) => (Entry::Exercise(Box::new(e)), findings),
            (None, findings) => (Entry::UnreadableExercise(id.clone()), findings),
        },
        FileKind::Series { id } => {
            let (series, findings) = series::read(text, file.id, id, known);
            (Entry::Series(Box::new(series)), findings)
        }
        FileKind::Week { series, id } => match week::read(text, origin, id, known) {
            (Some(w), findings) => (Entry::Week(series.clone(), Box::new(w)), findings),
            (None, findings) => (Entry::Nothing, findings),
        },
        FileKind::Page { id } => match page::read(text, origin, id, known) {
            (Some(p), findings) => (Entry::Page(Box::new(p)), findings),
            (None, findings) => (Entry::Nothing, findings),
        },
        FileKind::References => {
            let (references, findings) = references::read(text, file.id);
            (Entry::References(references), findings)
        }
        FileKind::Captions { name } => {
            let (captions, findings) = captions::read(text, file.id, name);
            (Entry::Captions(captions), findings)
        }
        FileKind::Stray { expected } => (Entry::Nothing, vec![stray(file.id, expected)]),
    };
    // In the fields the grammar allows none of them, and has said so.
    let control = control(text).map(|at| Span::new(file.id, at));
    if let Some(span) =
        control.filter(|c| !findings.iter().any(|f| f.span.start <= c.end && c.start <= f.span.end))
    {
        findings.push(Finding::new(
            "unreadable-entry",
            span,
            "a control character that no page can show",
            "delete it: it is invisible, and is between the characters around it",
        ));
    }
    Some((entry, findings))
}

/// The first control character of a text that is neither a tab nor part of a line end.
fn control(text: &str) -> Option<std::ops::Range<usize>> {
    let (at, c) = text.char_indices().find(|&(_, c)| is_control(c))?;
    Some(at..at + c.len_utf8())
}

fn is_control(c: char) -> bool {
    // Feeds are XML, which can hold neither of the last two.
    c.is_control() && !matches!(c, '\t' | '\n' | '\r') || matches!(c, '\u{fffe}' | '\u{ffff}')
}

/// The finding for a file whose bytes are no text that could be read at all.
pub fn unreadable(file: FileId, content: &Content) -> Option<Finding> {
    let at = |offset: usize| Span::new(file, offset..offset);
    match *content {
        Content::Text => None,
        Content::NotText { offset } => Some(Finding::new(
            "unreadable-entry",
            at(offset),
            "this file is not text in UTF-8: the first byte that cannot be read is here",
            "save the file again as UTF-8 (most editors: Save As, Encoding, UTF-8)",
        )),
        Content::Empty => Some(Finding::new(
            "unreadable-entry",
            at(0),
            "this file is empty",
            "write the entry, or remove the file",
        )),
        Content::TooLarge { bytes, most } => Some(Finding::new(
            "unreadable-entry",
            at(0),
            format!(
                "this file has {:.1} MB, expected at most {:.0} MB of text",
                bytes as f64 / 1e6,
                most as f64 / 1e6
            ),
            "keep one exercise, week, page or profile a file, and put photos and videos under content/media/",
        )),
        Content::NameNotText => Some(Finding::new(
            "unreadable-entry",
            at(0),
            "the name of this file is not UTF-8",
            "rename the file with letters a to z, digits and hyphens",
        )),
        Content::Unreachable { ref why } => Some(Finding::new(
            "unreadable-entry",
            at(0),
            format!("this cannot be opened: {why}"),
            "check that it is there and that you may read it, or remove it",
        )),
    }
}

fn aside(file: FileId, instead: &str) -> Finding {
    Finding::new(
        "stray-file",
        Span::start_of(file),
        "nothing reads a file of this kind here",
        format!(
            "if it is an entry, save it as plain text with the name {instead}; else move it out of content/"
        ),
    )
}

fn stray(file: FileId, expected: &str) -> Finding {
    Finding::new(
        "unreadable-entry",
        Span::start_of(file),
        "nothing reads a file of this name in this place",
        format!("expected {expected}; rename it or move it out of content/"),
    )
}

fn orphan(series: &str, week: &Week) -> Finding {
    Finding::new(
        "unreadable-entry",
        week.place(),
        format!("this week belongs to no series: the folder `{series}` has no series.toml that can be read"),
        "add a series.toml with title, summary, audience, start and serves to the folder",
    )
}

/// Ids seen so far, compared without regard to letter case: file systems and web servers differ on it.
#[derive(Default)]
struct Ids {
    seen: BTreeMap<(&'static str, String), FileId>,
}

impl Ids {
    fn is_new(
        &mut self,
        kind: &'static str,
        id: &str,
        place: Span,
        texts: &Texts,
        twins: &mut Vec<Twin>,
    ) -> bool {
        let key = (kind, id.to_lowercase());
        if let Some(&first) = self.seen.get(&key) {
            let other = texts.sources.get(first).name.clone();
            twins.push(Twin { id: id.to_string(), place, other });
            return false;
        }
        self.seen.insert(key, place.file);
        true
    }
}
