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

#[cfg(test)]
mod tests {
    use serde_json::json;

    use crate::review::report::example;

    #[test]
    fn lines_and_columns_count_characters_and_exceptions_carry_their_reason() {
        let (review, sources) = example();
        let report: serde_json::Value = serde_json::from_str(&super::render(&review, &sources)).unwrap();
        let expected = json!({
            "findings": [{
                "rule": "broken-link",
                "level": "error",
                "file": "content/pages/about.md",
                "line": 5,
                "column": 8,
                "end_line": 5,
                "end_column": 17,
                "message": "there is no `content/pages/ñ.md`",
                "help": "add the entry, or link to one that exists",
            }],
            "exceptions": [{
                "rule": "missing-caution",
                "file": "content/exercises/tall-sit.md",
                "line": 10,
                "because": "Sólo sentada.",
            }],
        });
        assert_eq!(report, expected);
    }

    #[test]
    fn a_review_without_findings_is_two_empty_lists() {
        let (review, sources) = crate::review::testing::review_files(&[]);
        assert_eq!(super::render(&review, &sources), "{\n  \"findings\": [],\n  \"exceptions\": []\n}\n");
    }
}
