//! The interface's words in one language, from the theme's Fluent file.

mod choices;
pub mod endings;
mod lists;

use std::collections::BTreeMap;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use unic_langid::LanguageIdentifier;

use super::vocabulary::{SectionName, Vocabulary};
use crate::text::phrases::Phrases;
use crate::text::sentences::Splitter;
use crate::text::tellings::{Telling, Tellings};
use endings::Endings;
pub use lists::{Everyday, Lists, Spoken, Terms, ThingWords, TitleWords, told};
use lists::{all_phrases, splitter, syllables, tellings};

/// The words of one language.
pub struct Words {
    pub language: String,
    bundle: FluentBundle<FluentResource>,
    ids: Vec<String>,
    /// Says what this language lacks.
    fallback: Option<Box<Words>>,
    /// Words and phrases that promise a health effect.
    pub claims: Phrases,
    /// Words and phrases that lean on evidence.
    pub evidence: Phrases,
    /// Words on breathing.
    pub breath: Phrases,
    /// Phrases by which a caution sends to another form.
    pub forms: Tellings,
    /// Phrases of steps that tell of a demand.
    pub demands: Tellings,
    /// Clinical terms and the plain words for them.
    pub terms: Terms,
    /// How many syllables words have that the pronouncing dictionary lacks, in lower case.
    pub syllables: BTreeMap<String, u8>,
    /// Words around the numbers of a dose.
    pub doses: Vec<Telling>,
    /// Words of titles, of every language.
    pub titles: TitleWords,
    /// Words around things, of every language.
    pub things: ThingWords,
    /// Parts texts into sentences.
    pub splitter: Splitter,
    /// What the words of an instruction do in it.
    pub steps: Tellings,
    /// Words around a term that tell what it means.
    pub explained: Vec<Telling>,
    /// What is said for what is not written in words.
    pub spoken: Spoken,
    /// How words end, and how that sounds.
    pub endings: Endings,
    /// Words that people look for, and what exercises say for them.
    pub everyday: Everyday,
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
        Ok(Words {
            language: language.to_string(),
            bundle,
            ids,
            fallback: None,
            claims: Phrases::of(all_phrases(lists.claims)),
            evidence: Phrases::of(all_phrases(lists.evidence)),
            breath: Phrases::of(all_phrases(lists.breath)),
            forms: Tellings::of(tellings(lists.forms)),
            demands: Tellings::of(tellings(lists.demands)),
            terms: Terms::of(lists.terms),
            syllables: syllables(lists.syllables),
            doses: tellings(lists.doses),
            titles: TitleWords::of(&lists.titles, &lists.plurals),
            things: ThingWords::of(&lists.things),
            splitter: splitter(lists.sentences),
            steps: Tellings::of(tellings(lists.steps)),
            explained: tellings(lists.explained),
            spoken: Spoken::of(&lists),
            endings: Endings::of(lists.endings),
            everyday: Everyday::of(lists.synonyms),
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
