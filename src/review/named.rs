//! Where a text names exercises and their forms by their titles, and which exercise of a week a sentence in the week's
//! text is about.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use crate::model::words::{TitleWords, Words};
use crate::text::words::words;

/// Which of the exercises with these titles the sentence speaks of that holds a passage: the only one that it names, or, where
/// it names none and goes on with "of it", the one that was named last. None where that is not clear.
pub(super) fn meant(text: &str, passage: Range<usize>, titles: &[&str], of: &Words) -> Option<usize> {
    let sentence = of.splitter.sentence_at(text, passage.start);
    let named = Titles::of(titles, &of.titles).named(text);
    let inside: BTreeSet<usize> =
        named.iter().filter(|n| sentence.contains(&n.at.start)).map(|n| n.title).collect();
    match inside.len() {
        1 => inside.into_iter().next(),
        0 if goes_on_of_it(&text[passage.end..], &of.titles) => {
            named.iter().rev().find(|n| n.at.start < sentence.start).map(|n| n.title)
        }
        _ => None,
    }
}

/// True for what goes on with "of it".
fn goes_on_of_it(behind: &str, known: &TitleWords) -> bool {
    known.last_named.iter().any(|words| behind.trim_start().starts_with(words.as_str()))
}

/// A title that a text names.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct TitleMention {
    pub(crate) at: Range<usize>,
    /// Which of the titles.
    pub(crate) title: usize,
    /// True where its whole words stand there, and not only those before where or how.
    pub(crate) whole: bool,
    /// True where an article stands right before it.
    pub(crate) with_article: bool,
}

/// Titles to look for in texts.
pub(crate) struct Titles<'w> {
    by_first_word: BTreeMap<String, Vec<Name>>,
    known: &'w TitleWords,
}

struct Name {
    /// Of a word with hyphens each part.
    words: Vec<String>,
    /// It is one word, and names nothing where its parts stand by themselves: to "push up" is no "push-up".
    one: bool,
    title: usize,
    whole: bool,
}

impl<'w> Titles<'w> {
    pub(crate) fn of(titles: &[&str], known: &'w TitleWords) -> Titles<'w> {
        let mut by_first_word: BTreeMap<String, Vec<Name>> = BTreeMap::new();
        for (title, text) in titles.iter().enumerate() {
            for (name, whole) in names_of(text, known).into_iter().zip([true, false]) {
                let one = name.len() == 1;
                let words: Vec<String> = name
                    .iter()
                    .flat_map(|word| word.split(HYPHENS))
                    .filter(|part| !part.is_empty())
                    .map(str::to_string)
                    .collect();
                let Some(first) = words.first() else { continue };
                by_first_word.entry(first.clone()).or_default().push(Name { words, one, title, whole });
            }
        }
        Titles { by_first_word, known }
    }

    /// Where titles are named, and which, in the order of the text. An article inside a name is none of its words.
    pub(crate) fn named(&self, text: &str) -> Vec<TitleMention> {
        let mut places: Vec<Range<usize>> = Vec::new();
        let mut written: Vec<String> = Vec::new();
        let mut behind_article: Vec<bool> = Vec::new();
        let mut article = false;
        for at in parts(text) {
            let word = text[at.clone()].to_lowercase();
            let is_article = self.known.articles.contains(&word);
            if !is_left_out(&word, self.known) {
                places.push(at);
                written.push(word);
                behind_article.push(article);
            }
            article = is_article;
        }
        let mut found = Vec::new();
        let mut at = 0;
        while let Some(word) = written.get(at) {
            let is_one_word = |count: usize| {
                let inside = places[at].start..places[at + count - 1].end;
                !text[inside].contains(char::is_whitespace)
            };
            let in_one = |count: usize| {
                let places = &places[at..at + count];
                // A title has a comma at most; what a full stop parts is no name.
                let parts = |two: &[Range<usize>]| {
                    text[two[0].end..two[1].start].contains(['.', '!', '?', ';', ':', '\u{2026}'])
                };
                !places.windows(2).any(parts)
            };
            // A name of one word may stand in the plural.
            let singulars = self.known.plurals.iter().filter_map(|ending| ending.stem(word));
            let firsts = std::iter::once(word.clone()).chain(singulars);
            let fits = firsts.filter_map(|first| self.by_first_word.get(&first)).flatten();
            let fits =
                fits.filter(|name| self.begins_with(&written[at..], &name.words) && in_one(name.words.len()));
            let fits = fits.filter(|name| !name.one || is_one_word(name.words.len()));
            match fits.max_by_key(|name| (name.words.len(), name.whole)) {
                Some(name) => {
                    let count = name.words.len();
                    found.push(TitleMention {
                        at: places[at].start..places[at + count - 1].end,
                        title: name.title,
                        whole: name.whole,
                        with_article: behind_article[at],
                    });
                    at += count;
                }
                None => at += 1,
            }
        }
        found
    }

    /// True when a name begins there, its last word perhaps in the plural.
    fn begins_with(&self, written: &[String], name: &[String]) -> bool {
        let several = |word: &str, of: &str| self.known.plurals.iter().any(|ending| ending.makes(word, of));
        let same = |(n, (word, of_name)): (usize, (&String, &String))| {
            let last = n + 1 == name.len();
            word == of_name || last && several(word, of_name)
        };
        written.len() >= name.len() && written.iter().zip(name).enumerate().all(same)
    }
}

const HYPHENS: [char; 3] = ['-', '\u{2010}', '\u{2011}'];

/// The words of a text, and of a word with hyphens each part: "heel-drop" names the heel drop.
fn parts(text: &str) -> impl Iterator<Item = Range<usize>> + '_ {
    let parts = |word: Range<usize>| text[word].split(HYPHENS);
    words(text).flat_map(parts).filter(|part| !part.is_empty()).map(|part| {
        let start = part.as_ptr() as usize - text.as_ptr() as usize;
        start..start + part.len()
    })
}

/// True for a word that makes no other name of a title where it stands inside: "open arms" is named by "open your arms" too.
fn is_left_out(word: &str, known: &TitleWords) -> bool {
    known.articles.contains(word) || known.possessives.contains(word)
}

/// The whole title, and as much of it as stands before where or how, if that is more than a word.
fn names_of(title: &str, known: &TitleWords) -> Vec<Vec<String>> {
    let words = words(title).map(|at| title[at].to_lowercase());
    let whole: Vec<String> = words.filter(|word| !is_left_out(word, known)).collect();
    let short = whole.iter().position(|word| known.openings.contains(word)).filter(|count| *count > 1);
    let short = short.map(|count| whole[..count].to_vec());
    [Some(whole), short].into_iter().flatten().filter(|name| !name.is_empty()).collect()
}

#[cfg(test)]
mod tests {
    use super::{Titles, meant};
    use crate::review::testing::words;

    const TITLES: [&str; 3] = ["Heel drop at the counter", "Sit to stand", "Clock reach"];

    fn title(text: &str, passage: &str) -> Option<&'static str> {
        let start = text.find(passage).unwrap();
        meant(text, start..start + passage.len(), &TITLES, words()).map(|title| TITLES[title])
    }

    #[test]
    fn a_sentence_is_about_the_only_exercise_that_it_names() {
        for (text, expected) in [
            ("Do two sets of the heel drop.", Some(TITLES[0])),
            ("Do two sets of the Heel Drop at the counter.", Some(TITLES[0])),
            ("The heel drops come in two sets.", Some(TITLES[0])),
            ("The sit to stand has two sets. The clock reach is new.", Some(TITLES[1])),
            ("The clock reach is new. Do two sets.", None),
            ("The clock reach and the sit to stand have two sets.", None),
            ("The drop has two sets.", None),
            ("Do two sets after the clock. Reach far.", None),
            ("Do two sets of heel drops at your counter.", Some(TITLES[0])),
        ] {
            assert_eq!(title(text, "two sets"), expected, "{text}");
        }
    }

    #[test]
    fn several_of_a_title_name_it_in_the_spelling_of_each_language() {
        let titles = ["Heel press", "Farmer carry", "Talón", "Bird dog", "Hop"];
        let of = Titles::of(&titles, &words().titles);
        for (text, expected) in [
            ("Do ten heel presses.", Some(0)),
            ("Two farmer carries.", Some(1)),
            ("Haga diez talones.", Some(2)),
            ("Then bird dogs.", Some(3)),
            ("Ten hops.", Some(4)),
            ("The heels press down.", None),
            ("He hoped.", None),
        ] {
            assert_eq!(of.named(text).first().map(|mention| mention.title), expected, "{text}");
        }
    }

    #[test]
    fn a_hyphen_hides_no_name() {
        let titles = [
            "Heel drop at the counter",
            "Sit to stand",
            "Heel-to-toe walk",
            "Push-up at the wall",
            "Step-up",
        ];
        let of = Titles::of(&titles, &words().titles);
        for (text, expected) in [
            ("Then the heel-drop.", Some((9, 0))),
            ("Your sit-to-stands:", Some((5, 1))),
            ("A heel\u{2011}drop.", Some((2, 0))),
            ("Walk heel to toe.", None),
            ("The heel to toe walk.", Some((4, 2))),
            ("Push up with both hands.", None),
            ("The push-up at the wall.", Some((4, 3))),
            ("A step-up.", Some((2, 4))),
            ("Step up slowly.", None),
        ] {
            let named = of.named(text).first().map(|mention| (mention.at.start, mention.title));
            assert_eq!(named, expected, "{text}");
        }
    }

    #[test]
    fn it_is_the_exercise_that_was_named_last() {
        let text =
            "The sit to stand comes first. The clock reach is new, and calm. This week has one set of it.";
        assert_eq!(title(text, "one set"), Some(TITLES[2]));
        assert_eq!(title("This week has one set of it. The clock reach is new.", "one set"), None);
    }
}
