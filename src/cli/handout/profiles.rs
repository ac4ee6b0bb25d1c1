//! The profiles that the command line names. One with a mistake in it is none, and stops no other.

use std::collections::BTreeSet;
use std::path::PathBuf;

use crate::cli::load::{Loaded, unknown_language};
use crate::cli::outcome::Failure;
use crate::entry;
use crate::model::client::Client;
use crate::model::finding::Finding;
use crate::workspace;

/// A profile, and the name of its file without the ending.
pub(super) struct Profile {
    pub(super) stem: String,
    pub(super) client: Client,
}

/// Reads profiles, and what is wrong with those that cannot be used. A folder means all in it.
pub(super) fn read(paths: &[PathBuf], loaded: &mut Loaded) -> Result<(Vec<Profile>, Vec<Finding>), Failure> {
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
        let (source, content) = workspace::client(&path);
        let text = source.text.clone();
        let file = loaded.sources.add(source);
        if let Some(finding) = entry::unreadable(file, &content) {
            findings.push(finding);
            continue;
        }
        let (client, mut found) = entry::read_client(&text, file, &loaded.model.site.catalogue);
        let language = client.as_ref().and_then(|client| client.language.as_ref());
        found.extend(language.and_then(|language| unknown_language(&loaded.theme, language)));
        if let Some(client) = client.filter(|_| found.is_empty()) {
            let stem = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
            people.push(Profile { stem, client });
        }
        findings.extend(found);
    }
    Ok((people, findings))
}

/// How many profiles these findings are about.
pub(super) fn count(findings: &[Finding]) -> usize {
    findings.iter().map(|f| f.span.file).collect::<BTreeSet<_>>().len()
}
