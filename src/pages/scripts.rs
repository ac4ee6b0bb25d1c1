//! The scripts of a theme as they stand in its pages, and what the pages' policy calls them.
//!
//! No page loads a script from a file. A policy that lets pages load the files beside them lets an injected tag run any
//! file of the site, such as a PDF that holds a program; one that names the hash of each script lets nothing else run.

use std::collections::BTreeMap;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest, Sha256};

use super::markdown::escaped;
use super::theme::TemplateError;
use crate::outputs::offline::KEEPER;
use crate::workspace::theme::Theme;

/// The scripts that templates can put into their pages.
#[derive(Debug)]
pub(super) struct Scripts {
    /// Each as an element, by the name of its file without folder and ending. Its `data-name` is the same.
    pub(super) elements: BTreeMap<String, String>,
    /// What `script-src` of a policy lists to allow all of them, but those that only one template has.
    pub(super) allowed: String,
    /// What it lists where that template is filled.
    alone: BTreeMap<&'static str, String>,
    /// What a policy calls each of them.
    sources: BTreeMap<String, String>,
}

/// The page that searches a library of many pages.
pub(super) const FIND: &str = "find.html";

/// The page on which a reader says what is true for her.
pub(super) const YOURS: &str = "for-you.html";

/// The page of what a client has done.
pub(super) const MY_DAYS: &str = "my-days.html";

/// Scripts that only one template has, and that template: no other page's policy names them.
const ALONE: [(&str, &str); 7] = [
    ("find", FIND),
    ("say", YOURS),
    ("daysfile", MY_DAYS),
    ("daysweek", MY_DAYS),
    ("dayschart", MY_DAYS),
    ("mydays", MY_DAYS),
    ("dayscopy", MY_DAYS),
];

impl Scripts {
    /// Those of a theme: its files `script/NAME.js`, but for the program that keeps the site on a device.
    ///
    /// # Errors
    /// When a script is no text, or cannot stand inside a page.
    pub(super) fn of(theme: &Theme) -> Result<Scripts, TemplateError> {
        let (mut elements, mut sources) = (BTreeMap::new(), BTreeMap::new());
        let mut allowed = Vec::new();
        let mut of_one: BTreeMap<&'static str, Vec<String>> = BTreeMap::new();
        for (file, bytes) in theme.below("script/").filter(|(file, _)| *file != KEEPER) {
            let name = file.strip_prefix("script/").and_then(|file| file.strip_suffix(".js"));
            let Some(name) = name else { continue };
            let text = std::str::from_utf8(bytes).map_err(|_| TemplateError::no_text(file))?;
            if let Some(part) = breaks_out(text) {
                return Err(TemplateError::breaks_out(file, part));
            }
            let text = format!("\n{text}");
            sources.insert(name.to_string(), source(&text));
            match ALONE.iter().find(|(script, _)| *script == name) {
                Some((_, template)) => of_one.entry(template).or_default().push(source(&text)),
                None => allowed.push(source(&text)),
            }
            elements.insert(name.to_string(), element(name, &text));
        }
        let allowed = allowed.join(" ");
        let with =
            |(template, own): (&'static str, Vec<String>)| (template, format!("{allowed} {}", own.join(" ")));
        let alone = of_one.into_iter().map(with).collect();
        Ok(Scripts { elements, alone, allowed, sources })
    }

    /// What a policy lists to allow these and no other.
    pub(super) fn allowing(&self, names: &[&str]) -> String {
        let sources: Vec<&str> =
            names.iter().filter_map(|name| self.sources.get(*name)).map(String::as_str).collect();
        sources.join(" ")
    }

    /// What the policy lists on pages of a template that has a script of its own; `None` for all others.
    pub(super) fn allowed_alone(&self, template: &str) -> Option<&str> {
        self.alone.get(template).map(String::as_str)
    }
}

fn element(name: &str, text: &str) -> String {
    format!("<script data-name=\"{}\">{text}</script>", escaped(name))
}

/// What a policy calls an inline script: the SHA-256 of its text, in base64 (W3C Content Security Policy 3, 2.3.1).
pub(crate) fn source(text: &str) -> String {
    // A browser reads every end of a line as a line feed before it looks at anything (HTML Standard, 13.2.3.5).
    let read = text.replace("\r\n", "\n").replace('\r', "\n");
    format!("'sha256-{}'", STANDARD.encode(Sha256::digest(read.as_bytes())))
}

/// What would end a script before its end, or hide its end (HTML Standard, 4.12.1.3).
pub(crate) fn breaks_out(text: &str) -> Option<&'static str> {
    let text = text.to_ascii_lowercase();
    ["</script", "<!--"].into_iter().find(|part| text.contains(*part))
}

#[cfg(test)]
mod tests {
    use std::borrow::Cow;

    use super::*;
    use crate::outputs::Address;
    use crate::review::testing::page;

    fn with(file: &str, text: &'static [u8]) -> Result<Scripts, String> {
        let mut theme = Theme::built_in();
        theme.files.insert(file.to_string(), Cow::Borrowed(text));
        Scripts::of(&theme).map_err(|e| e.to_string())
    }

    #[test]
    fn a_script_is_called_by_the_hash_of_its_text() {
        // `printf alert | openssl dgst -sha256 -binary | base64`, and of `a\nb\nc`.
        assert_eq!(source("alert"), "'sha256-35BQWN1npAn++BSA6B5HNlcrDttNf7mHxpXNB+Jg7IE='");
        for lines in ["a\nb\nc", "a\r\nb\rc"] {
            assert_eq!(source(lines), "'sha256-6n+wi3otxGGf+3x7s42VogR5NfoWXXGxLv04UqLm0Mw='", "{lines:?}");
        }
    }

    #[test]
    fn every_script_of_the_theme_but_the_keeper_can_stand_in_a_page() {
        let scripts = with("script/own-list.js", b"run();").unwrap();
        let names: Vec<&str> = scripts.elements.keys().map(String::as_str).collect();
        let (alone, shared): (Vec<&str>, Vec<&str>) =
            names.iter().partition(|name| ALONE.iter().any(|(script, _)| script == *name));
        assert_eq!(
            shared,
            [
                "days",
                "here",
                "library",
                "movement",
                "now",
                "own-list",
                "player",
                "practice",
                "practice_figure",
                "practice_log",
                "practice_steps",
                "practice_voice",
                "read",
                "saved",
                "size",
                "yours"
            ]
        );
        assert_eq!(alone, ["dayschart", "dayscopy", "daysfile", "daysweek", "find", "mydays", "say"]);
        assert_eq!(scripts.elements["own-list"], "<script data-name=\"own-list\">\nrun();</script>");
        let count = |allowed: &str| allowed.split(' ').count();
        assert_eq!(count(&scripts.allowed), shared.len());
        assert_eq!(scripts.allowed_alone(FIND).map(count), Some(shared.len() + 1));
        assert_eq!(scripts.allowed_alone(MY_DAYS).map(count), Some(shared.len() + 5));
        assert_eq!(scripts.allowed_alone("library.html"), None);
        assert!(scripts.allowed.contains(&source("\nrun();")), "{}", scripts.allowed);
    }

    #[test]
    fn a_script_that_would_end_its_element_is_refused_with_what_to_write() {
        for (text, part, instead) in [
            ("x = '</SCRIPT>';", "`</script`", r"`<\/script`"),
            ("// <!-- the old one", "`<!--`", r"`<\!--`"),
        ] {
            let error = with("script/library.js", text.as_bytes()).unwrap_err();
            for said in ["script/library.js", part, instead] {
                assert!(error.contains(said), "{said} in {error}");
            }
        }
        assert!(with("script/library.js", b"x = '<\\/script>';").is_ok());
        assert!(with("script/library.js", b"\xff").unwrap_err().contains("script/library.js is not text"));
    }

    /// Of all inline scripts of a page, the executable ones are those that its policy names, and it names no file.
    #[test]
    fn a_page_allows_its_own_scripts_by_their_hashes_and_nothing_else() {
        for (address, wanted) in [
            (Address::Home, &["size", "yours", "now", "saved", "read"][..]),
            (Address::Library, &["size", "yours", "here", "saved", "read", "library"][..]),
            (
                Address::Exercise("heel-drop".into()),
                &["size", "yours", "here", "now", "saved", "read", "movement"][..],
            ),
        ] {
            let html = page(&address);
            let policy = html.split("http-equiv=\"Content-Security-Policy\" content=\"").nth(1).unwrap();
            let policy = policy.split('"').next().unwrap();
            let directive = |name: &str| policy.split("; ").find_map(|part| part.strip_prefix(name)).unwrap();
            let allowed: Vec<&str> = directive("script-src ").split(' ').collect();
            assert!(allowed.iter().all(|one| one.starts_with("'sha256-")), "{policy}");
            for closed in ["default-src", "object-src", "base-uri", "form-action"] {
                assert_eq!(directive(closed).trim(), "'none'", "{closed} in {policy}");
            }
            let scripts: Vec<&str> = html.split("<script data-name=\"").skip(1).collect();
            assert_eq!(scripts.len(), wanted.len(), "{}", address.path());
            assert_eq!(html.matches("<script").count() - html.matches("<script type=").count(), wanted.len());
            for (script, wanted) in scripts.into_iter().zip(wanted) {
                let (name, rest) = script.split_once("\">").unwrap();
                let text = rest.split("</script>").next().unwrap();
                assert_eq!(name, *wanted);
                assert!(allowed.contains(&source(text).as_str()), "{name} is not allowed");
            }
        }
    }
}
