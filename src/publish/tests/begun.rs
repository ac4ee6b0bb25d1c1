//! What killed runs have left goes when something is written there again, and nothing else does.

use std::fs;

use super::*;
use crate::publish::begun::{file_in, folder_in};
use crate::publish::{
    Problem, PublishError, Replacement, create_new_folder_tree, write_new, write_open, write_private,
};

/// What a run might have left that was killed while it wrote.
const ORPHAN: &str = ".begun-a1B2c3";

/// Writes into a folder that holds an entry `a.md`.
type Door = fn(&Path) -> Result<(), PublishError>;

const DOORS: [Door; 4] = [
    |folder| write_new(&folder.join("b.md"), b"x"),
    |folder| write_private(folder, "b.pdf", b"x").map(|_| ()),
    |folder| write_open(folder, "b.pdf", b"x").map(|_| ()),
    |folder| Replacement::stage(folder, "a.md", b"old", b"new")?.put(),
];

fn with_entry() -> TempDir {
    let folder = workspace();
    fs::write(folder.path().join("a.md"), "old").unwrap();
    folder
}

fn tree() -> Vec<(String, Vec<u8>)> {
    [("site.toml", "title = 1"), ("content/a.md", "a")]
        .map(|(path, text)| (path.to_owned(), text.into()))
        .into()
}

#[test]
fn an_orphan_goes_when_something_is_written_beside_it() {
    for (door, write) in DOORS.iter().enumerate() {
        let folder = with_entry();
        fs::write(folder.path().join(ORPHAN), "half").unwrap();
        write(folder.path()).unwrap();
        assert!(!names(folder.path()).contains(&ORPHAN.to_owned()), "door {door}");
        assert!(names(folder.path()).contains(&"a.md".to_owned()), "door {door}");
    }
}

#[test]
fn what_another_run_is_writing_stays() {
    for (door, write) in DOORS.iter().enumerate() {
        let folder = with_entry();
        let held = file_in(folder.path(), 0o600).unwrap();
        let held_folder = folder_in(folder.path(), &tree()).unwrap();
        write(folder.path()).unwrap();
        assert!(held.path().exists(), "door {door}");
        assert!(held_folder.path().exists(), "door {door}");
    }
}

#[test]
fn every_other_name_and_all_that_is_no_file_stays() {
    for (door, write) in DOORS.iter().enumerate() {
        let folder = with_entry();
        for name in
            [".begun-", ".begun-a1B2c", ".begun-a1B2c3d", ".begun-a1B2c_", "begun-a1B2c3", ".Begun-a1B2c4"]
        {
            fs::write(folder.path().join(name), "mine").unwrap();
        }
        fs::create_dir(folder.path().join(ORPHAN)).unwrap();
        fs::write(folder.path().join(ORPHAN).join("site.toml"), "mine").unwrap();
        #[cfg(unix)]
        std::os::unix::fs::symlink("a.md", folder.path().join(".begun-linked")).unwrap();
        let before = names(folder.path());
        write(folder.path()).unwrap();
        let after = names(folder.path());
        assert!(before.iter().all(|name| after.contains(name)), "door {door}: {after:?}");
    }
}

/// A folder of a killed run, with these files in it.
fn half_made(parent: &Path, files: &[&str]) {
    for file in files {
        let path = parent.join(ORPHAN).join(file);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, "ha").unwrap();
    }
}

#[cfg(unix)]
#[test]
fn a_half_made_folder_goes_when_the_next_is_made_beside_it() {
    for files in [&["site.toml"][..], &["site.toml", "content/a.md"]] {
        let root = workspace();
        half_made(root.path(), files);
        create_new_folder_tree(&root.path().join("mine"), &tree()).unwrap();
        assert_eq!(names(root.path()), ["mine"]);
    }
}

#[cfg(unix)]
#[test]
fn an_empty_folder_with_a_half_made_one_in_it_is_filled() {
    let root = workspace();
    half_made(root.path(), &["content/a.md"]);
    create_new_folder_tree(root.path(), &tree()).unwrap();
    assert_eq!(names(root.path()), ["content", "site.toml"]);
}

#[test]
fn a_folder_with_something_of_somebody_in_it_is_none_of_ours() {
    let root = workspace();
    half_made(root.path(), &["site.toml", "notes.txt"]);
    let error = create_new_folder_tree(root.path(), &tree()).unwrap_err();
    assert!(matches!(error.problem, Problem::NotEmpty), "{error}");
    create_new_folder_tree(&root.path().join("mine"), &tree()).unwrap();
    assert_eq!(names(&root.path().join(ORPHAN)), ["notes.txt", "site.toml"]);
}

#[test]
fn a_folder_that_is_refused_keeps_what_a_killed_run_left_in_it() {
    let root = workspace();
    half_made(root.path(), &["site.toml"]);
    fs::write(root.path().join("notes.txt"), "mine").unwrap();
    let error = create_new_folder_tree(root.path(), &tree()).unwrap_err();
    assert!(matches!(error.problem, Problem::NotEmpty), "{error}");
    assert_eq!(names(root.path()), [ORPHAN, "notes.txt"], "it stays as it is");
}

/// Each thread writes and sweeps in the same folder.
#[test]
fn many_threads_write_into_one_folder_at_once() {
    let folder = workspace();
    std::thread::scope(|scope| {
        for thread in 0..4 {
            let folder = folder.path();
            scope.spawn(move || {
                for n in 0..50 {
                    write_open(folder, &format!("{thread}-{n}.pdf"), b"x").unwrap();
                }
            });
        }
    });
    let names = names(folder.path());
    assert_eq!(names.len(), 200, "{names:?}");
    assert!(names.iter().all(|name| name.ends_with(".pdf")), "{names:?}");
}
