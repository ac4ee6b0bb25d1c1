//! What the store of made sheets gives back, and every kind of harm that must not come out of it.

use std::fs;
use std::path::PathBuf;
use std::thread;

use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::Index;

use super::*;
use crate::publish::{Problem, Store, StoredSheet};

const PDF: &[u8] = b"%PDF heel drop";

fn store(root: &Path) -> Store {
    open(root).unwrap().store()
}

fn key(inputs: &str) -> Hash {
    blake3::hash(inputs.as_bytes())
}

fn kept(pages: u32, pdf: &[u8]) -> StoredSheet {
    StoredSheet { pages, pdf: pdf.to_vec() }
}

fn folder(root: &Path) -> PathBuf {
    root.join(".ready-sheets")
}

fn file(root: &Path, key: &Hash) -> PathBuf {
    folder(root).join(format!("{}.sheet", key.to_hex()))
}

/// A store with one sheet in it, and its file.
fn one_sheet(root: &Path) -> (Store, PathBuf) {
    let store = store(root);
    store.keep(&key("a"), 2, PDF).unwrap();
    (store, file(root, &key("a")))
}

/// Nothing is given, and the sheet that is kept then comes back whole.
fn is_not_kept_until_kept_again(root: &Path, store: &Store, harm: &str) {
    assert_eq!(store.get(&key("a")), None, "{harm}");
    store.keep(&key("a"), 2, PDF).unwrap();
    assert_eq!(store.get(&key("a")), Some(kept(2, PDF)), "{harm}");
    let name = file(root, &key("a")).file_name().unwrap().to_str().unwrap().to_owned();
    assert_eq!(names(&folder(root)), [name], "{harm}");
}

#[test]
fn a_kept_sheet_comes_back_in_this_run_and_the_next() {
    let root = workspace();
    let first = store(root.path());
    assert_eq!(first.get(&key("a")), None);
    assert_eq!(names(root.path()), [".ready-lock"], "looking makes nothing");
    first.keep(&key("a"), 2, PDF).unwrap();
    first.keep(&key("b"), 0, b"").unwrap();
    assert_eq!(first.get(&key("a")), Some(kept(2, PDF)));
    drop(first);
    let next = store(root.path());
    assert_eq!(next.get(&key("a")), Some(kept(2, PDF)));
    assert_eq!(next.get(&key("b")), Some(kept(0, b"")));
    assert_eq!(next.get(&key("c")), None);
    next.keep(&key("a"), 3, b"%PDF new").unwrap();
    assert_eq!(next.get(&key("a")), Some(kept(3, b"%PDF new")));
}

#[test]
fn the_store_lives_beside_the_staged_site_and_holds_the_lock() {
    let root = workspace();
    let shelf = open(root.path()).unwrap();
    let store = shelf.store();
    let staging = shelf.stage().unwrap();
    store.keep(&key("a"), 2, PDF).unwrap();
    staging.put("index.html", b"new").unwrap();
    staging.publish(&fingerprint(&new_site()), None).unwrap();
    assert!(matches!(open(root.path()).unwrap_err().problem, Problem::InUse));
    assert_eq!(store.sweep(), 0);
    assert_eq!(open(root.path()).unwrap().store().get(&key("a")), Some(kept(2, PDF)));
    assert_eq!(names(root.path()), [".ready-lock", ".ready-sheets", "ready"]);
}

#[test]
fn a_file_that_is_cut_short_or_longer_is_not_kept() {
    let root = workspace();
    let (store, file) = one_sheet(root.path());
    let whole = fs::read(&file).unwrap();
    for length in 0..whole.len() {
        fs::write(&file, &whole[..length]).unwrap();
        assert_eq!(store.get(&key("a")), None, "{length} bytes");
    }
    fs::write(&file, [&whole[..], b"\0"].concat()).unwrap();
    is_not_kept_until_kept_again(root.path(), &store, "longer");
}

#[test]
fn the_sheet_of_another_key_is_not_kept() {
    let root = workspace();
    let (store, file_a) = one_sheet(root.path());
    store.keep(&key("b"), 2, b"%PDF another").unwrap();
    fs::rename(file(root.path(), &key("b")), file_a).unwrap();
    is_not_kept_until_kept_again(root.path(), &store, "another key");
}

#[test]
fn an_empty_folder_in_the_way_of_a_sheet_is_replaced() {
    let root = workspace();
    let (store, file) = one_sheet(root.path());
    fs::remove_file(&file).unwrap();
    fs::create_dir(&file).unwrap();
    is_not_kept_until_kept_again(root.path(), &store, "a folder");
}

#[test]
fn a_folder_with_things_in_it_is_left_alone_and_costs_only_the_keeping() {
    let root = workspace();
    let (store, file) = one_sheet(root.path());
    fs::remove_file(&file).unwrap();
    fs::create_dir(&file).unwrap();
    fs::write(file.join("mine.txt"), "mine").unwrap();
    assert_eq!(store.get(&key("a")), None);
    let line = store.keep(&key("a"), 2, PDF).unwrap_err().to_string();
    assert_eq!(line.lines().count(), 1);
    assert_eq!(store.get(&key("a")), None);
    assert_eq!(names(&folder(root.path())).len(), 1, "no part of a sheet is left");
    store.sweep();
    assert_eq!(fs::read_to_string(file.join("mine.txt")).unwrap(), "mine");
}

#[cfg(unix)]
#[test]
fn a_link_in_the_way_of_a_sheet_is_replaced_and_not_followed() {
    let root = workspace();
    let (store, file) = one_sheet(root.path());
    // Even a link to the very bytes that would be right.
    let elsewhere = root.path().join("elsewhere.sheet");
    fs::rename(&file, &elsewhere).unwrap();
    let before = fs::read(&elsewhere).unwrap();
    std::os::unix::fs::symlink(&elsewhere, &file).unwrap();
    is_not_kept_until_kept_again(root.path(), &store, "a link");
    assert!(fs::symlink_metadata(&file).unwrap().is_file());
    assert_eq!(fs::read(&elsewhere).unwrap(), before);
}

#[cfg(any(target_os = "linux", target_os = "android"))]
#[test]
fn a_pipe_in_the_way_of_a_sheet_keeps_nobody_waiting() {
    use rustix::fs::{CWD, FileType, Mode, mknodat};
    let root = workspace();
    let (store, file) = one_sheet(root.path());
    fs::remove_file(&file).unwrap();
    mknodat(CWD, &file, FileType::Fifo, Mode::RUSR | Mode::WUSR, 0).unwrap();
    is_not_kept_until_kept_again(root.path(), &store, "a pipe");
}

#[test]
fn a_store_that_is_a_file_keeps_nothing_and_stays() {
    let root = workspace();
    fs::write(folder(root.path()), "a file").unwrap();
    let store = store(root.path());
    assert_eq!(store.get(&key("a")), None);
    let error = store.keep(&key("a"), 2, PDF).unwrap_err();
    assert!(matches!(error.problem, Problem::NotAFolder), "{error}");
    assert_eq!(store.sweep(), 0);
    assert_eq!(fs::read_to_string(folder(root.path())).unwrap(), "a file");
}

#[cfg(unix)]
#[test]
fn a_store_that_is_a_link_is_neither_read_nor_written_nor_swept() {
    let (root, elsewhere) = (workspace(), workspace());
    drop(one_sheet(elsewhere.path()));
    std::os::unix::fs::symlink(folder(elsewhere.path()), folder(root.path())).unwrap();
    let store = store(root.path());
    assert_eq!(store.get(&key("a")), None);
    let error = store.keep(&key("b"), 2, PDF).unwrap_err();
    assert!(matches!(error.problem, Problem::Link), "{error}");
    drop(store);
    assert_eq!(self::store(root.path()).sweep(), 0);
    assert_eq!(names(&folder(elsewhere.path())).len(), 1);
    assert!(file(elsewhere.path(), &key("a")).exists());
}

#[test]
fn a_store_deleted_while_in_use_starts_again() {
    let root = workspace();
    let (store, _) = one_sheet(root.path());
    fs::remove_dir_all(folder(root.path())).unwrap();
    is_not_kept_until_kept_again(root.path(), &store, "deleted");
    fs::remove_dir_all(folder(root.path())).unwrap();
    assert_eq!(store.sweep(), 0);
}

#[test]
fn the_sweep_removes_what_this_run_did_not_name() {
    let root = workspace();
    let first = store(root.path());
    for inputs in ["asked", "kept", "old", "older"] {
        first.keep(&key(inputs), 1, inputs.as_bytes()).unwrap();
    }
    drop(first);
    let next = store(root.path());
    next.get(&key("asked")).unwrap();
    next.keep(&key("kept"), 1, b"kept").unwrap();
    assert_eq!(next.sweep(), 2);
    let last = store(root.path());
    assert_eq!(last.get(&key("asked")), Some(kept(1, b"asked")));
    assert_eq!(last.get(&key("kept")), Some(kept(1, b"kept")));
    assert_eq!(names(&folder(root.path())).len(), 2);
}

#[test]
fn the_sweep_removes_what_a_killed_run_left_half_written() {
    let root = workspace();
    let (store, file) = one_sheet(root.path());
    let part = store.part(&key("a")).unwrap().into_temp_path().keep().unwrap();
    assert_eq!(part.parent(), file.parent());
    assert_eq!(store.sweep(), 0, "it was no sheet");
    assert!(!part.exists());
    assert!(file.exists());
}

#[test]
fn the_sweep_touches_no_file_that_the_store_did_not_name() {
    let root = workspace();
    let (store, _) = one_sheet(root.path());
    drop(store);
    let hex = key("a").to_hex();
    let foreign = [
        "notes.txt".to_owned(),
        "handout.sheet".to_owned(),
        "notes-a1B2c3D4.part".to_owned(),
        format!("{}.sheet", &hex[1..]),
        format!("{hex}0.sheet"),
        format!("{}.sheet", hex.to_uppercase()),
        format!("{}g.sheet", &hex[1..]),
        format!("{hex}.sheet.txt"),
        format!("{hex}.pdf"),
        format!("{hex}-a1B2c3D.part"),
        format!("{hex}-a1B2c3D-.part"),
        format!("{hex}.part"),
    ];
    for name in &foreign {
        fs::write(folder(root.path()).join(name), "mine").unwrap();
    }
    let below = folder(root.path()).join("below");
    fs::create_dir(&below).unwrap();
    fs::write(below.join(format!("{hex}.sheet")), "mine").unwrap();
    assert_eq!(self::store(root.path()).sweep(), 1);
    let mut expected = Vec::from(foreign);
    expected.push("below".to_owned());
    expected.sort();
    assert_eq!(names(&folder(root.path())), expected);
    assert_eq!(names(&below).len(), 1);
}

#[cfg(unix)]
#[test]
fn the_sweep_leaves_links_and_what_they_lead_to() {
    let root = workspace();
    let (store, file) = one_sheet(root.path());
    drop(store);
    let elsewhere = root.path().join("elsewhere.sheet");
    fs::rename(&file, &elsewhere).unwrap();
    std::os::unix::fs::symlink(&elsewhere, &file).unwrap();
    assert_eq!(self::store(root.path()).sweep(), 0);
    assert!(elsewhere.exists());
    assert!(fs::symlink_metadata(&file).unwrap().is_symlink());
}

#[test]
fn many_threads_ask_and_keep_at_once() {
    let root = workspace();
    let store = store(root.path());
    let pdf = |n: usize| n.to_string().repeat(1000).into_bytes();
    let ours = |n: usize| key(&format!("sheet {n}"));
    thread::scope(|scope| {
        for _ in 0..4 {
            // All of them keep the same sheets, so that they meet at each.
            scope.spawn(|| {
                for n in 0..50 {
                    if let Some(found) = store.get(&ours(n)) {
                        assert_eq!(found, kept(1, &pdf(n)));
                    }
                    store.keep(&ours(n), 1, &pdf(n)).unwrap();
                }
            });
        }
    });
    for n in 0..50 {
        assert_eq!(store.get(&ours(n)), Some(kept(1, &pdf(n))));
    }
    assert_eq!(names(&folder(root.path())).len(), 50, "no part of a sheet is left");
    assert_eq!(store.sweep(), 0);
    assert_eq!(names(&folder(root.path())).len(), 50);
}

#[cfg(unix)]
#[test]
fn a_kept_sheet_is_as_readable_as_any_file() {
    use std::os::unix::fs::PermissionsExt;
    let root = workspace();
    let (_store, file) = one_sheet(root.path());
    let plain = root.path().join("plain");
    fs::write(&plain, "x").unwrap();
    let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode();
    assert_eq!(mode(&file), mode(&plain));
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_single_changed_byte_is_enough_not_to_be_kept(
        pages: u32,
        pdf in vec(any::<u8>(), 0..200),
        place: Index,
        flip in 1..=u8::MAX,
    ) {
        let root = workspace();
        let store = store(root.path());
        store.keep(&key("a"), pages, &pdf).unwrap();
        prop_assert_eq!(store.get(&key("a")), Some(kept(pages, &pdf)));
        let file = file(root.path(), &key("a"));
        let mut bytes = fs::read(&file).unwrap();
        let place = place.index(bytes.len());
        bytes[place] ^= flip;
        fs::write(&file, bytes).unwrap();
        prop_assert_eq!(store.get(&key("a")), None, "byte {}", place);
    }
}
