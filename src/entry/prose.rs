//! Reads an entry's prose, once: its tree, its sections, and lists of what in it points elsewhere or is measured.

mod grow;
mod lists;
mod measure;
mod wording;

#[cfg(test)]
pub(crate) mod drawn;
#[cfg(test)]
mod tests;

use std::ops::Range;

use super::Origin;
use crate::model::finding::Finding;
use crate::model::limits::{self, PROSE};
use crate::model::prose::{Block, Blocks, Definition, Prose, Section};
use crate::model::source::{FileId, Span, Spanned};
use crate::model::vocabulary::SectionName;
use grow::Grown;

/// What the site's language calls each section.
type SectionNames = [(SectionName, String)];

/// Reads the prose that stands at `range` of a file's text. Of a prose that goes beyond the limits nothing is read, or what
/// comes after would have to bear it.
pub(super) fn read(
    text: &str,
    range: Range<usize>,
    origin: Origin<'_>,
    named: &SectionNames,
    findings: &mut Vec<Finding>,
) -> Prose {
    let span = Span::new(origin.file, range.clone());
    if range.len() > PROSE {
        let at = range.start..text[range.clone()].find('\n').map_or(range.end, |line| range.start + line);
        let what = format!("expected at most {PROSE} letters of prose, found {}", range.len());
        findings.push(limits::beyond(
            Span::new(origin.file, at),
            what,
            "split it into several pages, or take out what came along with a copied text",
        ));
        return Prose::empty(span);
    }
    let Grown { blocks, html } = match grow::grow(text, range.clone(), origin) {
        Ok(grown) => grown,
        Err(finding) => {
            findings.push(finding);
            return Prose::empty(span);
        }
    };
    let (opening, sections) = divided(blocks, &text[..range.end], named);
    let mut prose =
        Prose { opening, sections, wording: wording::hash(text, range, &html), ..Prose::empty(span) };
    lists::fill(&mut prose);
    prose
}

/// Reads a text that is nothing but prose, as the examples of CommonMark are; what goes beyond the limits is empty.
pub fn read_alone(text: &str) -> Prose {
    read(text, 0..text.len(), Origin { file: FileId(0), name: "" }, &[], &mut Vec::new())
}

/// Divides a prose, which ends where `text` does, at its own level-2 headings.
fn divided(blocks: Blocks, text: &str, named: &SectionNames) -> (Blocks, Vec<Section>) {
    let mut opening = Vec::new();
    let mut sections: Vec<Section> = Vec::new();
    for block in blocks {
        match &block.value {
            Block::Heading(heading, _) if heading.level == 2 => {
                if let Some(last) = sections.last_mut() {
                    last.body.end = block.span.start;
                }
                let title = heading.title.clone();
                let name = named.iter().find(|(_, word)| same(word, &title.value)).map(|(name, _)| *name);
                let line =
                    text[block.span.range().end..].find('\n').map(|at| block.span.range().end + at + 1);
                let body = Span::new(block.span.file, line.unwrap_or(text.len())..text.len());
                let anchor = heading.anchor.clone();
                sections.push(Section {
                    name,
                    title,
                    anchor,
                    body,
                    steps: 0,
                    heading: block,
                    blocks: Vec::new(),
                });
            }
            _ => sections.last_mut().map_or(&mut opening, |section| &mut section.blocks).push(block),
        }
    }
    for section in &mut sections {
        section.steps = steps(&section.blocks);
    }
    (opening, sections)
}

/// Items of the numbered lists that are in no other list.
fn steps(blocks: &[Spanned<Block>]) -> usize {
    let within = |block: &Spanned<Block>| match &block.value {
        Block::List(list) if list.first.is_some() => list.items.len(),
        Block::Quote(blocks) | Block::Footnote(_, blocks) => steps(blocks),
        Block::Definitions(list) => list
            .iter()
            .map(|part| match &part.value {
                Definition::Title(_) => 0,
                Definition::Text(blocks) => steps(blocks),
            })
            .sum(),
        _ => 0,
    };
    blocks.iter().map(within).sum()
}

/// Section names are compared without regard to letter case.
fn same(word: &str, title: &str) -> bool {
    word.to_lowercase() == title.to_lowercase()
}
