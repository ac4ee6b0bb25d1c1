//! Where handouts may go: anywhere but into what the site is made from and what it is made into.

use std::ffi::OsStr;
use std::fs;
use std::io::{self, ErrorKind};
use std::path::{self, Component, Path, PathBuf};

use super::earlier::HOME;
use super::error::{Problem, PublishError};

/// What belongs to the site, in the workspace.
const SITE: [&str; 8] =
    ["ready", "content", "themes", ".ready-new", ".ready-old", ".ready-sheets", ".ready-lock", HOME];

/// The folder without links and `..`, if handouts may go there; it need not exist. Refuses `ready/`, `content/`,
/// `themes/`, the names that publishing needs, and all that is or would be below them, in any spelling: upper and lower
/// case are the same here on every system. A relative folder is relative to where the program runs. Changes nothing.
///
/// The answer holds while nobody changes links, so write to the folder that is returned and not to the one asked for.
pub fn allowed_folder(root: &Path, folder: &Path) -> Result<PathBuf, PublishError> {
    let real = |path: &Path| resolve(path).map_err(PublishError::disk(path));
    let allowed = real(folder)?;
    let real_root = real(root)?;
    for name in SITE {
        // A folder of the site may itself be a link to elsewhere.
        for site in [real_root.join(name), real(&root.join(name))?] {
            if allowed.ancestors().any(|above| is_same(above, &site)) {
                return Err(PublishError::new(folder, Problem::PartOfSite(name)));
            }
        }
    }
    if fs::metadata(&allowed).is_ok_and(|found| !found.is_dir()) {
        return Err(PublishError::new(folder, Problem::NotAFolder));
    }
    Ok(allowed)
}

/// True when two resolved paths lead to one place, or would on some system.
pub(super) fn is_same(one: &Path, other: &Path) -> bool {
    let caseless = |name: &OsStr| name.to_string_lossy().to_lowercase();
    let same_name = |one: &Path, other: &Path| match (one.file_name(), other.file_name()) {
        (Some(one), Some(other)) => caseless(one) == caseless(other),
        _ => false,
    };
    let same_parent = |one: &Path, other: &Path| match (one.parent(), other.parent()) {
        (Some(one), Some(other)) => is_same_folder(one, other),
        _ => false,
    };
    caseless(one.as_os_str()) == caseless(other.as_os_str())
        || is_same_folder(one, other)
        || (same_name(one, other) && same_parent(one, other))
}

/// True for one folder under two names that no spelling shows: mounted twice, or with accents in another encoding.
#[cfg(unix)]
fn is_same_folder(one: &Path, other: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    match (fs::metadata(one), fs::metadata(other)) {
        (Ok(one), Ok(other)) => (one.dev(), one.ino()) == (other.dev(), other.ino()),
        _ => false,
    }
}

/// As above, where paths are all there is to compare; resolved, they have one spelling.
#[cfg(not(unix))]
fn is_same_folder(one: &Path, other: &Path) -> bool {
    one == other
}

/// The path without links, `.` and `..`. Its end need not exist.
fn resolve(path: &Path) -> io::Result<PathBuf> {
    let here = Path::new(".");
    let path = if path.as_os_str().is_empty() { here } else { path };
    resolve_within(&path::absolute(path)?, STEPS)
}

/// Links to what does not exist can lead to one another without end.
const STEPS: u32 = 250;

fn resolve_within(path: &Path, steps: u32) -> io::Result<PathBuf> {
    // With `/` or `/.` at its end a link would be followed where it is to be read.
    let path: PathBuf = path.components().collect();
    match fs::canonicalize(&path) {
        Err(error) if error.kind() == ErrorKind::NotFound => {}
        found => return found,
    }
    let Some(steps) = steps.checked_sub(1) else {
        return Err(io::Error::other("too many links lead from one to the next; choose another folder"));
    };
    let Some(above) = path.parent() else { return Ok(path) };
    // A link to what is missing: once that is made, what is written here is there.
    if let Ok(target) = fs::read_link(&path) {
        return resolve_within(&above.join(target), steps);
    }
    let above = resolve_within(above, steps)?;
    match path.components().next_back() {
        Some(Component::Normal(name)) => {
            let whole = above.join(name);
            // Below another folder than before the name may be there, or be a link.
            if whole == path { Ok(whole) } else { resolve_within(&whole, steps) }
        }
        // `..` after something missing.
        _ => Ok(above.parent().unwrap_or(&above).to_owned()),
    }
}
