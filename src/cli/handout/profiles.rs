//! The profiles that the command line names. One with a mistake in it is none, and stops no other.

use std::collections::BTreeSet;
use std::path::PathBuf;

use crate::cli::outcome::Failure;
use crate::edition::Edition;
use crate::model::client::Client;
use crate::model::finding::Finding;
use crate::workspace;

/// A profile, and the name of its file without the ending.
pub(super) struct Profile {
    pub(super) stem: String,
    pub(super) client: Client,
}

impl Profile {
    /// A number that stands for the person in the name of a file: the same for every sheet of hers, so that a new one takes
    /// the place of an old one, and another for everybody else. Twelve hexadecimal digits: among 10,000 people two have
    /// the same with a chance of less than one in five million.
    pub(super) fn number(&self) -> String {
        blake3::hash(self.stem.as_bytes()).to_hex()[..12].to_string()
    }
}

/// Reads profiles, and what is wrong with those that cannot be used. A folder means all in it.
pub(super) fn read(
    paths: &[PathBuf],
    edition: &mut Edition,
) -> Result<(Vec<Profile>, Vec<Finding>), Failure> {
    let mut files = Vec::new();
    for path in paths {
        let found = workspace::clients_at(path)
            .map_err(|e| Failure::Unreadable(format!("{} cannot be read: {e}", path.display())))?;
        if found.is_empty() {
            return Err(Failure::Unreadable(format!(
                "{} holds no profile: a profile is a file such as j.toml",
                path.display()
            )));
        }
        files.extend(found);
    }
    let mut people = Vec::new();
    let mut findings = Vec::new();
    let mut seen = BTreeSet::new();
    for path in files.into_iter().filter(|path| seen.insert(path.clone())) {
        match edition.read_profile(&path) {
            Ok(client) => {
                let stem = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
                people.push(Profile { stem, client });
            }
            Err(found) => findings.extend(found),
        }
    }
    Ok((people, findings))
}

/// How many profiles these findings are about.
pub(super) fn count(findings: &[Finding]) -> usize {
    findings.iter().map(|f| f.span.file).collect::<BTreeSet<_>>().len()
}
