//! How an `accept` row names a finding: the name of its rule, and behind it what the finding is about.

use crate::model::exercise::{Applies, Caution};
use crate::model::finding::{Finding, Subject};
use crate::model::vocabulary::Vocabulary;

/// The first subjects say what a finding is about before all else. A row that names fewer may come to fit another finding
/// once this one is fixed.
const TELLING: usize = 2;

/// How many findings are named in a help.
const NAMED: usize = 3;

/// What a row says behind the name of the rule, word by word.
pub(super) fn words(row: &str) -> Vec<&str> {
    row.split_whitespace().skip(1).collect()
}

/// True where the words are subjects of the finding, each written out in full, in any order, and nothing else.
pub(super) fn fits(finding: &Finding, words: &[&str]) -> bool {
    let texts: Vec<_> = finding.subjects.iter().map(Subject::text).collect();
    let subjects: Vec<Vec<&str>> = texts.iter().map(|text| text.split_whitespace().collect()).collect();
    // Whether the words before each place are whole subjects: a title may begin with another one.
    let mut whole = vec![false; words.len() + 1];
    whole[0] = true;
    for at in 0..words.len() {
        if whole[at] {
            for subject in subjects.iter().filter(|subject| words[at..].starts_with(subject)) {
                whole[at + subject.len()] = true;
            }
        }
    }
    whole[words.len()]
}

/// What to write in rows that accept one each of these findings, out of all of their rule in an entry. Fewer than there are
/// findings where some cannot be told apart, and the first few where there are many.
pub(super) fn rows(findings: &[&Finding], all: &[&Finding]) -> Vec<String> {
    let mut told: Vec<&Finding> = Vec::new();
    for finding in findings {
        if told.len() == NAMED {
            break;
        }
        if told.iter().all(|known| known.subjects != finding.subjects) {
            told.push(finding);
        }
    }
    told.into_iter().map(|finding| row(finding, all)).collect()
}

/// The row for one of these findings, with as few subjects as tell it from the others.
fn row(finding: &Finding, all: &[&Finding]) -> String {
    let mut row = finding.rule.to_string();
    let mut fitting: Vec<&Finding> = all.to_vec();
    for (at, subject) in finding.subjects.iter().enumerate() {
        let text = subject.text();
        let added: Vec<&str> = text.split_whitespace().collect();
        let before = fitting.len();
        let narrowed: Vec<&Finding> = fitting.iter().copied().filter(|other| fits(other, &added)).collect();
        if !added.is_empty() && (at < TELLING || narrowed.len() < before) {
            row = format!("{row} {}", added.join(" "));
            fitting = narrowed;
        }
    }
    row
}

/// By what a caution is told from others of its exercise: whom it is for, what it is about, how strict it is, and last its
/// own words.
pub(super) fn of_caution(caution: &Caution) -> Vec<Subject> {
    let mut subjects: Vec<Subject> = match &caution.applies {
        Applies::Everyone => vec![Subject::Words("everyone".into())],
        Applies::Precautions(list) => list.iter().map(|p| Subject::Precaution(p.value.clone())).collect(),
    };
    subjects.extend(caution.about.iter().flatten().map(|demand| Subject::Demand(demand.value.clone())));
    subjects.push(Subject::Words(caution.level.value.word().into()));
    subjects.push(Subject::Words(caution.text.value.clone()));
    subjects
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::source::{FileId, Span};

    fn about(subjects: &[&str]) -> Finding {
        let subjects = subjects.iter().map(|text| Subject::Words(text.to_string()));
        Finding::new("two-actions", Span::start_of(FileId(0)), "a message", "a help").about(subjects)
    }

    fn fit(subjects: &[&str], row: &str) -> bool {
        fits(&about(subjects), &words(row))
    }

    #[test]
    fn a_row_names_subjects_of_a_finding_in_any_order_and_nothing_else() {
        let demand = ["impact-low", "spine-fracture"];
        for row in ["r", "r impact-low", "r spine-fracture impact-low", "r  impact-low   spine-fracture"] {
            assert!(fit(&demand, row), "{row}");
        }
        for row in ["r impact", "r impact-lo", "r impact-low tiptoe", "r a message", "r Impact-low"] {
            assert!(!fit(&demand, row), "{row}");
        }
        assert!(!fit(&[], "r message"), "a message is no subject");
        assert!(fit(&[""], "r") && !fit(&[""], "r x"), "what is empty cannot be named");
    }

    #[test]
    fn a_subject_of_several_words_is_named_by_all_of_them() {
        let titles = ["Heel drop", "Heel drop at the\ncounter", "20 s"];
        for row in
            ["r Heel drop", "r Heel drop at the counter", "r 20 s Heel drop", "r Heel drop 20 s Heel drop"]
        {
            assert!(fit(&titles, row), "{row}");
        }
        for row in ["r Heel", "r drop Heel", "r 20", "r Heel drop at the", "r Heel 20 s drop"] {
            assert!(!fit(&titles, row), "{row}");
        }
    }

    #[test]
    fn the_rows_told_to_an_author_fit_one_finding_each() {
        let all = [
            about(&["tiptoe", "unsteady", "first-steps", "A title"]),
            about(&["tiptoe", "unsteady", "first-steps", "Another\n title"]),
            about(&["tiptoe", "dizziness", "first-steps", "A title"]),
        ];
        let all: Vec<&Finding> = all.iter().collect();
        assert_eq!(
            rows(&all, &all),
            [
                "two-actions tiptoe unsteady A title",
                "two-actions tiptoe unsteady Another title",
                "two-actions tiptoe dizziness",
            ]
        );
        for finding in &all {
            let row = row(finding, &all);
            let fitting: Vec<_> = all.iter().filter(|f| fits(f, &words(&row))).collect();
            assert_eq!(fitting, [finding], "{row}");
        }
    }

    #[test]
    fn findings_about_the_same_are_one_row_and_many_are_not_all_told() {
        let same = [about(&["sit"]), about(&["sit"])];
        let same: Vec<&Finding> = same.iter().collect();
        assert_eq!(rows(&same, &same), ["two-actions sit"]);
        let many: Vec<Finding> = (1..6).map(|i| about(&[&format!("w{i}")])).collect();
        let many: Vec<&Finding> = many.iter().collect();
        assert_eq!(rows(&many, &many), ["two-actions w1", "two-actions w2", "two-actions w3"]);
        assert_eq!(rows(&many[3..], &many), ["two-actions w4", "two-actions w5"]);
    }
}
