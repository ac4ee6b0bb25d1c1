//! Where links may lead: to what is inside the workspace, and never to people's profiles. One rule for texts, media and
//! the files of a theme: what a link leads to outside was never meant to be published, so it is not read, and said.

use std::io;
use std::path::{Path, PathBuf};

use super::clients;

/// Where a path leads, its links followed, if it may be read. Inside is what stands below the workspace's own folder,
/// and below the folder that `content/` leads to when it is a link itself.
///
/// # Errors
/// When it may not be read, with the reason in words for a person, or is not there.
pub(super) fn settle(root: &Path, path: &Path) -> io::Result<PathBuf> {
    let real = path.canonicalize()?;
    if clients::holds(root, &real) {
        return Err(io::Error::other("it is a link to clients/, and people's profiles never enter the site"));
    }
    let is_below = |folder: &Path| folder.canonicalize().is_ok_and(|folder| real.starts_with(folder));
    if is_below(root) || is_below(&root.join("content")) {
        return Ok(real);
    }
    let thing = if real.is_dir() { "folder" } else { "file" };
    Err(io::Error::other(format!("it is a link that leads out of the workspace; copy the {thing} here")))
}
