//! The made pages in memory, which of them are open in a browser, and the marks by which an open page sees
//! that it has changed.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use serde::Serialize;
use tokio::sync::watch;

use super::dress;

/// What browsers are shown.
#[derive(Debug)]
pub struct Shown {
    pages: Mutex<BTreeMap<String, Arc<str>>>,
    open: Mutex<BTreeMap<String, usize>>,
    marks: watch::Sender<Marks>,
}

/// The state of everything that an open page shows, in marks that differ when it does.
#[derive(Clone, Debug, Default)]
pub(super) struct Marks {
    pages: BTreeMap<String, String>,
    looks: u64,
    scripts: u64,
    review: u64,
}

/// What one page is told.
#[derive(Serialize)]
struct PageMarks<'a> {
    page: Option<&'a str>,
    looks: u64,
    scripts: u64,
    review: u64,
}

/// What has changed beside pages.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refresh {
    /// Style sheets, fonts or photos.
    Looks,
    Scripts,
    /// The findings.
    Review,
}

impl Default for Shown {
    fn default() -> Shown {
        Shown { pages: Mutex::default(), open: Mutex::default(), marks: watch::Sender::new(Marks::default()) }
    }
}

impl Shown {
    /// The paths of the pages that are open in a browser.
    pub fn open_pages(&self) -> Vec<String> {
        held(&self.open).keys().cloned().collect()
    }

    /// Forgets every page, since what they are made from has changed.
    pub fn forget_pages(&self) {
        held(&self.pages).clear();
    }

    /// Shows these pages, each by its path. The paths of those that are not as they were.
    pub fn show(&self, made: &[(String, String)]) -> BTreeSet<String> {
        let mut changed = BTreeSet::new();
        self.marks.send_modify(|marks| {
            let mut pages = held(&self.pages);
            for (path, html) in made {
                let mark = blake3::hash(html.as_bytes()).to_hex()[..16].to_string();
                pages.insert(path.clone(), dress::dressed(html, path, &mark).into());
                if marks.pages.insert(path.clone(), mark.clone()) != Some(mark) {
                    changed.insert(path.clone());
                }
            }
        });
        changed
    }

    /// Tells every open page.
    pub fn tell(&self, changes: &[Refresh]) {
        self.marks.send_modify(|marks| {
            for change in changes {
                match change {
                    Refresh::Looks => marks.looks += 1,
                    Refresh::Scripts => marks.scripts += 1,
                    Refresh::Review => marks.review += 1,
                }
            }
        });
    }

    pub(super) fn page(&self, path: &str) -> Option<Arc<str>> {
        held(&self.pages).get(path).cloned()
    }

    pub(super) fn marks(&self) -> watch::Receiver<Marks> {
        self.marks.subscribe()
    }

    /// Counts a page as open until what is returned is dropped.
    pub(super) fn opened(self: &Arc<Shown>, path: &str) -> OpenPage {
        *held(&self.open).entry(path.to_string()).or_default() += 1;
        OpenPage { shown: Arc::clone(self), path: path.to_string() }
    }
}

impl Marks {
    /// What the page at this path is told, as JSON.
    pub(super) fn told(&self, path: &str) -> String {
        let page = self.pages.get(path).map(String::as_str);
        let told = PageMarks { page, looks: self.looks, scripts: self.scripts, review: self.review };
        serde_json::to_string(&told).unwrap_or_default()
    }
}

/// A page that is open in a browser.
pub(super) struct OpenPage {
    shown: Arc<Shown>,
    pub(super) path: String,
}

impl Drop for OpenPage {
    fn drop(&mut self) {
        let mut open = held(&self.shown.open);
        if let Some(count) = open.get_mut(&self.path) {
            *count -= 1;
            if *count == 0 {
                open.remove(&self.path);
            }
        }
    }
}

/// Nothing is left half done while one of these is held, so a thread that died there did no harm.
fn held<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn page(path: &str, words: &str) -> (String, String) {
        (path.to_string(), format!("<html><head></head><body>{words}</body></html>"))
    }

    #[test]
    fn only_pages_that_differ_count_as_changed_and_get_another_mark() {
        let shown = Shown::default();
        assert_eq!(shown.show(&[page("a.html", "one"), page("b.html", "one")]).len(), 2);
        let before = shown.marks().borrow().told("a.html");
        let changed = shown.show(&[page("a.html", "one"), page("b.html", "two")]);
        assert_eq!(changed, BTreeSet::from(["b.html".to_string()]));
        assert_eq!(shown.marks().borrow().told("a.html"), before);
        assert_eq!(shown.show(&[page("a.html", "two")]).len(), 1);
        assert_ne!(shown.marks().borrow().told("a.html"), before);
    }

    #[test]
    fn a_page_is_open_until_the_last_window_with_it_is_closed() {
        let shown = Arc::new(Shown::default());
        let (one, two) = (shown.opened("a.html"), shown.opened("a.html"));
        drop(one);
        assert_eq!(shown.open_pages(), ["a.html"]);
        drop(two);
        assert!(shown.open_pages().is_empty());
    }
}
