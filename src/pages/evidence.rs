//! The evidence: every reference formatted once, the marks that cite it, and the page that lists them.

use std::collections::BTreeMap;

use hayagriva::archive::ArchivedStyle;
use hayagriva::citationberg::{LocaleCode, Style};
use hayagriva::{BibliographyDriver, BibliographyRequest, BufWriteFormat, CitationItem, CitationRequest};
use serde::Serialize;

use super::frame::{About, frame};
use super::markdown::escaped;
use super::{Filled, Link, Pages};
use crate::entry::markdown::Citation;
use crate::model::prose::Prose;
use crate::model::references::References;
use crate::model::words::Words;
use crate::outputs::Address;
use crate::outputs::address::Links;

/// The references of a workspace, formatted.
pub(super) struct Formatted {
    by_key: BTreeMap<String, OneFormatted>,
    /// Keys in the order of the list.
    order: Vec<String>,
}

struct OneFormatted {
    /// "Brooke-Wavell and others, 2022".
    short: String,
    html: String,
    /// Where it can be read.
    link: Option<String>,
}

/// Formats every reference in an author-date style (American Psychological Association, 7th edition).
pub(super) fn format(references: &References, words: &Words) -> Formatted {
    let mut formatted = Formatted { by_key: BTreeMap::new(), order: Vec::new() };
    let Style::Independent(style) = ArchivedStyle::AmericanPsychologicalAssociation.get() else {
        return formatted;
    };
    let locales = hayagriva::archive::locales();
    let locale = LocaleCode(match words.language.as_str() {
        "es" => "es-ES".to_string(),
        _ => "en-US".to_string(),
    });
    let mut driver = BibliographyDriver::new();
    for reference in &references.entries {
        let item = vec![CitationItem::with_entry(&reference.entry)];
        driver.citation(CitationRequest::new(item, &style, Some(locale.clone()), &locales, None));
    }
    let rendered =
        driver.finish(BibliographyRequest { style: &style, locale: Some(locale), locale_files: &locales });
    let shorts = rendered.citations.iter().map(|c| text(&c.citation, BufWriteFormat::Plain));
    let shorts = shorts.map(|s| others(s.trim_matches(['(', ')']), words));
    let mut short: BTreeMap<&str, String> =
        references.entries.iter().map(|r| r.key.value.as_str()).zip(shorts).collect();
    for item in rendered.bibliography.map(|b| b.items).unwrap_or_default() {
        let Some(reference) = references.get(&item.key) else { continue };
        formatted.order.push(item.key.clone());
        formatted.by_key.insert(
            item.key.clone(),
            OneFormatted {
                short: short.remove(item.key.as_str()).unwrap_or_default(),
                html: others(&upright(&text(&item.content, BufWriteFormat::Html)), words),
                link: address(&reference.entry),
            },
        );
    }
    formatted
}

fn text(children: &hayagriva::ElemChildren, format: BufWriteFormat) -> String {
    let mut out = String::new();
    match children.write_buf(&mut out, format) {
        Ok(()) => out,
        Err(_) => String::new(),
    }
}

/// Large print has no italics: titles that the style slants stand upright.
fn upright(html: &str) -> String {
    html.replace("<span style=\"font-style: italic;\">", "<span>")
        .replace("<i>", "")
        .replace("</i>", "")
        .replace("<em>", "")
        .replace("</em>", "")
}

/// BibLaTeX's `and others` reaches the style as a person called so.
fn others(text: &str, words: &Words) -> String {
    let plain = words.say("evidence-and-others");
    [", &amp; others", " &amp; others", ", & others", " & others"]
        .into_iter()
        .fold(text.to_string(), |text, written| text.replace(written, &format!(" {plain}")))
}

fn address(entry: &hayagriva::Entry) -> Option<String> {
    match entry.doi() {
        Some(doi) => Some(format!("https://doi.org/{doi}")),
        None => entry.url().map(|u| u.value.to_string()),
    }
}

/// The marks of a citation in running text: each source by author and year, led to the evidence page.
pub(super) fn marks(pages: &Pages<'_>, links: &Links, citations: &[Citation]) -> String {
    let evidence = links.to(&Address::Evidence);
    let mark = |c: &Citation| {
        let short = pages.references.by_key.get(&c.key).map_or(c.key.as_str(), |r| r.short.as_str());
        let part = c.part.as_ref().map(|p| format!(", {p}")).unwrap_or_default();
        format!(
            "<a href=\"{}#{}\">{}</a>",
            escaped(&evidence),
            escaped(&c.key),
            escaped(&format!("{short}{part}"))
        )
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
            let reference = pages.references.by_key.get(key)?;
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
    html: String,
    link: Option<Link>,
    used_in: Vec<Link>,
}

pub(super) fn page(pages: &Pages<'_>, address: &Address) -> Filled<Evidence> {
    let links = pages.links(address);
    let items = pages.references.order.iter().filter_map(|key| {
        let reference = pages.references.by_key.get(key)?;
        Some(Item {
            key: key.clone(),
            html: reference.html.clone(),
            // The style itself writes most addresses out; a second link to one would only be read twice.
            link: reference.link.as_ref().filter(|href| !reference.html.contains(*href)).map(|href| Link {
                href: href.clone(),
                text: pages.words.say_with("evidence-read", &[("place", href.as_str().into())]),
            }),
            used_in: used_in(pages, &links, key),
        })
    });
    let mut about = About::titled(pages.words.say("evidence-title"));
    about.description = Some(pages.words.say("evidence-lead"));
    let body = Evidence { references: items.collect() };
    frame(pages, address, about, body)
}

fn used_in(pages: &Pages<'_>, links: &Links, key: &str) -> Vec<Link> {
    let cites = |p: &Prose| p.citations.iter().any(|c| c.value == key);
    let model = pages.model;
    let link = |to: Address, text: &str| Link { href: links.to(&to), text: text.to_string() };
    let free = model.pages.values().filter(|p| cites(&p.prose));
    let free = free.map(|p| link(Address::Free(p.id.clone()), &p.title.value));
    let weeks = model.weeks().filter(|(_, w)| cites(&w.prose));
    let weeks = weeks.map(|(s, w)| link(Address::week(s, w), &super::home::week_title(pages, w)));
    let exercises = model.exercises.values().filter(|e| cites(&e.prose));
    let exercises = exercises.map(|e| link(Address::Exercise(e.id.clone()), &e.title.value));
    free.chain(weeks).chain(exercises).collect()
}
