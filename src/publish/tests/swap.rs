//! The swap by two renames, and what the next start makes of every point at which a run can be killed.

use std::fs;
use std::mem;

use super::*;
use crate::publish::Problem;
use crate::publish::places::Places;
use crate::publish::swap::{Way, discard, move_in, retire, set_aside, swap};

/// A workspace with the old site published and the new one staged whole, whose run is dead from here on.
fn killed_after_staging() -> (TempDir, Places) {
    let root = workspace();
    publish(root.path(), &old_site());
    let mut staging = staged(root.path(), &new_site());
    staging.complete(&fingerprint(&new_site())).unwrap();
    let places = Places::of(root.path());
    // A killed run cleans nothing up, and the system takes its lock away: a new lock file has the same effect.
    mem::forget(staging);
    fs::remove_file(&places.lock).unwrap();
    (root, places)
}

fn after_the_next_start(root: &TempDir) -> Site {
    open(root.path()).unwrap();
    assert_eq!(names(root.path()), [".ready-lock", "ready"]);
    ready(root.path())
}

#[test]
fn without_an_exchange_two_renames_do_the_same() {
    let root = workspace();
    for site in [old_site(), new_site()] {
        let staging = staged(root.path(), &site);
        staging.publish_by(Way::TwoRenames, &fingerprint(&site), None).unwrap();
        assert_eq!(ready(root.path()), site);
        assert_eq!(names(root.path()), [".ready-lock", "ready"]);
    }
}

#[test]
fn killed_before_the_swap_the_old_site_stands() {
    let (root, places) = killed_after_staging();
    assert!(places.new.join(MANIFEST).exists());
    assert_eq!(after_the_next_start(&root), old_site());
}

#[test]
fn killed_after_the_exchange_the_new_site_stands() {
    let (root, places) = killed_after_staging();
    swap(&places, Way::Best).unwrap();
    assert_eq!(ready(root.path()), new_site(), "before any recovery");
    assert_eq!(after_the_next_start(&root), new_site());
}

#[test]
fn killed_between_the_two_renames_the_old_site_comes_back() {
    let (root, places) = killed_after_staging();
    set_aside(&places).unwrap();
    assert!(!places.ready.exists());
    assert_eq!(after_the_next_start(&root), old_site());
}

#[test]
fn killed_between_the_two_renames_an_empty_folder_made_since_is_no_obstacle() {
    let (root, places) = killed_after_staging();
    set_aside(&places).unwrap();
    fs::create_dir(&places.ready).unwrap();
    assert_eq!(after_the_next_start(&root), old_site());
}

#[test]
fn killed_between_the_two_renames_nothing_is_removed_while_a_foreign_folder_is_in_the_way() {
    let (root, places) = killed_after_staging();
    set_aside(&places).unwrap();
    fs::create_dir(&places.ready).unwrap();
    fs::write(places.ready.join("mine.txt"), "mine").unwrap();
    open(root.path()).unwrap_err();
    assert_eq!(read(&places.old), old_site());
    assert_eq!(ready(root.path()), site(&[("mine.txt", "mine")]));
}

#[test]
fn killed_after_both_renames_the_new_site_stands() {
    let (root, places) = killed_after_staging();
    set_aside(&places).unwrap();
    move_in(&places).unwrap();
    assert_eq!(ready(root.path()), new_site(), "before any recovery");
    assert_eq!(after_the_next_start(&root), new_site());
}

#[test]
fn killed_while_the_old_site_was_removed_it_never_comes_back_in_part() {
    let (root, places) = killed_after_staging();
    set_aside(&places).unwrap();
    move_in(&places).unwrap();
    // The removal begins with the name; then somebody deletes the new site too.
    retire(&places).unwrap();
    fs::remove_file(places.new.join("index.html")).unwrap();
    fs::remove_dir_all(&places.ready).unwrap();
    open(root.path()).unwrap();
    assert_eq!(names(root.path()), [".ready-lock"]);
}

/// What is left beside `ready/` and is somebody's own, after each kind of kill.
#[test]
fn a_file_among_what_a_killed_run_left_is_named_and_kept() {
    type Kill = fn(&Places);
    let kills: [(Kill, &str); 4] = [
        (|_| {}, ".ready-new"),
        (
            |places| {
                set_aside(places).unwrap();
                move_in(places).unwrap();
                retire(places).unwrap();
            },
            ".ready-new",
        ),
        (
            |places| {
                set_aside(places).unwrap();
                move_in(places).unwrap();
            },
            ".ready-old",
        ),
        // Killed while the site was staged: it has no manifest yet.
        (
            |places| {
                fs::remove_dir_all(&places.new).unwrap();
                mem::forget(staged(&places.root, &new_site()));
                fs::remove_file(&places.lock).unwrap();
            },
            ".ready-new",
        ),
    ];
    for (kill, folder) in kills {
        for name in ["notes.txt", ".hidden", "exercises/notes.txt"] {
            let (root, places) = killed_after_staging();
            kill(&places);
            let mine = root.path().join(folder).join(name);
            fs::write(&mine, "mine").unwrap();
            let error = open(root.path()).unwrap_err();
            assert!(matches!(&error.problem, Problem::StrayFile(path) if path == name), "{folder}: {error}");
            assert!(error.to_string().contains(folder), "{error}");
            assert_eq!(fs::read_to_string(&mine).unwrap(), "mine");
            fs::remove_file(&mine).unwrap();
            after_the_next_start(&root);
        }
    }
}

#[test]
fn a_folder_that_only_has_the_name_of_ours_is_refused_and_kept() {
    for name in [".ready-new", ".ready-old"] {
        let root = workspace();
        let mine = root.path().join(name).join("mine/notes.txt");
        fs::create_dir_all(mine.parent().unwrap()).unwrap();
        fs::write(&mine, "mine").unwrap();
        let error = open(root.path()).unwrap_err();
        assert!(matches!(&error.problem, Problem::NotOurs(first) if first == "mine"), "{error}");
        assert!(error.to_string().contains(name), "{error}");
        assert_eq!(fs::read_to_string(&mine).unwrap(), "mine");
        fs::remove_dir_all(root.path().join(name)).unwrap();
        fs::create_dir(root.path().join(name)).unwrap();
        open(root.path()).unwrap();
        assert_eq!(names(root.path()), [".ready-lock"], "an empty one is nobody's");
    }
}

#[test]
fn what_a_desktop_system_dropped_into_what_a_killed_run_left_goes_and_is_told() {
    let (root, places) = killed_after_staging();
    fs::write(places.new.join("exercises/._index.html"), "x").unwrap();
    let shelf = open(root.path()).unwrap();
    assert_eq!(shelf.dropped(), [".ready-new/exercises/._index.html"]);
    drop(shelf);
    assert_eq!(after_the_next_start(&root), old_site());
}

/// A manifest that was written in part is no obstacle, as the list of what was staged is still there.
#[test]
fn killed_while_the_manifest_was_written_the_old_site_stands() {
    let root = workspace();
    publish(root.path(), &old_site());
    mem::forget(staged(root.path(), &new_site()));
    fs::write(root.path().join(".ready-new").join(MANIFEST), "{").unwrap();
    fs::remove_file(root.path().join(".ready-lock")).unwrap();
    assert_eq!(after_the_next_start(&root), old_site());
}

/// Files whose bytes were not on the disk yet are empty after it, and so is the end of the list.
#[test]
fn what_a_power_cut_left_empty_is_nobodys() {
    let root = workspace();
    mem::forget(staged(root.path(), &new_site()));
    let new = root.path().join(".ready-new");
    for name in [".steadyleaf-staged", "index.html", "exercises/heel-drop/index.html"] {
        fs::write(new.join(name), "").unwrap();
    }
    fs::remove_file(root.path().join(".ready-lock")).unwrap();
    let error = open(root.path()).unwrap_err();
    let whole = "exercises/wall-slide/index.html";
    assert!(matches!(&error.problem, Problem::StrayFile(path) if path == whole), "{error}");
    fs::write(new.join(whole), "").unwrap();
    open(root.path()).unwrap();
    assert_eq!(names(root.path()), [".ready-lock"]);
}

#[test]
fn killed_during_the_first_publication_nothing_is_left() {
    let root = workspace();
    mem::forget(staged(root.path(), &new_site()));
    fs::remove_file(root.path().join(".ready-lock")).unwrap();
    open(root.path()).unwrap();
    assert_eq!(names(root.path()), [".ready-lock"]);
}

#[test]
fn when_the_new_site_cannot_move_in_the_old_one_is_put_back() {
    let (root, places) = killed_after_staging();
    discard(&places.new).unwrap();
    swap(&places, Way::TwoRenames).unwrap_err();
    assert_eq!(ready(root.path()), old_site());
}
