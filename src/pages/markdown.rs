//! Prose to HTML: its tree, with links led to their pages, citations to the evidence, tables that scroll by themselves,
//! footnotes of its own, and raw HTML made harmless.

mod writer;

#[cfg(test)]
mod tests;

use crate::model::prose::{Block, Citation, Image, Link, Prose};
use crate::model::source::Spanned;
use writer::Writer;

/// What a prose is rendered for: where links lead, and what citations and pictures become.
pub struct Place<'a> {
    /// The address that a link of the author leads to on this page; without one its words stand alone.
    pub link: &'a dyn Fn(&Link) -> Option<String>,
    /// The HTML of a citation.
    pub cite: &'a dyn Fn(&[Citation]) -> String,
    /// The HTML of a picture.
    pub picture: &'a dyn Fn(&Image) -> String,
    /// How many levels deeper headings stand on the page than in the prose.
    pub deeper: u8,
    /// Stands before the ids of headings and footnotes, so that several entries can share a page.
    pub prefix: &'a str,
    /// The name of the prose's table with this number, which can be scrolled and so needs one.
    pub table_label: &'a dyn Fn(usize) -> String,
}

/// Renders blocks of a prose: all of it, or what stands in one section.
pub fn render<'b>(blocks: impl IntoIterator<Item = &'b Spanned<Block>>, place: &Place<'_>) -> String {
    written(blocks, Some(place))
}

/// Renders a prose as CommonMark says, without anything of ours: what the conformance test looks at.
pub fn render_plain(prose: &Prose) -> String {
    written(prose.blocks(), None)
}

fn written<'b>(blocks: impl IntoIterator<Item = &'b Spanned<Block>>, place: Option<&Place<'_>>) -> String {
    let mut writer = Writer::new(place);
    blocks.into_iter().for_each(|block| writer.block(&block.value));
    writer.out
}

/// Text made safe for HTML, attributes included.
pub fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            c => out.push(c),
        }
    }
    out
}
