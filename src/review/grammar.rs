//! As much of the grammar of an English instruction as the rules on steps need. The words stand in the theme's list,
//! words/steps.en.txt, which says what each kind of them is.

use crate::reckon::readability::parsed::{Parsed, ParsedSentence};
use crate::text::tellings::Tellings;

/// What a word does in an instruction. One word may do several things.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Role {
    Opening,
    Small,
    Be,
    Subject,
    Participle,
    NoParticiple,
    Conjunction,
    BeforeParticiple,
    Movement,
    MakesAnother,
    HoldsOneself,
    Joint,
    Let,
    BeforeVerb,
    Possessive,
}

impl Role {
    const ALL: [(&'static str, Role); 15] = [
        ("opening", Role::Opening),
        ("small", Role::Small),
        ("be", Role::Be),
        ("subject", Role::Subject),
        ("participle", Role::Participle),
        ("no participle", Role::NoParticiple),
        ("conjunction", Role::Conjunction),
        ("before participle", Role::BeforeParticiple),
        ("movement", Role::Movement),
        ("makes another", Role::MakesAnother),
        ("holds oneself", Role::HoldsOneself),
        ("joint", Role::Joint),
        ("let", Role::Let),
        ("before verb", Role::BeforeVerb),
        ("possessive", Role::Possessive),
    ];

    /// By its name in the list.
    fn named(name: &str) -> Option<Role> {
        Role::ALL.into_iter().find(|(known, _)| *known == name).map(|(_, role)| role)
    }
}

/// Everything that a word does, a bit for each role.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Roles(u16);

impl Roles {
    fn has(self, role: Role) -> bool {
        self.0 & 1 << role as u16 != 0
    }
}

/// The roles of the words of every step.
pub(super) fn roles(parsed: &Parsed<'_>, list: &Tellings) -> Vec<Vec<Roles>> {
    parsed.steps().map(|sentence| roles_of(&sentence, list)).collect()
}

fn roles_of(sentence: &ParsedSentence<'_>, list: &Tellings) -> Vec<Roles> {
    let mut roles = vec![Roles::default(); sentence.words.len()];
    for (at, telling) in list.all_in(sentence.text()) {
        let start = sentence.at.start + at.start;
        let word = sentence.words.binary_search_by_key(&start, |word| word.start as usize);
        if let (Ok(word), Some(role)) = (word, Role::named(&telling.tells)) {
            roles[word].0 |= 1 << role as u16;
        }
    }
    roles
}

/// A step with what its words do.
pub(super) struct Step<'p> {
    pub(super) sentence: ParsedSentence<'p>,
    pub(super) roles: &'p [Roles],
}

impl Step<'_> {
    /// True when word `i` has a role.
    pub(super) fn has(&self, i: usize, role: Role) -> bool {
        self.roles.get(i).is_some_and(|roles| roles.has(role))
    }

    /// True when a comma, a semicolon, a colon or a dash stands before word `i`.
    pub(super) fn is_parted_before(&self, i: usize) -> bool {
        let between = self.sentence.before(i);
        between != " " && between.contains([',', ';', ':', '\u{2013}', '\u{2014}'])
    }

    /// The word at which the main clause begins: behind an opening that says when or how ("When you feel
    /// steady, …", "With your left hand, …") and behind small words ("then", "now").
    pub(super) fn main_clause(&self) -> usize {
        let mut start = 0;
        if self.has(0, Role::Opening) {
            start = (1..self.roles.len()).find(|i| self.is_parted_before(*i)).unwrap_or(0);
        }
        while self.has(start, Role::Small) {
            start += 1;
        }
        start
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::review::testing::words;

    #[test]
    fn every_word_of_the_list_has_a_role_and_every_role_has_words() {
        let list = words().steps.list();
        for telling in list {
            assert!(Role::named(&telling.tells).is_some(), "{telling:?}");
            assert!(!telling.phrase.contains(' '), "{telling:?}");
        }
        for (name, role) in Role::ALL {
            assert_eq!(Role::named(name), Some(role));
            assert!(list.iter().any(|telling| telling.tells == name), "{name}");
        }
    }
}
