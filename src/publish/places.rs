//! The output folder, and the names beside it that belong to publishing.

use std::path::{Path, PathBuf};

/// Where the site stands and where it is staged; all on one file system, as they share a parent.
#[derive(Debug, Clone)]
pub(super) struct Places {
    /// The workspace.
    pub(super) root: PathBuf,
    /// The published site.
    pub(super) ready: PathBuf,
    /// The site being staged.
    pub(super) new: PathBuf,
    /// The old site between the two renames, where the system cannot exchange names.
    pub(super) old: PathBuf,
    /// The store of made sheets.
    pub(super) sheets: PathBuf,
    /// The lock. Never removed: a run could otherwise lock a file that has no name any more.
    pub(super) lock: PathBuf,
}

impl Places {
    pub(super) fn of(root: &Path) -> Self {
        Self {
            root: root.to_owned(),
            ready: root.join("ready"),
            new: root.join(".ready-new"),
            old: root.join(".ready-old"),
            sheets: root.join(".ready-sheets"),
            lock: root.join(".ready-lock"),
        }
    }
}
