//! Pages that know what they were made from, so that each is rendered again only when that has changed.

use std::collections::BTreeMap;

use super::inputs::{Version, Versions};
use super::site::Site;
use crate::model::reads::{Read, watched};
use crate::outputs::Address;
use crate::pages::TemplateError;

/// Pages show no bytes of media files, so nobody has to know what these hold.
static NO_MEDIA: BTreeMap<String, blake3::Hash> = BTreeMap::new();

/// A page with everything that it was made from, in the versions of that time.
pub struct Rendered {
    pub html: String,
    base: Version,
    reads: Vec<(Read, Version)>,
}

impl<'e> Site<'e> {
    /// Renders a page; `None` when nothing has changed that `last`, the same page of this site or an earlier one, was made
    /// from: it would come out as it is.
    ///
    /// # Errors
    /// When there is no such page, or a template of the theme asks for something that is not there.
    pub fn render_since(
        &self,
        address: &Address,
        last: Option<&Rendered>,
    ) -> Result<Option<Rendered>, TemplateError> {
        if last.is_some_and(|last| self.is_still(last)) {
            return Ok(None);
        }
        let (html, reads) = watched(|| self.pages().render(address));
        let html = html?;
        let versions = self.versions();
        let version = |read: Read| {
            let version = versions.get(&read);
            (read, version)
        };
        Ok(Some(Rendered {
            html,
            base: versions.of_pages(),
            reads: reads.into_iter().map(version).collect(),
        }))
    }

    fn is_still(&self, last: &Rendered) -> bool {
        let versions = self.versions();
        // Of a media file's bytes nothing is known here.
        let same = |(read, version): &(Read, Version)| {
            !matches!(read, Read::Bytes(_)) && versions.get(read) == *version
        };
        versions.of_pages() == last.base && last.reads.iter().all(same)
    }

    fn versions(&self) -> &Versions<'e> {
        self.versions.get_or_init(|| {
            let versions =
                Versions::with(self.edition, self.facts, &NO_MEDIA, self.pages().derived().clone());
            versions.learn(self.pages().made());
            versions
        })
    }
}

#[cfg(test)]
mod tests;
