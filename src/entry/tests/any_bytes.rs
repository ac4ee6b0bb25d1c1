//! Any bytes at all in any file: findings inside their texts, never a panic.

use std::ops::Range;

use proptest::collection::vec;
use proptest::prelude::*;

use crate::review::testing::{TODAY, review_bytes};
use crate::workspace::sample;

/// One file of each kind that is read.
const FILES: [&str; 6] = [
    "content/exercises/heel-drop.md",
    "content/series/first-steps/week-01.md",
    "content/series/first-steps/series.toml",
    "content/pages/about.md",
    "content/references.bib",
    "site.toml",
];

fn file() -> impl Strategy<Value = &'static str> {
    prop::sample::select(&FILES[..])
}

/// Every finding of the review lies inside its text, between whole characters.
fn check(file: &str, bytes: Vec<u8>) -> Result<(), TestCaseError> {
    let (review, sources) = review_bytes(vec![(file.to_string(), bytes)], TODAY);
    for finding in &review.findings {
        let text = &sources.get(finding.span.file).text;
        let Range { start, end } = finding.span.range();
        prop_assert!(start <= end && end <= text.len(), "{finding:?} in {} bytes", text.len());
        prop_assert!(text.is_char_boundary(start) && text.is_char_boundary(end), "{finding:?}");
        prop_assert!(!finding.message.is_empty() && !finding.help.is_empty(), "{finding:?}");
        sources.positions(finding.span);
    }
    Ok(())
}

/// What an author can do to a file with a slip of the hand.
#[derive(Clone, Debug)]
enum Slip {
    Delete(usize, usize),
    Twice(usize, usize),
    Replace(usize, usize, Vec<u8>),
}

fn slip() -> impl Strategy<Value = Slip> {
    let piece = prop_oneof![
        vec(any::<u8>(), 0..6),
        prop::sample::select(
            &[
                "\"", "[", "]]", "=", "\n", "{", "}", "é", "\u{feff}", "```", "\r", "#", "[@", "![", "](",
                "\\", "'''", ":"
            ][..]
        )
        .prop_map(|s| s.as_bytes().to_vec()),
    ];
    prop_oneof![
        (any::<usize>(), 0usize..60).prop_map(|(at, n)| Slip::Delete(at, n)),
        (any::<usize>(), 0usize..200).prop_map(|(at, n)| Slip::Twice(at, n)),
        (any::<usize>(), 0usize..20, piece).prop_map(|(at, n, new)| Slip::Replace(at, n, new)),
    ]
}

fn apply(bytes: &mut Vec<u8>, slip: &Slip) {
    let range = |at: usize, n: usize, len: usize| {
        let start = at % (len + 1);
        start..(start + n).min(len)
    };
    match slip {
        Slip::Delete(at, n) => {
            bytes.drain(range(*at, *n, bytes.len()));
        }
        Slip::Twice(at, n) => {
            let range = range(*at, *n, bytes.len());
            let copy = bytes[range.clone()].to_vec();
            bytes.splice(range.end..range.end, copy);
        }
        Slip::Replace(at, n, new) => {
            let range = range(*at, *n, bytes.len());
            bytes.splice(range, new.iter().copied());
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_bytes_give_findings_inside_the_text(file in file(), bytes in vec(any::<u8>(), 0..400)) {
        check(file, bytes)?;
    }

    #[test]
    fn any_text_gives_findings_inside_the_text(file in file(), text in "\\PC{0,300}") {
        check(file, text.into_bytes())?;
    }

    #[test]
    fn any_fields_and_prose_give_findings_inside_the_text(
        file in file(),
        fields in "([a-z\\[\\]{}\"'=., \n#é0-9-]|title = |accept = |demands = |\\[\\[caution\\]\\]\n){0,60}",
        prose in "([a-zé \n#>*_`!\\[\\]()@;:-]|## |1\\. |\\[@|\\]\\(){0,80}",
    ) {
        check(file, format!("```toml\n{fields}\n```\n{prose}").into_bytes())?;
    }

    #[test]
    fn slips_of_the_hand_in_the_sample_give_findings_inside_the_text(
        file in file(),
        slips in vec(slip(), 1..5),
    ) {
        let mut bytes = sample::text(file).unwrap().as_bytes().to_vec();
        slips.iter().for_each(|s| apply(&mut bytes, s));
        check(file, bytes)?;
    }
}
