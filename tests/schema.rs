//! `steadyleaf schema`: the demonstration and the sample of `begin` pass the schemas as they are printed.
#![expect(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "a test reads files itself, and has failed when it cannot go on"
)]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use serde_json::Value as Json;
use toml::Value;

fn steadyleaf(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_steadyleaf")).args(arguments).output().unwrap()
}

/// The printed schema of a kind, ready to look at fields.
struct Validator {
    schemas: boon::Schemas,
    index: boon::SchemaIndex,
}

impl Validator {
    fn printed(kind: &str) -> Validator {
        let output = steadyleaf(&["schema", kind]);
        assert_eq!(output.status.code(), Some(0), "{kind}");
        let schema: Json = serde_json::from_slice(&output.stdout).unwrap();
        assert_eq!(schema["$schema"], "https://json-schema.org/draft/2020-12/schema", "{kind}");
        assert_eq!(schema.get("$id"), None, "{kind}");
        let mut compiler = boon::Compiler::new();
        compiler.enable_format_assertions();
        compiler.add_resource("file:///schema.json", schema).unwrap();
        let mut schemas = boon::Schemas::new();
        let index = compiler.compile("file:///schema.json", &mut schemas).unwrap();
        Validator { schemas, index }
    }

    /// Looks at the fields of a file, which stand in its opening block or are the whole of it.
    fn complaint(&self, path: &Path) -> Option<String> {
        let text = fs::read_to_string(path).unwrap();
        let fields = match text.strip_prefix("```toml\n") {
            Some(opened) => opened.split_once("\n```\n").unwrap().0,
            None => &text,
        };
        let fields = json(&Value::Table(fields.parse().unwrap()));
        self.schemas.validate(&fields, self.index).err().map(|e| format!("{e:#}"))
    }
}

/// TOML as JSON, dates as texts.
fn json(value: &Value) -> Json {
    match value {
        Value::Datetime(date) => date.to_string().into(),
        Value::Array(list) => list.iter().map(json).collect(),
        Value::Table(table) => table.iter().map(|(key, value)| (key.clone(), json(value))).collect(),
        plain => serde_json::to_value(plain).unwrap(),
    }
}

/// Files of a folder and the folders below it whose names begin and end like this.
fn files(folder: &Path, begins: &str, ends: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for item in fs::read_dir(folder).unwrap() {
        let path = item.unwrap().path();
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        if path.is_dir() {
            found.extend(files(&path, begins, ends));
        } else if name.starts_with(begins) && name.ends_with(ends) {
            found.push(path);
        }
    }
    found
}

/// How many files of a workspace passed, all of them.
fn pass(root: &Path) -> usize {
    let content = root.join("content");
    let kinds = [
        ("site", vec![root.join("site.toml")]),
        ("series", files(&content.join("series"), "series", ".toml")),
        ("exercise", files(&content.join("exercises"), "", ".md")),
        ("week", files(&content.join("series"), "week-", ".md")),
        ("page", files(&content.join("pages"), "", ".md")),
    ];
    let mut passed = 0;
    for (kind, files) in kinds {
        let validator = Validator::printed(kind);
        assert!(!files.is_empty(), "{kind}");
        for file in files {
            assert_eq!(validator.complaint(&file), None, "{}", file.display());
            passed += 1;
        }
    }
    passed
}

#[test]
fn the_demonstration_passes() {
    assert!(pass(Path::new(env!("CARGO_MANIFEST_DIR"))) > 40);
}

#[test]
fn a_new_workspace_passes_and_an_added_exercise_does_once_its_blanks_are_filled() {
    let folder = tempfile::tempdir().unwrap();
    let root = folder.path().join("mine");
    let root_text = root.to_str().unwrap();
    assert_eq!(steadyleaf(&["begin", root_text]).status.code(), Some(0));
    pass(&root);
    let add = ["add", "exercise", "Heel lift", "--component", "power", "--workspace", root_text];
    assert_eq!(steadyleaf(&add).status.code(), Some(0));
    let added = root.join("content/exercises/heel-lift.md");
    let validator = Validator::printed("exercise");
    assert!(validator.complaint(&added).is_some());
    let text = fs::read_to_string(&added).unwrap();
    let filled = text
        .replace("position = \"\"", "position = \"standing\"")
        .replace("base = \"\"", "base = \"standing\"")
        .replace("demands = [\"\"]", "demands = []")
        .replace("reps = \"\"", "reps = \"8-12\"")
        .replace("days = \"\"", "days = 3")
        .replace("steps = [\"\", \"\"]", "steps = [\"Sit tall.\", \"Lift your heels.\"]")
        .replace("= \"\"", "= \"Slowly.\"");
    fs::write(&added, filled).unwrap();
    assert_eq!(validator.complaint(&added), None);
}

#[test]
fn a_profile_passes_and_one_with_a_slip_does_not() {
    let folder = tempfile::tempdir().unwrap();
    let profile = folder.path().join("j.toml");
    let validator = Validator::printed("client");
    fs::write(&profile, "name = \"J. K.\"\nprecautions = [\"unsteady\"]\ndays = [\"monday\"]\nsize = 24\n")
        .unwrap();
    assert_eq!(validator.complaint(&profile), None);
    fs::write(&profile, "name = \"J. K.\"\nprecautions = [\"unsteady\"]\nsize = 20\n").unwrap();
    assert!(validator.complaint(&profile).unwrap().contains("/size"));
}

#[test]
fn without_a_kind_they_are_listed_and_another_word_is_refused() {
    let listed = String::from_utf8(steadyleaf(&["schema"]).stdout).unwrap();
    let kinds: Vec<&str> = listed.lines().filter_map(|line| line.split_whitespace().next()).collect();
    assert_eq!(kinds, ["site", "series", "exercise", "week", "page", "client", "practice"]);
    let refused = steadyleaf(&["schema", "exercices"]);
    assert_eq!(refused.status.code(), Some(2));
    let told = String::from_utf8(refused.stderr).unwrap();
    assert!(kinds.iter().all(|kind| told.contains(kind)), "{told}");
}
