//! What can be wrong at a piece of a sheet, and how an author is told.

use super::card::{Parted, TooLong};
use super::stranded::Stranded;
use crate::model::finding::{Finding, Subject};
use crate::model::source::{Sources, Span};
use crate::print::places::Place;

/// Something wrong at a piece of the sheet.
pub(super) struct Fault {
    pub(super) place: Option<Place>,
    pub(super) kind: FaultKind,
}

pub(super) enum FaultKind {
    OffThePage {
        page: usize,
        words: String,
        wide: bool,
    },
    OffTheMargin {
        page: usize,
        words: String,
    },
    TallFoot {
        page: usize,
    },
    Overlap {
        page: usize,
        words: String,
    },
    Torn {
        from: usize,
        to: usize,
    },
    StepFromNumber {
        from: usize,
        to: usize,
    },
    HeadingLast {
        page: usize,
    },
    ExerciseTorn {
        from: usize,
        to: usize,
    },
    /// Each letter once, in the order in which they were met.
    NoGlyph {
        letters: Vec<char>,
    },
    Stranded(Stranded),
    CardTooLong(TooLong),
    CardParted(Parted),
}

impl FaultKind {
    /// Whether its finding is a `sheet-overflow`.
    fn is_overflow(&self) -> bool {
        matches!(
            self,
            FaultKind::OffThePage { .. } | FaultKind::OffTheMargin { .. } | FaultKind::Overlap { .. }
        )
    }

    pub(super) fn tell(&self, span: Span, sources: &Sources) -> Finding {
        match self {
            FaultKind::OffThePage { page, words, wide: true } => Finding::new(
                "sheet-overflow",
                span,
                format!("on page {page} this is wider than the printed page: `{}`", shortened(words)),
                "use a shorter word, or divide it with a hyphen or a space",
            )
            .about([Subject::Words(shortened(words))]),
            FaultKind::OffThePage { page, words, wide: false } => Finding::new(
                "sheet-overflow",
                span,
                format!("on page {page} this runs off the printed page: `{}`", shortened(words)),
                "divide it into shorter pieces: no step, box or picture can be taller than a page",
            )
            .about([Subject::Words(shortened(words))]),
            FaultKind::OffTheMargin { page, words } => Finding::new(
                "sheet-overflow",
                span,
                format!(
                    "there is no room for this above or below the words of page {page}: `{}`",
                    shortened(words)
                ),
                "write it shorter: it stands on every page, and initials do for a name",
            )
            .about([Subject::Words(shortened(words))]),
            FaultKind::TallFoot { page } => Finding::new(
                "sheet-overflow",
                span,
                format!(
                    "there is no room for this above or below the words of page {page}: `{}`",
                    shortened(sources.slice(span))
                ),
                "write it shorter: it stands on every page, and initials do for a name",
            )
            .about([Subject::Words(shortened(sources.slice(span)))]),
            FaultKind::Overlap { page, words } => Finding::new(
                "sheet-overflow",
                span,
                format!("on page {page} this runs into the words beside it: `{}`", shortened(words)),
                "use a shorter word, or fewer columns",
            )
            .about([Subject::Words(shortened(words))]),
            FaultKind::Torn { from, to } => Finding::new(
                "sheet-split",
                span,
                format!("this is torn apart: it begins on printed page {from} and ends on page {to}"),
                "divide it into shorter steps or paragraphs, or fix the theme's sheet",
            ),
            FaultKind::StepFromNumber { from, to } => Finding::new(
                "sheet-split",
                span,
                format!("the number of this step is on printed page {from} and its words on page {to}"),
                "make the step shorter, or fix the theme's sheet",
            ),
            FaultKind::HeadingLast { page } => Finding::new(
                "sheet-split",
                span,
                format!("this heading is the last on printed page {page}, without what it is about"),
                "make the first step or paragraph below it shorter, or fix the theme's sheet",
            ),
            FaultKind::ExerciseTorn { from, to } => Finding::new(
                "sheet-split",
                span,
                format!("this exercise begins in the middle of printed page {from} and ends on page {to}"),
                "fix the theme's sheet: an exercise begins a page, or is whole on one page",
            ),
            FaultKind::Stranded(stranded) => stranded.tell(span),
            FaultKind::CardTooLong(too_long) => too_long.tell(span),
            FaultKind::CardParted(parted) => parted.tell(span),
            FaultKind::NoGlyph { letters } => {
                let text = sources.slice(span);
                let first = letters.iter().filter_map(|letter| Some((text.find(*letter)?, letter))).min();
                let place = first.map(|(at, letter)| {
                    let at = span.start as usize + at;
                    Span::new(span.file, at..at + letter.len_utf8())
                });
                Finding::new(
                    "glyph-missing",
                    place.unwrap_or(span),
                    format!("the font of the handouts has no {}", lacking(letters)),
                    "write it in words or with another sign, or put a font that has it into `fonts/` of the theme",
                )
                .about(letters.iter().map(|letter| Subject::Words(letter.to_string())))
            }
        }
    }
}

/// "`➔` (U+2794)", or the first few of many.
fn lacking(letters: &[char]) -> String {
    const MOST: usize = 3;
    let named = letters.iter().take(MOST).map(|c| format!("`{c}` (U+{:04X})", u32::from(*c)));
    let named = named.collect::<Vec<_>>().join(", ");
    match letters.len() {
        0..=MOST => named,
        all => format!("{named} and {} more letters of this text", all - MOST),
    }
}

/// The first few words of a piece.
pub(super) fn shortened(words: &str) -> String {
    const MOST: usize = 40;
    let words = words.trim();
    match words.char_indices().nth(MOST) {
        Some((at, _)) => format!("{}…", &words[..at]),
        None => words.to_string(),
    }
}

/// The same faults with one for all letters that a text lacks, and one for words that stand in the margin of every page.
pub(super) fn together(faults: Vec<Fault>, span_of: impl Fn(&Fault) -> Span) -> Vec<Fault> {
    let (in_margin, mut faults): (Vec<Fault>, Vec<Fault>) =
        faults.into_iter().partition(|fault| matches!(fault.kind, FaultKind::OffTheMargin { .. }));
    faults.extend(in_margin);
    // A tall foot leaves few lines on every page; it is told once.
    if let Some(first) = faults.iter().position(|fault| matches!(fault.kind, FaultKind::TallFoot { .. })) {
        return vec![faults.swap_remove(first)];
    }
    let mut all: Vec<Fault> = Vec::new();
    for fault in faults {
        let span = span_of(&fault);
        let mut known = all.iter_mut().filter(|other| span_of(other) == span).map(|other| &mut other.kind);
        match &fault.kind {
            FaultKind::NoGlyph { letters } => {
                let known = known.find_map(|kind| match kind {
                    FaultKind::NoGlyph { letters } => Some(letters),
                    _ => None,
                });
                if let Some(known) = known {
                    let new: Vec<char> = letters.iter().filter(|c| !known.contains(c)).copied().collect();
                    known.extend(new);
                    continue;
                }
            }
            FaultKind::OffTheMargin { .. } if known.any(|kind| kind.is_overflow()) => continue,
            _ => {}
        }
        all.push(fault);
    }
    all
}
