//! The interface's words in one language, from the theme's Fluent file.

mod choices;

use std::collections::BTreeMap;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use unic_langid::LanguageIdentifier;

use super::vocabulary::{SectionName, Vocabulary};

/// The words of one language.
pub struct Words {
    pub language: String,
    bundle: FluentBundle<FluentResource>,
    ids: Vec<String>,
    /// Says what this language lacks.
    fallback: Option<Box<Words>>,
    /// Words and phrases that promise a health effect, in lower case.
    pub claims: Vec<String>,
    /// Words and phrases that lean on evidence, in lower case.
    pub evidence: Vec<String>,
    /// Words on breathing, in lower case.
    pub breath: Vec<String>,
    /// Phrases by which a caution sends to another form, in lower case.
    pub forms: Vec<Telling>,
    /// Phrases of steps that tell of a demand, in lower case.
    pub demands: Vec<Telling>,
    /// Clinical terms and the plain words for them, in lower case.
    pub terms: Vec<Term>,
    /// How many syllables words have that the pronouncing dictionary lacks, in lower case.
    pub syllables: BTreeMap<String, u8>,
}

/// A clinical term.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Term {
    pub term: String,
    /// What a client says for it.
    pub plain: String,
}

/// A phrase and what it tells, as the list has it before and behind the `=`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Telling {
    pub tells: String,
    /// `…` in it stands for a few words.
    pub phrase: String,
}

/// The word lists of a language as they stand in the theme, one item a line, `#` for remarks.
#[derive(Clone, Copy, Debug, Default)]
pub struct Lists<'t> {
    /// Phrases that promise a health effect.
    pub claims: &'t str,
    /// Phrases that lean on evidence.
    pub evidence: &'t str,
    /// Words on breathing.
    pub breath: &'t str,
    /// `form = phrase` that sends to another form.
    pub forms: &'t str,
    /// `demand = phrase` that tells of it.
    pub demands: &'t str,
    /// `term = plain words`.
    pub terms: &'t str,
    /// `word = number of syllables`.
    pub syllables: &'t str,
}

impl Words {
    /// Reads a Fluent file and the word lists. A line of a list that is not as it should be says nothing.
    ///
    /// # Errors
    /// One sentence for each mistake in the Fluent file, with its line.
    pub fn read(language: &str, fluent: &str, lists: Lists<'_>) -> Result<Words, Vec<String>> {
        let id: LanguageIdentifier =
            language.parse().map_err(|e| vec![format!("`{language}` is no language tag: {e}")])?;
        let resource = FluentResource::try_new(fluent.to_string()).map_err(|(_, errors)| {
            let line = |at: usize| fluent[..at.min(fluent.len())].matches('\n').count() + 1;
            errors.iter().map(|e| format!("line {}: {e}", line(e.pos.start))).collect::<Vec<_>>()
        })?;
        let ids = fluent
            .lines()
            .filter(|l| l.starts_with(|c: char| c.is_ascii_alphabetic()))
            .filter_map(|l| Some(l.split_once('=')?.0.trim().to_string()))
            .collect();
        let mut bundle = FluentBundle::new_concurrent(vec![id]);
        // Isolation marks are invisible characters around arguments: they would stand in file names,
        // alternative texts and printed sheets whose font lacks them.
        bundle.set_use_isolating(false);
        if let Err(errors) = bundle.add_resource(resource) {
            return Err(errors.iter().map(ToString::to_string).collect());
        }
        let terms = |(terms, plain): (String, &str)| {
            let term = |term| Term { term, plain: plain.to_string() };
            choices::phrases(&terms).into_iter().map(term).collect::<Vec<_>>()
        };
        let syllables = pairs(lists.syllables).filter_map(|(word, count)| Some((word, count.parse().ok()?)));
        Ok(Words {
            language: language.to_string(),
            bundle,
            ids,
            fallback: None,
            claims: all_phrases(lists.claims),
            evidence: all_phrases(lists.evidence),
            breath: lines(lists.breath).map(str::to_lowercase).collect(),
            forms: tellings(lists.forms),
            demands: tellings(lists.demands),
            terms: pairs(lists.terms).flat_map(terms).collect(),
            syllables: syllables.collect(),
        })
    }

    /// The same words, with those of another language for what is lacking.
    pub fn or_else(self, fallback: Words) -> Words {
        Words { fallback: Some(Box::new(fallback)), ..self }
    }

    /// The phrase with that id, or the id in brackets where the language lacks it.
    pub fn say(&self, id: &str) -> String {
        self.format(id, None)
    }

    /// The phrase with that id, its arguments filled in.
    pub fn say_with<'a>(&self, id: &str, arguments: &[(&'a str, FluentValue<'a>)]) -> String {
        let arguments: FluentArgs<'_> = arguments.iter().cloned().collect();
        self.format(id, Some(&arguments))
    }

    /// True when the language has this phrase.
    pub fn has(&self, id: &str) -> bool {
        self.bundle.has_message(id) || self.fallback.as_ref().is_some_and(|f| f.has(id))
    }

    /// Every phrase that takes no argument, by id with `_` for `-`, as templates name them.
    pub fn plain(&self) -> BTreeMap<String, String> {
        let mut plain = self.fallback.as_ref().map(|f| f.plain()).unwrap_or_default();
        for id in &self.ids {
            let mut errors = Vec::new();
            let Some(pattern) = self.bundle.get_message(id).and_then(|m| m.value()) else { continue };
            let text = self.bundle.format_pattern(pattern, None, &mut errors);
            if errors.is_empty() {
                plain.insert(id.replace('-', "_"), text.into_owned());
            } else {
                plain.remove(&id.replace('-', "_"));
            }
        }
        plain
    }

    /// What this language calls a section of an exercise.
    pub fn section(&self, name: SectionName) -> String {
        self.say(&format!("section-{}", name.word()))
    }

    fn format(&self, id: &str, arguments: Option<&FluentArgs<'_>>) -> String {
        let Some(pattern) = self.bundle.get_message(id).and_then(|m| m.value()) else {
            return match &self.fallback {
                Some(fallback) => fallback.format(id, arguments),
                None => format!("[{id}]"),
            };
        };
        let mut errors = Vec::new();
        self.bundle.format_pattern(pattern, arguments, &mut errors).into_owned()
    }
}

/// The lines of a list without empty ones and remarks.
fn lines(list: &str) -> impl Iterator<Item = &str> {
    list.lines().map(str::trim).filter(|l| !l.is_empty() && !l.starts_with('#'))
}

/// Every phrase of a list, in small letters.
fn all_phrases(list: &str) -> Vec<String> {
    lines(list).flat_map(|line| choices::phrases(&line.to_lowercase())).collect()
}

/// Every phrase of a list of lines `what it tells = phrase`, in small letters.
fn tellings(list: &str) -> Vec<Telling> {
    let each = |(tells, phrase): (String, &str)| {
        let phrases = choices::phrases(&phrase.to_lowercase()).into_iter();
        phrases.map(move |phrase| Telling { tells: tells.clone(), phrase })
    };
    pairs(list).flat_map(each).collect()
}

/// The lines `word = value` of a list, the word in small letters.
fn pairs(list: &str) -> impl Iterator<Item = (String, &str)> {
    lines(list).filter_map(|line| {
        let (word, value) = line.split_once('=')?;
        Some((word.trim().to_lowercase(), value.trim()))
    })
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;
    use crate::workspace::theme::Theme;

    #[test]
    fn every_line_of_a_built_in_list_is_read_once() {
        let theme = Theme::built_in();
        for language in theme.languages() {
            let lists = theme.lists(language);
            let fluent = theme.text(&format!("words/{language}.ftl")).unwrap();
            let words = Words::read(language, fluent, lists).unwrap();
            for (list, phrases) in [(lists.claims, &words.claims), (lists.evidence, &words.evidence)] {
                assert!(!list.is_empty(), "{language}");
                let once: BTreeSet<&String> = phrases.iter().collect();
                assert_eq!(once.len(), phrases.len(), "{language}: a phrase stands twice");
                assert!(lines(list).all(|line| !choices::phrases(line).is_empty()), "{language}");
            }
            for (list, phrases) in [(lists.forms, &words.forms), (lists.demands, &words.demands)] {
                assert!(!list.is_empty(), "{language}");
                let once: BTreeSet<&Telling> = phrases.iter().collect();
                assert_eq!(once.len(), phrases.len(), "{language}: a phrase stands twice");
                let read =
                    |line: &str| line.split_once('=').is_some_and(|(_, p)| !choices::phrases(p).is_empty());
                let unread = lines(list).find(|line| !read(line));
                assert_eq!(unread, None, "{language}");
            }
            assert_eq!(words.syllables.len(), lines(lists.syllables).count(), "{language}");
            let terms: BTreeSet<&str> = words.terms.iter().map(|t| t.term.as_str()).collect();
            assert_eq!(terms.len(), words.terms.len(), "{language}: a term stands twice");
            assert!(words.terms.len() >= lines(lists.terms).count(), "{language}: a term is not read");
            assert!(words.terms.iter().all(|t| !t.plain.is_empty()), "{language}");
        }
        assert!(lines(theme.lists("en").terms).count() > 80);
    }

    #[test]
    fn a_line_that_is_not_as_it_should_be_says_nothing() {
        let lists = Lists {
            claims: "# remark\n\n Build [Bone|Muscle] \nprevents [falls\n",
            evidence: "",
            breath: "Breathe\n",
            forms: "form = Use the [Other|Seated] one\nthe version\n",
            demands: "Kneeling = [kneel\nhands-full when standing = Let go\n",
            terms: "Gait = way of walking\nno sign\n",
            syllables: "Gait = 1\nkyphosis = three\n",
        };
        let words = Words::read("en", "", lists).unwrap();
        assert_eq!(words.claims, ["build bone", "build muscle"]);
        assert_eq!(words.terms, [Term { term: "gait".into(), plain: "way of walking".into() }]);
        assert_eq!(words.syllables, BTreeMap::from([("gait".to_string(), 1)]));
        let of =
            |list: &[Telling]| list.iter().map(|t| format!("{}: {}", t.tells, t.phrase)).collect::<Vec<_>>();
        assert_eq!(of(&words.forms), ["form: use the other one", "form: use the seated one"]);
        assert_eq!(of(&words.demands), ["hands-full when standing: let go"]);
    }
}
