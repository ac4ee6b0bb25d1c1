//! What makes a page stand alone: nothing in it leads to another file, and nothing is fetched.

use std::cell::RefCell;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use lol_html::html_content::ContentType;
use lol_html::{RewriteStrSettings, element, rewrite_str};
use serde::Serialize;
use serde_json::Value;

use crate::model::source::{FileId, Span, Spanned};
use crate::print::words_of_html;
use crate::workspace::theme::Theme;

/// What may stand before a colon in a link: a telephone and a mail program are on the device itself.
const ON_THE_DEVICE: [&str; 2] = ["tel:", "mailto:"];

/// Prose of the site as it stands in a file of its own: the words of links to other pages, and the words of pictures that
/// are not in the page.
pub(super) fn without_links(html: &str) -> String {
    let settings = RewriteStrSettings::new()
        .append_element_content_handler(element!("a[href]", |link| {
            let to = link.get_attribute("href").unwrap_or_default();
            let here = to.strip_prefix('#').is_some_and(|id| html.contains(&format!("id=\"{id}\"")));
            if !here && !ON_THE_DEVICE.iter().any(|kind| to.starts_with(kind)) {
                link.remove_and_keep_content();
            }
            Ok(())
        }))
        .append_element_content_handler(element!("img", |picture| {
            if picture.get_attribute("src").is_some_and(|src| src.starts_with("data:")) {
                picture.remove_attribute("srcset");
                picture.remove_attribute("sizes");
            } else {
                // It stands in the page as it is written there, and so is HTML.
                let words = picture.get_attribute("alt").unwrap_or_default();
                picture.replace(&words, ContentType::Html);
            }
            Ok(())
        }));
    // What cannot be read says nothing rather than something that nobody has looked at.
    rewrite_str(html, settings).unwrap_or_default()
}

/// The first thing on a page that leads out of it or would be fetched.
pub(super) fn leads_out(page: &str) -> Option<String> {
    let found = RefCell::new(None);
    let note = |what: String| {
        found.borrow_mut().get_or_insert(what);
    };
    let settings = RewriteStrSettings::new().append_element_content_handler(element!("*", |element| {
        for attribute in element.attributes() {
            let (name, value) = (attribute.name(), attribute.value());
            let stays = match name.as_str() {
                "href" | "xlink:href" => {
                    value.starts_with('#') || ON_THE_DEVICE.iter().any(|kind| value.starts_with(kind))
                }
                "src" => value.starts_with("data:"),
                "srcset" | "action" | "formaction" | "poster" | "data" | "ping" | "background" => false,
                _ => true,
            };
            if !stays {
                let short: String = value.chars().take(80).collect();
                note(format!("{name}=\"{short}\""));
            }
        }
        Ok(())
    }));
    if rewrite_str(page, settings).is_err() {
        note("a tag that cannot be read".to_string());
    }
    let styles = page.split("<style>").skip(1).filter_map(|rest| rest.split("</style>").next());
    for style in styles {
        let fetched = style
            .split("url(")
            .skip(1)
            .find(|rest| !rest.trim_start_matches(['"', '\'']).starts_with("data:"));
        if fetched.is_some() || style.contains("@import") {
            note("a style sheet that loads a file".to_string());
        }
    }
    found.into_inner()
}

/// A file in its own address.
pub(super) fn address_of(kind: &str, bytes: &[u8]) -> String {
    format!("data:{kind};base64,{}", STANDARD.encode(bytes))
}

/// The clinic's own mark.
pub(super) fn logo(theme: &Theme) -> Option<String> {
    let name = theme.logo()?;
    let kind = if name.ends_with(".svg") { "image/svg+xml" } else { "image/png" };
    Some(address_of(kind, theme.files.get(name)?))
}

/// All texts of a value as a reader gets them: of what is HTML its words. Parts that are counted are no author's.
pub(super) fn texts(of: &impl Serialize) -> Value {
    let mut value = serde_json::to_value(of).unwrap_or_default();
    plain(&mut value);
    value
}

fn plain(value: &mut Value) {
    match value {
        Value::String(text) if text.contains('<') => {
            let nowhere = Span::start_of(FileId(0));
            *text = words_of_html(&[Spanned::new(std::mem::take(text), nowhere)]);
        }
        Value::Array(list) => list.iter_mut().for_each(plain),
        Value::Object(fields) => {
            for name in ["parts", "fewest"] {
                fields.remove(name);
            }
            fields.values_mut().for_each(plain);
        }
        Value::String(_) | Value::Null | Value::Bool(_) | Value::Number(_) => {}
    }
}
