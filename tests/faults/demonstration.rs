//! The demonstration as text, the review of it with some files changed, and what its fields say, read without the
//! program's own reader.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use jiff::civil::Date;
use steadyleaf::edition::{Edition, read_words};
use steadyleaf::model::Model;
use steadyleaf::model::finding::Finding;
use steadyleaf::model::source::Sources;
use steadyleaf::model::words::Words;
use steadyleaf::reckon::approval::fingerprint;
use steadyleaf::workspace::theme::Theme;
use steadyleaf::workspace::{Bytes, Texts};
use toml::{Table, Value};

use crate::edit::fields_of;
use crate::fault::Edits;

pub(crate) struct Demonstration {
    /// Every text by its name.
    pub(crate) texts: BTreeMap<String, String>,
    theme: Arc<Theme>,
    words: Arc<Words>,
    /// Of the exercises, by id.
    fingerprints: BTreeMap<String, String>,
    /// By id.
    pub(crate) exercises: BTreeMap<String, Entry>,
    /// In order of their numbers.
    pub(crate) weeks: Vec<Entry>,
    pub(crate) pages: Vec<Entry>,
    /// The precautions that the series serves.
    pub(crate) serves: Vec<String>,
}

/// One file with the fields it opens with.
#[derive(Clone)]
pub(crate) struct Entry {
    pub(crate) id: String,
    pub(crate) file: String,
    pub(crate) text: String,
    pub(crate) fields: Table,
}

/// A finding, without its place in the file.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Found {
    pub(crate) rule: &'static str,
    pub(crate) file: String,
    pub(crate) message: String,
}

/// The clinic's own mark.
const LOGO: &str = "media/clinic.svg";

pub(crate) const SERIES: &str = "content/series/lantern-hill/series.toml";

impl Demonstration {
    pub(crate) fn read() -> Demonstration {
        let edition = Edition::open(Path::new(env!("CARGO_MANIFEST_DIR")).to_path_buf()).unwrap();
        let theme = Theme::built_in();
        let words = read_words(&theme, "en").unwrap();
        let model = edition.model();
        let fingerprints = model.exercises.iter().map(|(id, e)| (id.clone(), fingerprint(e))).collect();
        let kept = |name: &&String| !name.ends_with(".vtt") && *name != LOGO;
        assert_eq!(model.attachments.iter().find(kept), None, "a photo would have to be kept in memory too");
        let mut texts: BTreeMap<String, String> =
            edition.sources().iter().map(|(_, source)| (source.name.clone(), source.text.clone())).collect();
        // No fault is put into the clinic's mark.
        let settings = texts.get_mut("site.toml").unwrap();
        *settings = settings.replace(&format!("logo = \"{LOGO}\"\n"), "");
        assert!(!settings.contains(LOGO));
        let below = |folder: &str| -> Vec<Entry> {
            let of_folder =
                texts.iter().filter(|(name, _)| name.starts_with(folder) && name.ends_with(".md"));
            of_folder.map(|(name, text)| Entry::of(name, text)).collect()
        };
        let exercises = below("content/exercises/").into_iter().map(|e| (e.id.clone(), e)).collect();
        let mut weeks = below("content/series/");
        weeks.sort_by_key(|week| week.number("week"));
        let pages = below("content/pages/");
        let series: Table = texts[SERIES].parse().unwrap();
        Demonstration {
            theme: Arc::new(theme),
            words: Arc::new(words),
            fingerprints,
            exercises,
            weeks,
            pages,
            serves: texts_of(&series, "serves"),
            texts,
        }
    }

    /// What `approve` would write of an exercise as it stands.
    pub(crate) fn fingerprint(&self, id: &str) -> String {
        self.fingerprints[id].clone()
    }

    /// What the review finds with some files changed.
    pub(crate) fn review(&self, edits: &Edits, today: Date) -> BTreeSet<Found> {
        self.with(edits, today, |_, sources, findings| {
            let file = |file| sources.get(file).name.clone();
            findings
                .into_iter()
                .map(|f| Found { rule: f.rule, file: file(f.span.file), message: f.message })
                .collect()
        })
    }

    /// Looks at the model of the texts with some files changed, and at what the review finds in it.
    pub(crate) fn with<T>(
        &self,
        edits: &Edits,
        today: Date,
        look: impl FnOnce(&Model, &Sources, Vec<Finding>) -> T,
    ) -> T {
        let mut files = self.texts.clone();
        for (name, text) in &edits.files {
            match text {
                Some(text) => files.insert(name.clone(), text.clone()),
                None => files.remove(name),
            };
        }
        let bytes = files.into_iter().map(|(name, text)| (name, Bytes::of(text.into_bytes()))).collect();
        let positions = edits.positions.clone();
        let texts = Texts { positions, ..Texts::sorted(bytes, edits.media.clone()) };
        let (theme, words) = (Arc::clone(&self.theme), Arc::clone(&self.words));
        let edition = Edition::of_texts(PathBuf::new(), texts, theme, words);
        look(edition.model(), edition.sources(), edition.review(today).findings)
    }

    /// Exercises, weeks and pages.
    pub(crate) fn entries(&self) -> impl Iterator<Item = &Entry> {
        self.exercises.values().chain(&self.weeks).chain(&self.pages)
    }

    /// The exercises that the weeks use.
    pub(crate) fn used(&self) -> BTreeSet<String> {
        self.weeks.iter().flat_map(Entry::row_ids).collect()
    }

    /// The exercises that the weeks before that one use, weeks counting from 0.
    pub(crate) fn used_before(&self, week: usize) -> BTreeSet<String> {
        self.weeks[..week].iter().flat_map(Entry::row_ids).collect()
    }

    /// The first week that uses an exercise, from 0.
    pub(crate) fn first_week(&self, id: &str) -> Option<usize> {
        self.weeks.iter().position(|week| week.row_ids().iter().any(|row| row == id))
    }

    pub(crate) fn component(&self, id: &str) -> &str {
        self.exercises[id].text_of("component")
    }

    /// The links that the exercises name, from the easier to the harder one.
    pub(crate) fn links(&self) -> BTreeSet<(String, String)> {
        let mut links = BTreeSet::new();
        for exercise in self.exercises.values() {
            for harder in exercise.tables("progression").iter().filter_map(|t| t.get("exercise")) {
                links.insert((exercise.id.clone(), harder.as_str().unwrap().to_string()));
            }
            for easier in exercise.tables("regression").iter().filter_map(|t| t.get("exercise")) {
                links.insert((easier.as_str().unwrap().to_string(), exercise.id.clone()));
            }
        }
        links
    }
}

/// Every exercise from which such links lead up to that one, however many rungs down.
pub(crate) fn below(links: &BTreeSet<(String, String)>, id: &str) -> BTreeSet<String> {
    let mut below = BTreeSet::new();
    let mut open = vec![id.to_string()];
    while let Some(upper) = open.pop() {
        for (easier, _) in links.iter().filter(|(_, harder)| *harder == upper) {
            if below.insert(easier.clone()) {
                open.push(easier.clone());
            }
        }
    }
    below
}

impl Entry {
    fn of(file: &str, text: &str) -> Entry {
        let id = file.rsplit('/').next().unwrap().trim_end_matches(".md").to_string();
        Entry { id, file: file.to_string(), text: text.to_string(), fields: fields_of(text) }
    }

    pub(crate) fn text_of(&self, field: &str) -> &str {
        self.fields[field].as_str().unwrap()
    }

    pub(crate) fn number(&self, field: &str) -> i64 {
        self.fields[field].as_integer().unwrap()
    }

    pub(crate) fn dose(&self) -> &Table {
        self.fields["dose"].as_table().unwrap()
    }

    /// The demands it makes, as they are written.
    pub(crate) fn demands(&self) -> Vec<String> {
        texts_of(&self.fields, "demands")
    }

    /// The tables of an array, such as its variations.
    pub(crate) fn tables(&self, field: &str) -> Vec<&Table> {
        tables_of(&self.fields, field)
    }

    /// The exercises of a week.
    pub(crate) fn rows(&self) -> Vec<&Table> {
        self.tables("exercises")
    }

    pub(crate) fn row_ids(&self) -> Vec<String> {
        self.rows().iter().map(|row| row["id"].as_str().unwrap().to_string()).collect()
    }
}

/// The tables of an array.
pub(crate) fn tables_of<'t>(fields: &'t Table, field: &str) -> Vec<&'t Table> {
    let list = fields.get(field).and_then(Value::as_array);
    list.into_iter().flatten().filter_map(Value::as_table).collect()
}

/// The texts of a list.
pub(crate) fn texts_of(fields: &Table, field: &str) -> Vec<String> {
    let list = fields.get(field).and_then(Value::as_array);
    list.into_iter().flatten().filter_map(Value::as_str).map(str::to_string).collect()
}
