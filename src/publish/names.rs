//! The names of the outputs: plain relative paths, no two of which any file system takes for the same.

use std::collections::BTreeMap;

use blake3::Hash;

use super::error::Problem;
use super::manifest::{FileDigest, MANIFEST, STAGED};

/// The names taken so far, folders and files, by their lower-case form.
#[derive(Debug, Default)]
pub(super) struct Names(BTreeMap<String, Name>);

#[derive(Debug)]
struct Name {
    spelling: String,
    /// `None` for a folder.
    file: Option<FileDigest>,
}

impl Names {
    /// Takes `path` for a file. Returns the folders above it that are new, outermost first.
    pub(super) fn take(&mut self, path: &str, made: FileDigest) -> Result<Vec<String>, Problem> {
        check(path)?;
        let mut new_folders = Vec::new();
        for (end, _) in path.match_indices('/') {
            let folder = &path[..end];
            match self.0.get(&folder.to_lowercase()) {
                Some(taken) if taken.file.is_none() && taken.spelling == folder => {}
                Some(taken) => return Err(Problem::SameName(taken.spelling.clone())),
                None => new_folders.push(folder.to_owned()),
            }
        }
        if let Some(taken) = self.0.get(&path.to_lowercase()) {
            return Err(Problem::SameName(taken.spelling.clone()));
        }
        for folder in &new_folders {
            self.add(folder, None);
        }
        self.add(path, Some(made));
        Ok(new_folders)
    }

    fn add(&mut self, spelling: &str, file: Option<FileDigest>) {
        let spelling = spelling.to_owned();
        self.0.insert(spelling.to_lowercase(), Name { spelling, file });
    }

    /// The files, by their paths, with their hashes.
    pub(super) fn files(&self) -> BTreeMap<String, Hash> {
        self.0.values().filter_map(|name| Some((name.spelling.clone(), name.file?.blake3))).collect()
    }

    /// The files, by their paths.
    pub(super) fn into_files(self) -> BTreeMap<String, FileDigest> {
        self.0.into_values().filter_map(|name| Some((name.spelling, name.file?))).collect()
    }
}

/// `\` separates and `:` names a drive on Windows.
const ODD: [char; 3] = ['\\', ':', '\0'];

/// True for the name of one file, which every system reads in the same way: Windows drops a dot or a space at the end.
pub(super) fn is_plain(name: &str) -> bool {
    !name.is_empty()
        && !name.ends_with(['.', ' '])
        && !name.contains('/')
        && !name.contains(ODD)
        && !name.contains(char::is_control)
}

/// Refuses a path that leaves the folder, or that some system reads in another way.
pub(super) fn check(path: &str) -> Result<(), Problem> {
    let plain = |part: &str| !matches!(part, "" | "." | "..") && !part.contains(ODD);
    if !path.split('/').all(plain) {
        return Err(Problem::BadName);
    }
    if [MANIFEST, STAGED].contains(&path.to_lowercase().as_str()) {
        return Err(Problem::Reserved);
    }
    Ok(())
}
