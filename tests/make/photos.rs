//! Photos whose names or shapes are unusual are made all the same.

use std::fs;

use image::{ImageFormat, RgbImage};

use crate::workspace::{Workspace, text};

#[test]
fn two_photos_of_one_name_and_two_kinds_are_both_shown() {
    let workspace = Workspace::begun();
    fs::create_dir_all(workspace.path("content/media")).unwrap();
    for (name, format) in [("a.jpg", ImageFormat::Jpeg), ("a.png", ImageFormat::Png)] {
        let path = workspace.path("content/media").join(name);
        RgbImage::new(60, 40).save_with_format(path, format).unwrap();
    }
    let about = fs::read_to_string(workspace.path("content/pages/about.md")).unwrap();
    let pictures = "![A chair](../media/a.jpg)\n\n![A counter](../media/a.png)\n";
    workspace.write("content/pages/about.md", format!("{about}\n{pictures}"));
    let made = workspace.make();
    assert!(made.contains_key("media/a.jpg-60.jpg") && made.contains_key("media/a.png-60.jpg"));
    let page = String::from_utf8_lossy(&made["pages/about.html"]).into_owned();
    assert!(page.contains("media/a.jpg-60.jpg") && page.contains("media/a.png-60.jpg"), "{page}");
}

#[test]
fn a_strip_as_tall_as_a_house_is_shown_on_page_and_sheet() {
    let workspace = Workspace::begun();
    fs::create_dir_all(workspace.path("content/media")).unwrap();
    RgbImage::new(40, 20_000).save(workspace.path("content/media/strip.png")).unwrap();
    let about = fs::read_to_string(workspace.path("content/exercises/tall-sit.md")).unwrap();
    workspace.write("content/exercises/tall-sit.md", format!("{about}\n![A strip](../media/strip.png)\n"));
    let output = workspace.run(&["make", "--draft"]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output));
}
