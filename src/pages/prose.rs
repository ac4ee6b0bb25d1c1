//! The prose of an entry on its page, and free pages.

use serde::Serialize;

use super::frame::{About, frame};
use super::markdown::{self, Parts, Place, escaped};
use super::{Filled, Pages};
use crate::entry::markdown::Citation;
use crate::model::page::FreePage;
use crate::model::source::{FileId, Span};
use crate::outputs::address::{media_of, published_name};
use crate::outputs::links::{Target, resolve};
use crate::outputs::{Address, Shot};

/// Whose prose is rendered, and where it stands.
pub(super) struct Entry<'a> {
    pub(super) address: &'a Address,
    pub(super) file: FileId,
    pub(super) deeper: u8,
    /// What the entry is called, for the names of its tables.
    pub(super) label: String,
    pub(super) prefix: String,
}

/// An entry's prose as HTML, in the parts that [`Parts`] says.
pub(super) fn html(pages: &Pages<'_>, entry: &Entry<'_>, parts: Parts, span: Span) -> Vec<String> {
    let links = pages.links(entry.address);
    let name = &pages.sources.get(entry.file).name;
    let link = |href: &str| link(pages, entry, name, href);
    let cite = |citations: &[Citation]| super::evidence::marks(pages, &links, citations);
    let picture = |address: &str, description: &str| {
        let photo = media_of(address).and_then(|name| pages.photo(&Shot::whole(name)));
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
        parts,
    };
    markdown::render(pages.sources.slice(span), &place)
}

/// Where an author's link leads on this page; `None` when it may lead nowhere at all, which the review
/// reports.
fn link(pages: &Pages<'_>, entry: &Entry<'_>, name: &str, href: &str) -> Option<String> {
    let links = pages.links(entry.address);
    let found = resolve(name, href).ok()?;
    // Where several entries share a page, the ids of each carry its prefix.
    let mut prefix = String::new();
    let to = match found.target {
        Target::Exercise(id) => {
            prefix = exercise_prefix(&id);
            links.to(&Address::Exercise(id))
        }
        Target::Series(id) => links.to(&Address::Series(id)),
        Target::Week { series, id } => links.to(&Address::Week { series, id }),
        Target::Page(id) => links.to(&Address::Free(id)),
        Target::Media(name) => match pages.photo(&Shot::whole(name.as_str())).and_then(|p| p.widths.last()) {
            Some(widest) => links.file(&widest.path),
            None => links.file(&published_name(&name)),
        },
        Target::Elsewhere(address) => return Some(address),
        Target::Here => {
            prefix = entry.prefix.clone();
            String::new()
        }
    };
    Some(match found.fragment {
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
    let entry =
        Entry { address, file: page.file, deeper: 0, label: page.title.value.clone(), prefix: String::new() };
    let body = FreeBody { html: html(pages, &entry, Parts::Whole, page.prose.span).concat() };
    let mut about = About::titled(&page.title.value);
    about.description = page.summary.as_ref().map(|s| s.value.clone());
    frame(pages, address, about, body)
}
