//! What is found in entries with slips of the finger, one by one.

use crate::review::testing::review_files;
use crate::workspace::sample;

/// The findings of the sample when `old` in one of its files is `new`: rule, message and marked text.
fn found(file: &str, old: &str, new: &str) -> Vec<String> {
    let text = sample::text(file).unwrap();
    assert!(text.contains(old), "{file} has no {old}");
    let (review, sources) = review_files(&[(file, &text.replacen(old, new, 1))]);
    let show = |f: &crate::model::finding::Finding| {
        format!("{}: {} | {} | {}", f.rule, f.message, f.help, sources.slice(f.span))
    };
    review.findings.iter().map(show).collect()
}

const HEEL_DROP: &str = "content/exercises/heel-drop.md";

#[test]
fn a_caution_for_nobody_is_a_wrong_value() {
    let found = found(HEEL_DROP, "for = [\"spine-fracture\"]", "for = []");
    let expected = "wrong-value: expected `everyone` or at least one precaution, found an empty list";
    assert_eq!(found.len(), 1, "{found:?}");
    assert!(found[0].starts_with(expected) && found[0].ends_with("| []"), "{found:?}");
}

#[test]
fn a_series_that_serves_nobody_is_a_wrong_value() {
    let file = "content/series/first-steps/series.toml";
    let text = sample::text(file).unwrap();
    let start = text.find("serves = [").unwrap();
    let found = found(file, &text[start..], "serves = []\n");
    assert_eq!(found.len(), 1, "{found:?}");
    assert!(found[0].starts_with("wrong-value: expected at least one precaution"), "{found:?}");
    assert!(found[0].contains("low-bone-density"), "{found:?}");
}
