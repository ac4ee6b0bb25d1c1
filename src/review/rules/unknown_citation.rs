//! `unknown-citation`: a source that the list of references does not have.

use std::collections::{BTreeMap, BTreeSet};

use crate::model::finding::{Level, Subject};
use crate::model::nearest::{nearest, shown};
use crate::model::source::{Span, Spanned};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "unknown-citation",
    level: Level::Error,
    safety: false,
    finds: "An entry cites a key that content/references.bib does not have, or a citation holds something that\n\
            is no key.",
    why: "A reader who wants to check a statement must be able to find its source.",
    bad: Example::lines(
        "content/exercises/heel-drop.md",
        &[(
            "Small thuds get your legs used to landing. For weak bones, UK experts advise stronger ones than these to people with no break in the spine. [@brooke-wavell-2022]",
            "
Small thuds get your legs used to landing. [@brook-wavell-2022]
                                           ^^^^^^^^^^^^^^^^^^^^ the references have no `brook-wavell-2022`",
        )],
    ),
    good: Example::lines(
        "content/exercises/heel-drop.md",
        &[(
            "Small thuds get your legs used to landing. For weak bones, UK experts advise stronger ones than these to people with no break in the spine. [@brooke-wavell-2022]",
            "Small thuds get your legs used to landing. [@brooke-wavell-2022; @giangregorio-2015, Table 4]",
        )],
    ),
    check: Check::Model(check),
};

/// Unknown keys that are compared with all that are known. Where there are more, a whole list is missing.
const MOST_COMPARED: usize = 100;

const FILE: &str = "content/references.bib";

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    let references = &case.model.references;
    let written = case.sources.iter().any(|(_, source)| source.name == FILE);
    if written && !references.complete {
        return;
    }
    let keys: BTreeSet<&str> = references.entries.iter().map(|r| r.key.value.as_str()).collect();
    let mut compared = BTreeMap::new();
    for (_, prose) in case.model.proses() {
        let places: BTreeSet<Span> = prose.citations.iter().map(|key| key.span).collect();
        for place in places {
            check_parts(place, case.sources.slice(place), sink);
        }
        let unknown = |k: &&Spanned<String>| !k.value.is_empty() && !keys.contains(k.value.as_str());
        for key in prose.citations.iter().filter(unknown) {
            let near = match compared.get(key.value.as_str()) {
                Some(near) => *near,
                None if compared.len() == MOST_COMPARED => None,
                None => {
                    let near = nearest(&key.value, keys.iter().copied());
                    compared.insert(key.value.as_str(), near);
                    near
                }
            };
            sink.about([Subject::Source(key.value.clone())]).add(
                key.span,
                format!("the references have no `{}`", key.value),
                match near {
                    Some(near) => format!("did you mean `{near}`?"),
                    None => format!("add the source to {FILE} under this key"),
                },
            );
        }
    }
}

/// Every part of a citation such as `[@key; @other, Table 4]` has a key: what has none would vanish.
fn check_parts(place: Span, citation: &str, sink: &mut Sink<'_>) {
    for part in label(citation).split(';').map(str::trim) {
        let key = part.strip_prefix('@').map(|rest| rest.split(',').next().unwrap_or("").trim());
        if key.is_none_or(str::is_empty) {
            let found = if part.is_empty() { "nothing".to_string() } else { shown(part) };
            sink.about([Subject::Words(part.into())]).add(
                place,
                format!("expected `@` and the key of a source, found {found}"),
                "write each source as `@key`, with `;` between two, as in `[@key; @other, Table 4]`",
            );
        }
    }
}

/// What stands between the brackets that hold the keys: the first ones, or in `[words][@key]` the last.
fn label(citation: &str) -> &str {
    let inside = match citation.starts_with("[@") {
        true => citation[1..].split(']').next(),
        false => citation.trim_end_matches(']').rsplit('[').next(),
    };
    inside.unwrap_or("")
}

#[cfg(test)]
mod tests {
    use crate::review::testing::{found, review_files};
    use crate::workspace::sample;

    const ABOUT: &str = "content/pages/about.md";
    const BIB: &str = "content/references.bib";
    const CITES: &str =
        "```toml\ntitle = \"About us\"\n```\nSo they say [@brooke-wavell-2022; @beck-2071, p. 3].\n";

    #[test]
    fn each_key_of_a_citation_is_looked_up() {
        assert_eq!(found(&[(ABOUT, CITES)]), ["unknown-citation 4:13 the references have no `beck-2071`"]);
    }

    #[test]
    fn references_that_cannot_be_read_may_have_the_key() {
        for bib in ["@article{a,", "\n"] {
            let found = found(&[(ABOUT, CITES), (BIB, bib)]);
            assert!(!found.is_empty());
            assert!(found.iter().all(|f| f.starts_with("unreadable-entry")), "{found:?}");
        }
    }

    #[test]
    fn the_help_names_the_nearest_key_or_where_to_add_it() {
        let text = CITES.replace("brooke-wavell-2022", "brooke-wavell-2020");
        let (review, _) = review_files(&[(ABOUT, &text)]);
        let helps: Vec<&str> = review.findings.iter().map(|f| f.help.as_str()).collect();
        assert_eq!(
            helps,
            ["add the source to content/references.bib under this key", "did you mean `brooke-wavell-2022`?"]
        );
    }

    #[test]
    fn a_part_of_a_citation_that_is_no_key_is_found() {
        let file = "content/exercises/heel-drop.md";
        let cited = "[@brooke-wavell-2022]";
        for (citation, expected) in [
            ("[@brooke-wavell-2022; @]", vec!["`@`"]),
            ("[@brooke-wavell-2022; nope]", vec!["`nope`"]),
            ("[@brooke-wavell-2022;]", vec!["nothing"]),
            ("[@]", vec!["`@`"]),
            ("[@brooke-wavell-2022, p. 3; @giangregorio-2015]", vec![]),
            ("[they say so][@brooke-wavell-2022]", vec![]),
            ("[@brooke-wavell-2022][]", vec![]),
        ] {
            let text = sample::text(file).unwrap().replace(cited, citation);
            let (review, _) = review_files(&[(file, &text)]);
            let found: Vec<&str> = review.findings.iter().map(|f| f.message.as_str()).collect();
            let expected: Vec<String> =
                expected.iter().map(|e| format!("expected `@` and the key of a source, found {e}")).collect();
            assert_eq!(found, expected, "{citation}");
        }
    }

    #[test]
    fn where_a_whole_list_is_missing_only_the_first_keys_are_compared() {
        let cited: String = (0..150).map(|i| format!("A word. [@brooke-wavell-{i:04}]\n\n")).collect();
        let page = format!("```toml\ntitle = \"Sources\"\n```\n{cited}");
        let (review, _) = review_files(&[("content/pages/sources.md", &page)]);
        assert_eq!(review.findings.len(), 150);
        let near = review.findings.iter().filter(|f| f.help == "did you mean `brooke-wavell-2022`?").count();
        assert_eq!(near, super::MOST_COMPARED);
    }
}
