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
    assert!(texts.files.iter().any(|f| f.kind == Kind::Exercise { id: "heel-drop".into() }));
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
