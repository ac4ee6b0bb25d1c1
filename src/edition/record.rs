//! What the last site was made from, output by output, so that the next is made of what has changed alone. Kept by
//! `publish` beside the site; without it, or where it is of another program or another theme, everything is made.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::inputs::{Version, Versions};
use crate::model::reads::{Read, Reads};
use crate::outputs::Output;
use crate::pages::Photo;
use crate::pages::inspect::Inspection;

/// The last site: what it was made from, and what is known of each output of it.
#[derive(Default, Serialize, Deserialize)]
pub(super) struct Record {
    /// Of what pages and feeds share, and of what sheets share.
    pages: Option<Version>,
    sheets: Option<Version>,
    /// Everything that was asked for, once, with its version.
    reads: Vec<(Read, Version)>,
    outputs: BTreeMap<String, RecordedOutput>,
}

/// What is known of an output.
#[derive(Clone, Serialize, Deserialize)]
pub(super) struct RecordedOutput {
    /// The paths of its files.
    pub(super) files: Vec<String>,
    /// What it was made from, by their places in the list.
    reads: Vec<u32>,
    pub(super) fact: Fact,
}

/// What others need to know of an output that is kept.
#[derive(Clone, Serialize, Deserialize)]
pub(super) enum Fact {
    None,
    Page(Inspection),
    /// A sheet's number of pages, and the key under which it lies in the store.
    Sheet {
        pages: u32,
        key: String,
    },
    Photo(Photo),
}

/// An output as the record names it.
pub(super) fn name(output: &Output) -> String {
    format!("{output:?}")
}

/// True for what is typeset.
fn is_sheet(output: &Output) -> bool {
    matches!(output, Output::Sheet(_) | Output::Preview { .. })
}

/// The outputs of the last site that are as they would be made now.
pub(super) struct Unchanged<'r> {
    record: &'r Record,
    /// For each read whether it still has its version.
    same: Vec<Option<bool>>,
    pages: bool,
    sheets: bool,
}

impl Record {
    pub(super) fn from_bytes(bytes: &[u8]) -> Option<Record> {
        serde_json::from_slice(bytes).ok()
    }

    pub(super) fn to_bytes(&self) -> Option<Vec<u8>> {
        serde_json::to_vec(self).ok()
    }

    /// Compares what the last site was made from with what is there now. What pages lead to is not known yet; see
    /// [`Unchanged::look_again`].
    pub(super) fn compare<'r>(&'r self, versions: &Versions<'_>) -> Unchanged<'r> {
        let same = self.reads.iter().map(|(read, version)| match read {
            Read::Photo { .. } | Read::Sheets(_) => None,
            read => Some(versions.get(read) == *version),
        });
        Unchanged {
            record: self,
            same: same.collect(),
            pages: self.pages == Some(versions.of_pages()),
            sheets: self.sheets == Some(versions.of_sheets()),
        }
    }

    /// True when an output of the last site has that path.
    pub(super) fn paths(&self) -> impl Iterator<Item = &str> {
        self.outputs.values().flat_map(|kept| &kept.files).map(String::as_str)
    }
}

impl<'r> Unchanged<'r> {
    /// Compares what was not known before: `versions` have learned it.
    pub(super) fn look_again(&mut self, versions: &Versions<'_>) {
        for ((read, version), same) in self.record.reads.iter().zip(&mut self.same) {
            same.get_or_insert_with(|| versions.get(read) == *version);
        }
    }

    /// What is known of an output, if it would be made as it was.
    pub(super) fn get(&self, output: &Output) -> Option<&'r RecordedOutput> {
        let base = if is_sheet(output) { self.sheets } else { self.pages };
        let kept = self.record.outputs.get(&name(output))?;
        let same = |read: &u32| self.same.get(*read as usize).copied().flatten() == Some(true);
        (base && kept.reads.iter().all(same)).then_some(kept)
    }
}

/// The record of a site that is being made.
pub(super) struct Recorder<'v, 'e> {
    versions: &'v Versions<'e>,
    places: BTreeMap<Read, u32>,
    record: Record,
}

impl<'v, 'e> Recorder<'v, 'e> {
    pub(super) fn new(versions: &'v Versions<'e>) -> Self {
        let record = Record {
            pages: Some(versions.of_pages()),
            sheets: Some(versions.of_sheets()),
            ..Record::default()
        };
        Recorder { versions, places: BTreeMap::new(), record }
    }

    fn place(&mut self, read: &Read) -> u32 {
        if let Some(place) = self.places.get(read) {
            return *place;
        }
        let place = self.record.reads.len() as u32;
        self.record.reads.push((read.clone(), self.versions.get(read)));
        self.places.insert(read.clone(), place);
        place
    }

    /// An output that was made.
    pub(super) fn made(&mut self, output: &Output, files: Vec<String>, reads: &Reads, fact: Fact) {
        let reads = reads.iter().map(|read| self.place(read)).collect();
        self.record.outputs.insert(name(output), RecordedOutput { files, reads, fact });
    }

    /// An output that was kept as it was, with what is known of it.
    pub(super) fn kept(&mut self, last: &Record, output: &Output, kept: &RecordedOutput, fact: Fact) {
        let reads = kept.reads.iter().filter_map(|&read| Some(&last.reads.get(read as usize)?.0));
        let reads = reads.map(|read| self.place(read)).collect();
        self.record.outputs.insert(name(output), RecordedOutput { files: kept.files.clone(), reads, fact });
    }

    pub(super) fn finish(self) -> Record {
        self.record
    }
}
