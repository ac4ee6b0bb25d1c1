//! Entries that are changed: what they were is kept, and nothing is changed that cannot be kept.

use std::fs;
use std::path::PathBuf;
use std::time::{Duration, UNIX_EPOCH};

use jiff::Timestamp;

use super::*;
use crate::publish::{Earlier, Keeper, Problem, PublishError};

pub(super) const NAME: &str = "content/exercises/tall-sit.md";
pub(super) const KEPT: &str = ".steadyleaf/earlier/content/exercises/tall-sit.md";

/// The first of December 2026, half past eight, and so many seconds.
pub(super) fn at(seconds: i64) -> Timestamp {
    Timestamp::from_second(1_796_113_800 + seconds).unwrap()
}

pub(super) fn with_entry() -> (TempDir, Keeper) {
    let root = workspace();
    fs::create_dir_all(root.path().join("content/exercises")).unwrap();
    fs::write(root.path().join(NAME), "a").unwrap();
    let keeper = Keeper::open(root.path()).unwrap();
    (root, keeper)
}

pub(super) fn text(root: &TempDir) -> String {
    fs::read_to_string(root.path().join(NAME)).unwrap()
}

/// The states of the entry, the latest first.
pub(super) fn kept(keeper: &Keeper) -> Vec<String> {
    let bytes = |state: &Earlier| keeper.bytes(NAME, state.number).unwrap();
    let states = keeper.earlier(NAME).unwrap();
    states.iter().map(|state| String::from_utf8(bytes(state)).unwrap()).collect()
}

/// The names of all files and folders, sorted.
fn everything(root: &Path) -> Vec<PathBuf> {
    WalkDir::new(root).sort_by_file_name().into_iter().map(|found| found.unwrap().into_path()).collect()
}

#[test]
fn equal_bytes_touch_nothing() {
    let (root, keeper) = with_entry();
    let path = root.path().join(NAME);
    let written = UNIX_EPOCH + Duration::from_secs(1_000_000_000);
    fs::File::options().write(true).open(&path).unwrap().set_modified(written).unwrap();
    let before = everything(root.path());
    keeper.replace(NAME, b"a", b"a", at(0)).unwrap();
    assert_eq!(fs::metadata(&path).unwrap().modified().unwrap(), written);
    assert_eq!(everything(root.path()), before);
}

#[test]
fn an_entry_that_was_changed_meanwhile_stays_and_nothing_is_kept() {
    let (root, keeper) = with_entry();
    keeper.replace(NAME, b"a", b"b", at(0)).unwrap();
    let before = everything(root.path());
    for refused in [keeper.replace(NAME, b"a", b"c", at(1)), keeper.remove(NAME, b"a", at(1))] {
        let error = refused.unwrap_err();
        assert!(matches!(error.problem, Problem::Changed), "{error}");
    }
    assert_eq!((text(&root).as_str(), everything(root.path())), ("b", before));
}

#[test]
fn an_entry_that_is_changed_while_its_state_is_kept_stays_and_the_state_goes() {
    let (root, keeper) = with_entry();
    for gone in [false, true] {
        let change = || Err(PublishError::new(NAME, Problem::Changed));
        let error = keeper.change(NAME, b"a", at(0), gone, change).unwrap_err();
        assert!(matches!(error.problem, Problem::Changed), "{error}");
        assert!(names(&root.path().join(KEPT)).is_empty());
    }
}

#[test]
fn a_new_entry_is_not_put_in_the_place_of_anything() {
    let (root, keeper) = with_entry();
    fs::create_dir(root.path().join("content/exercises/folder.md")).unwrap();
    for name in [NAME, "content/exercises/folder.md"] {
        let error = keeper.create(name, b"new").unwrap_err();
        assert!(matches!(error.problem, Problem::Exists), "{error}");
    }
    assert_eq!(text(&root), "a");
    keeper.create("content/series/hill/week-01.md", b"new").unwrap();
    assert_eq!(fs::read_to_string(root.path().join("content/series/hill/week-01.md")).unwrap(), "new");
    assert_eq!(names(root.path()), ["content"], "nothing was lost, so nothing is kept");
}

#[test]
fn a_deleted_entry_comes_back_from_what_is_kept() {
    let (root, keeper) = with_entry();
    keeper.replace(NAME, b"a", b"b", at(0)).unwrap();
    assert!(keeper.gone().unwrap().is_empty());
    keeper.remove(NAME, b"b", at(1)).unwrap();
    assert!(!root.path().join(NAME).exists());
    assert_eq!(keeper.gone().unwrap(), [NAME]);
    let last = keeper.earlier(NAME).unwrap()[0].number;
    keeper.create(NAME, &keeper.bytes(NAME, last).unwrap()).unwrap();
    assert_eq!(text(&root), "b");
    assert!(keeper.gone().unwrap().is_empty());
    keeper.replace(NAME, b"b", b"c", at(2)).unwrap();
    assert_eq!(kept(&keeper), ["b", "b", "a"]);
    // Whoever deletes it by hand has not asked us to keep it.
    fs::remove_file(root.path().join(NAME)).unwrap();
    assert!(keeper.gone().unwrap().is_empty());
}

#[test]
fn a_name_that_is_no_entrys_is_refused() {
    let (root, keeper) = with_entry();
    let outside = root.path().join(NAME).display().to_string();
    let before = everything(root.path());
    for name in [
        "",
        ".",
        "..",
        "content",
        "content/exercises",
        "content/exercises/../exercises/tall-sit.md",
        "content/exercises/./tall-sit.md",
        "content/exercises//tall-sit.md",
        "content/exercises/tall-sit.md/",
        "../content/exercises/tall-sit.md",
        "/content/exercises/tall-sit.md",
        "clients/../site.toml",
        "clients/..toml",
        outside.as_str(),
        r"content\exercises\tall-sit.md",
        r"content/exercises/..\..\tall-sit.md",
        "content/exercises/tall\0.md",
        "content/exercises/tall\n.md",
        "content/exercises/c:tall-sit.md",
        "c:/content/exercises/tall-sit.md",
        "C:site.toml",
        "content/exercises./tall-sit.md",
        "content/exercises/legs /tall-sit.md",
        "content/exercises/con.md",
        "content/exercises/.tall-sit.md",
        "content/.git/exercises/tall-sit.md",
        "content/exercises/New.MD",
        "content/exercises/tall-sit.md.txt",
        "content/media/leaf.jpg",
        "content/notes.md",
        "themes/mine/style/text.css",
        "themes/mine/pages/page.html",
        "ready/index.html",
        "clients/j.md",
        "clients/old/j.toml",
        "clients/sheets/j.pdf",
        ".gitignore",
        ".steadyleaf/lock",
        ".steadyleaf/earlier/site.toml/0001-2026-12-01T083000Z.toml",
    ] {
        let refused = |asked: Result<(), PublishError>| {
            let error = asked.unwrap_err();
            assert!(matches!(error.problem, Problem::NotAnEntry), "{name:?}: {error}");
            let line = error.to_string();
            assert!(!line.contains(char::is_control) && line.contains("choose one of these"), "{line:?}");
        };
        refused(keeper.replace(name, b"a", b"b", at(0)));
        refused(keeper.replace(name, b"a", b"a", at(0)));
        refused(keeper.create(name, b"b"));
        refused(keeper.remove(name, b"a", at(0)));
        refused(keeper.earlier(name).map(|_| ()));
        refused(keeper.bytes(name, 1).map(|_| ()));
    }
    assert_eq!(everything(root.path()), before);
}

#[test]
fn what_is_missing_or_no_file_is_neither_replaced_nor_removed() {
    let (root, keeper) = with_entry();
    fs::remove_file(root.path().join(NAME)).unwrap();
    for refused in [keeper.replace(NAME, b"a", b"b", at(0)), keeper.remove(NAME, b"a", at(0))] {
        let line = refused.unwrap_err().to_string();
        assert!(line.contains("it is missing"), "{line}");
    }
    fs::create_dir(root.path().join(NAME)).unwrap();
    for refused in [keeper.replace(NAME, b"a", b"b", at(0)), keeper.remove(NAME, b"a", at(0))] {
        let error = refused.unwrap_err();
        assert!(matches!(error.problem, Problem::NoEntry("a folder")), "{error}");
    }
    assert_eq!(names(root.path()), ["content"]);
}

/// Each thread reads the entry and adds a letter to it, as often as it takes.
#[test]
fn programs_that_change_one_entry_at_once_lose_nothing() {
    let (root, keeper) = with_entry();
    std::thread::scope(|scope| {
        for letter in ["w", "x", "y", "z"] {
            let (keeper, path) = (&keeper, root.path().join(NAME));
            scope.spawn(move || {
                for _ in 0..10 {
                    while let Err(error) = {
                        let before = fs::read_to_string(&path).unwrap();
                        keeper.replace(NAME, before.as_bytes(), (before.clone() + letter).as_bytes(), at(0))
                    } {
                        assert!(matches!(error.problem, Problem::Changed), "{error}");
                    }
                }
            });
        }
    });
    assert_eq!(text(&root).len(), 41);
    let lengths: Vec<usize> = kept(&keeper).iter().map(String::len).collect();
    assert_eq!(lengths, (1..=40).rev().collect::<Vec<_>>(), "each state once");
}

#[cfg(unix)]
mod unix {
    use std::os::unix::fs::{PermissionsExt, symlink};

    use super::*;

    fn mode(path: &Path) -> u32 {
        fs::metadata(path).unwrap().permissions().mode() & 0o7777
    }

    #[test]
    fn only_the_owner_reads_what_an_entry_was_and_a_new_profile() {
        let (root, keeper) = with_entry();
        fs::set_permissions(root.path().join(NAME), fs::Permissions::from_mode(0o644)).unwrap();
        keeper.create("clients/j.toml", b"a").unwrap();
        assert_eq!(mode(&root.path().join("clients")), 0o700);
        assert_eq!(mode(&root.path().join("clients/j.toml")), 0o600);
        keeper.replace(NAME, b"a", b"b", at(0)).unwrap();
        keeper.replace("clients/j.toml", b"a", b"b", at(0)).unwrap();
        keeper.remove("clients/j.toml", b"b", at(0)).unwrap();
        assert_eq!(keeper.gone().unwrap(), ["clients/j.toml"]);
        for path in everything(&root.path().join(".steadyleaf")) {
            let expected = if path.is_dir() { 0o700 } else { 0o600 };
            assert_eq!(mode(&path), expected, "{}", path.display());
        }
        assert_eq!(mode(&root.path().join(NAME)), 0o644);
    }

    #[test]
    fn an_entry_that_may_only_be_read_stays_and_nothing_is_kept() {
        let (root, keeper) = with_entry();
        fs::set_permissions(root.path().join(NAME), fs::Permissions::from_mode(0o444)).unwrap();
        for refused in [keeper.replace(NAME, b"a", b"b", at(0)), keeper.remove(NAME, b"a", at(0))] {
            let line = refused.unwrap_err().to_string();
            assert!(line.contains("read-only"), "{line}");
        }
        assert_eq!((text(&root).as_str(), names(root.path()).as_slice()), ("a", &["content".to_owned()][..]));
    }

    #[test]
    fn no_link_on_the_way_to_an_entry_is_followed() {
        for linked in ["content/exercises", NAME] {
            let (root, keeper) = with_entry();
            let elsewhere = root.path().join("elsewhere");
            fs::rename(root.path().join(linked), &elsewhere).unwrap();
            symlink(&elsewhere, root.path().join(linked)).unwrap();
            for refused in [
                keeper.replace(NAME, b"a", b"b", at(0)),
                keeper.remove(NAME, b"a", at(0)),
                keeper.create(NAME, b"b"),
                keeper.create("content/exercises/legs/new.md", b"b").and(keeper.create(NAME, b"b")),
            ] {
                let error = refused.unwrap_err();
                assert!(matches!(error.problem, Problem::NoEntry("a link")), "{linked}: {error}");
            }
            assert_eq!(text(&root), "a");
            assert!(fs::symlink_metadata(root.path().join(linked)).unwrap().is_symlink());
        }
        let (root, keeper) = with_entry();
        symlink(root.path().join("nowhere"), root.path().join("clients")).unwrap();
        let error = keeper.create("clients/j.toml", b"b").unwrap_err();
        assert!(matches!(error.problem, Problem::NoEntry("a link")), "{error}");
        assert_eq!(names(root.path()), ["clients", "content"]);
    }

    #[test]
    fn a_folder_of_content_that_is_a_link_is_followed() {
        let ((root, keeper), elsewhere) = (with_entry(), workspace());
        let (content, moved) = (root.path().join("content"), elsewhere.path().join("texts"));
        fs::rename(&content, &moved).unwrap();
        symlink(&moved, &content).unwrap();
        keeper.replace(NAME, b"a", b"b", at(0)).unwrap();
        keeper.remove(NAME, b"b", at(1)).unwrap();
        keeper.create(NAME, b"c").unwrap();
        assert_eq!((text(&root), kept(&keeper)), ("c".to_owned(), vec!["b".to_owned(), "a".to_owned()]));
    }
}
