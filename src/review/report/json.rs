//! A review as JSON, for programs.

use serde::Serialize;

use crate::model::source::Sources;
use crate::review::Review;

#[derive(Serialize)]
struct Report<'a> {
    findings: Vec<Finding<'a>>,
    exceptions: Vec<Exception<'a>>,
}

#[derive(Serialize)]
struct Finding<'a> {
    rule: &'a str,
    level: &'a str,
    file: &'a str,
    line: usize,
    column: usize,
    end_line: usize,
    end_column: usize,
    message: &'a str,
    help: &'a str,
}

#[derive(Serialize)]
struct Exception<'a> {
    rule: &'a str,
    file: &'a str,
    line: usize,
    because: &'a str,
}

/// The report as one JSON object. Lines and columns count from 1, columns count characters, and
/// `end_column` is the column after the last character. `file` is relative to the workspace.
pub fn render(review: &Review, sources: &Sources) -> String {
    let findings = review.findings.iter().map(|f| {
        let (start, end) = sources.positions(f.span);
        Finding {
            rule: f.rule,
            level: f.level.word(),
            file: &sources.get(f.span.file).name,
            line: start.line,
            column: start.column,
            end_line: end.line,
            end_column: end.column,
            message: &f.message,
            help: &f.help,
        }
    });
    let exceptions = review.exceptions.iter().map(|e| Exception {
        rule: e.finding.rule,
        file: &sources.get(e.span.file).name,
        line: sources.positions(e.span).0.line,
        because: &e.because,
    });
    let report = Report { findings: findings.collect(), exceptions: exceptions.collect() };
    let mut text = serde_json::to_string_pretty(&report).unwrap_or_default();
    text.push('\n');
    text
}
