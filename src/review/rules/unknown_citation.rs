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
