//! Whose folder it is, one run at a time, and whether the site is still as it was made.

use std::fs;

use super::*;
use crate::publish::{Left, Problem};

#[test]
fn a_folder_that_this_program_did_not_make_is_refused_and_left_alone() {
    let root = workspace();
    let foreign = site(&[("b.html", "mine"), ("a/photo.jpg", "mine too")]);
    for (path, text) in &foreign {
        crate::publish::write_new(&root.path().join("ready").join(path), text.as_bytes()).unwrap();
    }
    let error = open(root.path()).unwrap_err();
    assert!(matches!(&error.problem, Problem::NotOurs(first) if first == "a"));
    assert_eq!(ready(root.path()), foreign);
}

#[test]
fn a_file_that_somebody_put_beside_the_published_ones_is_named_and_kept() {
    let root = workspace();
    publish(root.path(), &old_site());
    let stray = root.path().join("ready/exercises/my-notes.txt");
    fs::write(&stray, "do not lose me").unwrap();
    let error = open(root.path()).unwrap_err();
    assert!(
        matches!(&error.problem, Problem::StrayFile(path) if path == "exercises/my-notes.txt"),
        "{error}"
    );
    assert!(stray.exists());
}

#[test]
fn a_file_put_there_while_the_site_was_made_stops_the_swap() {
    let root = workspace();
    publish(root.path(), &old_site());
    let staging = staged(root.path(), &new_site());
    fs::write(root.path().join("ready/CNAME"), "clinic.example").unwrap();
    let error = staging.publish(&fingerprint(&new_site()), None).unwrap_err();
    assert!(matches!(&error.problem, Problem::StrayFile(path) if path == "CNAME"));
    assert_eq!(ready(root.path())["CNAME"], "clinic.example");
    assert_eq!(ready(root.path())["index.html"], "old index");
}

#[test]
fn files_that_desktop_systems_drop_are_no_obstacle() {
    let root = workspace();
    fs::create_dir(root.path().join("ready")).unwrap();
    for dropping in [".DS_Store", "Thumbs.db", "desktop.ini", "._index.html"] {
        fs::write(root.path().join("ready").join(dropping), "x").unwrap();
    }
    publish(root.path(), &old_site());
    fs::write(root.path().join("ready/exercises/.DS_Store"), "x").unwrap();
    let published = publish(root.path(), &new_site());
    assert_eq!(ready(root.path()), new_site());
    assert_eq!(published.dropped, ["ready/exercises/.DS_Store"], "they go, and it is told");
    assert!(publish(root.path(), &old_site()).dropped.is_empty());
}

#[test]
fn every_other_hidden_file_is_named_and_kept() {
    let root = workspace();
    publish(root.path(), &old_site());
    for name in [".htaccess", ".notes", "exercises/.well"] {
        let mine = root.path().join("ready").join(name);
        fs::write(&mine, "mine").unwrap();
        let error = open(root.path()).unwrap_err();
        assert!(matches!(&error.problem, Problem::StrayFile(path) if path == name), "{error}");
        assert_eq!(fs::read_to_string(&mine).unwrap(), "mine");
        fs::remove_file(&mine).unwrap();
    }
}

#[test]
fn a_folder_with_the_name_of_a_dropping_is_none() {
    let root = workspace();
    let mine = root.path().join("ready/._mine/notes.txt");
    fs::create_dir_all(mine.parent().unwrap()).unwrap();
    fs::write(&mine, "mine").unwrap();
    let error = open(root.path()).unwrap_err();
    assert!(matches!(&error.problem, Problem::NotOurs(first) if first == "._mine"), "{error}");
    assert_eq!(fs::read_to_string(&mine).unwrap(), "mine");
}

/// Whoever opens a pipe waits until somebody writes into it.
#[cfg(any(target_os = "linux", target_os = "android"))]
#[test]
fn what_is_no_file_where_one_of_ours_should_be_is_told_and_keeps_nobody_waiting() {
    use rustix::fs::{CWD, FileType, Mode, mknodat};
    let pipe = |path: &Path| mknodat(CWD, path, FileType::Fifo, Mode::RUSR | Mode::WUSR, 0).unwrap();
    let folder = |path: &Path| fs::create_dir(path).unwrap();
    let link = |path: &Path| std::os::unix::fs::symlink("/dev/null", path).unwrap();
    type Make<'m> = &'m dyn Fn(&Path);
    let makers: [(Make<'_>, &str); 3] = [(&pipe, "a device"), (&folder, "a folder"), (&link, "a link")];
    let list = format!("ready/{MANIFEST}");
    for name in [".ready-lock", list.as_str(), ".ready-new/.steadyleaf-staged"] {
        for (make, thing) in makers {
            let root = workspace();
            publish(root.path(), &old_site());
            let path = root.path().join(name);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            let _ = fs::remove_file(&path);
            make(&path);
            let error = open(root.path()).unwrap_err();
            assert!(matches!(error.problem, Problem::NoFile(found) if found == thing), "{name}: {error}");
            assert_eq!(error.path, path);
            let line = error.to_string();
            assert!(line.contains("move it elsewhere or delete it") && line.lines().count() == 1, "{line}");
        }
    }
}

#[test]
fn an_unreadable_manifest_is_no_proof_that_the_folder_is_ours() {
    let root = workspace();
    publish(root.path(), &old_site());
    fs::write(root.path().join("ready").join(MANIFEST), "{").unwrap();
    let error = open(root.path()).unwrap_err();
    assert!(matches!(error.problem, Problem::BrokenManifest));
    assert_eq!(ready(root.path()), old_site());
}

#[test]
fn a_file_where_a_folder_should_be_is_refused_and_kept() {
    for name in ["ready", ".ready-new", ".ready-old"] {
        let root = workspace();
        fs::write(root.path().join(name), "a file").unwrap();
        let error = open(root.path()).unwrap_err();
        assert!(matches!(error.problem, Problem::NotAFolder), "{name}");
        let kept = fs::read_to_string(root.path().join(name)).unwrap();
        assert_eq!(kept, "a file", "{name}");
    }
}

#[test]
fn a_workspace_that_is_a_file_gives_one_plain_line() {
    let root = workspace();
    let file = root.path().join("clinic");
    fs::write(&file, "a file").unwrap();
    let line = open(&file).unwrap_err().to_string();
    assert!(line.contains("there is a file where a folder should be"), "{line}");
    assert_eq!(line.lines().count(), 1);
}

#[cfg(unix)]
#[test]
fn a_link_to_another_folder_is_not_followed() {
    let root = workspace();
    let elsewhere = workspace();
    publish(elsewhere.path(), &old_site());
    std::os::unix::fs::symlink(elsewhere.path().join("ready"), root.path().join("ready")).unwrap();
    let error = open(root.path()).unwrap_err();
    assert!(matches!(error.problem, Problem::Link));
}

#[test]
fn a_second_run_is_told_to_wait_and_disturbs_nothing() {
    let root = workspace();
    let first = staged(root.path(), &old_site());
    let error = open(root.path()).unwrap_err();
    assert!(matches!(error.problem, Problem::InUse));
    first.publish(&fingerprint(&old_site()), None).unwrap();
    assert_eq!(ready(root.path()), old_site());
    open(root.path()).unwrap();
}

#[test]
fn a_site_is_current_until_an_input_or_a_published_file_changes() {
    let root = workspace();
    let made = fingerprint(&old_site());
    let is_current = |made: &Hash| open(root.path()).unwrap().is_current(made);
    assert!(!is_current(&made), "nothing is published");
    publish(root.path(), &old_site());
    assert!(is_current(&made));
    assert!(!is_current(&fingerprint(&new_site())), "other inputs");

    let page = root.path().join("ready/index.html");
    fs::write(&page, "OLD INDEX").unwrap();
    assert!(!is_current(&made), "same length, other bytes");
    fs::remove_file(&page).unwrap();
    assert!(!is_current(&made), "a file is missing");
    publish(root.path(), &old_site());
    assert!(is_current(&made));
}

#[test]
fn a_site_that_lies_as_it_was_left_is_known_without_reading_it() {
    let (root, from, other) = (workspace(), blake3::hash(b"from"), blake3::hash(b"other"));
    let left = Left { from: None, made_from: b"what".to_vec() };
    staged(root.path(), &old_site()).publish(&fingerprint(&old_site()), Some(left)).unwrap();
    // How its sources lay was not known when it was made.
    assert!(!open(root.path()).unwrap().is_as_left(&from));
    open(root.path()).unwrap().remember(&from);
    assert!(open(root.path()).unwrap().is_as_left(&from));
    assert!(!open(root.path()).unwrap().is_as_left(&other));
    fs::write(root.path().join("ready/index.html"), "another index").unwrap();
    assert!(!open(root.path()).unwrap().is_as_left(&from));
}

#[test]
fn a_kept_file_is_taken_over_unread_and_a_touched_one_is_not() {
    let root = workspace();
    let left = Left { from: None, made_from: b"what".to_vec() };
    staged(root.path(), &old_site()).publish(&fingerprint(&old_site()), Some(left.clone())).unwrap();
    fs::write(root.path().join("ready/series/gone.html"), "touched").unwrap();
    let staging = open(root.path()).unwrap().stage().unwrap();
    assert_eq!(staging.last(), Some(b"what".as_slice()));
    let keep = |path: &str| staging.keep(&[path.to_string()]).unwrap();
    assert!(keep("index.html") && keep("exercises/heel-drop/index.html"));
    assert!(!keep("series/gone.html") && !keep("never.html"));
    let published = staging.publish(&fingerprint(&new_site()), Some(left)).unwrap();
    assert_eq!((published.written, published.unchanged, published.removed), (0, 2, 1));
    assert_eq!(ready(root.path())["index.html"], "old index");
    assert!(!ready(root.path()).contains_key("series/gone.html"));
}
