//! `unknown-citation`: a source that the list of references does not have.

use crate::model::finding::Level;
use crate::model::nearest::nearest;
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "unknown-citation",
    level: Level::Error,
    safety: false,
    finds: "An entry cites a key that content/references.bib does not have.",
    why: "A reader who wants to check a statement must be able to find its source.",
    bad: Example::lines(
        "content/exercises/heel-drop.md",
        &[(
            "Small thuds tell your hip bones to stay strong. [@brooke-wavell-2022]",
            "
Small thuds tell your hip bones to stay strong. [@brook-wavell-2022]
                                                ^^^^^^^^^^^^^^^^^^^^ the references have no `brook-wavell-2022`",
        )],
    ),
    good: Example::lines(
        "content/exercises/heel-drop.md",
        &[(
            "Small thuds tell your hip bones to stay strong. [@brooke-wavell-2022]",
            "Small thuds tell your hip bones to stay strong. [@brooke-wavell-2022; @giangregorio-2015, Table 4]",
        )],
    ),
    check: Check::Model(check),
};

const FILE: &str = "content/references.bib";

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    let references = &case.model.references;
    let written = case.sources.iter().any(|(_, source)| source.name == FILE);
    if written && !references.complete {
        return;
    }
    for (_, prose) in case.model.proses() {
        for key in prose.citations.iter().filter(|k| references.get(&k.value).is_none()) {
            let known = references.entries.iter().map(|r| r.key.value.as_str());
            sink.add(
                key.span,
                format!("the references have no `{}`", key.value),
                match nearest(&key.value, known) {
                    Some(near) => format!("did you mean `{near}`?"),
                    None => format!("add the source to {FILE} under this key"),
                },
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::review::testing::{found, review_files};

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
}
