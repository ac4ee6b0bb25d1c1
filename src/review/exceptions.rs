//! Reasoned exceptions: an `accept` row takes the findings it names out of the review and lists them
//! with the reason.

#[cfg(test)]
mod tests;

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::Date;

use super::rule::{Bearing, Check, Rule};
use super::{Case, Review, captions, rules, subjects};
use crate::model::Model;
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
    /// Who accepted it, and when: of a finding of a safety rule both are there.
    pub by: Option<String>,
    pub on: Option<Date>,
}

/// How long ago an exception was accepted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Age {
    /// Less than two weeks.
    Days(i32),
    /// Full weeks.
    Weeks(i32),
}

impl Exception {
    /// True for an exception to a safety rule.
    pub fn is_of_safety(&self) -> bool {
        rules::find(self.finding.rule).is_some_and(|rule| rule.safety)
    }

    /// How long it has stood, if it says since when.
    pub fn age(&self, today: Date) -> Option<Age> {
        let days = (today - self.on?).get_days();
        Some(if days < 14 { Age::Days(days) } else { Age::Weeks(days / 7) })
    }
}

/// The exceptions to safety rules alone, as the whole review lists them: no rule is checked that none of them names.
pub(super) fn of_safety(case: &Case<'_>) -> Vec<Exception> {
    let rows = rows(case.model);
    let named = rows.values().flatten().filter_map(|row| rules::find(named(row)));
    let named: BTreeSet<&str> = named.filter(|rule| rule.safety).map(|rule| rule.name).collect();
    if named.is_empty() {
        return Vec::new();
    }
    let findings = super::check(case, |rule| named.contains(rule.name));
    let mut exceptions = super::settle(case, findings).exceptions;
    exceptions.retain(Exception::is_of_safety);
    exceptions
}

/// False for a finding that hides others, or with which nothing may go out.
fn can_be_accepted(rule: &Rule) -> bool {
    use Check::{Exceptions, Limits, Sheets, WhileReading};
    !matches!(rule.check, WhileReading | Limits(_) | Exceptions | Sheets(Bearing::Never))
}

/// True where its entry accepts what a finished sheet shows.
pub(crate) fn accepts(model: &Model, finding: &Finding) -> bool {
    let Some(rule) = rules::find(finding.rule) else { return false };
    let named = |row: &&Accept| named(row) == rule.name;
    can_be_accepted(rule)
        && !rule.safety
        && rows(model).get(&finding.span.file).is_some_and(|rows| {
            rows.iter()
                .copied()
                .filter(named)
                .any(|row| subjects::fits(finding, &subjects::words(&row.finding.value)))
        })
}

/// The name of the rule that a row accepts a finding of.
fn named(row: &Accept) -> &str {
    row.finding.value.split_whitespace().next().unwrap_or("")
}

/// Matches every `accept` row with the findings of its own file, and of the captions that its week names.
pub(super) fn apply(case: &Case<'_>, findings: Vec<Finding>) -> Review {
    let rows = rows(case.model);
    let weeks = captions::weeks(case);
    let mut review = Review::default();
    // Each row looks at the findings of its own file and rule only: a file may have thousands.
    let mut groups: BTreeMap<(FileId, &'static str), Vec<Finding>> = BTreeMap::new();
    for finding in findings {
        let file = weeks.get(&finding.span.file).copied().unwrap_or(finding.span.file);
        match rows.get(&file).is_some_and(|rows| !rows.is_empty()) {
            true => groups.entry((file, finding.rule)).or_default().push(finding),
            false => review.findings.push(finding),
        }
    }
    for (file, rows) in rows {
        for row in rows {
            apply_row(case, file, row, &mut groups, &mut review);
        }
    }
    review.findings.extend(groups.into_values().flatten());
    review
}

fn apply_row(
    case: &Case<'_>,
    file: FileId,
    row: &Accept,
    groups: &mut BTreeMap<(FileId, &'static str), Vec<Finding>>,
    review: &mut Review,
) {
    let name = named(row);
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
    if !can_be_accepted(rule) {
        review.findings.push(Finding::new(
            "wrong-value",
            row.finding.span,
            format!("expected a finding that can be accepted, found `{name}`"),
            "fix what it points at, and remove this row",
        ));
        return;
    }
    let words = subjects::words(&row.finding.value);
    let group = groups.entry((file, rule.name)).or_default();
    let fitting: Vec<&Finding> = group.iter().filter(|f| subjects::fits(f, &words)).collect();
    let count = fitting.len();
    // What the finished pages and sheets show is known only to `make`.
    if count == 0 && matches!(rule.check, Check::Pages | Check::Sheets(_)) {
        return;
    }
    if count == 0 {
        review.findings.push(Finding::new(
            "needless-exception",
            row.span,
            format!("this entry accepts `{}`, but there is no such finding", row.finding.value),
            instead(group),
        ));
    } else if rule.safety && count > 1 {
        review.findings.push(Finding::new(
            "wrong-value",
            row.finding.span,
            format!(
                "expected one finding of a safety rule to accept, found {count} that `{}` fits",
                row.finding.value
            ),
            one_each(&fitting, group),
        ));
    } else if let Some(finding) = unsigned(rule, row, case.today) {
        review.findings.push(finding);
    } else {
        let all = std::mem::take(group).into_iter();
        let (accepted, rest): (Vec<Finding>, _) = all.partition(|f| subjects::fits(f, &words));
        *group = rest;
        review.exceptions.extend(accepted.into_iter().map(|finding| Exception {
            finding,
            span: row.span,
            because: row.because.value.clone(),
            by: row.by.as_ref().map(|by| by.value.clone()),
            on: row.on.as_ref().map(|on| on.value),
        }));
    }
}

/// What to do about a row that fits none of the findings of its rule in its entry.
fn instead(findings: &[Finding]) -> String {
    let all: Vec<&Finding> = findings.iter().collect();
    let rows = subjects::rows(&all, &all);
    match rows.is_empty() {
        true => "remove this row".to_string(),
        false => format!("write {}, or remove this row", either(&rows)),
    }
}

/// What to do about a row that fits several findings where it may fit one.
fn one_each(fitting: &[&Finding], group: &[Finding]) -> String {
    match &subjects::rows(fitting, &group.iter().collect::<Vec<_>>())[..] {
        [_] => "fix all of them but one: no row can tell them apart".to_string(),
        rows => format!("write a row for each that you mean, such as {}", either(rows)),
    }
}

fn either(rows: &[String]) -> String {
    rows.iter().map(|row| format!("`{row}`")).collect::<Vec<_>>().join(" or ")
}

/// What an exception to a safety rule lacks: somebody answers for it, since a day that has come.
fn unsigned(rule: &Rule, row: &Accept, today: Date) -> Option<Finding> {
    if !rule.safety {
        return None;
    }
    let missing = match (&row.by, &row.on) {
        (Some(_), Some(on)) if on.value > today => {
            return Some(Finding::new(
                "wrong-value",
                on.span,
                format!(
                    "expected the day on which `{}` was accepted, found {}, a day yet to come",
                    rule.name, on.value
                ),
                "write the day on which it was accepted; until that day the finding remains",
            ));
        }
        (Some(_), Some(_)) => return None,
        (None, Some(_)) => ("`by`", "by = \"Name, PT\"".to_string()),
        (Some(_), None) => ("`on`", format!("on = {today}")),
        (None, None) => ("`by` and `on`", format!("by = \"Name, PT\", on = {today}")),
    };
    Some(Finding::new(
        "missing-field",
        row.span,
        format!(
            "this exception to the safety rule `{}` has no {}, so the finding remains",
            rule.name, missing.0
        ),
        format!("add `{}`: who accepted it, and on which day", missing.1),
    ))
}

fn rows(model: &Model) -> BTreeMap<FileId, Vec<&Accept>> {
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
