//! People's profiles: what is read of a good one, and that a slip leaves nothing of it.

use std::fmt::Write;

use proptest::collection::vec;
use proptest::prelude::*;

use crate::entry::read_client;
use crate::model::catalogue::Catalogue;
use crate::model::client::Client;
use crate::model::source::{FileId, Source, Spanned};
use crate::model::vocabulary::{Day, Paper};

const WHOLE: &str = r#"name = "J. M."
precautions = ["spine-fracture", "unsteady"]
days = ["friday", "monday", "friday", "wednesday"]
minutes = 20
equipment = ["a sturdy chair", "a light band"]
size = 24
paper = "a4"
language = "es"
note = "Rests after each set."
"#;

/// The profile, and its findings as `rule line:column message | help`.
fn read(text: &str) -> (Option<Client>, Vec<String>) {
    let (client, findings) = read_client(text, FileId(0), &Catalogue::built_in());
    let source = Source::new("clients/j.toml".to_string(), text.to_string());
    let line = |f: &crate::model::finding::Finding| {
        let at = source.position(f.span.start as usize);
        format!("{} {}:{} {} | {}", f.rule, at.line, at.column, f.message, f.help)
    };
    (client, findings.iter().map(line).collect())
}

/// The findings of the whole profile when `old` in it is `new`.
fn with(old: &str, new: &str) -> (Option<Client>, Vec<String>) {
    assert_eq!(WHOLE.matches(old).count(), 1, "times that this stands in the profile: {old}");
    read(&WHOLE.replace(old, new))
}

fn values<T: Clone>(list: &[Spanned<T>]) -> Vec<T> {
    list.iter().map(|item| item.value.clone()).collect()
}

#[test]
fn every_field_of_a_profile_is_read() {
    let (client, findings) = read(WHOLE);
    assert_eq!(findings, [""; 0]);
    let client = client.unwrap();
    assert_eq!(client.name.value, "J. M.");
    assert_eq!(client.precautions(), ["spine-fracture", "unsteady"]);
    assert_eq!(values(&client.days), [Day::Monday, Day::Wednesday, Day::Friday]);
    assert_eq!(client.minutes.unwrap().value, 20);
    assert_eq!(values(client.equipment.as_deref().unwrap()), ["a sturdy chair", "a light band"]);
    assert_eq!((client.size, client.paper), (Some(24), Some(Paper::A4)));
    assert_eq!(client.language.unwrap().value, "es");
    assert_eq!(client.note.unwrap().value, "Rests after each set.");
}

#[test]
fn a_name_and_a_list_of_precautions_are_enough() {
    let (client, findings) = read("name = \"J. M.\"\nprecautions = []\r\n");
    assert_eq!(findings, [""; 0]);
    let client = client.unwrap();
    assert!(client.precautions.is_empty() && client.days.is_empty() && client.equipment.is_none());
    assert_eq!((client.minutes, client.size, client.paper), (None, None, None));
    assert_eq!((client.language, client.note), (None, None));
}

#[test]
fn a_precaution_of_the_workspace_counts() {
    let mut catalogue = Catalogue::built_in();
    catalogue.precautions.insert("stiff-ankles".to_string(), Default::default());
    let text = "name = \"J. M.\"\nprecautions = [\"stiff-ankles\"]";
    assert!(read_client(text, FileId(0), &catalogue).0.is_some());
    assert!(read(text).0.is_none());
}

/// Every slip leaves no profile, near as what was meant may be.
#[test]
fn a_slip_in_a_profile_is_one_finding_and_leaves_nothing_of_it() {
    let mut shown = String::new();
    for (old, new) in [
        ("name = \"J. M.\"\n", ""),
        ("\"J. M.\"", "\" \""),
        ("\"J. M.\"", "7"),
        ("precautions = [\"spine-fracture\", \"unsteady\"]\n", ""),
        ("precautions =", "precaution ="),
        ("precautions = [\"spine-fracture\", \"unsteady\"]", "precautions = \"spine-fracture\""),
        ("\"spine-fracture\"", "\"spine-fractur\""),
        ("\"spine-fracture\"", "\"Spine-fracture\""),
        ("\"spine-fracture\"", "\"broken back\""),
        ("\"spine-fracture\"", "\"everyone\""),
        ("\"spine-fracture\"", "3"),
        ("\"unsteady\"", "\"spine-fracture\""),
        ("[\"spine-fracture\", \"unsteady\"]", "[\"spine-fracture\", \"unsteady\""),
        ("[\"spine-fracture\", \"unsteady\"]", "[spine-fracture]"),
        ("\"wednesday\"", "\"wensday\""),
        ("\"wednesday\"", "\"Wednesday\""),
        ("\"wednesday\"", "\"someday\""),
        ("[\"friday\", \"monday\", \"friday\", \"wednesday\"]", "[]"),
        ("[\"friday\", \"monday\", \"friday\", \"wednesday\"]", "3"),
        ("minutes = 20", "minutes = \"20\""),
        ("minutes = 20", "minutes = 0"),
        ("minutes = 20", "minutes = 181"),
        ("minutes = 20", "minute = 20"),
        ("size = 24", "size = 20"),
        ("size = 24", "size = \"24\""),
        ("\"a4\"", "\"A4\""),
        ("\"a4\"", "\"a5\""),
        ("\"es\"", "true"),
        ("[\"a sturdy chair\", \"a light band\"]", "\"a sturdy chair\""),
        ("note = ", "notes = "),
        ("note = ", "pain = \"a lot\"\nnote = "),
        ("minutes = 20", "minutes = 20\nminutes = 30"),
        ("minutes = 20", "minutes: 20"),
    ] {
        let (client, findings) = with(old, new);
        let slip = format!("{old} -> {new}");
        assert!(client.is_none(), "{slip}");
        assert_eq!(findings.len(), 1, "{slip}: {findings:#?}");
        writeln!(shown, "{}\n  {}", slip.replace('\n', "⏎"), findings[0].replace(" | ", "\n  ")).unwrap();
    }
    insta::assert_snapshot!(shown);
}

#[test]
fn an_empty_profile_lacks_what_every_profile_has() {
    for text in ["", "\n", "# J. M.\n"] {
        let (client, findings) = read(text);
        assert!(client.is_none());
        assert_eq!(
            findings,
            [
                "missing-field 1:1 the profile has no `name` | add `name = \"A. B.\"`",
                "missing-field 1:1 the profile has no `precautions` | add `precautions = [\"unsteady\"]` with the person's own, or for none `precautions = []`",
            ]
        );
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    /// Either a profile or findings, never both and never neither; and the findings lie in the text.
    #[test]
    fn any_text_is_a_profile_or_findings(
        pieces in vec(prop::sample::select(&[
            "name", "precautions", "days", "size", "note", " = ", "\"", "[", "]", ",", "\n", "24", "monday",
            "spine-fracture", "unsteady", "é", "[[x]]", "{", "}", "#", "\u{0}", "\"J. M.\"", "[]", "\\",
        ][..]), 0..30),
    ) {
        let text = pieces.concat();
        let (client, findings) = read_client(&text, FileId(0), &Catalogue::built_in());
        prop_assert_eq!(client.is_some(), findings.is_empty(), "{:?}", findings);
        for finding in findings {
            prop_assert!(text.get(finding.span.range()).is_some(), "{:?}", finding);
        }
    }
}
