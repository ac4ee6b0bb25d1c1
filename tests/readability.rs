//! What the program counts in the demonstration's texts, for comparing with programs of others.
//!
//! `tests/all` says in `STEADYLEAF_READABILITY` where the counts are to be written, as JSON; `readability.py`
//! and `readability.mjs` in `tests/outside` read them. Without that variable nothing is written, and the test
//! says so.

use std::path::Path;

use serde_json::{Value, json};
use steadyleaf::edition::Edition;
use steadyleaf::model::words::{Lists, Words};
use steadyleaf::reckon::readability::passages::{Passage, of_exercise, of_page, of_week};
use steadyleaf::reckon::readability::spoken::each_spoken;
use steadyleaf::reckon::readability::syllables::Lexicon;
use steadyleaf::reckon::readability::{Counts, count, formulas};
use steadyleaf::text::words::{Word, words_in};

const WHERE: &str = "STEADYLEAF_READABILITY";

#[test]
#[expect(clippy::disallowed_methods, reason = "the counts are for programs outside the repository")]
fn the_demonstration_is_counted_for_others_to_compare() {
    let edition = Edition::open(Path::new(env!("CARGO_MANIFEST_DIR")).to_path_buf()).unwrap();
    let theme = edition.theme();
    // Without the theme's own list of syllables: what others cannot know is no comparison.
    let lists = Lists { syllables: "", ..theme.lists("en") };
    let english = Words::read("en", theme.text("words/en.ftl").unwrap(), lists).unwrap();
    let (model, sources) = (edition.model(), edition.sources());
    let mut all: Vec<Vec<Passage<'_>>> = Vec::new();
    all.extend(model.exercises.values().map(|e| of_exercise(e, sources)));
    all.extend(model.weeks().map(|(_, w)| of_week(w, sources)));
    all.extend(model.pages.values().map(|p| of_page(p, sources)));
    let passages: Vec<Value> = all.iter().flatten().map(|p| passage(&p.text, &english)).collect();
    assert!(passages.len() > 1_000, "only {} passages in the demonstration", passages.len());
    let Some(path) = std::env::var_os(WHERE) else {
        println!("NOT WRITTEN: the counts of the demonstration, since {WHERE} is not set; tests/all sets it");
        return;
    };
    let counts = json!({ "passages": passages, "formulas": grid() });
    std::fs::write(&path, counts.to_string()).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
}

fn passage(text: &str, english: &Words) -> Value {
    let lexicon = Lexicon::of(english);
    let sentence = |sentence: &str| {
        let counts = count(sentence, &lexicon);
        let words: Vec<Word> = words_in(sentence, 0..sentence.len()).collect();
        let mut said = Vec::new();
        let mut say = |word: &str| said.push(json!([word, lexicon.syllables(word)]));
        each_spoken(sentence, 0..sentence.len(), &words, &english.spoken, &mut say);
        json!({
            "text": sentence,
            "words": counts.words,
            "syllables": counts.syllables,
            "long_words": counts.long_words,
            "spoken": said,
        })
    };
    let sentences: Vec<Value> = english.splitter.sentences(text).map(|at| sentence(&text[at])).collect();
    json!({ "text": text, "sentences": sentences })
}

/// The formulas on many counts.
fn grid() -> Vec<Value> {
    let mut rows = Vec::new();
    for sentences in [3, 7, 30, 41] {
        for words in [sentences, 5 * sentences + 1, 12 * sentences, 33 * sentences + 5] {
            for (syllables, long_words) in
                [(words, 0), (words + words / 3, words / 10), (words * 2 + 1, words / 3)]
            {
                let counts = Counts { sentences, words, syllables, long_words };
                rows.push(json!({
                    "sentences": sentences,
                    "words": words,
                    "syllables": syllables,
                    "long_words": long_words,
                    "grade": formulas::flesch_kincaid_grade(counts),
                    "ease": formulas::flesch_reading_ease(counts),
                    "smog": formulas::smog(counts),
                }));
            }
        }
    }
    rows
}
