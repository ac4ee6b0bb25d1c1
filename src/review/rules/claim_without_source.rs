//! `claim-without-source`: words that promise a health effect or lean on evidence, without a source.

use crate::model::Model;
use crate::model::finding::{Level, Subject};
use crate::model::source::{Span, Spanned};
use crate::review::rule::{Check, Example, Rule};
use crate::review::{Case, Sink};

pub(super) static RULE: Rule = Rule {
    name: "claim-without-source",
    level: Level::Warning,
    safety: false,
    finds: "A paragraph promises a health effect (stronger bones, fewer falls, lower blood pressure) or leans on\n\
            evidence (experts advise, a trial, guidelines for older people) and cites no source; or a title, summary,\n\
            caution, variation or focus does so, where nothing can be cited. The words looked for are in the theme,\n\
            words/claims.LANGUAGE.txt and words/evidence.LANGUAGE.txt.",
    why: "A promise that is not kept costs trust, and for some movements the evidence says less than people\n\
          hope. Which experts, which trial: a reader must be able to look it up. What a movement trains can\n\
          always be said.",
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
    for (_, prose) in case.model.proses() {
        for paragraph in prose.paragraphs.iter().filter(|p| !p.cites) {
            report(
                case,
                paragraph.span,
                " without a source",
                "cite a source in this paragraph, such as [@key], or say what the movement trains",
                sink,
            );
        }
        for heading in &prose.headings {
            report_uncitable(case, heading.title.span, sink);
        }
    }
    for place in short_texts(case.model) {
        report_uncitable(case, place, sink);
    }
}

/// Every text of an entry that stands on pages and sheets but cannot cite.
fn short_texts(model: &Model) -> Vec<Span> {
    let mut spans = Vec::new();
    let mut add = |text: &Spanned<String>| spans.push(text.span);
    for e in model.exercises.values() {
        [&e.title, &e.summary].into_iter().for_each(&mut add);
        for v in &e.variations {
            [&v.title, &v.text].into_iter().for_each(&mut add);
            v.steps().iter().for_each(&mut add);
        }
        e.regressions.iter().chain(&e.progressions).filter_map(|c| c.text()).for_each(&mut add);
        e.cautions.iter().map(|c| &c.text).for_each(&mut add);
        e.all_figures().filter_map(|f| f.caption.as_ref()).for_each(&mut add);
    }
    for s in model.series.values() {
        [&s.title, &s.summary, &s.audience].into_iter().for_each(&mut add);
    }
    for (_, w) in model.weeks() {
        add(&w.title);
        w.question.iter().for_each(&mut add);
        w.exercises.iter().filter_map(|used| used.focus.as_ref()).for_each(&mut add);
    }
    for p in model.pages.values() {
        add(&p.title);
        p.summary.iter().for_each(&mut add);
    }
    add(&model.site.title);
    model.site.summary.iter().for_each(&mut add);
    spans.sort_unstable();
    // A stand-in has the place of its entry's opening, which several may share.
    spans.dedup();
    spans
}

fn report_uncitable(case: &Case<'_>, place: Span, sink: &mut Sink<'_>) {
    const HELP: &str = "nothing can be cited here: say what the movement trains, and put the promise with its \
                        source into a paragraph of the prose";
    report(case, place, "", HELP, sink);
}

/// One finding a place: a promise that leans on evidence is answered by the same source.
fn report(case: &Case<'_>, place: Span, what: &str, help: &str, sink: &mut Sink<'_>) {
    let text = case.sources.slice(place);
    let claim = case.words.claims.first_in(text).map(|found| (found, "promises a health effect"));
    let found = claim.or_else(|| Some((case.words.evidence.first_in(text)?, "leans on evidence")));
    let Some((found, does)) = found else { return };
    let start = place.start as usize;
    let span = Span::new(place.file, start + found.start..start + found.end);
    let words = case.sources.slice(span).split_whitespace().collect::<Vec<_>>().join(" ");
    let message = format!("`{words}` {does}{what}");
    sink.about([Subject::Words(words)]).add(span, message, help);
}

#[cfg(test)]
mod tests {
    use crate::review::testing::{edited, found, words};

    const DROP: &str = "content/exercises/heel-drop.md";
    const INTRO: &str = "Small thuds get your legs used to landing. For weak bones, UK experts advise stronger ones than these \
                         to people with no break in the spine. [@brooke-wavell-2022]";

    #[test]
    fn a_source_in_the_paragraph_is_enough_and_one_in_another_is_not() {
        for (new, count) in [
            ("You get stronger bones.\nOne says so. [@brooke-wavell-2022]", 0),
            ("You get stronger bones.\n\nOne says so. [@brooke-wavell-2022]", 1),
            ("- You get stronger bones. [@brooke-wavell-2022]\n- It prevents falls.", 1),
            ("## Stronger bones [@brooke-wavell-2022]\n", 1),
            ("You get *stronger*\nbones.", 1),
        ] {
            let found = found(&[(DROP, &edited(DROP, &[(INTRO, new)]))]);
            assert_eq!(found.len(), count, "{new}: {found:?}");
            assert!(found.iter().all(|f| f.starts_with("claim-without-source")), "{found:?}");
        }
    }

    #[test]
    fn what_experts_and_trials_say_needs_its_source() {
        for (new, expected) in [
            ("In a small trial, women did this.", Some("`small trial` leans on evidence without a source")),
            ("Experts advise light thuds.", Some("`Experts advise` leans on evidence without a source")),
            (
                "Experts advise it for stronger bones.",
                Some("`stronger bones` promises a health effect without a source"),
            ),
            ("Experts advise it. [@brooke-wavell-2022]", None),
            ("Do what your doctor says, and give it a try.", None),
        ] {
            let found = found(&[(DROP, &edited(DROP, &[(INTRO, new)]))]);
            let messages: Vec<&str> = found.iter().filter_map(|f| f.splitn(3, ' ').nth(2)).collect();
            assert_eq!(messages, expected.into_iter().collect::<Vec<_>>(), "{new}");
        }
    }

    #[test]
    fn texts_that_cannot_cite_promise_nothing() {
        let week = "content/series/first-steps/week-02.md";
        let series = "content/series/first-steps/series.toml";
        let sit = "content/exercises/tall-sit.md";
        for (file, old) in [
            (DROP, "Heel drop at the counter"),
            (DROP, "Rise on your toes, then let your heels drop with a light thud."),
            (DROP, "The same on a chair, without a jolt."),
            (DROP, "Put them down without a sound."),
            (DROP, "Let go with one hand."),
            (DROP, "Ask your clinician before you do this standing. Until then do the seated heel press."),
            (DROP, "Keep both hands on the counter, so that you can catch yourself."),
            (sit, "Lean on the back of the chair, and rest after each one."),
            (week, "A little more"),
            (week, "Both feet land together."),
            (week, "Which movement felt easier than last week?"),
            (series, "Two weeks of gentle exercise at home."),
            (series, "Older adults with weak bones who are new to exercise."),
            ("content/pages/about.md", "Who we are, and how to reach us."),
            ("site.toml", "A small series of home exercises, to learn from and to replace with your own."),
        ] {
            let text = edited(file, &[(&format!("\"{old}\""), "\"Lowers your blood pressure\"")]);
            let found = found(&[(file, &text)]);
            assert_eq!(found.len(), 1, "{file}: {old}: {found:?}");
            assert!(found[0].ends_with("`Lowers your blood pressure` promises a health effect"), "{found:?}");
        }
    }

    #[test]
    fn the_place_is_right_behind_accents_and_in_a_file_with_carriage_returns() {
        let text = "\u{feff}```toml\r\ntitle = \"Café\"\r\n```\r\nÀ côté: it builds\r\nbone for you.\r\n";
        assert_eq!(
            found(&[("content/pages/about.md", text)]),
            ["claim-without-source 4:12 `builds bone` promises a health effect without a source"]
        );
    }

    #[test]
    fn plain_words_of_training_are_no_claim() {
        let claims = &words().claims;
        for text in [
            "This trains the muscles that hold you tall.",
            "If you have a high risk of falling, hold the counter with both hands.",
            "Build up slowly. Bones and joints need time.",
            "Stop if you have pain. Do less to reduce soreness.",
            "Older adults with weak bones, at home.",
            "If you are afraid that you will fall, use a chair.",
        ] {
            assert_eq!(claims.first_in(text).map(|at| &text[at]), None, "{text}");
        }
    }

    #[test]
    fn every_promise_of_the_list_is_found() {
        let claims = &words().claims;
        assert!(claims.list().len() > 100);
        for phrase in claims.list() {
            assert_eq!(claims.first_in(phrase), Some(0..phrase.len()), "{phrase}");
        }
        for text in
            ["lowers your blood pressure", "reverses osteoporosis", "prevents fractures", "build bone"]
        {
            assert_eq!(claims.first_in(text), Some(0..text.len()), "{text}");
        }
    }
}
