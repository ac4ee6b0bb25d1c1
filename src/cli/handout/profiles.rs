//! The profiles that the command line names. One with a mistake in it is none, and stops no other.

use std::collections::BTreeSet;
use std::path::PathBuf;

use crate::cli::outcome::Failure;
use crate::edition::{Edition, Profile};
use crate::model::finding::Finding;
use crate::workspace;

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
            Ok(profile) => people.push(profile),
            Err(found) => findings.extend(found),
        }
    }
    Ok((people, findings))
}

/// How many profiles these findings are about.
pub(super) fn count(findings: &[Finding]) -> usize {
    findings.iter().map(|f| f.span.file).collect::<BTreeSet<_>>().len()
}
