//! What stands in a folder and what is read of it.

use std::fs;
use std::os::unix::ffi::OsStrExt;
use std::os::unix::fs::symlink;

use super::*;

fn workspace() -> tempfile::TempDir {
    let root = tempfile::tempdir().unwrap();
    fs::create_dir_all(root.path().join("content/exercises")).unwrap();
    fs::create_dir_all(root.path().join("content/media")).unwrap();
    fs::write(root.path().join("site.toml"), "title = \"A\"").unwrap();
    fs::write(root.path().join("content/exercises/heel-drop.md"), "text").unwrap();
    root
}

/// The names of the files that could not be opened.
fn unreachable(texts: &Texts) -> Vec<&str> {
    let closed = texts.files.iter().filter(|f| matches!(f.content, Content::Unreachable { .. }));
    closed.map(|f| texts.sources.get(f.id).name.as_str()).collect()
}

#[test]
fn a_link_to_nowhere_and_a_loop_are_findings_and_the_rest_is_read() {
    let root = workspace();
    let exercises = root.path().join("content/exercises");
    symlink("nowhere.md", exercises.join("gone.md")).unwrap();
    symlink(&exercises, exercises.join("loop")).unwrap();
    symlink("somebody@a.machine:1", exercises.join(".#heel-drop.md")).unwrap();
    let texts = read(root.path()).unwrap();
    assert_eq!(unreachable(&texts), ["content/exercises/gone.md", "content/exercises/loop"]);
    assert!(texts.files.iter().any(|f| f.kind == FileKind::Exercise { id: "heel-drop".into() }));
    let read = texts.files.iter().filter(|f| f.content == Content::Text).count();
    assert_eq!(read, 2, "site.toml and the exercise");
}

#[test]
fn a_photo_is_never_taken_from_outside_the_workspace() {
    let outside = tempfile::tempdir().unwrap();
    fs::write(outside.path().join("secret.jpg"), "x").unwrap();
    let root = workspace();
    let media = root.path().join("content/media");
    fs::write(media.join("mine.jpg"), "x").unwrap();
    symlink(outside.path().join("secret.jpg"), media.join("out.jpg")).unwrap();
    symlink(outside.path(), media.join("out")).unwrap();
    symlink("mine.jpg", media.join("same.jpg")).unwrap();
    let texts = read(root.path()).unwrap();
    assert_eq!(texts.attachments.iter().collect::<Vec<_>>(), ["media/mine.jpg", "media/same.jpg"]);
    assert_eq!(unreachable(&texts), ["content/media/out", "content/media/out.jpg"]);
    for name in ["media/out.jpg", "media/out/secret.jpg"] {
        let why = photo(root.path(), name).unwrap_err().to_string();
        assert_eq!(why, "it is a link that leads out of the workspace; copy the file here", "{name}");
        assert!(attachment_hash(root.path(), name).is_err(), "{name}");
        assert!(photo(root.path(), name).is_err(), "{name}");
    }
    assert_eq!(photo(root.path(), "media/same.jpg").unwrap(), b"x");
    assert_eq!(attachment_hash(root.path(), "media/same.jpg").unwrap(), blake3::hash(b"x"));
}

#[test]
fn a_text_is_never_taken_from_outside_the_workspace_and_one_line_tells_of_a_whole_folder() {
    let outside = tempfile::tempdir().unwrap();
    for name in ["one.md", "two.md"] {
        fs::write(outside.path().join(name), "secret").unwrap();
    }
    let root = workspace();
    let content = root.path().join("content");
    symlink(outside.path().join("one.md"), content.join("exercises/one.md")).unwrap();
    symlink(outside.path(), content.join("exercises/more")).unwrap();
    symlink("heel-drop.md", content.join("exercises/same.md")).unwrap();
    fs::create_dir(root.path().join("drafts")).unwrap();
    fs::write(root.path().join("drafts/inside.md"), "text").unwrap();
    symlink("../../drafts", content.join("exercises/drafts")).unwrap();
    let texts = read(root.path()).unwrap();
    assert_eq!(unreachable(&texts), ["content/exercises/more", "content/exercises/one.md"]);
    let why = texts.files.iter().filter_map(|file| match &file.content {
        Content::Unreachable { why } => Some(why.as_str()),
        _ => None,
    });
    let out = "it is a link that leads out of the workspace; copy the";
    assert_eq!(why.collect::<Vec<_>>(), [format!("{out} folder here"), format!("{out} file here")]);
    assert!(texts.sources.iter().all(|(_, source)| !source.text.contains("secret")));
    for inside in ["content/exercises/same.md", "content/exercises/drafts/inside.md"] {
        assert!(texts.sources.iter().any(|(_, s)| s.name == inside && s.text == "text"), "{inside}");
    }
    assert_eq!(read_again(root.path(), "content/exercises/one.md"), None);
}

/// A workspace whose `content/` is a link to a folder elsewhere, and that folder.
fn linked() -> (tempfile::TempDir, tempfile::TempDir) {
    let (root, elsewhere) = (workspace(), tempfile::tempdir().unwrap());
    let texts = elsewhere.path().join("texts");
    fs::rename(root.path().join("content"), &texts).unwrap();
    symlink(&texts, root.path().join("content")).unwrap();
    (root, elsewhere)
}

#[test]
fn content_that_is_a_link_is_read_with_all_that_is_below_it() {
    let (root, elsewhere) = linked();
    let texts = elsewhere.path().join("texts");
    fs::write(texts.join("media/mine.jpg"), "x").unwrap();
    symlink("mine.jpg", texts.join("media/same.jpg")).unwrap();
    fs::write(elsewhere.path().join("beside.jpg"), "secret").unwrap();
    symlink("../../beside.jpg", texts.join("media/beside.jpg")).unwrap();
    let texts = read(root.path()).unwrap();
    assert_eq!(texts.attachments.iter().collect::<Vec<_>>(), ["media/mine.jpg", "media/same.jpg"]);
    assert_eq!(unreachable(&texts), ["content/media/beside.jpg"]);
    assert_eq!(photo(root.path(), "media/mine.jpg").unwrap(), b"x");
    assert!(photo(root.path(), "media/beside.jpg").is_err());
    let again = read_again(root.path(), "content/exercises/heel-drop.md");
    assert_eq!(again, Some(("text".to_string(), Content::Text)));
}

#[test]
fn no_profile_is_reached_by_a_link_to_what_holds_them_all() {
    let (root, elsewhere) = linked();
    fs::create_dir(root.path().join("clients")).unwrap();
    for name in ["quill.md", "quill.jpg"] {
        fs::write(root.path().join("clients").join(name), "Quill").unwrap();
    }
    symlink(root.path(), elsewhere.path().join("texts/all")).unwrap();
    let texts = read(root.path()).unwrap();
    assert!(texts.sources.iter().all(|(_, source)| !source.text.contains("Quill")));
    assert!(unreachable(&texts).contains(&"content/all/clients"), "{:?}", unreachable(&texts));
    assert!(texts.attachments.iter().all(|name| !name.contains("quill")), "{:?}", texts.attachments);
}

#[test]
fn a_workspace_without_a_folder_of_content_is_none() {
    let root = tempfile::tempdir().unwrap();
    fs::write(root.path().join("site.toml"), "title = \"A\"").unwrap();
    let error = read(root.path()).unwrap_err().to_string();
    assert!(error.starts_with("there is no folder content/ in "), "{error}");
    fs::write(root.path().join("content"), "a file").unwrap();
    assert!(matches!(read(root.path()), Err(WorkspaceError::NoContent { .. })));
}

#[test]
fn a_name_that_is_no_text_is_told() {
    let root = workspace();
    let name = std::ffi::OsStr::from_bytes(b"content/exercises/heel\xe9.md");
    fs::write(root.path().join(name), "text").unwrap();
    let texts = read(root.path()).unwrap();
    assert_eq!(texts.files.iter().filter(|f| f.content == Content::NameNotText).count(), 1);
}

/// Whoever opens a pipe waits until somebody writes into it.
#[test]
fn a_pipe_in_the_place_of_a_text_is_said_to_be_none() {
    let root = workspace();
    let site = root.path().join("site.toml");
    fs::remove_file(&site).unwrap();
    assert!(std::process::Command::new("mkfifo").arg(&site).status().unwrap().success());
    assert_eq!(unreachable(&read(root.path()).unwrap()), ["site.toml"]);
}

#[test]
fn a_pipe_anywhere_in_content_is_said_to_be_none() {
    let root = workspace();
    let names = ["content/exercises/toe-taps.md", "content/media/week-07.mp4"];
    for name in names {
        assert!(std::process::Command::new("mkfifo").arg(root.path().join(name)).status().unwrap().success());
    }
    assert_eq!(unreachable(&read(root.path()).unwrap()), names);
    assert!(attachment_hash(root.path(), "media/week-07.mp4").is_err());
}
