//! `hard-to-read`: the texts of an entry are harder than clients should have to read.

use crate::model::finding::Level;
use crate::model::source::Span;
use crate::reckon::readability::{Reading, Sentence};
use crate::review::rule::{Check, Example, Rule};
use crate::review::texts::Texts;
use crate::review::{Case, Sink};

/// The highest Flesch-Kincaid grade. The American Medical Association's manual for clinicians on health
/// literacy (Weiss 2003, 2007) advises the sixth grade, seen in copies that quote it.
const HIGHEST_GRADE: f64 = 6.0;

/// How many sentences are named.
const NAMED: usize = 3;

/// Of a sentence, as much as recalls it.
const WORDS_SHOWN: usize = 6;

pub(super) static RULE: Rule = Rule {
    name: "hard-to-read",
    level: Level::Warning,
    safety: false,
    finds: "The texts of an exercise, a week or a free page are harder than grade 6 by the Flesch-Kincaid formula:\n\
            sentences are long, or words have many syllables. The finding names the sentences that weigh most.\n\
            Counted are the summary, the prose, cautions, variations, easier and harder ways, cues; not titles,\n\
            headings and tables. Each list item is a sentence; hyphenated words are one word; numerals count as\n\
            they are spoken. Fewer than 30 words or 3 sentences are not measured. English only: texts in other\n\
            languages are not measured.",
    why: "Bodies that advise on material for patients ask for the level of the fifth or sixth year of school. A\n\
          client who stumbles over a sentence stops reading, and the caution is in the next one. The grade is a\n\
          sign, not a verdict: it knows nothing of sense. Read the text aloud to somebody too.",
    bad: Example::lines(
        "content/exercises/heel-raise.md",
        &[
            (
                r#"title = "Heel raise at the counter""#,
                r#"
title = "Heel raise at the counter"
        ^^^^^^^^^^^^^^^^^^^^^^^^^^^ the text is at grade 8.1 by Flesch-Kincaid (10.4 by SMOG), expected at most 6"#,
            ),
            (
                "This trains the muscles of your calves. You use them to climb stairs and to walk.",
                "
Individuals participating in community walking activities consistently demonstrate
considerable recruitment of posterior lower extremity musculature.
Particularly important considerations regarding appropriate exercise performance include
continuous visual attention and comfortable respiration.
Rehabilitation professionals recommend individualized progression methodologies incorporating
considerable postural awareness and satisfactory recuperation intervals.",
            ),
        ],
    ),
    good: Example::lines(
        "content/exercises/heel-raise.md",
        &[(
            "This trains the muscles of your calves. You use them to climb stairs and to walk.",
            "You use your calves to walk and to climb stairs. Look ahead, and keep breathing.",
        )],
    ),
    check: Check::Texts(check),
};

fn check(case: &Case<'_>, texts: &Texts<'_>, sink: &mut Sink<'_>) {
    if !texts.english {
        return;
    }
    let reading = Reading::of(&texts.parsed, texts.lexicon);
    if let Ok(score) = reading.score()
        && score.grade > HIGHEST_GRADE
    {
        report(case, texts.place, &reading, score.grade, score.smog, sink);
    }
}

fn report(case: &Case<'_>, place: Span, reading: &Reading, grade: f64, smog: f64, sink: &mut Sink<'_>) {
    let show = |sentence: &Sentence| {
        let line = case.sources.positions(sentence.span).0.line;
        let mut words = case.sources.slice(sentence.span).split_whitespace();
        let shown: Vec<&str> = words.by_ref().take(WORDS_SHOWN).collect();
        let more = if words.next().is_some() { " …" } else { "" };
        format!("line {line}, `{}{more}`", shown.join(" "))
    };
    let heaviest: Vec<String> = reading.heaviest(NAMED).into_iter().map(show).collect();
    // Rounded up, so that a grade over the limit never reads like one within it.
    let grade = (grade * 10.0).ceil() / 10.0;
    sink.add(
        place,
        format!(
            "the text is at grade {grade:.1} by Flesch-Kincaid ({smog:.1} by SMOG), expected at most {HIGHEST_GRADE:.0}"
        ),
        format!(
            "use shorter words and shorter sentences; these weigh most: {}",
            heaviest.join("; ")
        ),
    );
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use crate::model::words::{Lists, Words};
    use crate::review::testing::{found, review_files, review_in};
    use crate::workspace::theme::Theme;

    const ABOUT: &str = "content/pages/about.md";

    const HARD: &str = "```toml\ntitle = \"About us\"\n```\nWe teach.\n\n\
        - Individuals undergoing rehabilitation participate in progressive activities\n\
        - Physiotherapists recommend comfortable conditioning\n\n\
        | Explanatory documentation |\n| --- |\n| Individualised rehabilitation considerations |\n\n\
        Rest now. Systematic self-monitoring facilitates individualised [rehabilitation](about.md) considerably. \
        Come to us, sit down, look around, ask us what you want to know, and drink a cup of tea.\n";

    #[test]
    fn the_three_heaviest_sentences_are_named_with_their_lines() {
        let (review, _) = review_files(&[(ABOUT, HARD)]);
        assert_eq!(review.findings.len(), 1, "{:?}", review.findings);
        let help = &review.findings[0].help;
        let named = help.split_once("most: ").unwrap().1;
        assert_eq!(
            named,
            "line 13, `Systematic self-monitoring facilitates individualised [rehabilitation](about.md) considerably.`; \
             line 6, `Individuals undergoing rehabilitation participate in progressive …`; \
             line 7, `Physiotherapists recommend comfortable conditioning`"
        );
    }

    #[test]
    fn a_short_text_and_titles_and_tables_are_not_measured() {
        for text in [
            "```toml\ntitle = \"About us\"\n```\nIndividuals undergoing rehabilitation participate. Rehabilitation \
             individualises. Physiotherapists recommend.\n",
            "```toml\ntitle = \"Rehabilitation documentation\"\n```\n## Individualised rehabilitation considerations\n\n\
             We sit. We stand. We walk. We rest. Sit on a chair and put both feet on the floor. Look at the wall. \
             Let your arms hang down by your side, and keep your head up.\n\n\
             | Explanatory documentation |\n| --- |\n| Individualised rehabilitation considerations |\n",
        ] {
            assert_eq!(found(&[(ABOUT, text)]), [""; 0], "{text}");
        }
    }

    #[test]
    fn other_languages_are_not_measured() {
        let theme = Theme::built_in();
        let english = Words::read("en", theme.text("words/en.ftl").unwrap(), Lists::default()).unwrap();
        let spanish = Words::read("es", theme.text("words/en.ftl").unwrap(), Lists::default()).unwrap();
        let count = |words: Words| review_in(&Arc::new(words), &[(ABOUT, HARD)]).findings.len();
        assert_eq!((count(english), count(spanish)), (1, 0));
    }
}
