//! The prose of an entry on its page, and free pages.

use serde::Serialize;

use super::frame::{About, frame};
use super::markdown::{self, Place, escaped};
use super::{Filled, Pages};
use crate::entry::markdown::Citation;
use crate::model::page::FreePage;
use crate::model::source::{FileId, Span};
use crate::outputs::Address;
use crate::outputs::address::media_of;
use crate::outputs::links::{Target, resolve};

/// Whose prose is rendered, and where it stands.
pub(super) struct Entry<'a> {
    pub(super) address: &'a Address,
    pub(super) file: FileId,
    pub(super) deeper: u8,
    /// What the entry is called, for the names of its tables.
    pub(super) label: String,
    pub(super) prefix: String,
}

/// A span of an entry's prose as HTML; `section` is the section it belongs to, if any.
pub(super) fn html(pages: &Pages<'_>, entry: &Entry<'_>, section: Option<&str>, span: Span) -> String {
    let links = pages.links(entry.address);
    let name = &pages.sources.get(entry.file).name;
    let link = |href: &str| link(pages, entry, name, href);
    let cite = |citations: &[Citation]| super::evidence::marks(pages, &links, citations);
    let picture = |address: &str, description: &str| {
        let photo = media_of(address).and_then(|name| pages.photos.get(&name));
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
        let names = [Some(entry.label.as_str()), section, Some(table.as_str())];
        names.into_iter().flatten().collect::<Vec<_>>().join(", ")
    };
    let place = Place {
        link: &link,
        cite: &cite,
        picture: &picture,
        deeper: entry.deeper,
        prefix: &entry.prefix,
        table_label: &table_label,
    };
    markdown::render(pages.sources.slice(span), &place)
}

/// Where an author's link leads on this page. What leads nowhere, which the review reports, stays as
/// it was written.
fn link(pages: &Pages<'_>, entry: &Entry<'_>, name: &str, href: &str) -> String {
    let links = pages.links(entry.address);
    let Ok(found) = resolve(name, href) else { return href.to_string() };
    let to = match found.target {
        Target::Exercise(id) => links.to(&Address::Exercise(id)),
        Target::Series(id) => links.to(&Address::Series(id)),
        Target::Week { series, id } => links.to(&Address::Week { series, id }),
        Target::Page(id) => links.to(&Address::Free(id)),
        Target::Media(name) => match pages.photos.get(&name).and_then(|p| p.widths.last()) {
            Some(widest) => links.file(&widest.path),
            None => links.file(&name),
        },
        Target::Elsewhere(address) => return address,
        Target::Here => String::new(),
    };
    match found.fragment {
        // On a shared page the anchors of an entry carry its prefix.
        Some(fragment) if to.is_empty() => format!("#{}{fragment}", entry.prefix),
        Some(fragment) => format!("{to}#{fragment}"),
        None => to,
    }
}

#[derive(Serialize)]
pub(super) struct FreeBody {
    html: String,
}

pub(super) fn page(pages: &Pages<'_>, address: &Address, page: &FreePage) -> Filled<FreeBody> {
    let entry =
        Entry { address, file: page.file, deeper: 0, label: page.title.value.clone(), prefix: String::new() };
    let body = FreeBody { html: html(pages, &entry, None, page.prose.span) };
    let mut about = About::titled(&page.title.value);
    about.description = page.summary.as_ref().map(|s| s.value.clone());
    frame(pages, address, about, body)
}
