//! The review as SARIF, with every kind of finding: the bad example of each rule's manual, laid over the sample.
//!
//! With `STEADYLEAF_SARIF` the logs are kept in that folder, one for each rule, for a check against the schema of the
//! standard; `tests/all` does so.
#![expect(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "tests look at the disk themselves, and a test that cannot go on has failed"
)]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use serde_json::Value;
use steadyleaf::review::rule::{Check, Rule};
use steadyleaf::review::rules;
use steadyleaf::workspace::sample;

/// The day that the examples of the rules reckon with, five days after the sample was reviewed.
const TODAY: &str = "2026-01-10";

/// A video of the examples that says where it was filmed: `moov/udta/©xyz` of the QuickTime File Format alone, with a place
/// in the ocean.
const FILMED: &[u8] = b"\0\0\0\x2emoov\0\0\0\x26udta\0\0\0\x1e\xa9xyz\0\x12\x15\xc7+10.0000-030.0000/";

#[test]
fn every_kind_of_finding_is_in_a_log_at_its_place() {
    let kept = std::env::var_os("STEADYLEAF_SARIF").map(PathBuf::from);
    for rule in rules::ALL.iter().filter(|rule| !is_found_later(rule)) {
        let folder = tempfile::tempdir().unwrap();
        lay_out(folder.path(), rule);
        let output = Command::new(env!("CARGO_BIN_EXE_steadyleaf"))
            .args(["review", "--format", "sarif", "--today", TODAY, "--workspace"])
            .arg(folder.path())
            .output()
            .unwrap();
        let log: Value = serde_json::from_slice(&output.stdout)
            .unwrap_or_else(|e| panic!("{}: {e}: {}", rule.name, String::from_utf8_lossy(&output.stderr)));
        let run = &log["runs"][0];
        let results = run["results"].as_array().unwrap();
        let result = results.iter().find(|result| result["ruleId"] == rule.name);
        let result = result.unwrap_or_else(|| panic!("no `{}` in {log:#}", rule.name));
        let index = usize::try_from(result["ruleIndex"].as_u64().unwrap()).unwrap();
        assert_eq!(run["tool"]["driver"]["rules"][index]["id"], rule.name);
        let place = &result["locations"][0]["physicalLocation"];
        assert_eq!(place["artifactLocation"]["uri"], rule.bad.file, "{}", rule.name);
        assert_eq!(place["region"]["startLine"], expected_line(rule), "{}", rule.name);
        if let Some(kept) = &kept {
            fs::create_dir_all(kept).unwrap();
            fs::write(kept.join(format!("{}.sarif", rule.name)), &output.stdout).unwrap();
        }
    }
}

/// Found only on finished pages and sheets, which `review` does not make.
fn is_found_later(rule: &Rule) -> bool {
    matches!(rule.check, Check::Pages | Check::Sheets(_))
}

/// The sample with a rule's bad example over it.
fn lay_out(root: &Path, rule: &Rule) {
    let put = |name: &str, bytes: &[u8]| {
        fs::create_dir_all(root.join(name).parent().unwrap()).unwrap();
        fs::write(root.join(name), bytes).unwrap();
    };
    sample::files().iter().for_each(|(name, bytes)| put(name, bytes));
    put("content/media/clinic.jpg", b"");
    put("content/media/as-filmed.mp4", FILMED);
    let text: String =
        rule.bad.drawn().lines().filter(|line| !is_drawn(line)).map(|line| format!("{line}\n")).collect();
    put(rule.bad.file, text.as_bytes());
    if let Some((name, text)) = rule.bad.other_file() {
        put(name, text.as_bytes());
    }
}

/// A line of carets draws the finding of the line above it.
fn is_drawn(line: &str) -> bool {
    line.trim_start().starts_with('^')
}

fn expected_line(rule: &Rule) -> usize {
    let drawn = rule.bad.drawn();
    drawn.lines().take_while(|line| !is_drawn(line)).count()
}
