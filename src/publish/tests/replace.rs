//! An entry that is changed: what it keeps, and what is refused.

use std::fs;

use super::*;
use crate::publish::{Problem, PublishError, Replacement};

const NAME: &str = "content/exercises/tall-sit.md";

fn with_entry() -> TempDir {
    let root = workspace();
    fs::create_dir_all(root.path().join("content/exercises")).unwrap();
    fs::write(root.path().join(NAME), "old").unwrap();
    root
}

fn replace(root: &Path, before: &str, after: &str) -> Result<(), PublishError> {
    Replacement::stage(root, NAME, before.as_bytes(), after.as_bytes())?.put()
}

fn text(root: &Path) -> String {
    fs::read_to_string(root.join(NAME)).unwrap()
}

#[test]
fn an_entry_is_replaced_whole_and_nothing_stays_beside_it() {
    let root = with_entry();
    replace(root.path(), "old", "new and longer").unwrap();
    assert_eq!(text(root.path()), "new and longer");
    assert_eq!(names(&root.path().join("content/exercises")), ["tall-sit.md"]);
}

#[test]
fn what_is_staged_and_dropped_leaves_nothing() {
    let root = with_entry();
    drop(Replacement::stage(root.path(), NAME, b"old", b"new").unwrap());
    assert_eq!(text(root.path()), "old");
    assert_eq!(names(&root.path().join("content/exercises")), ["tall-sit.md"]);
}

#[test]
fn an_entry_that_was_changed_meanwhile_stays_as_it_is() {
    let root = with_entry();
    let error = replace(root.path(), "older", "new").unwrap_err();
    assert!(matches!(error.problem, Problem::Changed), "{error}");
    let staged = Replacement::stage(root.path(), NAME, b"old", b"new").unwrap();
    fs::write(root.path().join(NAME), "hers").unwrap();
    let error = staged.put().unwrap_err();
    assert!(matches!(error.problem, Problem::Changed), "{error}");
    assert_eq!(text(root.path()), "hers");
    assert_eq!(names(&root.path().join("content/exercises")), ["tall-sit.md"]);
}

#[test]
fn a_folder_or_nothing_in_the_place_of_an_entry_is_told() {
    let root = with_entry();
    fs::remove_file(root.path().join(NAME)).unwrap();
    let line = replace(root.path(), "old", "new").unwrap_err().to_string();
    assert!(line.contains("it is missing"), "{line}");
    fs::create_dir(root.path().join(NAME)).unwrap();
    let error = replace(root.path(), "old", "new").unwrap_err();
    assert!(matches!(error.problem, Problem::NoEntry("a folder")), "{error}");
}

#[cfg(unix)]
mod unix {
    use std::os::unix::fs::{PermissionsExt, symlink};

    use super::*;

    fn mode(path: &Path) -> u32 {
        fs::metadata(path).unwrap().permissions().mode() & 0o7777
    }

    #[test]
    fn an_entry_keeps_its_permissions() {
        for kept in [0o600, 0o644, 0o664, 0o755] {
            let root = with_entry();
            let path = root.path().join(NAME);
            fs::set_permissions(&path, fs::Permissions::from_mode(kept)).unwrap();
            replace(root.path(), "old", "new").unwrap();
            assert_eq!((mode(&path), text(root.path()).as_str()), (kept, "new"));
        }
    }

    #[test]
    fn an_entry_that_may_only_be_read_stays_as_it_is() {
        let root = with_entry();
        let path = root.path().join(NAME);
        fs::set_permissions(&path, fs::Permissions::from_mode(0o444)).unwrap();
        let line = replace(root.path(), "old", "new").unwrap_err().to_string();
        assert!(line.contains("read-only"), "{line}");
        assert_eq!((mode(&path), text(root.path()).as_str()), (0o444, "old"));
    }

    #[test]
    fn a_link_to_an_entry_or_to_its_folder_is_neither_followed_nor_replaced() {
        let root = with_entry();
        let (path, elsewhere) = (root.path().join(NAME), root.path().join("elsewhere.md"));
        fs::rename(&path, &elsewhere).unwrap();
        symlink(&elsewhere, &path).unwrap();
        let error = replace(root.path(), "old", "new").unwrap_err();
        assert!(matches!(error.problem, Problem::NoEntry("a link")), "{error}");
        assert!(fs::symlink_metadata(&path).unwrap().is_symlink());
        assert_eq!(fs::read_to_string(&elsewhere).unwrap(), "old");

        let root = with_entry();
        let (folder, elsewhere) = (root.path().join("content/exercises"), root.path().join("elsewhere"));
        fs::rename(&folder, &elsewhere).unwrap();
        symlink(&elsewhere, &folder).unwrap();
        let error = replace(root.path(), "old", "new").unwrap_err();
        assert!(matches!(error.problem, Problem::NoEntry("a link")), "{error}");
        assert_eq!(fs::read_to_string(elsewhere.join("tall-sit.md")).unwrap(), "old");
    }

    #[test]
    fn a_folder_of_content_that_is_a_link_is_followed() {
        let (root, elsewhere) = (with_entry(), workspace());
        let (content, moved) = (root.path().join("content"), elsewhere.path().join("texts"));
        fs::rename(&content, &moved).unwrap();
        symlink(&moved, &content).unwrap();
        replace(root.path(), "old", "new").unwrap();
        assert_eq!(fs::read_to_string(moved.join("exercises/tall-sit.md")).unwrap(), "new");
        assert!(fs::symlink_metadata(&content).unwrap().is_symlink());
    }
}
