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
