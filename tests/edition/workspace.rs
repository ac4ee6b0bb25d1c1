//! A workspace that is made again after each edit, and beside it one that is made from nothing.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};

use jiff::civil::date;
use steadyleaf::edition::{Edition, Progress, SiteFacts, Stage};
use steadyleaf::publish;
use steadyleaf::workspace::{attachment_hash, sample};

use super::edit::Random;

pub(crate) type Tree = BTreeMap<String, Vec<u8>>;

/// A number from the environment.
pub(crate) fn from_environment(name: &str) -> Option<usize> {
    std::env::var(name).ok()?.parse().ok()
}

/// The two folders, and on which day they are made.
pub(crate) struct Pair {
    edited: tempfile::TempDir,
    fresh: tempfile::TempDir,
    pub(crate) facts: SiteFacts,
}

/// What making the edited workspace came to.
#[derive(Debug, Default)]
pub(crate) struct Counts {
    pub(crate) made: usize,
    pub(crate) kept: usize,
    /// Files that were not there before, or with other bytes.
    pub(crate) written: Vec<String>,
}

struct Steps(AtomicUsize);

impl Progress for Steps {
    fn begin(&self, _: Stage, _: usize) {}

    fn step(&self) {
        self.0.fetch_add(1, Ordering::Relaxed);
    }

    fn end(&self) {}
}

impl Pair {
    /// The sample with so many copies of each of its exercises, linked at random.
    pub(crate) fn begun(copies: usize, random: &mut Random) -> Pair {
        let facts = SiteFacts { today: date(2026, 1, 19), draft: true, program: blake3::hash(b"a program") };
        let pair = Pair { edited: tempfile::tempdir().unwrap(), fresh: tempfile::tempdir().unwrap(), facts };
        for (name, bytes) in sample::files() {
            write(pair.root(), &name, &bytes);
        }
        pair.replace("site.toml", "sizes = [18, 24]", "sizes = [18]");
        pair.replace("site.toml", "papers = [\"a4\", \"letter\"]", "papers = [\"a4\"]");
        let exercises = files(&pair.root().join("content/exercises"));
        for copy in 1..=copies {
            for (name, bytes) in &exercises {
                let text = String::from_utf8(bytes.clone()).unwrap();
                let text = text.replacen("title = \"", &format!("title = \"Copy {copy}: "), 1);
                let to = &exercises.keys().nth(random.below(exercises.len())).unwrap()[..];
                let to = to.trim_end_matches(".md");
                let text =
                    text.replacen("[dose]", &format!("[[progression]]\nexercise = \"{to}\"\n\n[dose]"), 1);
                let name = format!("content/exercises/{}-{copy}.md", name.trim_end_matches(".md"));
                write(pair.root(), &name, text.as_bytes());
            }
        }
        pair
    }

    pub(crate) fn root(&self) -> &Path {
        self.edited.path()
    }

    /// Writes other words into a file.
    pub(crate) fn replace(&self, name: &str, from: &str, to: &str) {
        let text = fs::read_to_string(self.root().join(name)).unwrap();
        assert!(text.contains(from), "{name} has no {from}");
        write(self.root(), name, text.replacen(from, to, 1).as_bytes());
    }

    /// Makes both, and looks whether they are the same.
    pub(crate) fn compare(&self, told: &str) -> Counts {
        let before = files(&self.root().join("ready"));
        let counts = make(self.root(), self.facts);
        let fresh = self.fresh.path();
        // The sheets may stay: they lie under what they say.
        for name in ["content", "themes", "ready"] {
            let _ = fs::remove_dir_all(fresh.join(name));
        }
        let _ = fs::remove_file(fresh.join(".ready-sheets/site.record"));
        for (name, bytes) in files(self.root()) {
            if !name.starts_with(".ready") && !name.starts_with("ready/") {
                write(fresh, &name, &bytes);
            }
        }
        let whole = make(fresh, self.facts);
        match (counts, whole) {
            (Ok(mut counts), Ok(whole)) => {
                assert_eq!(whole.kept, 0, "{told}");
                let (one, other) = (files(&self.root().join("ready")), files(&fresh.join("ready")));
                let names = |tree: &Tree| tree.keys().cloned().collect::<Vec<_>>();
                assert_eq!(names(&one), names(&other), "{told}");
                for (name, bytes) in &one {
                    // It says what the site was made from, and nothing else.
                    assert!(*bytes == other[name], "{name} differs, {told}");
                }
                counts.written = one
                    .iter()
                    .filter(|(name, b)| before.get(*name) != Some(b))
                    .map(|(n, _)| n.clone())
                    .collect();
                counts
            }
            (Err(one), Err(other)) => {
                assert_eq!(one, other, "{told}");
                Counts::default()
            }
            (one, other) => panic!("{told}: {:?} {:?}", one.err(), other.err()),
        }
    }
}

/// Opens, makes and publishes, as `make --draft` does. The findings of finished pages are part of what is compared.
fn make(root: &Path, facts: SiteFacts) -> Result<Counts, String> {
    let edition = Edition::open(root.to_path_buf()).map_err(|e| e.to_string())?;
    let attachments: BTreeMap<_, _> = edition
        .attachments()
        .into_iter()
        .map(|name| Ok((name.clone(), attachment_hash(root, &name).map_err(|e| e.to_string())?)))
        .collect::<Result<_, String>>()?;
    let fingerprint = edition.fingerprint(&facts, &attachments);
    let shelf = publish::open(root).map_err(|e| e.to_string())?;
    let store = shelf.store();
    let staging = shelf.stage().map_err(|e| e.to_string())?;
    let steps = Steps(AtomicUsize::new(0));
    let finished =
        edition.make_site(facts, &attachments, &staging, &store, &steps).map_err(|e| e.to_string())?;
    let mut findings: Vec<String> = finished
        .findings
        .iter()
        .map(|f| format!("{} {:?} {}", f.rule, edition.sources().positions(f.span), f.message))
        .collect();
    findings.sort();
    staging
        .publish(&fingerprint, finished.record.map(|made_from| publish::Left { from: None, made_from }))
        .map_err(|e| e.to_string())?;
    write(root, "ready/../.ready-found", findings.join("\n").as_bytes());
    let found = fs::rename(root.join(".ready-found"), root.join("found.txt"));
    found.map_err(|e| e.to_string())?;
    let all = steps.0.into_inner();
    Ok(Counts { made: finished.made, kept: all - finished.made, written: Vec::new() })
}

fn write(root: &Path, name: &str, bytes: &[u8]) {
    let path = root.join(name);
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    fs::write(path, bytes).unwrap();
}

/// The files below a folder, by their paths in it.
pub(crate) fn files(folder: &Path) -> Tree {
    let mut tree = Tree::new();
    let mut open: Vec<PathBuf> = vec![folder.to_path_buf()];
    while let Some(next) = open.pop() {
        let Ok(list) = fs::read_dir(&next) else { continue };
        for item in list.map(|item| item.unwrap()) {
            match item.file_type().unwrap().is_dir() {
                true => open.push(item.path()),
                false => {
                    let name = item.path().strip_prefix(folder).unwrap().to_str().unwrap().to_string();
                    tree.insert(name, fs::read(item.path()).unwrap());
                }
            }
        }
    }
    tree
}
