//! The prose of an entry on its page, and free pages.

use serde::Serialize;

use super::frame::{About, frame};
use super::markdown::{self, Place, escaped};
use super::{Filled, Pages};
use crate::model::link::Target;
use crate::model::page::FreePage;
use crate::model::prose::{Block, Citation, Image, Link};
use crate::model::source::Spanned;
use crate::outputs::address::{media_of, published_name};
use crate::outputs::{Address, Shot};

/// Whose prose is rendered, and where it stands.
pub(super) struct ProseContext<'a> {
    pub(super) address: &'a Address,
    pub(super) deeper: u8,
    /// What the entry is called, for the names of its tables.
    pub(super) label: String,
    pub(super) prefix: String,
}

/// Blocks of an entry's prose as HTML.
pub(super) fn html<'b>(
    pages: &Pages<'_>,
    entry: &ProseContext<'_>,
    blocks: impl IntoIterator<Item = &'b Spanned<Block>>,
) -> String {
    let links = pages.links(entry.address);
    let link = |to: &Link| link(pages, entry, to);
    let cite = |citations: &[Citation]| super::evidence::marks(pages, &links, citations);
    let picture = |Image { address, description }: &Image| {
        let photo = media_of(&address.value).and_then(|name| pages.photo(&Shot::whole(name)));
        let Some((photo, widest)) = photo.and_then(|p| Some((p, p.widths.last()?))) else {
            return escaped(description);
        };
        format!(
            "<img src=\"{}\" srcset=\"{}\" sizes=\"(min-width: 48em) 40em, 100vw\" width=\"{}\" height=\"{}\" alt=\"{}\" loading=\"lazy\">",
            escaped(&links.file(&widest.path)),
            escaped(&photo.srcset(&links)),
            widest.width,
            widest.height,
            escaped(description)
        )
    };
    let table_label = |number: usize| {
        let table = pages.words.say_with("table-label", &[("number", number.to_string().into())]);
        format!("{}, {table}", entry.label)
    };
    let place = Place {
        link: &link,
        cite: &cite,
        picture: &picture,
        deeper: entry.deeper,
        prefix: &entry.prefix,
        table_label: &table_label,
    };
    markdown::render(blocks, &place)
}

/// Where an author's link leads on this page; `None` when it may lead nowhere at all, which the review
/// reports.
fn link(pages: &Pages<'_>, entry: &ProseContext<'_>, to: &Link) -> Option<String> {
    let links = pages.links(entry.address);
    let found = to.leads.as_ref().ok()?;
    // Where several entries share a page, the ids of each carry its prefix.
    let mut prefix = String::new();
    let to = match &found.target {
        Target::Exercise(id) => {
            prefix = exercise_prefix(id);
            links.to(&Address::Exercise(id.clone()))
        }
        Target::Series(id) => links.to(&Address::Series(id.clone())),
        Target::Week { series, id } => links.to(&Address::Week { series: series.clone(), id: id.clone() }),
        Target::Page(id) => links.to(&Address::Free(id.clone())),
        Target::Media(name) => match pages.photo(&Shot::whole(name.as_str())).and_then(|p| p.widths.last()) {
            Some(widest) => links.file(&widest.path),
            None => links.file(&published_name(name)),
        },
        Target::Elsewhere(address) => return Some(address.clone()),
        Target::Here => {
            prefix = entry.prefix.clone();
            String::new()
        }
    };
    Some(match &found.fragment {
        Some(fragment) => format!("{to}#{prefix}{fragment}"),
        None => to,
    })
}

/// Stands before the ids of an exercise's headings. A dot stands in no id and in no anchor, so they never
/// meet another's.
pub(super) fn exercise_prefix(id: &str) -> String {
    format!("{id}.")
}

#[derive(Serialize)]
pub(super) struct FreeBody {
    html: String,
}

pub(super) fn page(pages: &Pages<'_>, address: &Address, page: &FreePage) -> Filled<FreeBody> {
    let entry = ProseContext { address, deeper: 0, label: page.title.value.clone(), prefix: String::new() };
    let body = FreeBody { html: html(pages, &entry, page.prose.blocks()) };
    let mut about = About::titled(&page.title.value);
    about.description = page.summary.as_ref().map(|s| s.value.clone());
    frame(pages, address, about, body)
}
