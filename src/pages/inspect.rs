//! The last look at a finished page: its ids, the order of its headings, its pictures' descriptions,
//! and where its links lead.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet, HashSet};
use std::rc::Rc;
use std::sync::Arc;

use crate::outputs::links::decoded;
use lol_html::html_content::Element;
use lol_html::{HtmlRewriter, Settings, element, end_tag};

/// What a finished page holds.
#[derive(Debug, Default)]
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
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PageLink {
    /// Relative to the site's root.
    pub path: String,
    pub fragment: Option<String>,
    /// The exercise block that it stands in.
    pub within: Option<Arc<str>>,
}

/// Something wrong with a page by itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    pub kind: FaultKind,
    /// The exercise block that it stands in.
    pub within: Option<Arc<str>>,
}

/// What is wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FaultKind {
    /// Two elements have this id.
    TwinId(String),
    /// A heading of a level follows one that is more than one level above it.
    SkippedHeading { from: u8, to: u8 },
    /// A picture has no description.
    NoDescription { source: String },
    /// A link leads out of the site's folder.
    LeadsOut(String),
}

/// Looks at one page. `folder` is the site's folder on its server, which links may begin with; `files` are
/// all files of the site.
pub fn inspect(path: &str, html: &str, folder: &str, files: &HashSet<String>) -> Inspection {
    let look = RefCell::new(Look {
        inspection: Inspection { path: path.to_string(), ..Inspection::default() },
        level: 0,
        folder,
        files,
    });
    let within: Rc<RefCell<Option<Arc<str>>>> = Rc::default();
    let settings = Settings::new().append_element_content_handler(element!(LOOKED_AT, |el| {
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
    }));
    let mut rewriter = HtmlRewriter::new(settings, |_: &[u8]| {});
    // The only errors are of memory and of handlers that fail; neither can happen to a page that was
    // just written, and what was seen until then is told all the same.
    let _ = rewriter.write(html.as_bytes());
    let _ = rewriter.end();
    let mut inspection = look.into_inner().inspection;
    let Inspection { path, ids, links, .. } = &mut inspection;
    links.retain(|link| link.path != *path || !leads(link, ids));
    inspection
}

/// The elements that have something to look at: most of a page's have not, and are passed over.
const LOOKED_AT: &str = "[id], [href], [src], [srcset], img, h1, h2, h3, h4, h5, h6";

struct Look<'a> {
    inspection: Inspection,
    /// The level of the last heading.
    level: u8,
    folder: &'a str,
    files: &'a HashSet<String>,
}

impl Look<'_> {
    /// Looks at one element; its id, when it is an exercise block.
    fn element(&mut self, el: &Element<'_, '_>, within: &Option<Arc<str>>) -> Option<String> {
        let tag = el.tag_name();
        let mut description = false;
        let mut block = None;
        let mut source = String::new();
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
                "src" => {
                    source = attribute.value();
                    self.link(&source, within);
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
            b"img" if !description => self.fault(FaultKind::NoDescription { source }, within.as_ref()),
            _ => {}
        }
        block
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
}
