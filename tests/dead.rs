//! Nothing public in the library stands unused. The compiler tells of dead code where nobody outside could use it, but tests,
//! benches and the harness in `tests/fuzz` need open rooms. So the compiler is asked about a copy of the sources whose rooms
//! are closed, all but the command line.
#![expect(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "a test that looks at the sources themselves, and that has failed when it cannot go on"
)]

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::Command;

use serde_json::Value;

/// What the program's own `main` calls.
const OPEN: &str = "pub mod cli;";

/// What only tests, benches or the harness use: the file and the name of each.
const FOR_TESTS: [(&str, &str); 15] = [
    // Whole workspaces, pages and texts in memory.
    ("src/edition/open.rs", "of_texts"),
    ("src/edition/mod.rs", "found_while_reading"),
    ("src/edition/mod.rs", "into_parts"),
    // What they compare with other programs.
    ("src/pages/markdown.rs", "render_plain"),
    ("src/reckon/readability/mod.rs", "count"),
    ("src/reckon/readability/spoken.rs", "each_spoken"),
    // The examples of rules.
    ("src/review/rule.rs", "other_file"),
    ("src/review/rule.rs", "drawn"),
    // What became of something.
    ("src/edition/make.rs", "made"),
    ("src/model/captions.rs", "sound"),
    ("src/print/mod.rs", "absent"),
    ("src/print/mod.rs", "said"),
    ("src/text/tellings.rs", "list"),
    // What is measured without us.
    ("src/pages/mod.rs", "templates"),
    ("src/print/mod.rs", "world"),
];

#[test]
fn nothing_public_stands_unused() {
    let copy = Path::new(env!("CARGO_TARGET_TMPDIR")).join("closed");
    close(Path::new(env!("CARGO_MANIFEST_DIR")), &copy);
    let found = unused(&copy);
    let is_for_tests = |(file, name): &(String, String)| FOR_TESTS.contains(&(file.as_str(), name.as_str()));
    let dead: Vec<_> = found.iter().filter(|(item, _)| !is_for_tests(item)).collect();
    assert!(dead.is_empty(), "nobody uses {dead:#?}");
    let used: Vec<_> = FOR_TESTS
        .iter()
        .filter(|(file, name)| !found.contains_key(&(file.to_string(), name.to_string())))
        .collect();
    assert!(used.is_empty(), "the library uses {used:#?}, which are no longer for tests alone");
}

/// Copies what the library is built from, with its rooms closed.
fn close(root: &Path, copy: &Path) {
    // Of an earlier run.
    let _ = fs::remove_dir_all(copy);
    for folder in ["src", "themes", "benches", "tests/fuzz"] {
        copy_folder(&root.join(folder), &copy.join(folder));
    }
    for file in ["Cargo.toml", "Cargo.lock"] {
        fs::copy(root.join(file), copy.join(file)).unwrap();
    }
    // With a test, libraries have the features that they have in tests, and need not be built once more.
    fs::write(copy.join("tests/none.rs"), "").unwrap();
    let lib = fs::read_to_string(root.join("src/lib.rs")).unwrap();
    let first = lib.find("pub mod ").unwrap();
    let closed = lib[first..].replace("pub mod ", "mod ").replace(&OPEN["pub ".len()..], OPEN);
    assert!(closed.contains(OPEN));
    fs::write(copy.join("src/lib.rs"), format!("{}#![allow(unreachable_pub)]\n{closed}", &lib[..first]))
        .unwrap();
}

fn copy_folder(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap().map(Result::unwrap) {
        let to = to.join(entry.file_name());
        if entry.file_type().unwrap().is_dir() {
            copy_folder(&entry.path(), &to);
        } else {
            fs::copy(entry.path(), to).unwrap();
        }
    }
}

/// What the compiler calls dead, by its file and its name, each with what it says of it.
fn unused(package: &Path) -> BTreeMap<(String, String), String> {
    let target = Path::new(env!("CARGO_TARGET_TMPDIR")).parent().unwrap();
    let output = Command::new(env!("CARGO"))
        .args(["check", "--offline", "--locked", "--lib", "--test", "none", "--message-format", "json"])
        .arg("--target-dir")
        .arg(target)
        .current_dir(package)
        .output()
        .unwrap();
    let messages: Vec<Value> = output
        .stdout
        .split(|byte| *byte == b'\n')
        .filter(|line| !line.is_empty())
        .map(|line| serde_json::from_slice::<Value>(line).unwrap()["message"].take())
        .collect();
    let errors = messages.iter().filter(|message| message["level"] == "error");
    let told: Vec<&str> = errors.filter_map(|message| message["rendered"].as_str()).collect();
    assert!(output.status.success(), "{}{}", String::from_utf8_lossy(&output.stderr), told.concat());
    let mut unused = BTreeMap::new();
    for message in &messages {
        if message["code"]["code"] != "dead_code" {
            continue;
        }
        for span in message["spans"].as_array().unwrap().iter().filter(|span| span["is_primary"] == true) {
            let text: Vec<char> = span["text"][0]["text"].as_str().unwrap().chars().collect();
            let from = span["column_start"].as_u64().unwrap() as usize - 1;
            let name = text[from..].iter().take_while(|c| c.is_alphanumeric() || **c == '_').collect();
            let file = span["file_name"].as_str().unwrap().to_string();
            unused.insert((file, name), format!("line {}: {}", span["line_start"], message["message"]));
        }
    }
    unused
}
