//! The references as a reader meets them: cited in a few words, and formatted in full.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use hayagriva::archive::ArchivedStyle;
use hayagriva::citationberg::{IndependentStyle, Locale, LocaleCode, Style};
use hayagriva::{
    BibliographyDriver, BibliographyRequest, BufWriteFormat, CitationItem, CitationRequest, ElemChild,
    ElemChildren,
};
use serde::Serialize;

use crate::entry::apart;
use crate::model::prose::Citation;
use crate::model::reads::{Read, note};
use crate::model::references::References;
use crate::model::words::Words;

/// The references of a workspace, formatted.
pub struct Formatted {
    by_key: BTreeMap<String, OneFormatted>,
    /// Keys in the order of the list.
    order: Vec<String>,
}

/// One reference, formatted.
#[derive(Debug)]
pub struct OneFormatted {
    /// "Brooke-Wavell and others, 2022".
    pub short: String,
    /// In full, piece by piece.
    pub parts: Vec<TextRun>,
    /// Where it can be read.
    pub link: Option<String>,
}

/// A piece of a formatted reference: plain words, whatever stands in them.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct TextRun {
    pub text: String,
    /// Where the words lead, if anywhere.
    pub href: Option<String>,
}

// Unpacking both takes longer than formatting all references, and a preview formats them after each change.
static LOCALES: LazyLock<Vec<Locale>> = LazyLock::new(hayagriva::archive::locales);
static STYLE: LazyLock<Option<IndependentStyle>> =
    LazyLock::new(|| match ArchivedStyle::AmericanPsychologicalAssociation.get() {
        Style::Independent(style) => Some(style),
        Style::Dependent(_) => None,
    });

/// Formats every reference in an author-date style (American Psychological Association, 7th edition). Should the library
/// stop at one of them, none is formatted, and each is cited by its key.
pub fn format(references: &References, words: &Words) -> Formatted {
    let none = |_| Formatted { by_key: BTreeMap::new(), order: Vec::new() };
    apart(|| format_all(references, words)).unwrap_or_else(none)
}

fn format_all(references: &References, words: &Words) -> Formatted {
    let mut formatted = Formatted { by_key: BTreeMap::new(), order: Vec::new() };
    let Some(style) = &*STYLE else { return formatted };
    let locales = &*LOCALES;
    let locale = LocaleCode(match words.language.as_str() {
        "es" => "es-ES".to_string(),
        _ => "en-US".to_string(),
    });
    let mut driver = BibliographyDriver::new();
    for reference in &references.entries {
        let item = vec![CitationItem::with_entry(&reference.entry)];
        driver.citation(CitationRequest::new(item, style, Some(locale.clone()), locales, None));
    }
    let rendered = driver.finish(BibliographyRequest { style, locale: Some(locale), locale_files: locales });
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
                parts: parts(&item.content, words),
                link: address(&reference.entry),
            },
        );
    }
    formatted
}

fn text(children: &ElemChildren, format: BufWriteFormat) -> String {
    let mut out = String::new();
    match children.write_buf(&mut out, format) {
        Ok(()) => out,
        Err(_) => String::new(),
    }
}

/// What the library formatted, as words and links and nothing else: it writes the author's text into its own HTML as it
/// is, and a reference is the text of others. Large print has no italics, so that nothing is lost with its marks.
fn parts(children: &ElemChildren, words: &Words) -> Vec<TextRun> {
    let mut parts = Vec::new();
    collect(children, &mut parts);
    for part in &mut parts {
        part.text = others(&part.text, words);
    }
    parts
}

fn collect(children: &ElemChildren, parts: &mut Vec<TextRun>) {
    for child in &children.0 {
        match child {
            ElemChild::Text(text) => push(parts, &text.text, None),
            ElemChild::Markup(text) => push(parts, text, None),
            ElemChild::Link { text, url } => push(parts, &text.text, safe(url)),
            ElemChild::Elem(elem) => collect(&elem.children, parts),
            ElemChild::Transparent { .. } => {}
        }
    }
}

/// Adds words, to the last piece where they lead to the same place.
fn push(parts: &mut Vec<TextRun>, text: &str, href: Option<String>) {
    match parts.last_mut() {
        Some(last) if last.href == href => last.text.push_str(text),
        _ => parts.push(TextRun { text: text.to_string(), href }),
    }
}

/// An address that a link may lead to: of the web or of mail. Any other is words.
fn safe(url: &str) -> Option<String> {
    let (scheme, rest) = url.trim().split_once(':')?;
    let known = ["http", "https", "mailto"].iter().any(|known| scheme.eq_ignore_ascii_case(known));
    let plain = !url.trim().contains(|c: char| c.is_control() || c.is_whitespace());
    (known && plain && !rest.is_empty()).then(|| url.trim().to_string())
}

/// BibLaTeX's `and others` reaches the style as a person called so.
fn others(text: &str, words: &Words) -> String {
    let plain = words.say("evidence-and-others");
    [", & others", " & others"]
        .into_iter()
        .fold(text.to_string(), |text, written| text.replace(written, &format!(" {plain}")))
}

fn address(entry: &hayagriva::Entry) -> Option<String> {
    match entry.doi() {
        Some(doi) => safe(&format!("https://doi.org/{doi}")),
        None => entry.url().and_then(|u| safe(u.value.as_str())),
    }
}

impl Formatted {
    /// The reference with that key.
    pub fn get(&self, key: &str) -> Option<&OneFormatted> {
        note(|| Read::Reference(key.to_string()));
        self.by_key.get(key)
    }

    /// The keys in the order of the list.
    pub fn keys(&self) -> impl Iterator<Item = &str> {
        note(|| Read::References);
        self.order.iter().map(String::as_str)
    }

    /// One reference of a citation in a few words: "Giangregorio and others, 2015, Table 5".
    pub fn words_of(&self, citation: &Citation) -> String {
        let short = self.get(&citation.key).map_or(citation.key.as_str(), |r| r.short.as_str());
        let part = citation.part.as_ref().map(|p| format!(", {p}")).unwrap_or_default();
        format!("{short}{part}")
    }
}
