//! A person's profile, read into an edition in memory: it is no part of the workspace and of no output but her sheets.

use std::path::Path;

use super::{Edition, unknown_language};
use crate::entry;
use crate::model::client::Client;
use crate::model::finding::Finding;
use crate::model::source::Source;
use crate::workspace::{self, Content};

/// A person's profile, and the name of its file without the ending.
pub struct Profile {
    pub stem: String,
    pub client: Client,
}

impl Profile {
    /// A number that stands for the person in the name of a file: the same for every sheet of hers, so that a new one takes
    /// the place of an old one, and another for everybody else. Twelve hexadecimal digits: among 10,000 people two have
    /// the same with a chance of less than one in five million.
    pub(super) fn number(&self) -> String {
        blake3::hash(self.stem.as_bytes()).to_hex()[..12].to_string()
    }

    /// What her days are kept under on a device: the same on every page that she gets from this clinic, so that a new one
    /// shows what she did before, and another on everybody else's, so that two people's days never mix on one device. It has
    /// nothing of her name, her number or her conditions in it: two pages may say the very same things, so it can only be
    /// worked out, one way, from the name of the profile's file and the site's address. Sixteen hexadecimal digits.
    pub(super) fn days(&self, site: &str) -> String {
        let mut hasher = blake3::Hasher::new_derive_key("steadyleaf: the days of a person's page");
        for part in [site, &self.stem] {
            hasher.update(&(part.len() as u64).to_le_bytes());
            hasher.update(part.as_bytes());
        }
        hasher.finalize().to_hex()[..16].to_string()
    }
}

impl Edition {
    /// Reads a profile.
    ///
    /// # Errors
    /// What is wrong with it: one with a mistake in it is none.
    pub fn read_profile(&mut self, path: &Path) -> Result<Profile, Vec<Finding>> {
        let (source, content) = workspace::client(path);
        let client = self.take_profile(source, &content)?;
        let stem = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        Ok(Profile { stem, client })
    }

    /// Reads a profile that is at hand.
    ///
    /// # Errors
    /// What is wrong with it.
    #[doc(hidden)]
    pub fn take_profile(&mut self, source: Source, content: &Content) -> Result<Client, Vec<Finding>> {
        let text = source.text.clone();
        let file = self.sources.add(source);
        if let Some(finding) = entry::unreadable(file, content) {
            return Err(vec![finding]);
        }
        let (client, mut found) = entry::read_client(&text, file, &self.model.site.catalogue);
        let language = client.as_ref().and_then(|client| client.language.as_ref());
        found.extend(language.and_then(|language| unknown_language(&self.theme, language)));
        match client {
            Some(client) if found.is_empty() => Ok(client),
            _ => Err(found),
        }
    }
}
