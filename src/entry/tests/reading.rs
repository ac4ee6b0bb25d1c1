//! Each mistake an author can make in a file, and what she is told of it.

use crate::entry::{read, read_again, read_site};
use crate::review::testing::{TODAY, edited, found, lines, review_bytes, review_files, with_case, words};
use crate::workspace::{Bytes, Texts, sample};

const DROP: &str = "content/exercises/heel-drop.md";
const SIT: &str = "content/exercises/tall-sit.md";
const WEEK: &str = "content/series/first-steps/week-01.md";
const SERIES: &str = "content/series/first-steps/series.toml";
const ABOUT: &str = "content/pages/about.md";
const SITE: &str = "site.toml";
const BIB: &str = "content/references.bib";

fn bytes(file: &str, bytes: &[u8]) -> Vec<String> {
    lines(&review_bytes(vec![(file.to_string(), bytes.to_vec())], TODAY))
}

#[test]
fn a_file_that_is_not_utf_8_points_at_the_byte() {
    let text = b"```toml\ntitle = \"Caf\xe9\"\n```\n";
    assert_eq!(
        bytes(ABOUT, text),
        ["unreadable-entry 2:13 this file is not text in UTF-8: the first byte that cannot be read is here"]
    );
    assert_eq!(bytes(WEEK, b"\xff\xfe`\0`\0").len(), 1, "UTF-16");
}

#[test]
fn how_to_reach_the_educator_is_a_number_and_an_address() {
    let with = |field: &str, value: &str| {
        let old = match field {
            "phone" => "phone = \"555 0100\"",
            "email" => "email = \"hello@first-steps.example\"",
            _ => "emergency = \"911\"",
        };
        found(&[(SITE, &edited(SITE, &[(old, &format!("{field} = {value:?}"))]))])
    };
    for number in ["112", "+34 600 00 00 00", "(555) 0100-0142, ext. 3", "1-800-HILLS"] {
        assert_eq!(with("phone", number), [""; 0], "{number}");
        assert_eq!(with("emergency", number), [""; 0], "{number}");
    }
    for number in ["abc", "javascript:alert(11)", "9", "<b>911</b>", "911\n112"] {
        let found = [with("phone", number), with("emergency", number)].concat();
        assert_eq!(found.len(), 2, "{number}: {found:?}");
        assert!(found.iter().all(|f| f.contains("expected a telephone number, found")), "{found:?}");
    }
    assert_eq!(with("email", "a.b+c@hill.example"), [""; 0]);
    for address in
        ["@", "hello", "a@", "a@b@c", "a b@hill.example", "a@hill.example?bcc=x@y", "a@hill.example\nbcc: x"]
    {
        let found = with("email", address);
        assert_eq!(found.len(), 1, "{address}: {found:?}");
        assert!(found[0].contains("expected a mail address, found"), "{found:?}");
    }
}

/// What shows nothing is no title, and what no feed can hold is no text.
#[test]
fn words_that_nobody_sees_are_none() {
    for title in ["\u{feff}", "\u{200b}\u{2060} ", "\u{ad}"] {
        let text = edited(DROP, &[("title = \"Heel drop at the counter\"", &format!("title = \"{title}\""))]);
        let found = found(&[(DROP, &text)]);
        assert!(found.iter().any(|f| f.contains("expected some words, found none")), "{found:?}");
    }
    let text = edited(DROP, &[("title = \"Heel drop at the counter\"", "title = \"Heel \u{fffe} drop\"")]);
    assert!(found(&[(DROP, &text)]).iter().any(|f| f.contains("no page can show")));
}

#[test]
fn an_empty_or_huge_file_says_so() {
    for text in [&b""[..], b" \r\n\t", b"\xef\xbb\xbf"] {
        assert_eq!(bytes(ABOUT, text), ["unreadable-entry 1:1 this file is empty"]);
    }
    assert_eq!(
        bytes(DROP, &vec![b'x'; 10_000_000]),
        ["unreadable-entry 1:1 this file has 10.0 MB, expected at most 1 MB of text"]
    );
}

#[test]
fn a_block_that_is_missing_or_never_closes_points_at_its_line() {
    for (text, expected) in [
        ("\n# About us\n```toml\n```\n", "2:1 the entry does not open with its fields"),
        ("---\ntitle: x\n---\n", "1:1 the entry does not open with its fields"),
        ("```toml\ntitle = \"About us\"\n", "1:1 the block of fields that opens here never closes"),
    ] {
        assert_eq!(found(&[(ABOUT, text)]), [format!("unreadable-entry {expected}")]);
    }
}

#[test]
fn places_are_right_with_a_byte_order_mark_accents_and_carriage_returns() {
    let text = "\u{feff}```toml\r\ntitle = \"Él\"\r\nsummary = \"Año\"  \r\ncolor = 1\r\norder = \"é\"\r\n```\r\nÑ é [x](none.md)\r\n";
    assert_eq!(
        found(&[(ABOUT, text)]),
        [
            "unknown-field 4:1 the page has no field `color`",
            "wrong-value 5:9 expected a whole number from 0 to 1000, found `é`",
            "broken-link 7:5 there is no `content/pages/none.md`",
        ]
    );
}

#[test]
fn an_unknown_field_says_what_was_meant() {
    for (file, old, new, help) in [
        (DROP, "component =", "componet =", "did you mean `component`?"),
        (SIT, "[[caution]]", "[[cautions]]", "did you mean `caution`?"),
        (
            DROP,
            "removes = [\"impact-low\", \"tiptoe\"]",
            "remove = [\"impact-low\", \"tiptoe\"]",
            "did you mean `removes`?",
        ),
        (DROP, "sets = 2", "set = 2", "did you mean `sets`?"),
        (WEEK, "question =", "questoin =", "did you mean `question`?"),
        (WEEK, "{ id = \"heel-raise\" }", "{ id = \"heel-raise\", focsu = \"x\" }", "did you mean `focus`?"),
        (SERIES, "audience =", "audiance =", "did you mean `audience`?"),
        (SITE, "[educator]", "[educater]", "did you mean `educator`?"),
        (ABOUT, "order =", "ordre =", "did you mean `order`?"),
        (
            DROP,
            "sets = 2",
            "colour = 2",
            "known here are `days`, `effort`, `hold`, `pace`, `reps`, `rest`, `rest_days`, `sets`, `sides`, `time`",
        ),
    ] {
        let (review, sources) = review_files(&[(file, &edited(file, &[(old, new)]))]);
        assert_eq!(review.findings.len(), 1, "{new}: {:?}", review.findings);
        let finding = &review.findings[0];
        assert_eq!((finding.rule, finding.help.as_str()), ("unknown-field", help), "{new}");
        let name = new.split(['=', ' ']).next().unwrap().trim_matches(['[', ']']);
        let name = if new.contains("focsu") { "focsu" } else { name };
        assert_eq!(sources.slice(finding.span), name, "{new}");
    }
}

#[test]
fn a_wrong_value_says_what_was_expected() {
    for (file, old, new, expected) in [
        (DROP, "pace = \"4 s\"", "pace = \"4 sec\"", "expected a number and `s` or `min`, found `4 sec`"),
        (DROP, "pace = \"4 s\"", "pace = 4", "expected a number and `s` or `min`, found `4`"),
        (DROP, "pace = \"4 s\"", "pace = \"9-4 s\"", "expected a number and `s` or `min`, found `9-4 s`"),
        (DROP, "pace = \"4 s\"", "pace = \"0 s\"", "expected a number and `s` or `min`, found `0 s`"),
        (DROP, "pace = \"4 s\"", "pace = \"3 min s\"", "expected a number and `s` or `min`, found `3 min s`"),
        (
            DROP,
            "days = \"3-4\"",
            "days = \"3-9\"",
            "expected a whole number or a range from 1 to 7, found `3-9`",
        ),
        (DROP, "days = \"3-4\"", "days = 0", "expected a whole number or a range from 1 to 7, found `0`"),
        (DROP, "days = \"3-4\"", "days = -1", "expected a whole number or a range from 1 to 7, found `-1`"),
        (DROP, "reps = 10", "reps = 9.5", "expected a whole number or a range from 1 to 500, found `9.5`"),
        (
            DROP,
            "reps = 10",
            "reps = 99999999999",
            "expected a whole number or a range from 1 to 500, found `99999999999`",
        ),
        (DROP, "on = 2026-01-05", "on = \"2026-01-05\"", "expected a date, found `2026-01-05`"),
        (DROP, "on = 2026-01-05", "on = 2026-01-05T10:00:00", "expected a date, found `2026-01-05T10:00:00`"),
        (
            DROP,
            "component = \"power\"",
            "component = \"yoga\"",
            "expected one of `posture`, `balance`, `strength`, `power`, found `yoga`",
        ),
        (
            DROP,
            "demands = [\"impact-low\", \"tiptoe\"]",
            "demands = [\"imapct-low\", \"tiptoe\"]",
            "expected the name of a demand, found `imapct-low`",
        ),
        (
            DROP,
            "for = [\"spine-fracture\"]",
            "for = [\"spine-fractur\"]",
            "expected the name of a precaution, found `spine-fractur`",
        ),
        (
            DROP,
            "for = [\"spine-fracture\"]",
            "for = \"all\"",
            "expected `everyone` or a list of precautions, found `all`",
        ),
        (
            DROP,
            "support = [\"counter\"]",
            "support = \"counter\"",
            "expected a list in square brackets, found text",
        ),
        (DROP, "Heel drop at the counter", " ", "expected some words, found none"),
        (DROP, "[dose]", "[[dose]]", "expected a group of fields, found a list"),
        (SERIES, "\"no-floor\"", "\"no-flor\"", "expected the name of a precaution, found `no-flor`"),
        (SERIES, "start = 2026-01-12", "start = true", "expected a date, found `true`"),
        (WEEK, "week = 1\n", "week = 0\n", "expected a whole number from 1 to 520, found `0`"),
        (
            WEEK,
            "{ id = \"heel-raise\" }",
            "{ id = \"heel-raise\", at = \"1:5\" }",
            "expected a time in the video, found `1:5`",
        ),
        (SITE, "sizes = [18, 24]", "sizes = [18, 25]", "expected 18, 24 or 32 points"),
        (
            SITE,
            "https://first-steps.example/",
            "first-steps.example",
            "expected a web address, found `first-steps.example`",
        ),
    ] {
        let (review, _) = review_files(&[(file, &edited(file, &[(old, new)]))]);
        let told: Vec<(&str, &str)> = review.findings.iter().map(|f| (f.rule, f.message.as_str())).collect();
        assert_eq!(told, [("wrong-value", expected)], "{new}");
    }
}

#[test]
fn a_near_miss_names_what_was_meant() {
    for (old, new, help) in [
        ("component = \"power\"", "component = \"powr\"", "did you mean `power`?"),
        ("demands = [\"impact-low\"", "demands = [\"imapct-low\"", "did you mean `impact-low`?"),
        ("for = [\"spine-fracture\"]", "for = [\"Spine-Fracture\"]", "did you mean `spine-fracture`?"),
        ("level = \"ask\"", "level = \"asks\"", "did you mean `ask`?"),
    ] {
        let (review, _) = review_files(&[(DROP, &edited(DROP, &[(old, new)]))]);
        let told: Vec<(&str, &str)> = review.findings.iter().map(|f| (f.rule, f.help.as_str())).collect();
        assert_eq!(told, [("wrong-value", help)], "{new}");
    }
}

#[test]
fn the_name_of_a_file_is_an_id_that_can_be_typed() {
    let text = edited(ABOUT, &[]);
    assert_eq!(
        found(&[("content/pages/über uns.md", &text)]),
        ["wrong-value 1:1 expected a file name of letters a to z, digits and hyphens, found `über uns`"]
    );
}

#[test]
fn a_file_in_no_known_place_is_told() {
    let messages = found(&[("content/notes.md", "Hello"), ("content/series/first-steps/wek-03.md", "Hello")]);
    assert_eq!(messages, ["unreadable-entry 1:1 nothing reads a file of this name in this place"; 2]);
    let orphan = edited(WEEK, &[]);
    let found = found(&[("content/series/other/week-01.md", &orphan)]);
    assert_eq!(found.len(), 1, "{found:?}");
    assert!(found[0].contains("this week belongs to no series"), "{found:?}");
}

#[test]
fn one_run_tells_every_mistake_of_every_file() {
    let drop = edited(
        DROP,
        &[
            ("sets = 2", "sets = \"two\""),
            ("pace = \"4 s\"", "pace = 4"),
            ("[[progression]]", "[[progresion]]"),
        ],
    );
    let week = edited(WEEK, &[("2026-01-12", "\"soon\""), ("id = \"heel-raise\"", "id = \"heel-rise\"")]);
    assert_eq!(
        found(&[
            (DROP, &drop),
            (WEEK, &week),
            (ABOUT, "```toml\n```\n"),
            (BIB, "@article{a,\n  title = {\n"),
            (SITE, &edited(SITE, &[("name = \"A. Educator\"", "nam = \"A. Educator\"")])),
        ])
        .iter()
        .map(|f| f.split(' ').next().unwrap())
        .collect::<Vec<_>>(),
        [
            "wrong-value",
            "wrong-value",
            "unknown-field",
            "missing-field",
            "unreadable-entry",
            "wrong-value",
            "broken-link",
            "unknown-field",
        ]
    );
}

#[test]
fn a_mistake_in_the_grammar_hides_no_other_and_makes_up_none() {
    for (slip, line) in [
        (("sets = 2", "sets = = 2"), 12),
        (("sets = 2", "sets ="), 12),
        (("sets = 2", "sets 2"), 12),
        (("sets = 2", "sets = two"), 12),
        (("[dose]", "[dose"), 10),
        (("\"tiptoe\"]\nsummary", "\"tiptoe\nsummary"), 6),
        (("\"tiptoe\"]\nsummary", "\"tiptoe\"\nsummary"), 7),
        (("title = \"Seated heel press\"", "title = \u{201c}Seated heel press\u{201d}"), 19),
    ] {
        let text = edited(DROP, &[slip, ("level = \"ask\"", "level = \"asks\"")]);
        let text = text.replace("days = \"3-4\"", "days = 9");
        let found = found(&[(DROP, &text)]);
        // The other mistake beside it, in the same group of fields.
        let days = found.iter().filter(|f| f.starts_with("wrong-value 16:8 expected a whole")).count();
        assert_eq!(
            days,
            usize::from(slip.0 == "sets = 2" && slip.1 != "sets 2" || slip.1.contains('\u{201c}'))
        );
        let found: Vec<String> = found.into_iter().filter(|f| !f.starts_with("wrong-value 16:8")).collect();
        let wrong = "wrong-value 52:9 expected one of `stop`, `adapt`, `ask`, found `asks`";
        // After a name without a sign of equality, or in a list without its end, all that follows is lost.
        let lost = slip.1 == "sets 2" || slip.1.starts_with("\"tiptoe");
        assert_eq!(found.iter().any(|f| f == wrong), !lost, "{slip:?}: {found:?}");
        let others: Vec<&String> = found.iter().filter(|f| *f != wrong).collect();
        assert_eq!(others.len(), 1, "{slip:?}: {others:?}");
        assert!(others[0].starts_with(&format!("unreadable-entry {line}:")), "{slip:?}: {others:?}");
    }
}

#[test]
fn two_mistakes_in_the_grammar_are_both_told() {
    for other in ["level = = \"ask\"", "level = ask", "level = \u{201c}ask\u{201d}"] {
        let text = edited(DROP, &[("pace = \"4 s\"", "pace = 4 s"), ("level = \"ask\"", other)]);
        let found = found(&[(DROP, &text)]);
        assert_eq!(found.len(), 2, "{other}: {found:?}");
        assert!(found[0].starts_with("unreadable-entry 14:"), "{other}: {found:?}");
        assert!(found[1].starts_with("unreadable-entry 52:"), "{other}: {found:?}");
    }
}

#[test]
fn site_settings_that_cannot_be_read_leave_the_entries_alone() {
    assert_eq!(found(&[(SITE, " ")]), ["unreadable-entry 1:1 this file is empty"]);
    assert_eq!(bytes(SITE, b"title = \"\xff").len(), 1);
}

/// The live preview reads one saved entry at a time.
#[test]
fn an_entry_read_again_leaves_the_model_as_reading_all_would() {
    let files = sample::files();
    let texts_of = |files: &[(String, Vec<u8>)]| {
        Texts::sorted(
            files.iter().map(|(n, b)| (n.clone(), Bytes::of(b.clone()))).collect(),
            Default::default(),
        )
    };
    let read_all = |files: &[(String, Vec<u8>)]| {
        let texts = texts_of(files);
        let (site, _) = read_site(&texts);
        let (model, findings) = read(&texts, site, words());
        (texts, model, findings)
    };
    let mut read_one = 0;
    for at in 0..files.len() {
        let mut changed = files.clone();
        let name = &files[at].0;
        let bytes = &mut changed[at].1;
        let text =
            String::from_utf8(bytes.clone()).unwrap().replace("title = \"", "unknown = 1\ntitle = \"A ");
        *bytes = (text.clone() + "\nMore words.\n").into_bytes();
        let (texts, expected, all) = read_all(&changed);
        let (_, mut model, _) = read_all(&files);
        let Some(file) = texts.files.iter().find(|f| texts.sources.get(f.id).name == *name) else { continue };
        match read_again(&mut model, &texts.sources.get(file.id).text, file, name, words()) {
            Some(found) => {
                read_one += 1;
                assert_eq!(format!("{model:?}"), format!("{expected:?}"), "{name}");
                let about: Vec<_> = all.into_iter().filter(|f| f.span.file == file.id).collect();
                assert_eq!(found, about, "{name}");
            }
            None => assert_eq!(name, "site.toml"),
        }
    }
    assert!(read_one > 8, "{read_one}");
}

/// What its library would follow until the stack or the memory ends.
#[test]
fn references_that_have_no_end_are_told_at_their_place() {
    let told = bytes(BIB, b"@misc{ok, title = {T}}\n@misc{a, title = {T}, crossref = {a}}\n");
    assert_eq!(
        told,
        [
            "beyond-limit 2:7 the references cannot be read: `a` takes its fields from itself, by `crossref` or `xdata`"
        ]
    );
}

#[test]
fn the_year_of_a_reference_is_one_that_people_write() {
    for (date, found) in
        [("2022", None), ("1543-05", None), ("9999", Some(9999)), ("0022", Some(22)), ("-0044", Some(-44))]
    {
        let mut told = bytes(BIB, format!("@misc{{a, title = {{T}}, date = {{{date}}}}}\n").as_bytes());
        told.retain(|f| !f.starts_with("unknown-citation"));
        let expected: Vec<String> = found
            .map(|year| format!("wrong-value 1:7 expected a year from 1000 to 2199 in `date`, found {year}"))
            .into_iter()
            .collect();
        assert_eq!(told, expected, "{date}");
    }
}

/// What the typesetter stops at, or takes all the memory for.
#[test]
fn a_prose_without_end_is_told_where_it_goes_beyond() {
    let page = |prose: &str| {
        found(&[(ABOUT, &format!("```toml\ntitle = \"About us\"\n```\nWe teach.\n\n{prose}\n"))])
    };
    let deep = |n: usize| (0..n).map(|n| format!("{}- So\n", "  ".repeat(n))).collect::<String>();
    let told = "beyond-limit 6:11 quotes, lists and emphasis are more than 10 deep here";
    assert_eq!(page(&format!("{} So.", ">".repeat(11))), [told]);
    assert_eq!(page(&format!("{} So.", ">".repeat(150_000))), [told]);
    assert_eq!(page(&deep(16)), ["beyond-limit 16:21 quotes, lists and emphasis are more than 10 deep here"]);
    assert_eq!(page(&deep(10)), [""; 0]);
    let items = "- So\n".repeat(20_000);
    assert_eq!(
        page(&items),
        ["beyond-limit 2005:1 more than 2000 paragraphs, headings, items and cells are before this"]
    );
    // Definitions and headings are blocks as well.
    for many in ["So\n: Sit tall.\n\n".repeat(10_000), "## So\n".repeat(20_000)] {
        let found = page(&many);
        assert_eq!(found.len(), 1, "{:?}", &found[..found.len().min(3)]);
        assert!(found[0].starts_with("beyond-limit") && found[0].ends_with("are before this"), "{found:?}");
    }
    let letters = page(&"So. ".repeat(60_000));
    assert_eq!(letters, ["beyond-limit 4:1 expected at most 200000 letters of prose, found 240012"]);
    // A page of another program, copied with all that is in it.
    for (many, told) in [
        ("<div>".repeat(30_000), "more than 1000 tags of HTML are before this"),
        ("<b>x</b>".repeat(20_000), "more than 1000 tags of HTML are before this"),
        ("[a](b.md) ".repeat(19_000), "more than 2000 links and pictures are before this"),
    ] {
        let found = page(&many);
        assert_eq!(found.len(), 1, "{:?}", &found[..found.len().min(3)]);
        assert!(found[0].starts_with("beyond-limit 6:") && found[0].ends_with(told), "{found:?}");
    }
    let cited = |n: usize| format!("So. [{}]", vec!["@brooke-wavell-2022"; n].join("; "));
    assert_eq!(page(&cited(50)).iter().filter(|f| f.starts_with("beyond-limit")).count(), 0);
    assert_eq!(page(&cited(512)).iter().filter(|f| f.starts_with("beyond-limit")).count(), 1);
}

#[test]
fn a_year_that_nobody_means_is_a_slip() {
    for (year, fits) in
        [("0000", false), ("0226", false), ("1899", false), ("2026", true), ("2200", false), ("9999", false)]
    {
        let text = edited(DROP, &[("on = 2026-01-05", &format!("on = {year}-01-05"))]);
        let found = found(&[(DROP, &text)]);
        assert_eq!(
            !found.iter().any(|f| f.contains("expected a year from 1900 to 2199")),
            fits,
            "{year}: {found:?}"
        );
    }
}

#[test]
fn lists_of_fields_are_as_long_as_somebody_writes_them() {
    let demands = |n: usize| {
        edited(DROP, &[("demands = [", &format!("demands = [{}", "\"nothing-known\", ".repeat(n)))])
    };
    let long = found(&[(DROP, &demands(600))]);
    assert_eq!(long.iter().filter(|f| f.contains("nothing-known")).count(), 0, "{long:?}");
    assert!(
        long.iter().any(|f| f.starts_with("beyond-limit") && f.contains("at most 500 items in `demands`")),
        "{long:?}"
    );
    let short = found(&[(DROP, &demands(400))]);
    assert_eq!(short.iter().filter(|f| f.starts_with("wrong-value")).count(), 400);
    // Many lists, none of them too long.
    let all = format!(
        "\n[[variation]]\ntitle = \"A\"\ntext = \"A.\"\nadds = [{}]\n",
        "\"nothing-known\", ".repeat(400)
    );
    let many = edited(DROP, &[("[[regression]]", &format!("{}\n[[regression]]", all.repeat(20)))]);
    let many = found(&[(DROP, &many)]);
    assert!(many.iter().any(|f| f.contains("more than 5000 items are in the lists")), "{:?}", &many[..5]);
    assert!(many.iter().filter(|f| f.starts_with("wrong-value")).count() <= 5_000);
}

#[test]
fn an_exercise_has_other_names_where_its_author_gives_it_some() {
    let title = "title = \"Heel drop at the counter\"\n";
    let with = |value: &str| edited(DROP, &[(title, &format!("{title}also_called = {value}\n"))]);
    let names = |text: &str| {
        let mut names = Vec::new();
        with_case(&[(DROP, text)], |case| {
            let e = &case.model.exercises["heel-drop"];
            names = e.names().map(str::to_string).collect();
            for name in &e.also_called {
                assert_eq!(case.sources.slice(name.span), format!("\"{}\"", name.value));
            }
        });
        names
    };
    let known = "Heel drop at the counter";
    assert_eq!(names(&edited(DROP, &[])), [known]);
    let both = with("[\"Heel bump\", \"Light thud\"]");
    assert_eq!(names(&both), [known, "Heel bump", "Light thud"]);
    assert_eq!(found(&[(DROP, &both)]), [""; 0]);
    for (value, expected) in [
        ("\"Heel bump\"", "wrong-value 3:15 expected a list in square brackets, found text"),
        ("[\"Heel bump\", 7]", "wrong-value 3:29 expected text in quotes, found a whole number"),
        ("[\" \"]", "wrong-value 3:16 expected some words, found none"),
    ] {
        assert_eq!(found(&[(DROP, &with(value))]), [expected], "{value}");
    }
}
