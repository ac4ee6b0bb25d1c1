//! What stands on the disk: links, pipes, files of the author's own where the program writes.

use std::fs::{self, File};
use std::os::unix::fs::symlink;
use std::process::{Command, Output};

use crate::workspace::{Workspace, text};

/// Runs `make`, which must end so and say all of these.
fn ends_with(workspace: &Workspace, code: i32, said: &[&str]) {
    let output: Output = workspace.run(&["make"]);
    assert_eq!(output.status.code(), Some(code), "{}", text(&output));
    // A report is wrapped at the width of the terminal.
    let plain = text(&output).replace('\n', " ");
    let plain = plain.split_whitespace().filter(|word| *word != "│").collect::<Vec<_>>().join(" ");
    for words in said {
        assert!(plain.contains(words), "`{words}` is not in:\n{}", text(&output));
    }
}

#[test]
fn a_text_that_a_link_leads_out_to_stops_the_site() {
    let workspace = Workspace::begun();
    let outside = tempfile::tempdir().unwrap();
    let secret = outside.path().join("secret.md");
    fs::copy(workspace.path("content/exercises/heel-drop.md"), &secret).unwrap();
    symlink(&secret, workspace.path("content/exercises/secret.md")).unwrap();
    ends_with(&workspace, 1, &["content/exercises/secret.md", "leads out of the workspace"]);
    assert!(!workspace.path("ready").exists());
}

#[test]
fn a_workspace_whose_content_is_a_link_gives_the_same_site() {
    let workspace = Workspace::begun();
    let before = workspace.make();
    fs::remove_dir_all(workspace.path("ready")).unwrap();
    let elsewhere = tempfile::tempdir().unwrap();
    let texts = elsewhere.path().join("texts");
    fs::rename(workspace.path("content"), &texts).unwrap();
    symlink(&texts, workspace.path("content")).unwrap();
    assert!(workspace.make() == before, "another site");
}

#[test]
fn a_file_of_the_theme_that_is_not_read_is_told() {
    let workspace = Workspace::begun();
    let style = workspace.path("themes/wideleaf/style");
    fs::create_dir_all(&style).unwrap();
    let outside = tempfile::tempdir().unwrap();
    fs::write(outside.path().join("text.css"), "p { color: red }").unwrap();
    symlink(outside.path().join("text.css"), style.join("text.css")).unwrap();
    ends_with(
        &workspace,
        1,
        &["wrong-value", "themes/wideleaf/style/text.css", "leads out of the workspace"],
    );
    fs::remove_file(style.join("text.css")).unwrap();
    fs::write(style.join("text.css"), "p { margin: 0; }\nh1 {\n  margin: 0;\n").unwrap();
    ends_with(
        &workspace,
        1,
        &["broken-style", "themes/wideleaf/style/text.css:2:4", "this block is not closed"],
    );
    File::create(style.join("text.css")).unwrap().set_len(3_000_000_000).unwrap();
    ends_with(&workspace, 1, &["beyond-limit", "themes/wideleaf/style/text.css", "at most 20 MB"]);
}

/// Whoever opens a pipe waits until somebody reads from it.
#[test]
fn a_pipe_in_the_place_of_the_lock_ends_with_3() {
    let workspace = Workspace::begun();
    assert!(Command::new("mkfifo").arg(workspace.path(".ready-lock")).status().unwrap().success());
    ends_with(&workspace, 3, &[".ready-lock` is a device", "run again"]);
}

#[test]
fn a_folder_with_the_name_of_the_staged_site_is_left_alone() {
    let workspace = Workspace::begun();
    let before = workspace.make();
    workspace.write(".ready-new/mine.txt", "mine");
    workspace.edit("site.toml", "title = \"", "title = \"New ");
    ends_with(&workspace, 3, &[".ready-new", "mine.txt"]);
    assert_eq!(fs::read(workspace.path(".ready-new/mine.txt")).unwrap(), b"mine");
    assert!(workspace.ready() == before, "ready/ has changed");
}

#[test]
fn hidden_files_in_ready_go_only_where_a_file_browser_left_them_and_that_is_said() {
    let workspace = Workspace::begun();
    workspace.make();
    workspace.write("ready/._x", "x");
    workspace.edit("site.toml", "title = \"", "title = \"New ");
    ends_with(&workspace, 0, &["1 file of your computer's file browser was not kept: ready/._x."]);
    for name in ["._1", ".DS_Store", "exercises/Thumbs.db", "desktop.ini"] {
        workspace.write(&format!("ready/{name}"), "x");
    }
    workspace.edit("site.toml", "title = \"", "title = \"Very ");
    let told = "4 files of your computer's file browser were not kept";
    let named = "ready/.DS_Store, ready/._1, ready/desktop.ini and 1 more.";
    ends_with(&workspace, 0, &[&format!("{told}: {named}")]);
    workspace.write("ready/.mine", "mine");
    workspace.edit("site.toml", "title = \"", "title = \"Quite ");
    ends_with(&workspace, 3, &["`.mine`"]);
    assert_eq!(fs::read(workspace.path("ready/.mine")).unwrap(), b"mine");
}
