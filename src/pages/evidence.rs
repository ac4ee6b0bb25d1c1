//! The evidence: the marks that cite it, and the page that lists it.

use serde::Serialize;

use super::frame::{About, frame};
use super::markdown::escaped;
use super::{Filled, Link, Pages};
use crate::model::prose::{Citation, Prose};
use crate::outputs::Address;
use crate::outputs::address::Links;
use crate::outputs::blocks::evidence::TextRun;
use crate::outputs::lists::MOST_CITING;

/// The marks of a citation in running text: each source by author and year, led to the evidence page.
pub(super) fn marks(pages: &Pages<'_>, links: &Links, citations: &[Citation]) -> String {
    let evidence = links.to(&Address::Evidence);
    let mark = |c: &Citation| {
        let words = pages.references().words_of(c);
        format!("<a href=\"{}#{}\">{}</a>", escaped(&evidence), escaped(&c.key), escaped(&words))
    };
    format!("({})", citations.iter().map(mark).collect::<Vec<_>>().join("; "))
}

/// The references that a prose cites, each once, led to the evidence page.
pub(super) fn cited(pages: &Pages<'_>, links: &Links, prose: &Prose) -> Vec<Link> {
    let mut keys: Vec<&str> = prose.citations.iter().map(|c| c.value.as_str()).collect();
    keys.sort_unstable();
    keys.dedup();
    keys.into_iter()
        .filter_map(|key| {
            let reference = pages.references().get(key)?;
            let href = format!("{}#{key}", links.to(&Address::Evidence));
            Some(Link { href, text: reference.short.clone() })
        })
        .collect()
}

#[derive(Serialize)]
pub(super) struct Evidence {
    references: Vec<Item>,
}

#[derive(Serialize)]
struct Item {
    key: String,
    parts: Vec<TextRun>,
    link: Option<Link>,
    used_in: Vec<Link>,
    /// How many more pages cite it.
    more: Option<String>,
}

pub(super) fn page(pages: &Pages<'_>, address: &Address) -> Filled<Evidence> {
    let links = pages.links(address);
    let items = pages.references().keys().filter_map(|key| {
        let reference = pages.references().get(key)?;
        let cited = pages.citing().pages(key);
        Some(Item {
            key: key.to_string(),
            parts: reference.parts.clone(),
            // The style itself writes most addresses out; a second link to one would only be read twice.
            link: reference.link.as_ref().filter(|href| !is_written_out(&reference.parts, href)).map(
                |href| Link {
                    href: href.clone(),
                    text: pages.words.say_with("evidence-read", &[("place", href.as_str().into())]),
                },
            ),
            used_in: used_in(pages, &links, cited),
            more: more(pages, cited),
        })
    });
    let mut about = About::titled(pages.words.say("evidence-title"));
    about.description = Some(pages.words.say("evidence-lead"));
    let body = Evidence { references: items.collect() };
    frame(pages, address, about, body)
}

fn is_written_out(parts: &[TextRun], address: &str) -> bool {
    parts.iter().any(|part| part.text.contains(address) || part.href.as_deref() == Some(address))
}

/// The pages that cite a reference, as many as may stand there.
fn used_in(pages: &Pages<'_>, links: &Links, cited: &[Address]) -> Vec<Link> {
    let link = |to: &Address| Some(Link { href: links.to(to), text: title(pages, to)? });
    cited.iter().take(MOST_CITING).filter_map(link).collect()
}

/// "And 12 more pages."
fn more(pages: &Pages<'_>, cited: &[Address]) -> Option<String> {
    let more = cited.len().checked_sub(MOST_CITING).filter(|more| *more > 0)?;
    Some(pages.say().counted("evidence-more", more.to_string(), more as f64))
}

/// What a page that has prose is called.
fn title(pages: &Pages<'_>, address: &Address) -> Option<String> {
    let model = pages.model;
    match address {
        Address::Free(id) => model.pages.get(id).map(|page| page.title.value.clone()),
        Address::Week { series, id } => {
            let week = model.series.get(series)?.weeks.get(id)?;
            Some(super::home::week_title(pages, week))
        }
        Address::Exercise(id) => model.exercises.get(id).map(|e| e.title.value.clone()),
        _ => None,
    }
}
