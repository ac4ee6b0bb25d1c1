//! The texts of an entry that clients read, without marks, each with the way back to its place.

use std::borrow::Cow;
use std::ops::Range;

use crate::model::exercise::Exercise;
use crate::model::page::FreePage;
use crate::model::prose::{Paragraph, ParagraphKind, Prose};
use crate::model::source::{Sources, Span, Spanned};
use crate::model::vocabulary::SectionName;
use crate::model::week::Week;

/// One text: a paragraph, a step, a field.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Passage<'s> {
    pub kind: PassageKind,
    /// What a reader sees of it.
    pub text: Cow<'s, str>,
    whole: Span,
    place: Place,
}

/// Where the text is in the file.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Place {
    /// In one piece that begins there.
    At(usize),
    /// In pieces, of which each begins there in the text and there in the file.
    Pieces(Vec<(usize, usize)>),
    /// The letters in the file are others, as behind an escape in a string.
    Lost,
}

/// What a passage is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PassageKind {
    /// A summary, a caution, a variation, a cue.
    Field,
    Running,
    /// A numbered step of the section Move or of a variation.
    Step,
    /// A cell of a table: no sentence.
    Cell,
}

impl Passage<'_> {
    /// True when its sentences count in the measures of the entry.
    pub fn counts_as_text(&self) -> bool {
        self.kind != PassageKind::Cell
    }

    /// The place of a part of the text.
    pub fn span(&self, part: Range<usize>) -> Span {
        let place = |at: usize| match &self.place {
            Place::At(start) => Some(start + at),
            Place::Pieces(pieces) => {
                let i = pieces.partition_point(|(text, _)| *text <= at).checked_sub(1)?;
                let (text, file) = pieces[i];
                Some(file + (at - text))
            }
            Place::Lost => None,
        };
        match (place(part.start), place(part.end.saturating_sub(1).max(part.start))) {
            (Some(start), Some(last)) if part.end > part.start => {
                Span::new(self.whole.file, start..(last + 1).max(start))
            }
            (Some(start), _) => Span::new(self.whole.file, start..start),
            _ => self.whole,
        }
    }

    /// The text of a field.
    pub fn field<'s>(field: &'s Spanned<String>, sources: &Sources) -> Passage<'s> {
        let written = sources.slice(field.span);
        let at = match written.get(1..).is_some_and(|inside| inside.starts_with(&field.value)) {
            true => Some(1),
            // In a string of several lines, behind three marks.
            false => written.find(field.value.as_str()),
        };
        let place = at.map_or(Place::Lost, |at| Place::At(field.span.start as usize + at));
        Passage { kind: PassageKind::Field, text: Cow::Borrowed(&field.value), whole: field.span, place }
    }

    fn paragraph<'s>(paragraph: &Paragraph, kind: PassageKind, sources: &'s Sources) -> Passage<'s> {
        let whole = paragraph.span;
        if let [only] = paragraph.seen[..] {
            let place = Place::At(only.start as usize);
            return Passage { kind, text: Cow::Borrowed(sources.slice(only)), whole, place };
        }
        let mut pieces = Vec::with_capacity(paragraph.seen.len());
        let mut text = String::with_capacity((whole.end - whole.start) as usize);
        let mut behind = None;
        for seen in &paragraph.seen {
            if let Some(behind) = behind {
                let between = sources.slice(Span { start: behind, end: seen.start, ..*seen });
                if between.contains(char::is_whitespace) || between.starts_with('<') {
                    text.push(' ');
                }
            }
            pieces.push((text.len(), seen.start as usize));
            text.push_str(sources.slice(*seen));
            behind = Some(seen.end);
        }
        Passage { kind, text: Cow::Owned(text), whole, place: Place::Pieces(pieces) }
    }
}

/// The client-facing texts of an exercise, in the order of the page. Its title and its other names are not among them: a
/// name is no sentence, and people know a movement by the names it has, however hard.
pub fn of_exercise<'s>(e: &'s Exercise, sources: &'s Sources) -> Vec<Passage<'s>> {
    let mut passages = Vec::new();
    let mut field = |text: &'s Spanned<String>| passages.push(Passage::field(text, sources));
    field(&e.summary);
    e.cautions.iter().for_each(|c| field(&c.text));
    passages.extend(of_prose(&e.prose, sources));
    let mut field = |text: &'s Spanned<String>| passages.push(Passage::field(text, sources));
    e.regressions.iter().filter_map(|c| c.text()).for_each(&mut field);
    for variation in &e.variations {
        let step = |step| Passage { kind: PassageKind::Step, ..Passage::field(step, sources) };
        passages.push(Passage::field(&variation.text, sources));
        passages.extend(variation.steps().iter().map(step));
    }
    let mut field = |text: &'s Spanned<String>| passages.push(Passage::field(text, sources));
    e.progressions.iter().filter_map(|c| c.text()).for_each(&mut field);
    passages
}

/// The client-facing texts of a week, but for those of its exercises.
pub fn of_week<'s>(w: &'s Week, sources: &'s Sources) -> Vec<Passage<'s>> {
    let mut passages = Vec::new();
    let mut field = |text: &'s Spanned<String>| passages.push(Passage::field(text, sources));
    w.exercises.iter().filter_map(|used| used.focus.as_ref()).for_each(&mut field);
    w.question.iter().for_each(&mut field);
    passages.extend(of_prose(&w.prose, sources));
    passages
}

/// The client-facing texts of a free page.
pub fn of_page<'s>(p: &'s FreePage, sources: &'s Sources) -> Vec<Passage<'s>> {
    let mut passages: Vec<_> = p.summary.iter().map(|text| Passage::field(text, sources)).collect();
    passages.extend(of_prose(&p.prose, sources));
    passages
}

/// The paragraphs of a prose, in its order.
pub fn of_prose<'s>(prose: &'s Prose, sources: &'s Sources) -> impl Iterator<Item = Passage<'s>> {
    let steps = prose.section(SectionName::Move).map(|section| section.body.range());
    let kind = move |paragraph: &Paragraph| match paragraph.kind {
        ParagraphKind::Cell => PassageKind::Cell,
        ParagraphKind::Step
            if steps.as_ref().is_some_and(|s| s.contains(&(paragraph.span.start as usize))) =>
        {
            PassageKind::Step
        }
        ParagraphKind::Step | ParagraphKind::Running => PassageKind::Running,
    };
    prose.paragraphs.iter().map(move |p| Passage::paragraph(p, kind(p), sources))
}
