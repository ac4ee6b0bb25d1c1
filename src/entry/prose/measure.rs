//! How much of a prose has been read, against the limits.

use pulldown_cmark::{Event, Tag, TagEnd};

use crate::entry::markdown::{CITATION, citations};
use crate::model::limits::{BLOCKS, CITED, LINKS, NESTED, TAGS};
use crate::model::prose::html::opening_tags;

/// How much of a prose has been read.
#[derive(Default)]
pub(super) struct Count {
    nested: usize,
    blocks: usize,
    links: usize,
    tags: usize,
    /// In the paragraph that is being read.
    cited: usize,
}

impl Count {
    /// What goes beyond a limit with this event, and what to do.
    pub(super) fn beyond(&mut self, event: &Event<'_>) -> Option<(String, &'static str)> {
        match event {
            Event::Start(
                Tag::Paragraph
                | Tag::Item
                | Tag::TableCell
                | Tag::Heading { .. }
                | Tag::CodeBlock(_)
                | Tag::HtmlBlock
                | Tag::DefinitionListTitle
                | Tag::DefinitionListDefinition,
            ) => {
                self.blocks += 1;
                self.cited = 0;
            }
            Event::Start(Tag::Link { dest_url, .. }) if dest_url.starts_with(CITATION) => {
                self.cited += citations(&dest_url[CITATION.len()..]).len();
            }
            Event::Start(Tag::Link { .. } | Tag::Image { .. }) => self.links += 1,
            Event::Html(html) | Event::InlineHtml(html) => self.tags += opening_tags(html).len(),
            Event::Start(tag) if nests(&tag.to_end()) => self.nested += 1,
            Event::End(tag) if nests(tag) => self.nested = self.nested.saturating_sub(1),
            _ => {}
        }
        if self.nested > NESTED {
            let what = format!("quotes, lists and emphasis are more than {NESTED} deep here");
            return Some((what, "write it flatter, or take out the marks that came with a copied text"));
        }
        if self.blocks > BLOCKS {
            let what = format!("more than {BLOCKS} paragraphs, headings, items and cells are before this");
            return Some((what, "split it into several pages"));
        }
        if self.links > LINKS {
            let what = format!("more than {LINKS} links and pictures are before this");
            return Some((what, "split it into several pages"));
        }
        if self.tags > TAGS {
            let what = format!("more than {TAGS} tags of HTML are before this");
            return Some((what, "write it in Markdown: these tags came along with a copied page"));
        }
        (self.cited > CITED).then(|| {
            (
                format!("more than {CITED} sources are cited in one place"),
                "cite those that support the sentence",
            )
        })
    }
}

/// True for what can stand inside itself.
fn nests(tag: &TagEnd) -> bool {
    matches!(
        tag,
        TagEnd::BlockQuote(_)
            | TagEnd::List(_)
            | TagEnd::FootnoteDefinition
            | TagEnd::DefinitionList
            | TagEnd::Emphasis
            | TagEnd::Strong
            | TagEnd::Strikethrough
    )
}
