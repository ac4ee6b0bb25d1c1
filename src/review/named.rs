//! Where a text names exercises and their forms by their titles, and which exercise of a week a sentence in the week's
//! text is about.

use std::collections::BTreeSet;
use std::ops::Range;

use crate::reckon::readability::words::words;

/// Which of the exercises with these titles the sentence speaks of that holds a passage: the only one that it names, or, where
/// it names none and goes on with "of it", the one that was named last. None where that is not clear.
pub(super) fn meant(text: &str, passage: Range<usize>, titles: &[&str]) -> Option<usize> {
    let sentence = sentence_around(text, passage.start);
    let named = named(text, titles);
    let inside: BTreeSet<usize> =
        named.iter().filter(|n| sentence.contains(&n.at.start)).map(|n| n.title).collect();
    match inside.len() {
        1 => inside.into_iter().next(),
        0 if text[passage.end..].trim_start().starts_with("of it") => {
            named.iter().rev().find(|n| n.at.start < sentence.start).map(|n| n.title)
        }
        _ => None,
    }
}

/// A title that a text names.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Named {
    pub(crate) at: Range<usize>,
    /// Which of the titles.
    pub(crate) title: usize,
    /// True where its whole words stand there, and not only those before where or how.
    pub(crate) whole: bool,
    /// True where an article stands right before it.
    pub(crate) with_article: bool,
}

/// Where titles are named, and which, in the order of the text.
pub(crate) fn named(text: &str, titles: &[&str]) -> Vec<Named> {
    let places: Vec<Range<usize>> = words(text).collect();
    let written: Vec<String> = places.iter().map(|at| text[at.clone()].to_lowercase()).collect();
    let names: Vec<Vec<Vec<String>>> = titles.iter().map(|title| names_of(title)).collect();
    let mut found = Vec::new();
    let mut at = 0;
    while at < written.len() {
        let fits =
            names.iter().enumerate().flat_map(|(title, names)| names.iter().map(move |name| (name, title)));
        let longest =
            fits.filter(|(name, _)| begins_with(&written[at..], name)).max_by_key(|(name, _)| name.len());
        match longest {
            Some((name, title)) => {
                found.push(Named {
                    at: places[at].start..places[at + name.len() - 1].end,
                    title,
                    whole: names[title].first() == Some(name),
                    with_article: at > 0 && ARTICLES.contains(&written[at - 1].as_str()),
                });
                at += name.len();
            }
            None => at += 1,
        }
    }
    found
}

/// Words that open what a title says of where or how: "Heel drop at the counter".
const OPENINGS: [&str; 18] = [
    "against", "along", "at", "behind", "beside", "by", "from", "in", "of", "on", "with", "con", "contra",
    "de", "desde", "en", "junto", "sobre",
];

const ARTICLES: [&str; 6] = ["the", "your", "el", "la", "los", "las"];

/// The whole title, and as much of it as stands before where or how, if that is more than a word.
fn names_of(title: &str) -> Vec<Vec<String>> {
    let whole: Vec<String> = words(title).map(|at| title[at].to_lowercase()).collect();
    let short = whole.iter().position(|word| OPENINGS.contains(&word.as_str())).filter(|count| *count > 1);
    let short = short.map(|count| whole[..count].to_vec());
    [Some(whole), short].into_iter().flatten().filter(|name| !name.is_empty()).collect()
}

/// True when a name begins there, its last word perhaps in the plural.
fn begins_with(written: &[String], name: &[String]) -> bool {
    let same = |(n, (word, of_name)): (usize, (&String, &String))| {
        let last = n + 1 == name.len();
        word == of_name || last && word.strip_suffix('s') == Some(of_name)
    };
    written.len() >= name.len() && written.iter().zip(name).enumerate().all(same)
}

/// The sentence that holds a place: from behind a mark that space follows to the next such mark.
fn sentence_around(text: &str, place: usize) -> Range<usize> {
    let ends = |(at, mark): (usize, &str)| {
        let behind = at + mark.len();
        text[behind..].starts_with(char::is_whitespace).then_some(behind)
    };
    let marks = || text.match_indices(['.', '!', '?']).filter_map(ends);
    let start = marks().take_while(|end| *end <= place).last().unwrap_or(0);
    let end = marks().find(|end| *end > place).unwrap_or(text.len());
    start..end
}

#[cfg(test)]
mod tests {
    use super::meant;

    const TITLES: [&str; 3] = ["Heel drop at the counter", "Sit to stand", "Clock reach"];

    fn title(text: &str, passage: &str) -> Option<&'static str> {
        let start = text.find(passage).unwrap();
        meant(text, start..start + passage.len(), &TITLES).map(|title| TITLES[title])
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
        ] {
            assert_eq!(title(text, "two sets"), expected, "{text}");
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
