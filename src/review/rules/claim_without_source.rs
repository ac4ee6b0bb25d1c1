//! `claim-without-source`: words that promise a health effect, without a source for it.

use crate::model::finding::Level;
use crate::model::source::Span;
use crate::review::claims::{self, Claims};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "claim-without-source",
    level: Level::Warning,
    safety: false,
    finds: "A paragraph promises a health effect (stronger bones, fewer falls, lower blood pressure) and cites\n\
            no source; or a title, summary, caution, variation or focus promises one, where nothing can be\n\
            cited. The words looked for are in the theme, words/claims.LANGUAGE.txt.",
    why: "A promise that is not kept costs trust, and for some movements the evidence says less than people\n\
          hope. What a movement trains can always be said.",
    bad: Example::lines(
        "content/exercises/heel-raise.md",
        &[
            (
                r#"summary = "Rise on your toes with a little speed, then lower slowly.""#,
                r#"
summary = "Rise on your toes for stronger bones."
                                 ^^^^^^^^^^^^^^ `stronger bones` promises a health effect"#,
            ),
            (
                "This trains the muscles of your calves. You use them to climb stairs and to walk.",
                "
This trains the muscles of your calves and prevents falls.
                                           ^^^^^^^^^^^^^^ `prevents falls` promises a health effect without a source",
            ),
        ],
    ),
    good: Example::lines(
        "content/exercises/heel-raise.md",
        &[
            (
                r#"summary = "Rise on your toes with a little speed, then lower slowly.""#,
                r#"summary = "Rise on your toes to train your calves.""#,
            ),
            (
                "This trains the muscles of your calves. You use them to climb stairs and to walk.",
                "Strength and balance work prevents falls. [@brooke-wavell-2022]",
            ),
        ],
    ),
    check: Check::Model(check),
};

fn check(case: &Case<'_>, sink: &mut Sink<'_>) {
    let claims = Claims::new(&case.words.claims);
    for (_, prose) in case.model.proses() {
        for paragraph in prose.paragraphs.iter().filter(|p| !p.cites) {
            report(
                case,
                &claims,
                paragraph.span,
                " without a source",
                "cite a source in this paragraph, such as [@key], or say what the movement trains",
                sink,
            );
        }
        for heading in &prose.headings {
            report_uncitable(case, &claims, heading.title.span, sink);
        }
    }
    for place in claims::short_texts(case.model) {
        report_uncitable(case, &claims, place, sink);
    }
}

fn report_uncitable(case: &Case<'_>, claims: &Claims<'_>, place: Span, sink: &mut Sink<'_>) {
    const HELP: &str = "nothing can be cited here: say what the movement trains, and put the promise with its \
                        source into a paragraph of the prose";
    report(case, claims, place, "", HELP, sink);
}

fn report(
    case: &Case<'_>,
    claims: &Claims<'_>,
    place: Span,
    what: &str,
    help: &str,
    sink: &mut Sink<'_>,
) {
    let Some(found) = claims.first_in(case.sources.slice(place)) else { return };
    let start = place.start as usize;
    let span = Span::new(place.file, start + found.start..start + found.end);
    let words = case.sources.slice(span).split_whitespace().collect::<Vec<_>>().join(" ");
    sink.add(span, format!("`{words}` promises a health effect{what}"), help);
}
