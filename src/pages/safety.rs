//! The safety page and the not-found page, whose words are the theme's.

use serde::Serialize;

use super::frame::{About, frame};
use super::{Filled, Link, Pages};
use crate::outputs::Address;

/// Nothing but the theme's words.
#[derive(Serialize)]
pub(super) struct Safety {}

pub(super) fn page(pages: &Pages<'_>, address: &Address) -> Filled<Safety> {
    let mut about = About::titled(pages.words.say("safety-title"));
    about.description = Some(pages.words.say("safety-page-lead"));
    frame(pages, address, about, Safety {})
}

#[derive(Serialize)]
pub(super) struct NotFound {
    links: Vec<Link>,
}

pub(super) fn not_found(pages: &Pages<'_>, address: &Address) -> Filled<NotFound> {
    let links = pages.links(address);
    let link = |to: Address, id: &str| Link { href: links.to(&to), text: pages.words.say(id) };
    let body = NotFound {
        links: vec![
            link(Address::Home, "nav-home"),
            link(Address::Library, "nav-exercises"),
            link(Address::Safety, "nav-safety"),
        ],
    };
    frame(pages, address, About::titled(pages.words.say("not-found-title")), body)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::review::testing::{page, words};

    /// Who asks first, the signs to stop, and what to tell the clinician: every sentence of the theme on them.
    fn sentences() -> Vec<String> {
        let of_safety = ["safety_ask_", "safety_emergency_", "safety_stop_", "safety_tell_"];
        let said =
            words().plain().into_iter().filter(|(id, _)| of_safety.iter().any(|part| id.starts_with(part)));
        // The sample names a number of its own.
        said.filter(|(id, _)| id != "safety_emergency_call_any").map(|(_, sentence)| sentence).collect()
    }

    #[test]
    fn every_sentence_on_who_asks_first_and_when_to_stop_is_on_the_page() {
        let html = page(&Address::Safety);
        let main = &html[html.find("<main").unwrap()..html.find("</main>").unwrap()];
        assert!(sentences().len() > 40, "{:?}", sentences());
        for sentence in sentences() {
            assert_eq!(main.matches(&format!(">{sentence}<")).count(), 1, "{sentence}");
        }
        assert!(main.contains(">Call 911.<"), "{main}");
    }

    /// A page of its own words must not send a reader another way than the safety page and the sheets do.
    #[test]
    fn the_first_page_of_the_demonstration_says_the_same() {
        let text = include_str!("../../content/pages/getting-started.md");
        let lists = ["safety_ask_", "safety_emergency_", "safety_stop_", "safety_tell_"];
        let paragraphs = ["_title", "_lead", "_now", "_fever", "_any"];
        let mut items: Vec<String> = words()
            .plain()
            .into_iter()
            .filter(|(id, _)| {
                lists.iter().any(|l| id.starts_with(l)) && !paragraphs.iter().any(|p| id.ends_with(p))
            })
            .map(|(_, sentence)| sentence)
            .collect();
        items.sort();
        let part = |from: &str, to: &str| {
            let start = text.find(from).unwrap_or_else(|| panic!("no {from}"));
            let end = start + text[start..].find(to).unwrap_or_else(|| panic!("no {to}"));
            text[start..end].lines().filter_map(|line| line.strip_prefix("- ").map(str::to_string))
        };
        let mut written: Vec<String> = part("## Ask your clinician first", "## Make a safe place")
            .chain(part("## Stop, and get help", "## A last word"))
            .collect();
        written.sort();
        assert_eq!(written, items);
        for id in ["safety-ask-lead", "safety-ask-fever", "safety-stop-now"] {
            assert!(text.contains(&words().say(id)), "{id}");
        }
    }
}
