//! Reasoned exceptions: an `accept` row takes the findings it names out of the review and lists them
//! with the reason.

use std::collections::BTreeMap;

use super::rule::Check;
use super::{Case, Review, rules};
use crate::model::accept::Accept;
use crate::model::finding::Finding;
use crate::model::nearest::suggestion;
use crate::model::source::{FileId, Span};

/// A finding that its entry accepts.
#[derive(Debug)]
pub struct Exception {
    pub finding: Finding,
    /// The `accept` row.
    pub span: Span,
    pub because: String,
}

/// Matches every `accept` row with the findings of its own file.
pub(super) fn apply(case: &Case<'_>, findings: Vec<Finding>) -> Review {
    let rows = rows(case);
    let mut review = Review::default();
    // Each row looks at the findings of its own file and rule only: a file may have thousands.
    let mut groups: BTreeMap<(FileId, &'static str), Vec<Finding>> = BTreeMap::new();
    for finding in findings {
        match rows.get(&finding.span.file).is_some_and(|rows| !rows.is_empty()) {
            true => groups.entry((finding.span.file, finding.rule)).or_default().push(finding),
            false => review.findings.push(finding),
        }
    }
    for (file, rows) in rows {
        for row in rows {
            apply_row(file, row, &mut groups, &mut review);
        }
    }
    review.findings.extend(groups.into_values().flatten());
    review
}

fn apply_row(
    file: FileId,
    row: &Accept,
    groups: &mut BTreeMap<(FileId, &'static str), Vec<Finding>>,
    review: &mut Review,
) {
    let mut words = row.finding.value.split_whitespace();
    let name = words.next().unwrap_or("");
    let Some(rule) = rules::find(name) else {
        let help = suggestion(name, rules::ALL.iter().map(|r| r.name));
        review.findings.push(Finding::new(
            "wrong-value",
            row.finding.span,
            format!("expected the name of a rule, found `{name}`"),
            help,
        ));
        return;
    };
    if matches!(rule.check, Check::WhileReading | Check::Exceptions) {
        review.findings.push(Finding::new(
            "wrong-value",
            row.finding.span,
            format!("expected a finding that can be accepted, found `{name}`"),
            "mend what it points at, and remove this row",
        ));
        return;
    }
    let words: Vec<String> = words.map(|w| format!("`{w}`")).collect();
    let matches = |f: &Finding| words.iter().all(|w| f.message.contains(w));
    let group = groups.entry((file, rule.name)).or_default();
    let count = group.iter().filter(|f| matches(f)).count();
    // What the finished pages show is known only to `make`.
    if count == 0 && matches!(rule.check, Check::Pages) {
        return;
    }
    if count == 0 {
        review.findings.push(Finding::new(
            "needless-exception",
            row.span,
            format!("this entry accepts `{}`, but there is no such finding", row.finding.value),
            "remove this row",
        ));
    } else if rule.safety && count > 1 {
        review.findings.push(Finding::new(
            "wrong-value",
            row.finding.span,
            format!("expected one finding of a safety rule to accept, found {count} that `{}` fits", row.finding.value),
            "add words of the finding you mean, such as `unanswered-demand impact-low spine-fracture`, and a row for each",
        ));
    } else {
        let (accepted, rest): (Vec<Finding>, _) = std::mem::take(group).into_iter().partition(matches);
        *group = rest;
        review.exceptions.extend(accepted.into_iter().map(|finding| Exception {
            finding,
            span: row.span,
            because: row.because.value.clone(),
        }));
    }
}

fn rows<'a>(case: &Case<'a>) -> BTreeMap<FileId, Vec<&'a Accept>> {
    let model = case.model;
    let exercises = model.exercises.values().map(|e| (e.file, &e.accept));
    let series = model.series.values().map(|s| (s.file, &s.accept));
    let weeks = model.weeks().map(|(_, w)| (w.file, &w.accept));
    let pages = model.pages.values().map(|p| (p.file, &p.accept));
    let all = exercises.chain(series).chain(weeks).chain(pages);
    let mut rows: BTreeMap<FileId, Vec<&Accept>> = BTreeMap::new();
    for (file, accept) in all {
        rows.entry(file).or_default().extend(accept);
    }
    rows
}
