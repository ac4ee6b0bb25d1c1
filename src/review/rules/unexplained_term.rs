//! `unexplained-term`: a clinical term that the entry does not explain where it first appears.

use std::collections::BTreeSet;
use std::ops::Range;

use crate::model::finding::{Level, Subject};
use crate::model::words::told;
use crate::review::rule::{Check, Example, Rule};
use crate::review::texts::Texts;
use crate::review::{Case, Sink};
use crate::text::phrases::PhraseMatch;
use crate::text::tellings::Telling;

pub(super) static RULE: Rule = Rule {
    name: "unexplained-term",
    level: Level::Warning,
    safety: false,
    finds: "A clinical term is in an entry without a plain explanation where a reader meets it first: in\n\
            brackets after it, after a comma (`kyphosis, a rounded upper back`), as what something is called\n\
            (`break easily, called osteoporosis`), or with the plain word itself in the same sentence. The terms\n\
            and the plain words are in the theme, words/terms.LANGUAGE.txt, and the words that explain one in\n\
            words/explained.LANGUAGE.txt. A language without such a list has\n\
            no terms: the rule is silent there.",
    why: "Clients do not ask about a word they do not know; they skip the sentence. A term that they will hear\n\
          from their clinician is worth explaining once; any other is better left out.",
    bad: Example::lines(
        "content/exercises/heel-raise.md",
        &[(
            r#"text = "Hold the counter with both hands, so that you can catch yourself.""#,
            r#"
text = "Hold the counter with both hands if you have vertigo or kyphosis."
                                                     ^^^^^^^ `vertigo` is not explained where it first appears
                                                                ^^^^^^^^ `kyphosis` is not explained where it first appears"#,
        )],
    ),
    good: Example::lines(
        "content/exercises/heel-raise.md",
        &[
            (
                r#"text = "Hold the counter with both hands, so that you can catch yourself.""#,
                r#"text = "Hold the counter with both hands if you have a spinning feeling or kyphosis (a rounded upper back).""#,
            ),
            (
                "You should feel your calves work. You should not feel a cramp.",
                "You should feel your calves work. With kyphosis, look at a point ahead of you.",
            ),
        ],
    ),
    check: Check::Texts(check),
};

fn check(case: &Case<'_>, texts: &Texts<'_>, sink: &mut Sink<'_>) {
    let mut met = BTreeSet::new();
    for sentence in texts.parsed.sentences() {
        let (text, mut behind) = (&sentence.passage.text, 0);
        for PhraseMatch { at, phrase } in case.words.terms.phrases.longest_in(sentence.text()) {
            // `lumbar` within `lumbar spine`.
            if at.start < behind {
                continue;
            }
            behind = at.end;
            let at = sentence.at.start + at.start..sentence.at.start + at.end;
            let Some(plain) = case.words.terms.plain.get(phrase) else { continue };
            let term = text[at.clone()].to_lowercase();
            let term = term.split_whitespace().collect::<Vec<_>>().join(" ");
            let explains = |list| is_explained(text, sentence.at.clone(), at.clone(), plain, list);
            if !met.insert(phrase) || explains(&case.words.explained) {
                continue;
            }
            sink.about([Subject::Words(term.clone())]).add(
                sentence.passage.span(at),
                format!("`{term}` is not explained where it first appears"),
                format!("write `{plain}` instead, or explain it here: {term} ({plain})"),
            );
        }
    }
}

/// True when the sentence that holds a term tells what it means.
fn is_explained(
    text: &str,
    sentence: Range<usize>,
    term: Range<usize>,
    plain: &str,
    list: &[Telling],
) -> bool {
    let before = text[sentence.start..term.start].to_lowercase();
    let after = text[term.end..sentence.end].to_lowercase();
    let plain = plain.to_lowercase();
    if before.contains(&plain) || after.contains(&plain) {
        return true;
    }
    let words_inside = |brackets: &str| brackets.contains(char::is_alphabetic);
    if let Some(bracket) = before.rfind('(')
        && !before[bracket..].contains(')')
        && words_inside(&before[..bracket])
    {
        return true;
    }
    let named = before.trim_end().trim_end_matches(['"', '\'', '\u{201c}', '\u{2018}']).trim_end();
    let names = |word: &str| named.strip_suffix(word).is_some_and(|rest| rest.ends_with(char::is_whitespace));
    if told(list, "names").any(names) {
        return true;
    }
    // "A rounded back, or kyphosis", but not the end of a list: "sit, stand, or ambulate".
    let is_or = |or: &str| named.strip_suffix(or).is_some_and(|rest| rest.ends_with(", "));
    if told(list, "or").any(is_or) && named.matches(',').count() == 1 {
        return true;
    }
    let after = after.trim_start_matches(['"', '\'', '\u{201d}', '\u{2019}']);
    let rest = after.trim_start();
    if let Some(brackets) = rest.strip_prefix('(') {
        return words_inside(brackets.split(')').next().unwrap_or(""));
    }
    if let Some(clause) = rest.strip_prefix([',', '\u{2013}', '\u{2014}', '-', ':']) {
        return told(list, "tells").any(|words| behind(clause.trim_start(), words).is_some());
    }
    // "Kyphosis is a rounded upper back", but not "if your kyphosis is severe".
    let is = |words: &str| behind(rest, words).is_some_and(|what| !tells_what_it_is_like(what, list));
    before.trim().is_empty() && told(list, "is").any(is)
}

/// What stands behind these words, if a text begins with them.
fn behind<'t>(text: &'t str, words: &str) -> Option<&'t str> {
    text.strip_prefix(words).filter(|rest| !rest.starts_with(char::is_alphanumeric)).map(str::trim_start)
}

fn tells_what_it_is_like(what: &str, list: &[Telling]) -> bool {
    let first = what.split(|c: char| !c.is_alphabetic()).next().unwrap_or("");
    told(list, "is like").any(|word| word == first)
}

#[cfg(test)]
mod tests {
    use crate::review::testing::found;

    fn terms(prose: &str) -> Vec<String> {
        let text = format!("```toml\ntitle = \"About us\"\n```\n{prose}\n");
        found(&[("content/pages/about.md", &text)])
            .into_iter()
            .map(|f| f.split('`').nth(1).unwrap_or("").to_string())
            .collect()
    }

    #[test]
    fn an_explanation_at_the_first_use_is_enough() {
        for text in [
            "You have kyphosis (the back is rounded). Kyphosis is common.",
            "Kyphosis, which rounds the back, is common.",
            "Kyphosis, or a hunched back, is common.",
            "Kyphosis means that the back is rounded.",
            "Kyphosis is when the back is rounded.",
            "Your back is rounded (kyphosis).",
            "Your back is hunched, also called kyphosis.",
            "Your back is hunched, or kyphotic.",
            "Some people have a rounded upper back from kyphosis.",
            "You have **kyphosis** (the back is rounded).",
        ] {
            assert_eq!(terms(text), [""; 0], "{text}");
        }
    }

    #[test]
    fn a_term_without_one_is_found_once_at_its_first_use() {
        for (text, expected) in [
            ("You have kyphosis. Kyphosis (the back is rounded) is common.", "kyphosis"),
            ("You have Kyphosis, and you sit a lot.", "kyphosis"),
            ("If your kyphosis is severe, sit down.", "kyphosis"),
            ("Kyphosis is common.", "kyphosis"),
            ("Kyphosis is not a reason to stop.", "kyphosis"),
            ("You have kyphosis [@brooke-wavell-2022].", "kyphosis"),
            ("You have kyphosis (2).", "kyphosis"),
            ("Rest (if you have kyphosis) or sit.", ""),
            ("(If you have kyphosis, sit.)", "kyphosis"),
            ("Your lumbar spine is long.", "lumbar spine"),
            ("Your *lumbar*\nspine is long.", "lumbar spine"),
            ("Sit, stand or ambulate.", "ambulate"),
            ("Sit, stand, or ambulate.", "ambulate"),
        ] {
            let expected: Vec<&str> = [expected].into_iter().filter(|e| !e.is_empty()).collect();
            assert_eq!(terms(text), expected, "{text}");
        }
    }
}
