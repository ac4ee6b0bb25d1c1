//! Follows what is saved in a workspace: `site.toml`, `content/` and `themes/`.

use std::collections::BTreeSet;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{self, Receiver, Sender};
use std::thread;
use std::time::Duration;

use notify::{EventKind, RecommendedWatcher, RecursiveMode, Watcher};

use super::Event;
use crate::workspace::{self, layout::is_hidden};

/// How long to wait for the rest of a save: programs write a file in several steps, and several files at once.
const QUIET: Duration = Duration::from_millis(20);

/// The folders that are followed with everything in them.
const FOLDERS: [&str; 2] = ["content", "themes"];

/// Follows a workspace while it lives.
pub struct Watching {
    watcher: RecommendedWatcher,
    root: PathBuf,
}

impl Watching {
    /// Follows `content/` or `themes/` anew where they are among these names: they were made since, or moved.
    pub fn follow_new_folders(&mut self, names: &BTreeSet<String>) {
        for folder in FOLDERS.iter().filter(|f| names.contains(**f)) {
            // One that is gone is followed when it is there again.
            let _ = self.watcher.watch(&self.root.join(folder), RecursiveMode::Recursive);
        }
    }
}

pub(super) fn watch(root: &Path, events: Sender<Event>) -> io::Result<Watching> {
    let root = workspace::without_links(root)?;
    let (sender, seen) = mpsc::channel();
    let within = root.clone();
    let watcher = notify::recommended_watcher(move |event: notify::Result<notify::Event>| {
        // Nobody listens any more only when the program ends.
        let _ = sender.send(names(&within, event));
    })
    .map_err(io::Error::other)?;
    thread::spawn(move || gather(&seen, &events));
    let mut watching = Watching { watcher, root };
    // Not the file itself: most editors put a new file in the place of the old one.
    watching.watcher.watch(&watching.root, RecursiveMode::NonRecursive).map_err(io::Error::other)?;
    for folder in FOLDERS.iter().filter(|folder| workspace::is_folder(&watching.root, folder)) {
        let folder = watching.root.join(folder);
        watching.watcher.watch(&folder, RecursiveMode::Recursive).map_err(io::Error::other)?;
    }
    Ok(watching)
}

/// Sleeps until something is saved, waits for the rest of it, and tells all of it at once.
fn gather(seen: &Receiver<BTreeSet<String>>, events: &Sender<Event>) {
    while let Ok(mut names) = seen.recv() {
        if names.is_empty() {
            continue;
        }
        thread::sleep(QUIET);
        names.extend(seen.try_iter().flatten());
        if events.send(Event::Saved(names)).is_err() {
            return;
        }
    }
}

/// The files of the workspace that an event is about. Reading one is an event too: that is nobody's change.
fn names(root: &Path, event: notify::Result<notify::Event>) -> BTreeSet<String> {
    let Ok(event) = event else { return BTreeSet::from([String::new()]) };
    if event.need_rescan() {
        return BTreeSet::from([String::new()]);
    }
    if matches!(event.kind, EventKind::Access(_)) {
        return BTreeSet::new();
    }
    event.paths.iter().filter_map(|path| name(root, path)).collect()
}

fn name(root: &Path, path: &Path) -> Option<String> {
    let parts = path.strip_prefix(root).ok()?.components();
    let parts: Vec<_> = parts.map(|part| part.as_os_str().to_string_lossy()).collect();
    let name = parts.join("/");
    let followed = name == "site.toml" || FOLDERS.contains(&parts.first()?.as_ref());
    (followed && !is_hidden(&name)).then_some(name)
}

#[cfg(test)]
mod tests {
    use notify::event::{AccessKind, AccessMode, ModifyKind};

    use super::*;

    fn seen(kind: EventKind, path: &str) -> Vec<String> {
        let event = notify::Event::new(kind).add_path(Path::new("/hill").join(path));
        names(Path::new("/hill"), Ok(event)).into_iter().collect()
    }

    #[test]
    fn a_save_is_told_by_its_name_and_reading_is_not_told() {
        let modified = EventKind::Modify(ModifyKind::Any);
        for name in
            ["site.toml", "content/exercises/heel-drop.md", "themes/wideleaf/style/text.css", "content"]
        {
            assert_eq!(seen(modified, name), [name]);
        }
        for name in [
            "ready/index.html",
            "clients/j.toml",
            "notes.md",
            "content/.#heel-drop.md",
            "content/a.md~",
            ".steadyleaf",
            ".steadyleaf/earlier/site.toml/0001-2026-12-01T083000Z.toml",
            ".steadyleaf/earlier/content/exercises/heel-drop.md/0001-2026-12-01T083000Z.md",
        ] {
            assert!(seen(modified, name).is_empty(), "{name}");
        }
        let read = EventKind::Access(AccessKind::Close(AccessMode::Read));
        assert!(seen(read, "site.toml").is_empty());
    }

    #[test]
    fn where_the_system_lost_count_anything_may_have_changed() {
        let lost = Err(notify::Error::generic("lost"));
        assert_eq!(names(Path::new("/hill"), lost), BTreeSet::from([String::new()]));
    }
}
