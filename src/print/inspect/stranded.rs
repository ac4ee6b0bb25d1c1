//! The last look at a page with next to nothing on it: a sheet of paper for a line or two.

use super::super::places::Place;
use super::faults::shortened;
use crate::model::finding::{Finding, Subject};
use crate::model::source::Span;

/// The fewest lines that a page is turned for (judgment, no source): four, and in the largest letters three, which are as tall
/// as five in 18 point.
fn least(size: f64) -> usize {
    if size > 30.0 { 3 } else { 4 }
}

/// From line to line, in parts of the size of the type.
const PITCH: f64 = 1.3;

/// What stands on a page between its header and its footer.
#[derive(Default)]
pub(super) struct Lines {
    /// How far down the baselines are, and how large the type, in points.
    baselines: Vec<(f64, f64)>,
    /// How many lines to write on it has.
    ruled: usize,
    /// The heights of its pictures, in points.
    pictures: Vec<f64>,
    first: Option<(Option<Place>, String)>,
    on_card: bool,
}

impl Lines {
    pub(super) fn text(&mut self, baseline: f64, size: f64, place: Option<Place>, words: &str) {
        if words.trim().is_empty() {
            return;
        }
        self.baselines.push((baseline, size));
        // The number of a step stands before the mark of its place.
        if words.contains(char::is_alphabetic) {
            self.first.get_or_insert_with(|| (place, words.to_string()));
        }
    }

    /// Some of the page is of a card, which is looked at by itself.
    pub(super) fn on_card(&mut self) {
        self.on_card = true;
    }

    /// A line to write on.
    pub(super) fn ruled(&mut self) {
        self.ruled += 1;
    }

    pub(super) fn picture(&mut self, height: f64) {
        self.pictures.push(height);
    }

    /// How many lines are on a page with too few, those to write on among them; a picture counts for the lines that it is as
    /// tall as. A page without any
    /// text is no such page: a pair of facing sides may need an empty one before it.
    pub(super) fn stranded(mut self, page: usize) -> Option<(Option<Place>, Stranded)> {
        let (place, words) = self.first?;
        self.baselines.sort_by(|(a, _), (b, _)| a.total_cmp(b));
        // What stands beside each other may be raised or lowered a little.
        self.baselines.dedup_by(|(below, size), (above, _)| *below - *above < 0.5 * *size);
        let size = self.baselines.iter().map(|(_, size)| *size).fold(f64::INFINITY, f64::min);
        let tall: f64 = self.pictures.iter().sum();
        let lines = self.baselines.len() + self.ruled + (tall / (PITCH * size)) as usize;
        (!self.on_card && lines < least(size))
            .then(|| (place, Stranded { page, lines, words: shortened(&words) }))
    }
}

/// A page with too few lines.
pub(super) struct Stranded {
    pub(super) page: usize,
    lines: usize,
    words: String,
}

impl Stranded {
    pub(super) fn tell(&self, span: Span) -> Finding {
        let Stranded { page, lines, words } = self;
        let lines = if *lines == 1 { "1 line".to_string() } else { format!("{lines} lines") };
        Finding::new(
            "stranded-lines",
            span,
            format!("printed page {page} has only {lines} on it: `{words}`"),
            "shorten what stands before it, or divide the long step or picture that comes next",
        )
        .about([Subject::Words(words.clone())])
    }
}
