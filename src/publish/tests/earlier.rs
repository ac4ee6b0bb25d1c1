//! What entries were: how it lies on the disk, how much of it is kept, and what stands in its way.

use std::fs;

use super::keeper::{KEPT, NAME, at, kept, text, with_entry};
use super::*;
use crate::model::limits;
use crate::publish::{Earlier, Keeper, Problem};

#[test]
fn what_an_entry_was_stands_in_a_file_that_can_be_copied_back() {
    let (root, keeper) = with_entry();
    keeper.replace(NAME, b"a", b"b", at(0)).unwrap();
    keeper.replace(NAME, b"b", b"a", at(1)).unwrap();
    keeper.remove(NAME, b"a", at(86_400)).unwrap();
    let files =
        ["0001-2026-12-01T083000Z.md", "0002-2026-12-01T083001Z.md", "0003-2026-12-02T083000Z-deleted.md"];
    assert_eq!(names(&root.path().join(KEPT)), files);
    for (file, text) in files.iter().zip(["a", "b", "a"]) {
        assert_eq!(fs::read_to_string(root.path().join(KEPT).join(file)).unwrap(), text);
    }
    let state = |number, until, gone| Earlier { number, until, gone, bytes: 1 };
    let states = [state(3, at(86_400), true), state(2, at(1), false), state(1, at(0), false)];
    assert_eq!(keeper.earlier(NAME).unwrap(), states);
    assert_eq!(kept(&keeper), ["a", "b", "a"]);
}

#[test]
fn nothing_is_on_the_disk_before_the_first_state_and_git_never_sees_one() {
    let (root, keeper) = with_entry();
    assert!(keeper.earlier(NAME).unwrap().is_empty() && keeper.gone().unwrap().is_empty());
    assert_eq!(names(root.path()), ["content"]);
    keeper.replace(NAME, b"a", b"b", at(0)).unwrap();
    let home = root.path().join(".steadyleaf");
    assert_eq!(names(&home), [".gitignore", "earlier", "lock"]);
    assert_eq!(fs::read_to_string(home.join(".gitignore")).unwrap(), "*\n");
    // It may be deleted at any time, in part or whole.
    fs::remove_file(home.join(".gitignore")).unwrap();
    fs::remove_dir_all(home.join("earlier")).unwrap();
    keeper.replace(NAME, b"b", b"c", at(0)).unwrap();
    assert_eq!(names(&home), [".gitignore", "earlier", "lock"]);
    fs::remove_dir_all(&home).unwrap();
    keeper.replace(NAME, b"c", b"d", at(0)).unwrap();
    assert_eq!((kept(&keeper), text(&root)), (vec!["c".to_owned()], "d".to_owned()));
}

#[test]
fn a_state_that_is_not_kept_any_more_is_told() {
    let (_root, keeper) = with_entry();
    keeper.replace(NAME, b"a", b"b", at(0)).unwrap();
    for number in [0, 2, u64::MAX] {
        let line = keeper.bytes(NAME, number).unwrap_err().to_string();
        assert!(line.starts_with("cannot read `") && line.contains("it is missing"), "{line}");
    }
}

#[test]
fn the_oldest_states_go_beyond_so_many() {
    let (_root, keeper) = with_entry();
    let texts: Vec<String> = (0..limits::STATES + 3).map(|n| format!("text {n}")).collect();
    keeper.replace(NAME, b"a", texts[0].as_bytes(), at(0)).unwrap();
    for pair in texts.windows(2) {
        keeper.replace(NAME, pair[0].as_bytes(), pair[1].as_bytes(), at(0)).unwrap();
    }
    let expected: Vec<String> = texts.iter().rev().skip(1).take(limits::STATES).cloned().collect();
    assert_eq!(kept(&keeper), expected);
    assert_eq!(keeper.earlier(NAME).unwrap()[0].number, limits::STATES as u64 + 3, "numbers go on");
}

#[test]
fn the_oldest_states_go_beyond_so_many_bytes_and_the_latest_never() {
    let (root, keeper) = with_entry();
    let long = |letter: u8, part: u64| vec![letter; (limits::STATES_BYTES / part) as usize];
    let texts =
        [long(b'a', 3), long(b'b', 3), long(b'c', 3), long(b'd', 3), vec![b'e'; 12_000_000], b"f".into()];
    fs::write(root.path().join(NAME), &texts[0]).unwrap();
    let numbers = || keeper.earlier(NAME).unwrap().iter().map(|state| state.number).collect::<Vec<_>>();
    for (pair, expected) in texts.windows(2).zip([&[1][..], &[2, 1], &[3, 2, 1], &[4, 3, 2], &[5]]) {
        keeper.replace(NAME, &pair[0], &pair[1], at(0)).unwrap();
        assert_eq!(numbers(), expected);
    }
    assert_eq!(keeper.bytes(NAME, 5).unwrap(), texts[4]);
    keeper.replace(NAME, b"f", b"g", at(0)).unwrap();
    assert_eq!(numbers(), [6], "an older one goes for the latest");
}

#[test]
fn other_files_among_the_states_are_neither_states_nor_removed() {
    let (root, keeper) = with_entry();
    keeper.replace(NAME, b"a", b"b", at(0)).unwrap();
    let others = [
        "notes.md",
        "0002-2026-12-01T083000Z.toml",
        "2-2026-12-01T083000Z.md",
        "+002-2026-12-01T083000Z.md",
        "0002-2026-13-01T083000Z.md",
        "0002-2026-12-01T083000Z-deleted-too.md",
        "0002-2026-12-01T083000Z",
        ".DS_Store",
    ];
    for other in others {
        fs::write(root.path().join(KEPT).join(other), "mine").unwrap();
    }
    fs::create_dir(root.path().join(KEPT).join("0009-2027-12-01T083000Z.md")).unwrap();
    for n in 0..limits::STATES + 1 {
        let text = |n: usize| if n == 0 { "b".to_owned() } else { n.to_string() };
        keeper.replace(NAME, text(n).as_bytes(), text(n + 1).as_bytes(), at(0)).unwrap();
    }
    let there = names(&root.path().join(KEPT));
    assert!(others.iter().all(|other| there.contains(&other.to_string())), "{there:?}");
    assert_eq!(keeper.earlier(NAME).unwrap().len(), limits::STATES);
}

#[test]
fn an_entry_whose_state_cannot_be_kept_is_not_changed() {
    for file in [".steadyleaf", ".steadyleaf/earlier", ".steadyleaf/earlier/content/exercises", KEPT] {
        let (root, keeper) = with_entry();
        let path = root.path().join(file);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(&path, "mine").unwrap();
        for refused in [keeper.replace(NAME, b"a", b"b", at(0)), keeper.remove(NAME, b"a", at(0))] {
            let error = refused.unwrap_err();
            assert!(matches!(error.problem, Problem::NotAFolder), "{error}");
            assert_eq!(error.path, path);
        }
        assert_eq!(text(&root), "a");
        assert_eq!(names(&root.path().join("content/exercises")), ["tall-sit.md"]);
        assert_eq!(fs::read_to_string(&path).unwrap(), "mine");
        assert!(keeper.earlier(NAME).is_err());
        let opens = Keeper::open(root.path()).is_ok();
        assert_eq!(opens, file.contains("content"), "{file}");
    }
    for file in [".steadyleaf/.gitignore", ".steadyleaf/lock"] {
        let (root, keeper) = with_entry();
        fs::create_dir_all(root.path().join(file)).unwrap();
        let error = keeper.replace(NAME, b"a", b"b", at(0)).unwrap_err();
        assert!(matches!(error.problem, Problem::NoFile("a folder")), "{error}");
        assert_eq!(text(&root), "a");
    }
}

#[test]
fn what_killed_runs_left_among_the_states_goes() {
    let (root, keeper) = with_entry();
    keeper.replace(NAME, b"a", b"b", at(0)).unwrap();
    for folder in [KEPT, "content/exercises"] {
        fs::write(root.path().join(folder).join(".begun-a1B2c3"), "half").unwrap();
    }
    assert_eq!(kept(&keeper), ["a"]);
    keeper.replace(NAME, b"b", b"c", at(0)).unwrap();
    assert_eq!(names(&root.path().join(KEPT)).len(), 2);
    assert_eq!(names(&root.path().join("content/exercises")), ["tall-sit.md"]);
}

#[test]
fn no_state_is_read_as_a_text_of_the_workspace() {
    let root = workspace();
    crate::publish::create_new_folder_tree(root.path(), &crate::workspace::sample::files()).unwrap();
    let read = || {
        let texts = crate::workspace::read(root.path()).unwrap();
        let sources: Vec<String> = texts.sources.iter().map(|(_, source)| source.name.clone()).collect();
        (sources, texts.attachments)
    };
    let before = read();
    let keeper = Keeper::open(root.path()).unwrap();
    for name in ["site.toml", NAME, "content/references.bib"] {
        let bytes = fs::read(root.path().join(name)).unwrap();
        keeper.replace(name, &bytes, b"other", at(0)).unwrap();
        keeper.replace(name, b"other", &bytes, at(1)).unwrap();
        assert_eq!(keeper.earlier(name).unwrap().len(), 2);
    }
    assert_eq!(read(), before);
}

#[cfg(unix)]
#[test]
fn no_link_on_the_way_to_the_states_is_followed() {
    for linked in [".steadyleaf", ".steadyleaf/earlier", ".steadyleaf/earlier/content", KEPT] {
        let ((root, keeper), elsewhere) = (with_entry(), workspace());
        let link = root.path().join(linked);
        fs::create_dir_all(link.parent().unwrap()).unwrap();
        std::os::unix::fs::symlink(elsewhere.path(), &link).unwrap();
        for refused in [
            keeper.replace(NAME, b"a", b"b", at(0)),
            keeper.remove(NAME, b"a", at(0)),
            keeper.earlier(NAME).map(|_| ()),
            keeper.bytes(NAME, 1).map(|_| ()),
        ] {
            let error = refused.unwrap_err();
            assert!(matches!(error.problem, Problem::Link), "{linked}: {error}");
        }
        assert_eq!(text(&root), "a");
        assert!(names(elsewhere.path()).is_empty());
    }
    let (root, keeper) = with_entry();
    keeper.replace(NAME, b"a", b"b", at(0)).unwrap();
    let state = root.path().join(KEPT).join("0009-2026-12-01T083000Z.md");
    std::os::unix::fs::symlink(root.path().join(NAME), state).unwrap();
    assert_eq!(kept(&keeper), ["a"], "a link is no state");
}
