//! The workspace as it is while a round lasts: whoever answers browsers and the review beside it look at the same.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use jiff::civil::Date;

use crate::edition::{Edition, MadePhoto};
use crate::model::finding::Finding;
use crate::model::source::Sources;
use crate::outputs::address::folder;
use crate::outputs::{self, Output, Shot};
use crate::pages;
use crate::pages::inspect::{Inspection, inspect};
use crate::review::{self, Awaited, Review, ReviewCache};

/// Every photo of the site, made or with what is wrong with it.
pub(super) type Photos = BTreeMap<Shot, Result<MadePhoto, Finding>>;

/// The last review that was finished.
pub(super) struct Reviewed {
    pub(super) number: u64,
    pub(super) review: Review,
    /// The texts that it looked at: those of now may say something else.
    pub(super) sources: Sources,
}

pub(super) struct Snapshot<'p> {
    pub(super) edition: &'p Edition,
    pub(super) photos: &'p Photos,
    pub(super) today: Date,
    /// Every file of the site by its path, when somebody asks for more than a page.
    files: OnceLock<BTreeMap<String, Output>>,
}

impl<'p> Snapshot<'p> {
    pub(super) fn of(edition: &'p Edition, photos: &'p Photos, today: Date) -> Snapshot<'p> {
        Snapshot { edition, photos, today, files: OnceLock::new() }
    }

    pub(super) fn files(&self) -> &BTreeMap<String, Output> {
        self.files.get_or_init(|| {
            let widths = |photo: &MadePhoto| photo.files.iter().map(|(path, _)| path.clone()).collect();
            let photos =
                self.photos.iter().filter_map(|(n, p)| Some((n.clone(), widths(p.as_ref().ok()?)))).collect();
            let all = outputs::previewed(self.edition.model(), self.edition.theme());
            all.into_iter()
                .flat_map(|output| output.paths(&photos).into_iter().map(move |p| (p, output.clone())))
                .collect()
        })
    }

    /// Reviews the workspace, and looks at these pages, each by its path, once more. `None` as soon as nobody waits for it.
    pub(super) fn review(
        &self,
        pages: &[(String, String)],
        kept: &mut ReviewCache,
        awaited: Awaited<'_>,
    ) -> Option<Review> {
        let case = self.edition.case(self.today);
        let review = self.edition.review_while(self.today, kept, awaited)?;
        let mut found: Vec<Finding> =
            self.photos.values().filter_map(|p| p.as_ref().err().cloned()).collect();
        found.extend(self.findings_of(pages));
        Some(if found.is_empty() { review } else { review::join(&case, review, found) })
    }

    /// What stands on these pages themselves. Places on other pages are not looked for.
    fn findings_of(&self, pages: &[(String, String)]) -> Vec<Finding> {
        if pages.is_empty() {
            return Vec::new();
        }
        let files = self.files().keys().cloned().collect();
        let model = self.edition.model();
        let site = folder(&model.site.address.value);
        let inspections: Vec<Inspection> = pages
            .iter()
            .map(|(path, html)| inspect(path, html, &site, &files))
            .map(|mut inspection| {
                inspection.links.retain(|link| link.path == inspection.path || !files.contains(&link.path));
                inspection
            })
            .collect();
        pages::findings(model, &inspections, &files)
    }
}
