//! What is staged, linked and refused.

use std::fs;
use std::thread;

use super::*;
use crate::publish::Problem;

#[test]
fn a_new_site_replaces_the_old_one_as_a_whole_and_is_counted() {
    let root = workspace();
    let first = publish(root.path(), &old_site());
    assert_eq!((first.written, first.unchanged, first.removed), (3, 0, 0));
    let second = publish(root.path(), &new_site());
    assert_eq!((second.written, second.unchanged, second.removed), (2, 1, 1));
    assert_eq!(ready(root.path()), new_site());
    assert_eq!(names(root.path()), [".ready-lock", "ready"]);
}

#[cfg(unix)]
#[test]
fn an_unchanged_file_is_the_published_one_under_another_name() {
    use std::os::unix::fs::MetadataExt;
    let root = workspace();
    let inode = |path: &str| fs::metadata(root.path().join("ready").join(path)).unwrap().ino();
    publish(root.path(), &old_site());
    let (kept, changed) = (inode("exercises/heel-drop/index.html"), inode("index.html"));
    publish(root.path(), &new_site());
    assert_eq!(inode("exercises/heel-drop/index.html"), kept);
    assert_ne!(inode("index.html"), changed);
}

#[test]
fn a_published_file_that_somebody_edited_is_made_again() {
    let root = workspace();
    publish(root.path(), &old_site());
    fs::write(root.path().join("ready/index.html"), "OLD INDEX").unwrap();
    let again = publish(root.path(), &old_site());
    assert_eq!((again.written, again.unchanged), (1, 2));
    assert_eq!(ready(root.path()), old_site());
}

#[test]
fn the_manifest_has_the_same_bytes_in_any_order_of_putting() {
    let manifest = |backwards: bool| {
        let root = workspace();
        let staging = open(root.path()).unwrap().stage().unwrap();
        let mut files: Vec<_> = old_site().into_iter().collect();
        if backwards {
            files.reverse();
        }
        for (path, text) in files {
            staging.put(&path, text.as_bytes()).unwrap();
        }
        staging.publish(&fingerprint(&old_site()), None).unwrap();
        fs::read_to_string(root.path().join("ready").join(MANIFEST)).unwrap()
    };
    assert_eq!(manifest(false), manifest(true));
    assert!(manifest(false).contains("\"exercises/heel-drop/index.html\""));
}

#[test]
fn a_site_that_is_dropped_leaves_the_old_one() {
    let root = workspace();
    publish(root.path(), &old_site());
    drop(staged(root.path(), &new_site()));
    assert_eq!(ready(root.path()), old_site());
    assert_eq!(names(root.path()), [".ready-lock", "ready"]);
}

#[test]
fn a_path_out_of_the_output_folder_is_refused() {
    let root = workspace();
    let staging = open(root.path()).unwrap().stage().unwrap();
    for path in ["../x", "/x", "a/../../x", "a/./x", "a//x", "a/", "", "..", r"a\x", "c:x", "a\0x"] {
        let error = staging.put(path, b"x").unwrap_err();
        assert!(matches!(error.problem, Problem::BadName), "{path:?}");
    }
    for name in ["Steadyleaf-Made.json", ".steadyleaf-STAGED"] {
        let error = staging.put(name, b"x").unwrap_err();
        assert!(matches!(error.problem, Problem::Reserved), "{name}");
    }
    assert_eq!(names(root.path()), [".ready-lock", ".ready-new"]);
    assert_eq!(names(&root.path().join(".ready-new")), [".steadyleaf-staged"], "the list of what is staged");
}

#[test]
fn two_outputs_that_some_systems_take_for_one_are_refused() {
    for (first, second) in [
        ("a/x.html", "a/x.html"),
        ("a/x.html", "a/X.html"),
        ("a/x.html", "A/y.html"),
        ("a", "a/x.html"),
        ("a/x.html", "A"),
        ("ä.html", "Ä.html"),
    ] {
        let root = workspace();
        let staging = open(root.path()).unwrap().stage().unwrap();
        staging.put(first, b"1").unwrap();
        let error = staging.put(second, b"2").unwrap_err();
        assert!(matches!(error.problem, Problem::SameName(_)), "{first} {second}");
    }
}

#[test]
fn a_site_with_an_output_that_failed_is_not_published() {
    let root = workspace();
    publish(root.path(), &old_site());
    let staging = staged(root.path(), &new_site());
    staging.put("../x", b"x").unwrap_err();
    let error = staging.publish(&fingerprint(&new_site()), None).unwrap_err();
    assert!(matches!(error.problem, Problem::Incomplete));
    assert_eq!(ready(root.path()), old_site());
}

#[test]
fn a_write_that_fails_leaves_the_old_site_and_names_the_published_file() {
    let root = workspace();
    publish(root.path(), &old_site());
    let staging = staged(root.path(), &new_site());
    // In the way of the next output, as a failing disk would be.
    fs::create_dir(root.path().join(".ready-new/late.html")).unwrap();
    let line = staging.put("late.html", b"x").unwrap_err().to_string();
    assert!(line.contains("ready/late.html"), "{line}");
    drop(staging);
    assert_eq!(ready(root.path()), old_site());
    assert_eq!(names(root.path()), [".ready-lock", "ready"]);
}

/// `/dev/full` answers each write as a full disk does.
#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_leaves_the_old_site_and_says_so() {
    let root = workspace();
    publish(root.path(), &old_site());
    let staging = staged(root.path(), &new_site());
    let manifest = root.path().join(".ready-new").join(MANIFEST);
    std::os::unix::fs::symlink("/dev/full", manifest).unwrap();
    let error = staging.publish(&fingerprint(&new_site()), None).unwrap_err();
    let line = error.to_string();
    assert!(line.contains("the disk is full; free some space"), "{line}");
    assert_eq!(line.lines().count(), 1);
    assert_eq!(ready(root.path()), old_site());
    assert_eq!(names(root.path()), [".ready-lock", "ready"]);
}

#[test]
fn what_somebody_puts_beside_the_staged_files_outlives_a_run_that_fails() {
    let root = workspace();
    let staging = staged(root.path(), &new_site());
    let mine = root.path().join(".ready-new/exercises/mine.txt");
    fs::write(&mine, "mine").unwrap();
    drop(staging);
    assert_eq!(fs::read_to_string(&mine).unwrap(), "mine");
    let error = open(root.path()).unwrap_err();
    assert!(matches!(&error.problem, Problem::StrayFile(path) if path == "exercises/mine.txt"), "{error}");
    fs::remove_file(&mine).unwrap();
    open(root.path()).unwrap();
    assert_eq!(names(root.path()), [".ready-lock"]);
}

#[cfg(any(target_os = "linux", target_os = "android"))]
#[test]
fn a_pipe_in_the_place_of_a_video_keeps_nobody_waiting() {
    use rustix::fs::{CWD, FileType, Mode, mknodat};
    let root = workspace();
    let video = root.path().join("week-07.mp4");
    mknodat(CWD, &video, FileType::Fifo, Mode::RUSR | Mode::WUSR, 0).unwrap();
    let staging = open(root.path()).unwrap().stage().unwrap();
    let line = staging.put_file("media/week-07.mp4", &video).unwrap_err().to_string();
    assert!(line.starts_with("cannot read") && line.contains("no file"), "{line}");
}

#[test]
fn many_threads_put_into_the_same_folders() {
    let root = workspace();
    let staging = open(root.path()).unwrap().stage().unwrap();
    let name = |n: usize| format!("d{}/e{}/{n}.html", n % 3, n % 7);
    thread::scope(|scope| {
        for start in 0..4 {
            let staging = &staging;
            scope.spawn(move || {
                for n in (start..400).step_by(4) {
                    staging.put(&name(n), n.to_string().as_bytes()).unwrap();
                }
            });
        }
    });
    staging.publish(&fingerprint(&Site::new()), None).unwrap();
    let expected: Site = (0..400).map(|n| (name(n), n.to_string())).collect();
    assert_eq!(ready(root.path()), expected);
}

#[test]
fn a_large_file_is_copied_once_and_linked_after() {
    let root = workspace();
    let video = root.path().join("week-07.mp4");
    fs::write(&video, "moving pictures").unwrap();
    let publish = || {
        let staging = open(root.path()).unwrap().stage().unwrap();
        staging.put_file("media/week-07.mp4", &video).unwrap();
        staging.publish(&fingerprint(&Site::new()), None).unwrap()
    };
    assert_eq!(publish().written, 1);
    assert_eq!(publish().unchanged, 1);
    assert_eq!(ready(root.path())["media/week-07.mp4"], "moving pictures");

    let staging = open(root.path()).unwrap().stage().unwrap();
    let line = staging.put_file("media/x.mp4", &root.path().join("missing.mp4")).unwrap_err().to_string();
    assert!(line.starts_with("cannot read"), "{line}");
}
