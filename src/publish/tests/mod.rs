//! Tests of publishing, on real folders.

mod allowed;
mod begun;
mod earlier;
mod fresh;
mod keeper;
mod killed;
mod places;
mod private;
mod replace;
mod shelf;
mod staging;
mod store;
mod swap;

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use blake3::Hash;
use tempfile::TempDir;
use walkdir::WalkDir;

use super::{MANIFEST, Published, Staging, open};

/// The files of a site, by path.
type Site = BTreeMap<String, String>;

fn workspace() -> TempDir {
    tempfile::tempdir().unwrap()
}

fn site(files: &[(&str, &str)]) -> Site {
    let own = |(path, text): &(&str, &str)| ((*path).to_owned(), (*text).to_owned());
    files.iter().map(own).collect()
}

fn old_site() -> Site {
    site(&[
        ("index.html", "old index"),
        ("exercises/heel-drop/index.html", "heel drop"),
        ("series/gone.html", "gone"),
    ])
}

fn new_site() -> Site {
    site(&[
        ("index.html", "new index"),
        ("exercises/heel-drop/index.html", "heel drop"),
        ("exercises/wall-slide/index.html", "wall slide"),
    ])
}

fn fingerprint(site: &Site) -> Hash {
    blake3::hash(format!("{site:?}").as_bytes())
}

fn staged(root: &Path, site: &Site) -> Staging {
    let staging = open(root).unwrap().stage().unwrap();
    for (path, text) in site {
        staging.put(path, text.as_bytes()).unwrap();
    }
    staging
}

fn publish(root: &Path, site: &Site) -> Published {
    staged(root, site).publish(&fingerprint(site), None).unwrap()
}

/// What is in the output folder, the manifest apart.
fn ready(root: &Path) -> Site {
    read(&root.join("ready"))
}

fn read(folder: &Path) -> Site {
    let mut site = Site::new();
    for entry in WalkDir::new(folder) {
        let entry = entry.unwrap();
        let path = entry.path().strip_prefix(folder).unwrap();
        if entry.file_type().is_file() && path != Path::new(MANIFEST) {
            let text = fs::read_to_string(entry.path()).unwrap();
            site.insert(path.to_str().unwrap().replace('\\', "/"), text);
        }
    }
    site
}

/// The names in the workspace.
fn names(root: &Path) -> Vec<String> {
    let mut names: Vec<_> =
        fs::read_dir(root).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    names
}
