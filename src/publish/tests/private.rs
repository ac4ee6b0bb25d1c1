//! Sheets outside the site: who can read them, and what they may replace.

use std::fs;
use std::path::PathBuf;

use super::*;
use crate::publish::{Problem, PublishError, write_open, write_private};

type Writer = fn(&Path, &str, &[u8]) -> Result<PathBuf, PublishError>;

/// Both ways to write; they differ in permissions alone.
const WRITERS: [Writer; 2] = [write_private, write_open];

#[test]
fn a_sheet_appears_whole_and_an_earlier_one_is_replaced() {
    for write in WRITERS {
        let root = workspace();
        let folder = root.path().join("sheets/of/today");
        let path = write(&folder, "j.pdf", b"first").unwrap();
        assert_eq!(path, folder.join("j.pdf"));
        assert_eq!(fs::read(&path).unwrap(), b"first");
        write(&folder, "j.pdf", b"2nd").unwrap();
        assert_eq!(fs::read(&path).unwrap(), b"2nd");
        assert_eq!(names(&folder), ["j.pdf"]);
    }
}

#[cfg(unix)]
mod permissions {
    use std::os::unix::fs::PermissionsExt;

    use super::*;
    use crate::publish::private::{Readers, begin};

    fn mode(path: &Path) -> u32 {
        fs::metadata(path).unwrap().permissions().mode() & 0o7777
    }

    fn set_mode(path: &Path, mode: u32) {
        fs::set_permissions(path, fs::Permissions::from_mode(mode)).unwrap();
    }

    #[test]
    fn only_the_owner_reads_the_sheet_of_a_person_and_the_folders_made_for_it() {
        let root = workspace();
        set_mode(root.path(), 0o755);
        let path = write_private(&root.path().join("sheets/of"), "j.pdf", b"x").unwrap();
        assert_eq!(mode(&path), 0o600);
        assert_eq!(mode(&root.path().join("sheets/of")), 0o700);
        assert_eq!(mode(&root.path().join("sheets")), 0o700);
        assert_eq!(mode(root.path()), 0o755, "it was there");
    }

    #[test]
    fn a_folder_that_is_there_keeps_its_permissions() {
        let root = workspace();
        let folder = root.path().join("sheets");
        fs::create_dir(&folder).unwrap();
        set_mode(&folder, 0o750);
        let path = write_private(&folder, "j.pdf", b"x").unwrap();
        assert_eq!((mode(&folder), mode(&path)), (0o750, 0o600));
    }

    #[test]
    fn an_earlier_sheet_that_all_could_read_gives_way_to_a_private_one() {
        let root = workspace();
        let path = root.path().join("j.pdf");
        for earlier in [0o666, 0o644, 0o400] {
            fs::write(&path, "earlier").unwrap();
            set_mode(&path, earlier);
            // Whoever has the earlier sheet open, or under another name, does not see the new one.
            let other_name = root.path().join("other.pdf");
            fs::hard_link(&path, &other_name).unwrap();
            write_private(root.path(), "j.pdf", b"new").unwrap();
            assert_eq!(mode(&path), 0o600, "{earlier:o}");
            assert_eq!(fs::read_to_string(&other_name).unwrap(), "earlier");
            fs::remove_file(&path).unwrap();
            fs::remove_file(&other_name).unwrap();
        }
    }

    #[test]
    fn a_private_sheet_is_private_before_its_first_byte() {
        let root = workspace();
        let begun = begin(root.path(), Readers::Owner).unwrap();
        assert_eq!(mode(begun.path()), 0o600);
        assert_eq!(begun.path().parent(), Some(root.path()));
    }

    #[test]
    fn a_sheet_that_is_nobodys_has_the_permissions_of_any_file() {
        let root = workspace();
        let (plain_folder, plain) = (root.path().join("plain"), root.path().join("plain/x"));
        fs::create_dir(&plain_folder).unwrap();
        fs::write(&plain, "x").unwrap();
        let folder = root.path().join("sheets");
        let path = write_open(&folder, "week-7.pdf", b"x").unwrap();
        assert_eq!((mode(&folder), mode(&path)), (mode(&plain_folder), mode(&plain)));
    }
}

#[test]
fn a_name_that_is_not_that_of_one_file_is_refused() {
    for write in WRITERS {
        let root = workspace();
        let folder = root.path().join("sheets");
        for name in [
            "",
            ".",
            "..",
            "../j.pdf",
            "/j.pdf",
            "a/j.pdf",
            "j.pdf/",
            r"a\j.pdf",
            "c:j.pdf",
            "j.pdf.",
            "j.pdf ",
            "j\0.pdf",
            "j\n.pdf",
            "\u{1b}[2J.pdf",
        ] {
            let error = write(&folder, name, b"x").unwrap_err();
            assert!(matches!(error.problem, Problem::NotAFileName), "{name:?}");
            let line = error.to_string();
            assert!(!line.contains(char::is_control), "{line:?}");
        }
        assert!(names(root.path()).is_empty(), "nothing is made for a bad name");
        write(&folder, "J. of Lantern Hill, 18 pt – ä.pdf", b"x").unwrap();
    }
}

#[test]
fn a_folder_in_the_way_of_a_sheet_is_named_and_left_alone() {
    for write in WRITERS {
        let root = workspace();
        fs::create_dir(root.path().join("j.pdf")).unwrap();
        let error = write(root.path(), "j.pdf", b"x").unwrap_err();
        assert!(matches!(error.problem, Problem::InTheWay("a folder")), "{error}");
        assert_eq!(names(root.path()), ["j.pdf"]);
        assert!(names(&root.path().join("j.pdf")).is_empty());
    }
}

#[cfg(unix)]
#[test]
fn a_link_in_the_way_of_a_sheet_is_neither_followed_nor_replaced() {
    for write in WRITERS {
        let root = workspace();
        let elsewhere = root.path().join("elsewhere.txt");
        let link = root.path().join("j.pdf");
        std::os::unix::fs::symlink(&elsewhere, &link).unwrap();
        for there in [false, true] {
            if there {
                fs::write(&elsewhere, "mine").unwrap();
            }
            let error = write(root.path(), "j.pdf", b"x").unwrap_err();
            assert!(matches!(error.problem, Problem::InTheWay("a link")), "{error}");
            assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
            assert_eq!(elsewhere.exists(), there);
        }
        assert_eq!(fs::read_to_string(&elsewhere).unwrap(), "mine");
    }
}

#[cfg(any(target_os = "linux", target_os = "android"))]
#[test]
fn a_device_in_the_way_of_a_sheet_stays_one() {
    use std::os::unix::fs::FileTypeExt;

    use rustix::fs::{CWD, FileType, Mode, mknodat};
    let root = workspace();
    let pipe = root.path().join("j.pdf");
    mknodat(CWD, &pipe, FileType::Fifo, Mode::RUSR | Mode::WUSR, 0).unwrap();
    let error = write_private(root.path(), "j.pdf", b"x").unwrap_err();
    assert!(matches!(error.problem, Problem::InTheWay("a device")), "{error}");
    assert!(fs::symlink_metadata(&pipe).unwrap().file_type().is_fifo());
}

#[test]
fn a_file_where_the_folder_should_be_gives_one_plain_line() {
    let root = workspace();
    let file = root.path().join("sheets");
    fs::write(&file, "a file").unwrap();
    let error = write_private(&file, "j.pdf", b"x").unwrap_err();
    assert!(matches!(error.problem, Problem::NotAFolder), "{error}");
    let line = write_private(&file.join("of"), "j.pdf", b"x").unwrap_err().to_string();
    assert!(line.contains("there is a file where a folder should be"), "{line}");
    assert_eq!(fs::read_to_string(&file).unwrap(), "a file");
}

#[cfg(unix)]
#[test]
fn a_link_to_a_folder_is_a_folder_and_a_link_to_nothing_is_not() {
    let root = workspace();
    let (real, link) = (root.path().join("real"), root.path().join("link"));
    std::os::unix::fs::symlink(&real, &link).unwrap();
    let error = write_private(&link, "j.pdf", b"x").unwrap_err();
    assert!(matches!(error.problem, Problem::Link), "{error}");
    fs::create_dir(&real).unwrap();
    write_private(&link, "j.pdf", b"x").unwrap();
    assert_eq!(names(&real), ["j.pdf"]);
}

#[test]
fn each_problem_of_a_sheet_is_one_line_that_says_what_to_do() {
    let root = workspace();
    fs::create_dir(root.path().join("j.pdf")).unwrap();
    for (error, advice) in [
        (write_private(root.path(), "a/j.pdf", b"x").unwrap_err(), "choose a plain one"),
        (write_private(root.path(), "j.pdf", b"x").unwrap_err(), "move it elsewhere or choose another name"),
        (
            crate::publish::allowed_folder(root.path(), &root.path().join("ready")).unwrap_err(),
            "choose a folder outside of it",
        ),
    ] {
        let line = error.to_string();
        assert!(line.contains(advice), "{line}");
        assert_eq!(line.lines().count(), 1);
        assert!(!line.ends_with('.'), "{line}");
    }
}
