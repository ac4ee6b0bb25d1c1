//! The line on the terminal that tells what came of what was saved.

use std::collections::BTreeSet;
use std::time::{Duration, Instant};

/// What was saved, and when.
pub(super) struct Save {
    /// The names of the files that say something else now.
    pub(super) files: Vec<String>,
    pub(super) start: Instant,
}

/// What the terminal is told when the review is done: of one change, or of several where each came before the review of the
/// one before it was done.
#[derive(Default)]
pub(super) struct Untold {
    files: Vec<String>,
    /// The paths of the open pages that look different since.
    pages: BTreeSet<String>,
    /// From the last of the changes to its pages.
    time: Duration,
}

impl Untold {
    /// Adds a change and the pages that came of it, which are shown now.
    pub(super) fn add(&mut self, change: Save, pages: BTreeSet<String>) {
        self.files.retain(|file| !change.files.contains(file));
        self.files.extend(change.files);
        self.pages.extend(pages);
        self.time = change.start.elapsed();
    }

    /// `heel-drop.md  1 page  41 ms  1 error`.
    pub(super) fn line(&self, found: &str) -> String {
        let first = self.files.first().map_or("", |name| name.rsplit('/').next().unwrap_or(name));
        let files = match self.files.len() {
            _ if first.is_empty() => "everything".to_string(),
            0 | 1 => first.to_string(),
            n => format!("{first} and {} more", n - 1),
        };
        let pages = match self.pages.len() {
            1 => "1 page".to_string(),
            n => format!("{n} pages"),
        };
        format!("{files}  {pages}  {} ms  {found}", self.time.as_millis())
    }
}

#[cfg(test)]
#[expect(clippy::disallowed_methods, reason = "a change has a time")]
mod tests {
    use super::*;

    #[test]
    fn changes_that_overtook_the_review_are_told_together_each_file_and_page_once() {
        let mut untold = Untold::default();
        let mut add = |files: &[&str], pages: &[&str]| {
            let owned = |list: &[&str]| list.iter().map(ToString::to_string).collect::<Vec<_>>();
            let change = Save { files: owned(files), start: Instant::now() };
            untold.add(change, owned(pages).into_iter().collect());
            untold.line("1 error")
        };
        let told = |line: String| {
            let parts: Vec<&str> = line.split("  ").collect();
            assert!(parts[2].ends_with(" ms"), "{line}");
            [parts[0], parts[1], parts[3]].join("  ")
        };
        let one = add(&["content/exercises/heel-drop.md"], &["exercises/heel-drop.html"]);
        assert_eq!(told(one), "heel-drop.md  1 page  1 error");
        let same = add(&["content/exercises/heel-drop.md"], &["exercises/heel-drop.html"]);
        assert_eq!(told(same), "heel-drop.md  1 page  1 error");
        let two = add(&["content/pages/about.md"], &["pages/about.html", "index.html"]);
        assert_eq!(told(two), "heel-drop.md and 1 more  3 pages  1 error");
    }
}
