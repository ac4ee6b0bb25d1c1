//! A large workspace: the demonstration's own entries, many times under other ids, with their figures, captions and links.

use std::fs;
use std::path::{Path, PathBuf};

/// The workspace at the root of the repository.
pub(crate) fn demonstration() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// How often the demonstration is taken: 5,014 exercises and 1,308 weeks.
pub(crate) const MANY: usize = 109;

/// Writes a workspace that has the demonstration so many times: the first with the ids that it has, each other with ids and
/// a series of its own. Free pages, references and settings stand there once.
pub(crate) fn generate(root: &Path, times: usize) {
    let from = demonstration();
    let write = |path: PathBuf, text: &str| {
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    };
    let read = |path: &Path| fs::read_to_string(path).unwrap();
    write(root.join("site.toml"), &read(&from.join("site.toml")));
    let content = from.join("content");
    write(root.join("content/references.bib"), &read(&content.join("references.bib")));
    // The mark of the clinic.
    fs::create_dir_all(root.join("content/media")).unwrap();
    for file in files(&content.join("media")) {
        fs::copy(&file, root.join("content/media").join(file.file_name().unwrap())).unwrap();
    }
    for page in files(&content.join("pages")) {
        write(root.join("content/pages").join(page.file_name().unwrap()), &read(&page));
    }
    let exercises: Vec<(String, String)> =
        files(&content.join("exercises")).iter().map(|path| (stem(path), read(path))).collect();
    let ids: Vec<&str> = exercises.iter().map(|(id, _)| id.as_str()).collect();
    let series = content.join("series/lantern-hill");
    let weeks: Vec<(PathBuf, String)> = ["", "captions"]
        .iter()
        .flat_map(|folder| files(&series.join(folder)))
        .map(|path| (path.strip_prefix(&series).unwrap().to_path_buf(), read(&path)))
        .collect();
    for time in 0..times {
        let ending = if time == 0 { String::new() } else { format!("-{time:03}") };
        for (id, text) in &exercises {
            write(root.join(format!("content/exercises/{id}{ending}.md")), &renamed(text, &ids, &ending));
        }
        let folder = root.join(format!("content/series/lantern-hill{ending}"));
        for (name, text) in &weeks {
            write(folder.join(name), &renamed(text, &ids, &ending));
        }
    }
}

/// An entry with another ending for each id that it names, as a field's word or in a link.
fn renamed(text: &str, ids: &[&str], ending: &str) -> String {
    let mut text = text.to_string();
    if ending.is_empty() {
        return text;
    }
    for id in ids {
        text = text.replace(&format!("\"{id}\""), &format!("\"{id}{ending}\""));
        for before in ["(", "/"] {
            text = text.replace(&format!("{before}{id}.md"), &format!("{before}{id}{ending}.md"));
        }
    }
    text
}

/// The files of a folder, in order of their names.
fn files(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let mut files: Vec<PathBuf> = entries.filter(|path| path.is_file()).collect();
    files.sort();
    files
}

fn stem(path: &Path) -> String {
    path.file_stem().unwrap().to_str().unwrap().to_string()
}
