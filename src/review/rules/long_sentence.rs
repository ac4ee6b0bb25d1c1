//! `long-sentence`: a sentence that is too long to hold in mind.

use crate::model::finding::{Level, Subject};
use crate::reckon::readability::passages::PassageKind;
use crate::review::rule::{Check, Example, Rule};
use crate::review::texts::Texts;
use crate::review::{Case, Sink};

/// Most words of a step. Simplified Technical English (ASD-STE100) sets 20 for an instruction; from memory,
/// not verified.
const MOST_IN_A_STEP: usize = 20;

/// Most words of any other sentence. Simplified Technical English sets 25 for a description, and so does the
/// guidance on writing for GOV.UK; both from memory, not verified.
const MOST_ELSEWHERE: usize = 25;

pub(super) static RULE: Rule = Rule {
    name: "long-sentence",
    level: Level::Warning,
    safety: false,
    finds: "A step of Move has more than 20 words in a sentence, or another sentence has more than 25. A hyphenated\n\
            word is one word. English only: other languages have other lengths.",
    why: "Anyone who reads a step, puts the handout down and then does it must keep the whole sentence in\n\
          mind. 20 and 25 words are the limits of a standard for technical instructions (from memory, not\n\
          verified).",
    bad: Example::lines(
        "content/exercises/heel-raise.md",
        &[
            (
                "1. Rise on your toes with a little speed.",
                "
1. Rise on your toes with a little speed while both of your hands rest on the edge of the counter for balance.
   ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ this sentence has 22 words, expected at most 20 in a step",
            ),
            (
                r#"text = "The same on a chair.""#,
                r#"
text = "Sit tall on a chair that does not move and lift both of your heels as far as you can, then lower them to the floor again slowly."
        ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ this sentence has 28 words, expected at most 25"#,
            ),
        ],
    ),
    good: Example::lines(
        "content/exercises/heel-raise.md",
        &[(
            "1. Rise on your toes with a little speed.",
            "1. Rest both hands on the counter. Rise on your toes with a little speed.",
        )],
    ),
    check: Check::Texts(check),
};

fn check(_: &Case<'_>, texts: &Texts<'_>, sink: &mut Sink<'_>) {
    if !texts.english {
        return;
    }
    for sentence in texts.parsed.sentences().filter(|s| s.passage.counts_as_text()) {
        let (most, place) = match sentence.passage.kind {
            PassageKind::Step => (MOST_IN_A_STEP, " in a step"),
            _ => (MOST_ELSEWHERE, ""),
        };
        let count = sentence.words.len();
        if count > most {
            sink.about([Subject::number(count)]).add(
                sentence.span(),
                format!("this sentence has {count} words, expected at most {most}{place}"),
                "make two sentences of it, or leave out what the client need not know",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::review::testing::{edited, found};

    const DROP: &str = "content/exercises/heel-drop.md";
    const INTRO: &str = "Small thuds get your legs used to landing. For weak bones, UK experts advise stronger ones than these \
                         to people with no break in the spine. [@brooke-wavell-2022]";

    fn sentence(words: usize) -> String {
        format!("{}end.", "one ".repeat(words - 1))
    }

    #[test]
    fn a_step_may_be_20_words_long_and_other_sentences_25() {
        for (old, most) in [("Rise on your toes.\n", 20), (INTRO, 25), ("Both heels land together.\n", 25)] {
            let end = if old.ends_with('\n') { "\n" } else { "" };
            for (words, findings) in [(most, 0), (most + 1, 1)] {
                let text = edited(DROP, &[(old, &format!("{}{end}", sentence(words)))]);
                let found = found(&[(DROP, &text)]);
                assert_eq!(found.len(), findings, "{old}: {words}: {found:?}");
            }
        }
    }

    #[test]
    fn the_place_is_the_sentence_without_citations_and_marks_do_not_count() {
        let text = format!("Rest. **One** [two](heel-raise.md) {}", sentence(24));
        let with = format!("{} and on. [@brooke-wavell-2022, Table 4]", text.trim_end_matches('.'));
        let found = found(&[(DROP, &edited(DROP, &[(INTRO, &with)]))]);
        assert_eq!(found.len(), 1, "{found:?}");
        assert!(found[0].starts_with("long-sentence 79:9 this sentence has 28 words"), "{found:?}");
    }
}
