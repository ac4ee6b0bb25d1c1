//! The word lists of a language, each line an item. A line that is not as it should be says nothing.

use std::collections::{BTreeMap, BTreeSet};

use super::choices;
use super::endings::{Ending, endings};
use crate::text::phrases::Phrases;
use crate::text::sentences::Splitter;
use crate::text::tellings::Telling;

/// Clinical terms.
#[derive(Debug, Default)]
pub struct Terms {
    /// In lower case.
    pub phrases: Phrases,
    /// What a client says for each of them.
    pub plain: Vec<String>,
}

/// Words that people look for, and what exercises say for them.
#[derive(Debug, Default)]
pub struct Everyday {
    /// What an exercise says, in lower case.
    pub phrases: Phrases,
    /// What people look for, for each of them.
    pub said: Vec<String>,
}

/// Words of the titles of exercises and forms, in lower case.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct TitleWords {
    /// They open what a title says of where or how: "Heel drop at the counter".
    pub openings: BTreeSet<String>,
    pub articles: BTreeSet<String>,
    /// Like an article they make no other name of a title where they stand inside.
    pub possessives: BTreeSet<String>,
    /// Behind a number they mean what was named last: "of it".
    pub last_named: BTreeSet<String>,
    /// Endings of a title where there are several of it.
    pub plurals: Vec<Ending>,
}

/// Words around the things that are needed or at home, in lower case.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ThingWords {
    /// They tell nothing of a thing: "a", "your".
    pub left_out: BTreeSet<String>,
    /// They say that it is not there: "without".
    pub missing: BTreeSet<String>,
}

/// What a reader says for what is not written in words, in lower case.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Spoken {
    /// Abbreviations without their last point.
    pub abbreviations: Vec<(String, String)>,
    /// Units, which are abbreviations behind a number only.
    pub units: Vec<(String, String)>,
    pub signs: Vec<(char, String)>,
    /// The words of numbers and, behind these words, the ordinals that do not follow from them.
    pub numerals: BTreeMap<String, String>,
    /// Endings of the others, the first that fits.
    pub ordinals: Vec<Ending>,
    /// What stands behind the digits of an ordinal.
    pub ordinal_marks: Vec<String>,
}

/// The word lists of a language as they stand in the theme, one item a line, `#` for remarks.
#[derive(Clone, Debug, Default)]
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
    /// `what it says of a dose = phrase`.
    pub doses: &'t str,
    /// `what it is in a title = word`, of every language: a sheet may be in another language than the titles on it.
    pub titles: Vec<&'t str>,
    /// `what it says of a thing = word`, of every language: a profile may be in another language than the entries.
    pub things: Vec<&'t str>,
    /// `what a full stop behind it is = abbreviation`.
    pub sentences: &'t str,
    /// `what it does in an instruction = word`.
    pub steps: &'t str,
    /// `where it stands to explain a term = words`.
    pub explained: &'t str,
    /// `abbreviation or sign = words`.
    pub spoken: &'t str,
    /// `unit = words`.
    pub units: &'t str,
    /// `number = word`.
    pub numerals: &'t str,
    /// `what it is = ending`.
    pub endings: &'t str,
    /// `what people look for = what an exercise says`.
    pub synonyms: &'t str,
    /// The same list of every language, for the plurals of titles.
    pub plurals: Vec<&'t str>,
}

impl Terms {
    pub(super) fn of(list: &str) -> Terms {
        let each = |(terms, plain): (String, &str)| {
            choices::phrases(&terms).into_iter().map(|term| (term, plain.to_string())).collect::<Vec<_>>()
        };
        let (terms, plain) = pairs(list).flat_map(each).unzip();
        Terms { phrases: Phrases::of(terms), plain }
    }
}

impl Everyday {
    pub(super) fn of(list: &str) -> Everyday {
        let (said, phrases) = tellings(list).into_iter().map(|told| (told.tells, told.phrase)).unzip();
        Everyday { phrases: Phrases::of(phrases), said }
    }

    /// What people look for who mean something that this text says, in order.
    pub fn of_text(&self, text: &str) -> BTreeSet<&str> {
        self.phrases.all_in(text).into_iter().map(|found| self.said[found.phrase].as_str()).collect()
    }
}

impl TitleWords {
    pub(super) fn of(lists: &[&str], plurals: &[&str]) -> TitleWords {
        let told = Told::of(lists);
        TitleWords {
            openings: told.all("opening"),
            articles: told.all("article"),
            possessives: told.all("possessive"),
            last_named: told.all("last named"),
            plurals: endings(plurals.iter().copied(), "plural"),
        }
    }
}

impl ThingWords {
    pub(super) fn of(lists: &[&str]) -> ThingWords {
        let told = Told::of(lists);
        ThingWords { left_out: told.all("left out"), missing: told.all("missing") }
    }
}

impl Spoken {
    pub(super) fn of(lists: &Lists<'_>) -> Spoken {
        let owned = |(short, long): (String, &str)| (short, long.to_string());
        let mut spoken = Spoken {
            units: pairs(lists.units).map(owned).collect(),
            numerals: pairs(lists.numerals).map(owned).collect(),
            ordinals: endings([lists.endings], "ordinal"),
            ordinal_marks: told(&tellings(lists.endings), "ordinal mark").map(str::to_string).collect(),
            ..Spoken::default()
        };
        for (short, long) in pairs(lists.spoken).map(owned) {
            match short.chars().next().filter(|c| !c.is_alphanumeric()) {
                Some(sign) => spoken.signs.push((sign, long)),
                None => spoken.abbreviations.push((short, long)),
            }
        }
        spoken
    }
}

pub(super) fn splitter(list: &str) -> Splitter {
    let told = Told::of(&[list]);
    Splitter {
        go_on: told.all("goes on"),
        go_on_to_a_number: told.all("goes on to a number"),
        lettered: told.all("has a letter"),
        no_initials: told.all("no initial"),
    }
}

/// The lines `what it tells = phrase` of some lists, to be looked up by what they tell.
struct Told(Vec<Telling>);

impl Told {
    fn of(lists: &[&str]) -> Told {
        Told(lists.iter().flat_map(|list| tellings(list)).collect())
    }

    fn all<C: FromIterator<String>>(&self, what: &str) -> C {
        told(&self.0, what).map(str::to_string).collect()
    }
}

/// The phrases of a list that tell this.
pub fn told<'t>(list: &'t [Telling], what: &str) -> impl Iterator<Item = &'t str> {
    list.iter().filter(move |telling| telling.tells == what).map(|telling| telling.phrase.as_str())
}

pub(super) fn syllables(list: &str) -> BTreeMap<String, u8> {
    pairs(list).filter_map(|(word, count)| Some((word, count.parse().ok()?))).collect()
}

/// The lines of a list without empty ones and remarks.
fn lines(list: &str) -> impl Iterator<Item = &str> {
    list.lines().map(str::trim).filter(|l| !l.is_empty() && !l.starts_with('#'))
}

/// Every phrase of a list, in small letters.
pub(super) fn all_phrases(list: &str) -> Vec<String> {
    lines(list).flat_map(|line| choices::phrases(&line.to_lowercase())).collect()
}

/// Every phrase of a list of lines `what it tells = phrase`, in small letters.
pub(super) fn tellings(list: &str) -> Vec<Telling> {
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
    use super::*;
    use crate::model::words::Words;
    use crate::workspace::theme::Theme;

    #[test]
    fn every_line_of_a_built_in_list_is_read_once() {
        let theme = Theme::built_in();
        for language in theme.languages() {
            let lists = theme.lists(language);
            let fluent = theme.text(&format!("words/{language}.ftl")).unwrap();
            let words = Words::read(language, fluent, lists.clone()).unwrap();
            for (list, phrases) in [(lists.claims, &words.claims), (lists.evidence, &words.evidence)] {
                assert!(!list.is_empty(), "{language}");
                let once: BTreeSet<&String> = phrases.list().iter().collect();
                assert_eq!(once.len(), phrases.list().len(), "{language}: a phrase stands twice");
                assert!(lines(list).all(|line| !choices::phrases(line).is_empty()), "{language}");
            }
            let told = [
                (lists.forms, words.forms.list()),
                (lists.demands, words.demands.list()),
                (lists.doses, &words.doses),
                (lists.steps, words.steps.list()),
                (lists.explained, &words.explained),
                (lists.synonyms, &tellings(lists.synonyms)),
            ];
            for (list, phrases) in told {
                let once: BTreeSet<&Telling> = phrases.iter().collect();
                assert_eq!(once.len(), phrases.len(), "{language}: a phrase stands twice");
                unread(list, language);
            }
            assert!(
                ![lists.forms, lists.demands, lists.doses, lists.sentences, lists.synonyms].contains(&""),
                "{language}"
            );
            for list in lists.titles.iter().chain(&lists.things).chain([&lists.sentences, &lists.endings]) {
                unread(list, language);
            }
            assert_eq!(words.syllables.len(), lines(lists.syllables).count(), "{language}");
            let terms: BTreeSet<&String> = words.terms.phrases.list().iter().collect();
            assert_eq!(terms.len(), words.terms.plain.len(), "{language}: a term stands twice");
            assert!(terms.len() >= lines(lists.terms).count(), "{language}: a term is not read");
            assert!(words.terms.plain.iter().all(|plain| !plain.is_empty()), "{language}");
            let Spoken { abbreviations, units, signs, numerals, .. } = &words.spoken;
            assert_eq!(abbreviations.len() + signs.len(), lines(lists.spoken).count(), "{language}");
            assert_eq!(units.len(), lines(lists.units).count(), "{language}");
            assert_eq!(numerals.len(), lines(lists.numerals).count(), "{language}");
        }
        assert!(lines(theme.lists("en").terms).count() > 80);
    }

    /// Every line of a list tells something.
    fn unread(list: &str, language: &str) {
        let read = |line: &str| line.split_once('=').is_some_and(|(_, p)| !choices::phrases(p).is_empty());
        assert_eq!(lines(list).find(|line| !read(line)), None, "{language}");
    }

    /// A list may name nothing that the program does not look for.
    #[test]
    fn every_kind_of_a_list_for_sentences_things_and_titles_is_known() {
        let theme = Theme::built_in();
        for language in theme.languages() {
            let lists = theme.lists(language);
            let kinds = |list: &str| tellings(list).into_iter().map(|t| t.tells).collect::<BTreeSet<_>>();
            for kind in kinds(lists.sentences) {
                let known = ["goes on", "goes on to a number", "has a letter", "no initial"];
                assert!(known.contains(&kind.as_str()), "{language}: {kind}");
            }
            for list in &lists.things {
                assert_eq!(Vec::from_iter(kinds(list)), ["left out", "missing"], "{language}");
            }
            for list in &lists.titles {
                let all: Vec<String> = kinds(list).into_iter().collect();
                assert_eq!(all, ["article", "last named", "opening", "possessive"], "{language}");
            }
            assert_eq!(lists.titles.len(), theme.languages().len());
            assert_eq!(lists.things.len(), theme.languages().len());
        }
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
            doses: "2 = Two\nhold\n",
            titles: vec!["article = The\nopening = [at|by\n", "article = El\npossessive = Su\n"],
            sentences: "goes on = [Dr|e.g]\nno initial I\n",
            spoken: "e.g = for example\n% = percent\n",
            units: "CM = centimeters\n",
            numerals: "2 = two\n3\n",
            ..Lists::default()
        };
        let words = Words::read("en", "", lists).unwrap();
        assert_eq!(words.claims.list(), ["build bone", "build muscle"]);
        assert_eq!(words.terms.phrases.list(), ["gait"]);
        assert_eq!(words.terms.plain, ["way of walking"]);
        assert_eq!(words.syllables, BTreeMap::from([("gait".to_string(), 1)]));
        let of =
            |list: &[Telling]| list.iter().map(|t| format!("{}: {}", t.tells, t.phrase)).collect::<Vec<_>>();
        assert_eq!(of(words.forms.list()), ["form: use the other one", "form: use the seated one"]);
        assert_eq!(of(words.demands.list()), ["hands-full when standing: let go"]);
        assert_eq!(of(&words.doses), ["2: two"]);
        let set = |words: &[&str]| words.iter().map(ToString::to_string).collect::<BTreeSet<_>>();
        let TitleWords { openings, articles, possessives, last_named, .. } = &words.titles;
        let found = [openings, articles, possessives, last_named];
        assert_eq!(found, [&set(&[]), &set(&["the", "el"]), &set(&["su"]), &set(&[])]);
        assert_eq!(words.splitter.go_on, ["dr", "e.g"]);
        assert_eq!(words.splitter.no_initials, [""; 0]);
        let two = |a: &str, b: &str| (a.to_string(), b.to_string());
        assert_eq!(words.spoken.abbreviations, [two("e.g", "for example")]);
        assert_eq!(words.spoken.signs, [('%', "percent".to_string())]);
        assert_eq!(words.spoken.units, [two("cm", "centimeters")]);
        assert_eq!(words.spoken.numerals, BTreeMap::from([two("2", "two")]));
    }
}
