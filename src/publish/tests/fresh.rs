//! New files and folders for authors.

use std::fs;

use super::*;
use crate::publish::{Problem, create_new_folder_tree, write_new};

fn sample() -> Vec<(String, Vec<u8>)> {
    [("site.toml", "title = 1"), ("content/exercises/a.md", "a"), ("content/pages/b.md", "b")]
        .map(|(path, text)| (path.to_owned(), text.into()))
        .into()
}

fn sample_site() -> Site {
    let own = |(path, bytes): (String, Vec<u8>)| (path, String::from_utf8(bytes).unwrap());
    sample().into_iter().map(own).collect()
}

#[test]
fn a_new_file_never_overwrites() {
    let root = workspace();
    let path = root.path().join("content/exercises/heel-drop.md");
    write_new(&path, b"first").unwrap();
    let error = write_new(&path, b"second").unwrap_err();
    assert!(matches!(error.problem, Problem::Exists));
    assert_eq!(fs::read_to_string(&path).unwrap(), "first");
    assert_eq!(names(path.parent().unwrap()), ["heel-drop.md"]);
}

#[cfg(unix)]
#[test]
fn a_new_file_is_as_readable_as_any_other() {
    use std::os::unix::fs::PermissionsExt;
    let root = workspace();
    let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
    let (ours, plain) = (root.path().join("ours.md"), root.path().join("plain.md"));
    write_new(&ours, b"x").unwrap();
    fs::write(&plain, "x").unwrap();
    assert_eq!(mode(&ours), mode(&plain));

    let (ours, plain) = (root.path().join("ours"), root.path().join("plain"));
    create_new_folder_tree(&ours, &sample()).unwrap();
    fs::create_dir(&plain).unwrap();
    assert_eq!(mode(&ours), mode(&plain));
}

#[test]
fn a_file_in_the_way_of_a_new_one_gives_one_plain_line() {
    let root = workspace();
    fs::write(root.path().join("content"), "a file").unwrap();
    let line = write_new(&root.path().join("content/exercises/a.md"), b"x").unwrap_err().to_string();
    assert!(line.contains("there is a file where a folder should be"), "{line}");
    assert_eq!(line.lines().count(), 1);
}

#[test]
fn a_new_tree_fills_a_missing_folder_and_an_empty_one() {
    let root = workspace();
    let missing = root.path().join("clinics/north");
    create_new_folder_tree(&missing, &sample()).unwrap();
    assert_eq!(read(&missing), sample_site());
    assert_eq!(names(missing.parent().unwrap()), ["north"]);

    let empty = root.path().join("empty");
    fs::create_dir(&empty).unwrap();
    create_new_folder_tree(&empty, &sample()).unwrap();
    assert_eq!(read(&empty), sample_site());
    assert_eq!(names(&empty), ["content", "site.toml"]);
}

#[cfg(unix)]
#[test]
fn an_empty_folder_stays_the_same_folder_for_the_terminal_in_it() {
    use std::os::unix::fs::MetadataExt;
    let root = workspace();
    let inode = || fs::metadata(root.path()).unwrap().ino();
    let before = inode();
    create_new_folder_tree(root.path(), &sample()).unwrap();
    assert_eq!(inode(), before);
}

#[test]
fn a_folder_with_something_in_it_is_refused_and_left_alone() {
    let root = workspace();
    let mine = site(&[("notes.txt", "mine")]);
    fs::write(root.path().join("notes.txt"), "mine").unwrap();
    let error = create_new_folder_tree(root.path(), &sample()).unwrap_err();
    assert!(matches!(error.problem, Problem::NotEmpty));
    assert_eq!(read(root.path()), mine);

    let file = root.path().join("notes.txt");
    let error = create_new_folder_tree(&file, &sample()).unwrap_err();
    assert!(matches!(error.problem, Problem::NotAFolder));
}

#[test]
fn a_tree_that_cannot_be_written_leaves_nothing() {
    let mut broken = sample();
    // `content/pages/b.md` would have to be a folder.
    broken.push(("content/pages/b.md/c.md".to_owned(), Vec::new()));
    let root = workspace();
    let missing = root.path().join("new");
    create_new_folder_tree(&missing, &broken).unwrap_err();
    assert!(names(root.path()).is_empty());
    create_new_folder_tree(root.path(), &broken).unwrap_err();
    assert!(names(root.path()).is_empty());

    let escape = [("../x.md".to_owned(), Vec::new())];
    let error = create_new_folder_tree(&missing, &escape).unwrap_err();
    assert!(matches!(error.problem, Problem::BadName));
}
