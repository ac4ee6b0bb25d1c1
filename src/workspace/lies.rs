//! How a workspace lies on the disk, without reading a file of it: enough to see that nothing has been touched.

use std::fs::Metadata;
use std::path::Path;
use std::time::{Duration, SystemTime};

use walkdir::WalkDir;

/// A file that was written so lately may be written once more without its times showing it: some disks count in steps of
/// two seconds (FAT, Microsoft's description of file times).
const TOO_LATE: Duration = Duration::from_secs(3);

/// A number for the names, lengths and times of all files that a workspace is read from, its own theme with them. `None`
/// where they cannot all be told, or where one was written just before `now`.
pub fn lies(root: &Path, now: SystemTime) -> Option<blake3::Hash> {
    let mut hasher = blake3::Hasher::new();
    for part in ["site.toml", "content", "themes"] {
        for found in WalkDir::new(root.join(part)).follow_links(true).sort_by_file_name() {
            let found = match found {
                Ok(found) => found,
                Err(error) if error.depth() == 0 && part == "themes" => continue,
                Err(_) => return None,
            };
            let about = found.metadata().ok()?;
            let name = found.path().strip_prefix(root).ok()?.as_os_str().as_encoded_bytes();
            hasher.update(&(name.len() as u64).to_le_bytes()).update(name);
            // What is put into a folder or taken from it shows in the list of names.
            if about.is_file() {
                add(&mut hasher, &about, now)?;
            }
        }
    }
    Some(hasher.finalize())
}

fn add(hasher: &mut blake3::Hasher, about: &Metadata, now: SystemTime) -> Option<()> {
    let written = about.modified().ok()?;
    if now.duration_since(written).is_ok_and(|ago| ago < TOO_LATE) {
        return None;
    }
    let since = written.duration_since(SystemTime::UNIX_EPOCH).ok()?.as_nanos();
    hasher.update(&about.len().to_le_bytes()).update(&since.to_le_bytes());
    // A file whose time was set back, or that took the place of another, shows here.
    #[cfg(unix)]
    {
        use std::os::unix::fs::MetadataExt;
        let changed = [about.ctime(), about.ctime_nsec(), about.ino() as i64];
        changed.iter().for_each(|number| {
            hasher.update(&number.to_le_bytes());
        });
    }
    Some(())
}
