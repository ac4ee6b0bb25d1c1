//! The last look at a finished page: its ids, the order of its headings, its pictures' descriptions, where its links
//! lead, and whether browsers run its scripts.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet, HashSet};
use std::rc::Rc;
use std::sync::Arc;

use super::scripts;
use crate::model::link::decoded;
use lol_html::html_content::Element;
use lol_html::{HtmlRewriter, Settings, element, end_tag, text};
use serde::{Deserialize, Serialize};

/// A text that several share, as a text.
mod shared {
    use std::sync::Arc;

    use serde::{Deserialize, Deserializer, Serialize, Serializer};

    pub(super) fn serialize<S: Serializer>(text: &Option<Arc<str>>, to: S) -> Result<S::Ok, S::Error> {
        text.as_deref().serialize(to)
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Option<Arc<str>>, D::Error> {
        Ok(Option::<String>::deserialize(from)?.map(Arc::from))
    }
}

/// What a finished page holds.
#[derive(Clone, Debug, Default, Serialize, Deserialize)]
pub struct Inspection {
    /// Where it stands in the site.
    pub path: String,
    pub ids: BTreeSet<String>,
    /// The links that could not be settled on this page alone: to a place on another page, or to no file
    /// of the site.
    pub links: Vec<PageLink>,
    pub faults: Vec<Fault>,
}

/// A link to another file of the site, or to a place on a page.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PageLink {
    /// Relative to the site's root.
    pub path: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fragment: Option<String>,
    /// The exercise block that it stands in.
    #[serde(with = "shared", default, skip_serializing_if = "Option::is_none")]
    pub within: Option<Arc<str>>,
}

/// Something wrong with a page by itself.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Fault {
    pub kind: FaultKind,
    /// The exercise block that it stands in.
    #[serde(with = "shared", default, skip_serializing_if = "Option::is_none")]
    pub within: Option<Arc<str>>,
}

/// What is wrong.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum FaultKind {
    /// Two elements have this id.
    TwinId(String),
    /// A heading of a level follows one that is more than one level above it.
    SkippedHeading { from: u8, to: u8 },
    /// A picture has no description.
    NoDescription { source: String },
    /// A link leads out of the site's folder.
    LeadsOut(String),
    /// No browser runs this script: it is loaded from `file`, or stands in the page and its policy does not name it.
    DeadScript { file: Option<String> },
}

/// Looks at one page. `folder` is the site's folder on its server, which links may begin with; `files` are
/// all files of the site.
pub fn inspect(path: &str, html: &str, folder: &str, files: &HashSet<String>) -> Inspection {
    let look = RefCell::new(Look {
        inspection: Inspection { path: path.to_string(), ..Inspection::default() },
        level: 0,
        policy: None,
        scripts: Vec::new(),
        in_script: false,
        folder,
        files,
    });
    let within: Rc<RefCell<Option<Arc<str>>>> = Rc::default();
    let settings = Settings::new()
        .append_element_content_handler(element!(LOOKED_AT, |el| {
            let seen = look.borrow_mut().element(el, &within.borrow());
            if let Some(block) = seen {
                *within.borrow_mut() = Some(block.into());
                let within = within.clone();
                if el.can_have_content() {
                    el.on_end_tag(end_tag!(move |_| {
                        *within.borrow_mut() = None;
                        Ok(())
                    }))?;
                }
            }
            Ok(())
        }))
        .append_element_content_handler(text!("script", |part| {
            look.borrow_mut().script_text(part.as_str());
            Ok(())
        }));
    let mut rewriter = HtmlRewriter::new(settings, |_: &[u8]| {});
    // The only errors are of memory and of handlers that fail; neither can happen to a page that was
    // just written, and what was seen until then is told all the same.
    let _ = rewriter.write(html.as_bytes());
    let _ = rewriter.end();
    let mut inspection = look.into_inner().finished();
    let Inspection { path, ids, links, .. } = &mut inspection;
    links.retain(|link| link.path != *path || !leads(link, ids));
    inspection
}

/// The elements that have something to look at: most of a page's have not, and are passed over.
const LOOKED_AT: &str =
    "[id], [href], [src], [srcset], img, h1, h2, h3, h4, h5, h6, script, meta[http-equiv]";

struct Look<'a> {
    inspection: Inspection,
    /// The level of the last heading.
    level: u8,
    /// The page's Content Security Policy.
    policy: Option<String>,
    /// What the scripts that stand in the page say.
    scripts: Vec<String>,
    /// The text that comes is of the last of them.
    in_script: bool,
    folder: &'a str,
    files: &'a HashSet<String>,
}

impl Look<'_> {
    /// Looks at one element; its id, when it is an exercise block.
    fn element(&mut self, el: &Element<'_, '_>, within: &Option<Arc<str>>) -> Option<String> {
        let tag = el.tag_name();
        let mut description = false;
        let mut block = None;
        let mut source = None;
        for attribute in el.attributes() {
            match attribute.name().as_str() {
                "id" => {
                    let id = attribute.value();
                    if tag == "article" {
                        block = Some(id.clone());
                    }
                    if !self.inspection.ids.insert(id.clone()) {
                        self.fault(
                            FaultKind::TwinId(id),
                            block.as_deref().map(Arc::from).as_ref().or(within.as_ref()),
                        );
                    }
                }
                "href" => self.link(&attribute.value(), within),
                // The file of a script may be there: it is told below that no browser runs it.
                "src" => {
                    let file = attribute.value();
                    if tag != "script" {
                        self.link(&file, within);
                    }
                    source = Some(file);
                }
                "srcset" => {
                    for one in attribute.value().split(',') {
                        self.link(one.split_whitespace().next().unwrap_or(""), within);
                    }
                }
                "alt" => description = !attribute.value().trim().is_empty(),
                _ => {}
            }
        }
        match tag.as_bytes() {
            [b'h', digit @ b'1'..=b'6'] => {
                let to = digit - b'0';
                if to > self.level + 1 {
                    self.fault(FaultKind::SkippedHeading { from: self.level, to }, within.as_ref());
                }
                self.level = to;
            }
            b"img" if !description => {
                let source = source.unwrap_or_default();
                self.fault(FaultKind::NoDescription { source }, within.as_ref());
            }
            b"script" => {
                self.in_script = source.is_none() && is_run(el.get_attribute("type").as_deref());
                if source.is_some() {
                    self.fault(FaultKind::DeadScript { file: source }, within.as_ref());
                } else if self.in_script {
                    self.scripts.push(String::new());
                }
            }
            b"meta" => {
                let name = el.get_attribute("http-equiv").unwrap_or_default();
                if name.eq_ignore_ascii_case("content-security-policy") {
                    self.policy = el.get_attribute("content");
                }
            }
            _ => {}
        }
        block
    }

    fn script_text(&mut self, part: &str) {
        if let Some(script) = self.scripts.last_mut().filter(|_| self.in_script) {
            script.push_str(part);
        }
    }

    /// What was seen on the whole page.
    fn finished(mut self) -> Inspection {
        if let Some(policy) = self.policy.take() {
            let dead = |script: &String| !policy.contains(scripts::source(script).trim_matches('\''));
            for _ in std::mem::take(&mut self.scripts).iter().filter(|script| dead(script)) {
                self.fault(FaultKind::DeadScript { file: None }, None);
            }
        }
        self.inspection
    }

    fn fault(&mut self, kind: FaultKind, within: Option<&Arc<str>>) {
        self.inspection.faults.push(Fault { kind, within: within.cloned() });
    }

    fn link(&mut self, address: &str, within: &Option<Arc<str>>) {
        if address.starts_with("http:") || address.starts_with("https:") || is_other_scheme(address) {
            return;
        }
        let (path, fragment) = match address.split_once('#') {
            Some((path, fragment)) => (path, Some(decoded(fragment))),
            None => (address, None),
        };
        let resolved = match path.strip_prefix(self.folder).filter(|_| path.starts_with('/')) {
            Some(rest) => Some(rest.to_string()),
            None if path.is_empty() => Some(self.inspection.path.clone()),
            None => joined(&self.inspection.path, path),
        };
        match resolved {
            Some(path) if fragment.is_none() && self.files.contains(&path) => {}
            Some(path) => self.inspection.links.push(PageLink { path, fragment, within: within.clone() }),
            None => self.fault(FaultKind::LeadsOut(address.to_string()), within.as_ref()),
        }
    }
}

/// True for a script of this type when browsers run it: others are data (HTML Standard, 4.12.1).
fn is_run(kind: Option<&str>) -> bool {
    let kind = kind.unwrap_or_default().trim().to_ascii_lowercase();
    kind.is_empty() || kind == "module" || kind.ends_with("javascript")
}

fn is_other_scheme(address: &str) -> bool {
    ["mailto:", "tel:", "data:"].iter().any(|scheme| address.starts_with(scheme))
}

fn joined(from: &str, to: &str) -> Option<String> {
    let mut parts: Vec<&str> = from.split('/').collect();
    parts.pop();
    for part in to.split('/') {
        match part {
            ".." => {
                parts.pop()?;
            }
            "." => {}
            part => parts.push(part),
        }
    }
    Some(parts.join("/"))
}

/// A link that leads to nothing: the page it stands on, and the link.
#[derive(Debug, PartialEq, Eq)]
pub struct Dangling<'i> {
    pub path: &'i str,
    pub link: &'i PageLink,
}

/// The links of all pages that lead to no file or to no place on a page. `files` are all files of the
/// site.
pub fn dangling<'i>(pages: &'i [Inspection], files: &HashSet<String>) -> Vec<Dangling<'i>> {
    let ids: BTreeMap<&str, &BTreeSet<String>> = pages.iter().map(|p| (p.path.as_str(), &p.ids)).collect();
    let lost = |link: &PageLink| {
        let on_page = ids.get(link.path.as_str()).is_none_or(|ids| leads(link, ids));
        !(files.contains(&link.path) && on_page)
    };
    pages
        .iter()
        .flat_map(|page| page.links.iter().map(move |link| Dangling { path: &page.path, link }))
        .filter(|d| lost(d.link))
        .collect()
}

/// True when the link names no place, or one of the page's ids.
fn leads(link: &PageLink, ids: &BTreeSet<String>) -> bool {
    link.fragment.as_ref().is_none_or(|fragment| fragment.is_empty() || ids.contains(fragment))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_twin_id_a_skipped_heading_and_a_bare_picture_are_seen_in_their_block() {
        let html = "<h1 id=a>A</h1><article id=x><h2 id=b>B</h2><h4 id=b>C</h4><img src=p.jpg alt=''></article><h5>E</h5>";
        let inspection = inspect("exercises/x.html", html, "/", &HashSet::new());
        let within: Option<Arc<str>> = Some("x".into());
        assert_eq!(
            inspection.faults,
            [
                Fault { kind: FaultKind::TwinId("b".into()), within: within.clone() },
                Fault { kind: FaultKind::SkippedHeading { from: 2, to: 4 }, within: within.clone() },
                Fault { kind: FaultKind::NoDescription { source: "p.jpg".into() }, within },
            ]
        );
    }

    #[test]
    fn links_to_missing_files_and_places_dangle() {
        let files: HashSet<String> = ["a/one.html", "two.html"].map(String::from).into();
        let one = inspect(
            "a/one.html",
            "<p id=here><a href='../two.html#there'>x</a><a href='#here'>y</a><a href='#gone'>z</a>",
            "/",
            &files,
        );
        let two = inspect(
            "two.html",
            "<p id=there><a href='/a/one.html'>x</a><a href='none.html'>y</a><a href='https://e.example/'>z</a>",
            "/",
            &files,
        );
        let pages = [one, two];
        let found: Vec<_> = dangling(&pages, &files).iter().map(|d| (d.path, d.link.path.as_str())).collect();
        assert_eq!(found, [("a/one.html", "a/one.html"), ("two.html", "none.html")]);
    }

    #[test]
    fn a_link_out_of_the_site_is_a_fault() {
        let inspection = inspect("one.html", "<a href='../secret'>x</a>", "/", &HashSet::new());
        assert_eq!(inspection.faults[0].kind, FaultKind::LeadsOut("../secret".into()));
    }

    #[test]
    fn a_script_from_a_file_and_one_that_the_policy_does_not_name_are_faults() {
        let named = scripts::source("\nrun();\n");
        let policy = format!("<meta http-equiv=content-security-policy content=\"script-src {named}\">");
        let files: HashSet<String> = ["script/mine.js".to_string()].into();
        let faults = |html: &str| -> Vec<FaultKind> {
            let inspection = inspect("index.html", html, "/", &files);
            assert_eq!(inspection.links, []);
            inspection.faults.into_iter().map(|fault| fault.kind).collect()
        };
        let dead = |file: Option<&str>| FaultKind::DeadScript { file: file.map(str::to_string) };
        assert_eq!(faults(&format!("{policy}<script>\nrun();\n</script>")), []);
        assert_eq!(faults(&format!("{policy}<script data-name=a>\r\nrun();\r\n</script>")), []);
        assert_eq!(faults(&format!("{policy}<script type='application/ld+json'>{{}}</script>")), []);
        for other in ["run();", "\nrun(1 < 2);\n", ""] {
            for kind in ["", "type=module", "type='text/JavaScript'"] {
                let html = format!("{policy}<script>\nrun();\n</script><script {kind}>{other}</script>");
                assert_eq!(faults(&html), [dead(None)], "{html}");
            }
        }
        for file in ["script/mine.js", "gone.js", "https://elsewhere.example/x.js"] {
            let html = format!("{policy}<script src='{file}' defer>never();</script>");
            assert_eq!(faults(&html), [dead(Some(file))], "{html}");
        }
        // Without a policy browsers run what stands in the page.
        assert_eq!(faults("<script>other();</script>"), []);
    }
}
