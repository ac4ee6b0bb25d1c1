//! What a review need not look for again in an entry that has not changed.

use std::collections::BTreeMap;

use crate::model::finding::Finding;
use crate::model::source::FileId;

/// The findings of each entry.
pub(super) type ByEntry = BTreeMap<FileId, Vec<Finding>>;

/// What the rules on texts and on drawn figures found, entry by entry. They look at nothing but the entry itself, the
/// settings and the words of the workspace.
#[derive(Debug, Default)]
pub struct ReviewCache {
    pub(super) texts: ByEntry,
    pub(super) figures: ByEntry,
}

impl ReviewCache {
    /// Forgets an entry whose text has changed.
    pub fn forget(&mut self, file: FileId) {
        self.texts.remove(&file);
        self.figures.remove(&file);
    }
}

#[cfg(test)]
mod tests {
    use std::sync::atomic::{AtomicUsize, Ordering};

    use super::super::{Case, figures, review, review_while, texts};
    use super::*;
    use crate::review::figures::with_figure;
    use crate::review::testing::{TODAY, edited, with_model_on, words};

    /// Looks, with what is kept of the entry left as it is, lost, and forgotten.
    fn check(
        name: &str,
        text: String,
        look: fn(&Case<'_>, &mut ReviewCache) -> Vec<Finding>,
        lose: fn(&mut ReviewCache, FileId),
    ) {
        with_model_on(vec![(name.to_string(), text.into_bytes())], TODAY, words(), |case, _| {
            let file = case.sources.find(name).unwrap();
            let about = |found: &[Finding]| found.iter().filter(|f| f.span.file == file).count();
            let mut kept = ReviewCache::default();
            let first = look(case, &mut kept);
            assert!(about(&first) > 0);
            assert_eq!(look(case, &mut kept), first);
            lose(&mut kept, file);
            assert_eq!(about(&look(case, &mut kept)), 0);
            kept.forget(file);
            assert_eq!(look(case, &mut kept), first);
            crate::review::Review::default()
        });
    }

    #[test]
    fn what_is_kept_of_texts_is_found_again_and_what_is_forgotten_is_looked_for_anew() {
        let (name, long) = ("content/pages/about.md", "word ".repeat(40));
        let page = edited(name, &[("\n```\n", &format!("\n```\nThis is {long}long.\n\n"))]);
        let lose = |kept: &mut ReviewCache, file| drop(kept.texts.insert(file, Vec::new()));
        check(name, page, |case, kept| texts::review(case, &mut kept.texts, &|| true), lose);
    }

    #[test]
    fn what_is_kept_of_figures_is_found_again_and_what_is_forgotten_is_looked_for_anew() {
        let name = "content/exercises/heel-raise.md";
        let falling = "[[figure.pose]]\nbase = \"standing\"\nankle.dorsiflexion = 20\nhip.flexion = 10";
        let lose = |kept: &mut ReviewCache, file| drop(kept.figures.insert(file, Vec::new()));
        check(
            name,
            with_figure(name, falling),
            |case, kept| figures::review(case, &mut kept.figures, &|| true),
            lose,
        );
    }

    #[test]
    fn a_review_that_is_given_up_tells_nothing_and_the_next_finds_everything() {
        let (name, long) = ("content/pages/about.md", "word ".repeat(40));
        let page = edited(name, &[("\n```\n", &format!("\n```\nThis is {long}long.\n\n"))]);
        with_model_on(vec![(name.to_string(), page.into_bytes())], TODAY, words(), |case, found| {
            let whole = review(case, found.clone());
            assert!(whole.findings.iter().any(|f| f.rule == "long-sentence"));
            let mut given_up = 0;
            for patience in (0..).map(|n| n * 15) {
                let (mut kept, asked) = (ReviewCache::default(), AtomicUsize::new(0));
                let awaited = || asked.fetch_add(1, Ordering::Relaxed) < patience;
                let first = review_while(case, found.clone(), &mut kept, &awaited);
                let again = review_while(case, found.clone(), &mut kept, &|| true);
                assert_eq!(again.map(|r| r.findings).as_ref(), Some(&whole.findings), "{patience}");
                match first {
                    None => given_up += 1,
                    Some(first) => {
                        assert_eq!(first.findings, whole.findings, "{patience}");
                        break;
                    }
                }
            }
            assert!(given_up > 3, "{given_up}");
            crate::review::Review::default()
        });
    }
}
