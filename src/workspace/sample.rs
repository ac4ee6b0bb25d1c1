//! A small, complete workspace that the program holds: `begin` writes it, and tests review it.

use include_dir::{Dir, include_dir};

static SAMPLE: Dir<'static> = include_dir!("$CARGO_MANIFEST_DIR/src/workspace/sample");

/// The day on which the sample's exercises were reviewed, as its files say it.
pub const REVIEWED: &str = "2026-01-05";

/// The Monday on which the sample's series starts, as its files say it.
pub const START: &str = "2026-01-12";

/// The Monday of its second week.
pub const SECOND_WEEK: &str = "2026-01-19";

/// The names and bytes of its files, sorted by name.
pub fn files() -> Vec<(String, Vec<u8>)> {
    let mut files = Vec::new();
    collect(&SAMPLE, &mut files);
    files.sort();
    files
}

/// The text of one of its files.
pub fn text(name: &str) -> Option<&'static str> {
    SAMPLE.get_file(name)?.contents_utf8()
}

fn collect(folder: &Dir<'static>, files: &mut Vec<(String, Vec<u8>)>) {
    for file in folder.files() {
        let parts = file.path().components().map(|c| c.as_os_str().to_string_lossy());
        files.push((parts.collect::<Vec<_>>().join("/"), file.contents().to_vec()));
    }
    folder.dirs().for_each(|dir| collect(dir, files));
}
