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
    let end = start + text[start..].find("]\n").unwrap();
    let found = found(file, &text[start..=end], "serves = []");
    assert_eq!(found.len(), 1, "{found:?}");
    assert!(found[0].starts_with("wrong-value: expected at least one precaution"), "{found:?}");
    assert!(found[0].contains("low-bone-density"), "{found:?}");
}

#[test]
fn one_slip_in_the_grammar_is_one_finding() {
    for (old, new, message, help) in [
        ("on = 2026-01-05", "on = 2026-02-30", "invalid date", "a day that the calendar has"),
        ("sets = 2", "sets: 2", "expected `=` after `sets`, found `:`", "write `name = value`"),
        ("sets = 2", "sets = 2\n[dose]\nreps = 3\nsets = 1", "`dose` is written twice", "keep one"),
        ("sets = 2", "sets = 2\nsets = 3", "`sets` is written twice", "keep one"),
        (
            "title = \"Heel drop at the counter\"",
            "title = ",
            "expected a value after `title`",
            "write a value",
        ),
        ("component = \"power\"", "component = power", "string values must be quoted", "straight quotes"),
        ("pace = \"4 s\"", "pace = 4 s", "string values must be quoted", "straight quotes"),
        ("[[progression]]", "[[progression]", "unclosed array table", "`name = value`"),
        ("\"tiptoe\"]\nsummary", "\"tiptoe\"\nsummary", "the list before this place never closes", "put `]`"),
    ] {
        let found = found(HEEL_DROP, old, new);
        assert_eq!(found.len(), 1, "{new}: {found:#?}");
        assert!(found[0].starts_with("unreadable-entry: ") && found[0].contains(message), "{new}: {found:?}");
        assert!(found[0].contains(help), "{new}: {found:?}");
    }
}

#[test]
fn two_slips_are_two_findings() {
    let found = found(
        HEEL_DROP,
        "pace = \"4 s\"\nrest = \"60 s\"\ndays = \"3-4\"",
        "pace = 4 s\nrest = \"60\"\ndays = 3-4",
    );
    assert_eq!(found.len(), 3, "{found:#?}");
    assert!(found[1].starts_with("wrong-value: expected a number and `s` or `min`"), "{found:#?}");
}

#[test]
fn single_brackets_where_double_ones_belong_are_told() {
    let single = found(HEEL_DROP, "[[progression]]", "[progression]");
    assert_eq!(single.len(), 1, "{single:?}");
    assert!(single[0].contains("| write `[[progression]]` with double brackets |"), "{single:?}");
    let row = "accept = { finding = \"a\", because = \"b\" }\n[dose]";
    let inline = found(HEEL_DROP, "[dose]", row);
    assert_eq!(inline.len(), 1, "{inline:?}");
    assert!(inline[0].contains("| put square brackets around it: `accept = [{ … }]` |"), "{inline:?}");
}

#[test]
fn a_time_that_rounds_to_nothing_is_none() {
    for time in ["0.0000001 s", "0 s", "0.0004 s"] {
        let found = found(HEEL_DROP, "pace = \"4 s\"", &format!("pace = \"{time}\""));
        assert_eq!(found.len(), 1, "{time}: {found:?}");
        assert!(found[0].contains(time), "{found:?}");
    }
    assert_eq!(found(HEEL_DROP, "pace = \"4 s\"", "pace = \"0.5 s\""), [""; 0]);
}

#[test]
fn a_long_value_is_shown_short() {
    let long = format!("component = \"{}\"", "x".repeat(500_000));
    let found = found(HEEL_DROP, "component = \"power\"", &long);
    let message = found[0].split(" | ").next().unwrap();
    assert!(message.ends_with(&format!("found `{}…`", "x".repeat(60))), "{message}");
}

#[test]
fn a_control_character_is_found_where_it_stands() {
    for (old, new) in [
        ("## Finish\n", "## Finish\n\u{0}"),
        ("Small thuds", "Small\u{1b} thuds"),
        ("Small thuds", "Small\u{9f} thuds"),
        ("summary = \"Rise", "summary = \"R\u{1}ise"),
        ("summary = \"Rise", "summary = \"R\\u0001ise"),
    ] {
        let found = found(HEEL_DROP, old, new);
        assert_eq!(found.len(), 1, "{new:?}: {found:?}");
    }
    assert_eq!(found(HEEL_DROP, "Small thuds", "Small\t thuds\r\n"), [""; 0]);
    let prose = found(HEEL_DROP, "Small thuds", "Small\u{1b} thuds");
    assert!(prose[0].starts_with("unreadable-entry: a control character"), "{prose:?}");
    assert!(prose[0].ends_with("| \u{1b}"), "{prose:?}");
}

#[test]
fn a_series_folder_with_odd_letters_is_told_as_a_folder() {
    let series = sample::text("content/series/first-steps/series.toml").unwrap();
    let (review, _) = review_files(&[("content/series/första/series.toml", series)]);
    assert_eq!(review.findings.len(), 1, "{:?}", review.findings);
    assert!(review.findings[0].message.starts_with("expected a folder name"), "{:?}", review.findings);
    assert!(review.findings[0].help.starts_with("rename the folder"), "{:?}", review.findings);
}

#[test]
fn a_workspace_without_an_entry_is_no_site() {
    let site = sample::text("site.toml").unwrap().as_bytes().to_vec();
    let files = vec![("site.toml".to_string(), crate::workspace::Bytes::All(site))];
    let texts = crate::workspace::Texts::sorted(files, Default::default());
    let (site, found) = crate::entry::read_site(&texts);
    assert_eq!(found, []);
    let (_, found) = crate::entry::read(&texts, site, crate::review::testing::words());
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].message, "the workspace has no entries");
}

const SITE: &str = "site.toml";

#[test]
fn the_address_of_the_site_holds_folders_only() {
    let old = "address = \"https://first-steps.example/\"";
    for address in [
        "https://a.example/?x=1",
        "https://a.example/#top",
        "https://a.example/'",
        "https://a.example/<b>",
        "https://a.example/a b",
        "https://a.example//b/",
        "https://a.example//",
        "ftp://a.example/",
    ] {
        let found = found(SITE, old, &format!("address = \"{address}\""));
        assert_eq!(found.len(), 1, "{address}: {found:?}");
        assert!(found[0].starts_with("wrong-value: ") && found[0].contains(address), "{found:?}");
    }
    for address in [r"https://a.example/\\", "https://a.example/\\\"x"] {
        let found = found(SITE, old, &format!("address = \"{address}\""));
        assert_eq!(found.len(), 1, "{address}: {found:?}");
    }
    assert_eq!(found(SITE, old, "address = \"https://a.example/b/c_d-1/~e\""), [""; 0]);
}

/// The findings of a site that has this `[[precaution]]` or `[[demand]]` too.
fn found_with(rows: &str) -> Vec<String> {
    found(SITE, "[educator]", &format!("{rows}\n[educator]"))
}

#[test]
fn the_ids_of_a_site_are_checked() {
    for id in ["Hip fracture", "Knie", "hüfte", "a_b", "everyone"] {
        for kind in ["precaution", "demand"] {
            let found = found_with(&format!("[[{kind}]]\nid = \"{id}\"\nlabel = \"words\""));
            assert_eq!(found.len(), 1, "{kind} {id}: {found:?}");
            assert!(found[0].starts_with("wrong-value: expected small letters"), "{found:?}");
        }
    }
}

#[test]
fn a_precaution_with_a_slip_is_no_new_one() {
    for row in
        ["id = \"spine-fractures\"", "id = \"spine-fractures\"\nlabel = \"words\"", "id = \"spin-frature\""]
    {
        let found = found_with(&format!("[[precaution]]\n{row}"));
        assert_eq!(found.len(), 1, "{row}: {found:?}");
        assert!(found[0].contains("did you mean `spine-fracture`?"), "{found:?}");
    }
    assert_eq!(found_with("[[precaution]]\nid = \"hip-arthritis\"\nlabel = \"sore hips\""), [""; 0]);
    let unnamed = found_with("[[precaution]]\nid = \"long-covid\"");
    assert_eq!(unnamed.len(), 1, "{unnamed:?}");
    assert!(unnamed[0].starts_with("missing-field: a precaution has no `label`"), "{unnamed:?}");
}

#[test]
fn what_others_write_so_is_told_with_what_to_write() {
    for (old, new, help) in [
        ("on = 2026-01-05", "on = 20/11/2025", "without quotes: 2025-11-20"),
        ("on = 2026-01-05", "on = \"11/20/2025\"", "without quotes: 2025-11-20"),
        ("on = 2026-01-05", "on = \"3.4.2025\"", "2025-04-03 or 2025-03-04, whichever is meant"),
        ("on = 2026-01-05", "on = 20.11.2025", "without quotes: 2025-11-20"),
        ("on = 2026-01-05", "on = \"2025-11-20\"", "without quotes: 2025-11-20"),
        ("pace = \"4 s\"", "pace = \"4,5 s\"", "no comma: \"4.5 s\""),
        (
            "title = \"Heel drop at the counter\"",
            "title = \u{201c}Heel drop, slowly\u{201d}",
            "straight ones: `\"Heel drop, slowly\"`",
        ),
        (
            "base = \"seated\"",
            "base = \"seated\"\nright_shoulder_flexion = 20",
            "movement: `right_shoulder.flexion`",
        ),
    ] {
        let found = found(HEEL_DROP, old, new);
        assert_eq!(found.len(), 1, "{new}: {found:#?}");
        assert!(found[0].contains(help), "{new}: {found:?}");
    }
    // A day that no calendar has is another slip.
    assert!(found(HEEL_DROP, "on = 2026-01-05", "on = \"45/45/2025\"")[0].contains("such as 2027-02-15"));
}
