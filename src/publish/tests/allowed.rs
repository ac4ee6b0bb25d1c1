//! Where handouts may go, by real folders and links.

use std::fs;
use std::path::PathBuf;

use super::*;
use crate::publish::allowed::is_same;
use crate::publish::places::Places;
use crate::publish::{Problem, allowed_folder};

/// A workspace whose site is made, or not yet.
fn with_site(made: bool) -> (TempDir, PathBuf) {
    let folder = workspace();
    let root = fs::canonicalize(folder.path()).unwrap().join("lantern-hill");
    fs::create_dir_all(root.join("content/media")).unwrap();
    fs::create_dir_all(root.join("clients")).unwrap();
    if made {
        fs::create_dir_all(root.join("ready/series")).unwrap();
        fs::create_dir_all(root.join("themes")).unwrap();
    }
    (folder, root)
}

#[track_caller]
fn is_refused(root: &Path, folder: &Path, site: &str) {
    let error = allowed_folder(root, folder).unwrap_err();
    assert!(matches!(error.problem, Problem::PartOfSite(found) if found == site), "{error}");
    assert_eq!(error.path, folder, "the folder as it was asked for");
}

#[test]
fn what_belongs_to_the_site_is_refused_whether_or_not_it_exists() {
    for made in [false, true] {
        let (_folder, root) = with_site(made);
        for site in ["ready", "content", "themes"] {
            for below in ["", "handouts", "a/b/c", "media", "."] {
                is_refused(&root, &root.join(site).join(below), site);
            }
        }
        let Places { root: _, ready, new, old, sheets, lock } = Places::of(&root);
        for place in [ready, new, old, sheets, lock] {
            let name = place.file_name().unwrap().to_str().unwrap();
            is_refused(&root, &place.join("handouts"), name);
        }
        is_refused(&root, &root.join(".steadyleaf/earlier"), ".steadyleaf");
        assert_eq!(root.join("ready").exists(), made, "nothing is made");
    }
}

#[test]
fn every_other_folder_is_allowed_whether_or_not_it_exists() {
    let (folder, root) = with_site(true);
    let outside = fs::canonicalize(folder.path()).unwrap();
    for allowed in [
        root.clone(),
        root.join("clients"),
        root.join("handouts/of/today"),
        root.join("ready-to-print"),
        root.join("contents"),
        root.join("handouts/ready"),
        outside.join("elsewhere"),
        outside.join("ready"),
        PathBuf::from("/"),
    ] {
        assert_eq!(allowed_folder(&root, &allowed).unwrap(), allowed);
    }
    assert!(!root.join("handouts").exists(), "nothing is made");
}

#[test]
fn a_workspace_below_a_folder_called_ready_is_no_site() {
    let folder = workspace();
    let root = fs::canonicalize(folder.path()).unwrap().join("ready");
    fs::create_dir(&root).unwrap();
    assert_eq!(allowed_folder(&root, &root.join("handouts")).unwrap(), root.join("handouts"));
    is_refused(&root, &root.join("ready"), "ready");
}

#[test]
fn steps_upward_are_followed_as_the_system_follows_them() {
    for made in [false, true] {
        let (folder, root) = with_site(made);
        for round in [
            "clients/../ready",
            "missing/../ready/handouts",
            "missing/deeper/../../content",
            "../lantern-hill/themes/x",
            "clients/.././ready/.",
        ] {
            let site = ["ready", "content", "themes"].into_iter().find(|site| round.contains(site)).unwrap();
            is_refused(&root, &root.join(round), site);
        }
        let outside = fs::canonicalize(folder.path()).unwrap();
        assert_eq!(allowed_folder(&root, &root.join("ready/../../x")).unwrap(), outside.join("x"));
        assert_eq!(allowed_folder(&root, &root.join("missing/../clients")).unwrap(), root.join("clients"));
        assert_eq!(
            allowed_folder(&root.join("clients/.."), &root.join("handouts")).unwrap(),
            root.join("handouts")
        );
        is_refused(&root.join("clients/.."), &root.join("ready"), "ready");
    }
}

#[test]
fn other_letter_case_makes_no_other_folder() {
    for made in [false, true] {
        let (_folder, root) = with_site(made);
        for (spelling, site) in [
            ("READY", "ready"),
            ("Ready/Handouts", "ready"),
            ("Content/media", "content"),
            ("tHEMES/x", "themes"),
        ] {
            is_refused(&root, &root.join(spelling), site);
        }
        let loud = PathBuf::from(root.to_str().unwrap().replace("lantern", "LANTERN"));
        is_refused(&root, &loud.join("ready"), "ready");
    }
}

#[test]
fn a_relative_folder_is_relative_to_where_the_program_runs() {
    let (_folder, root) = with_site(true);
    let here = fs::canonicalize(".").unwrap();
    assert_eq!(allowed_folder(&root, Path::new("no-such-folder/x")).unwrap(), here.join("no-such-folder/x"));
    assert_eq!(allowed_folder(&root, Path::new("")).unwrap(), here);
    is_refused(Path::new("."), Path::new("ready/x"), "ready");
    is_refused(Path::new(""), &here.join("ready/x"), "ready");
}

#[test]
fn a_file_is_no_folder_for_handouts() {
    let (_folder, root) = with_site(true);
    let file = root.join("notes.txt");
    fs::write(&file, "mine").unwrap();
    let error = allowed_folder(&root, &file).unwrap_err();
    assert!(matches!(error.problem, Problem::NotAFolder), "{error}");
    let line = allowed_folder(&root, &file.join("below")).unwrap_err().to_string();
    assert!(line.contains("there is a file where a folder should be"), "{line}");
}

#[cfg(unix)]
mod links {
    use std::os::unix::fs::symlink;

    use super::*;

    #[test]
    fn a_link_into_the_site_is_refused_before_and_after_the_site_is_made() {
        for made in [false, true] {
            let (folder, root) = with_site(made);
            let outside = fs::canonicalize(folder.path()).unwrap();
            symlink(root.join("ready"), outside.join("absolute")).unwrap();
            symlink("lantern-hill/ready/series", outside.join("relative")).unwrap();
            symlink("absolute", outside.join("twice")).unwrap();
            symlink("missing/../lantern-hill/ready", outside.join("roundabout")).unwrap();
            symlink("lantern-hill", outside.join("workspace")).unwrap();
            for link in ["absolute", "relative", "twice", "roundabout", "workspace/ready"] {
                for below in ["", "x", "x/y", "missing/../x"] {
                    is_refused(&root, &outside.join(link).join(below), "ready");
                }
            }
            is_refused(&root, &outside.join("missing/../absolute/x"), "ready");
            is_refused(&root, &outside.join("missing/../workspace/ready"), "ready");
            is_refused(&outside.join("workspace"), &root.join("ready"), "ready");
        }
    }

    #[test]
    fn steps_upward_lead_from_where_a_link_ends() {
        let (folder, root) = with_site(true);
        let outside = fs::canonicalize(folder.path()).unwrap();
        symlink(root.join("clients"), outside.join("people")).unwrap();
        is_refused(&root, &outside.join("people/../ready"), "ready");
        symlink(&outside, root.join("content/up")).unwrap();
        assert_eq!(allowed_folder(&root, &root.join("content/up/x")).unwrap(), outside.join("x"));
    }

    #[test]
    fn a_folder_of_the_site_that_is_a_link_is_refused_under_both_names() {
        let (folder, root) = with_site(true);
        let outside = fs::canonicalize(folder.path()).unwrap();
        let texts = outside.join("texts");
        fs::rename(root.join("content"), &texts).unwrap();
        symlink(&texts, root.join("content")).unwrap();
        is_refused(&root, &root.join("content/x"), "content");
        is_refused(&root, &texts.join("x"), "content");
        fs::remove_dir_all(&texts).unwrap();
        is_refused(&root, &texts.join("x"), "content");
    }

    #[test]
    fn the_answer_has_no_links_left_in_it() {
        let (folder, root) = with_site(true);
        let outside = fs::canonicalize(folder.path()).unwrap();
        symlink(root.join("clients"), outside.join("people")).unwrap();
        let found = allowed_folder(&root, &outside.join("people/new/sheets")).unwrap();
        assert_eq!(found, root.join("clients/new/sheets"));
    }

    #[test]
    fn links_without_an_end_give_one_plain_line() {
        let (_folder, root) = with_site(true);
        symlink("b", root.join("a")).unwrap();
        symlink("a", root.join("b")).unwrap();
        symlink("missing/../c", root.join("c")).unwrap();
        symlink("d/x", root.join("d")).unwrap();
        for endless in ["a", "a/x", "c", "c/x", "d"] {
            let line = allowed_folder(&root, &root.join(endless)).unwrap_err().to_string();
            assert!(line.starts_with("cannot write"), "{line}");
            assert_eq!(line.lines().count(), 1);
        }
    }

    #[test]
    fn one_folder_under_two_names_is_the_same_and_so_is_what_is_not_in_it_yet() {
        let (folder, root) = with_site(true);
        // As a folder that is mounted twice: two spellings that no comparison of letters shows to be one.
        let other = folder.path().join("other");
        symlink(&root, &other).unwrap();
        assert!(is_same(&root.join("content"), &other.join("content")));
        assert!(is_same(&root.join(".ready-new"), &other.join(".READY-new")));
        let texts = folder.path().join("texts");
        symlink(root.join("content"), &texts).unwrap();
        assert!(is_same(&root.join("content"), &texts));
        assert!(!is_same(&root.join("content"), &other.join("clients")));
        assert!(!is_same(&root.join("content"), &root.join("media")));
    }
}
