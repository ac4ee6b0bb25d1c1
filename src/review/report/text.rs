//! A review as text for a person: each finding with its lines drawn and a caret under the place.

use std::fmt::Write;

use miette::highlighters::SyntectHighlighter;
use miette::{
    GraphicalReportHandler, GraphicalTheme, LabeledSpan, MietteDiagnostic, MietteError, MietteSpanContents,
    Report, Severity, SourceCode, SourceSpan, SpanContents,
};

use crate::model::finding::{Finding, Level};
use crate::model::source::{Source, Sources};
use crate::review::Review;

/// How the report looks.
#[derive(Clone, Copy, Debug)]
pub struct Look {
    pub color: bool,
    /// Columns of the terminal.
    pub width: usize,
}

/// Every finding drawn, then the exceptions, then a line that counts them.
pub fn render(review: &Review, sources: &Sources, look: Look) -> String {
    let handler = handler(look);
    let mut text = String::new();
    for finding in &review.findings {
        draw(&handler, finding, sources, &mut text);
    }
    if !review.exceptions.is_empty() {
        text.push_str("Accepted, each with its reason:\n");
        for exception in &review.exceptions {
            let name = &sources.get(exception.span.file).name;
            let line = sources.positions(exception.span).0.line;
            let _ =
                writeln!(text, "  {name}:{line}  {}: {}", exception.finding.rule, exception.finding.message);
            let _ = writeln!(text, "    because: {}", exception.because);
        }
        text.push('\n');
    }
    text.push_str(&summary(review));
    text.push('\n');
    text
}

/// One line that counts the findings.
pub fn summary(review: &Review) -> String {
    let count = |level, one: &str, many: &str| match review.count(level) {
        0 => None,
        1 => Some(format!("1 {one}")),
        n => Some(format!("{n} {many}")),
    };
    let counts = [
        count(Level::Error, "error", "errors"),
        count(Level::Warning, "warning", "warnings"),
        count(Level::Note, "note", "notes"),
    ];
    let counts: Vec<String> = counts.into_iter().flatten().collect();
    let found = if counts.is_empty() { "nothing to mend".to_string() } else { counts.join(", ") };
    match review.exceptions.len() {
        0 => found,
        1 => format!("{found}, 1 exception accepted"),
        n => format!("{found}, {n} exceptions accepted"),
    }
}

fn handler(look: Look) -> GraphicalReportHandler {
    let theme = if look.color { GraphicalTheme::unicode() } else { GraphicalTheme::unicode_nocolor() };
    let handler = GraphicalReportHandler::new_themed(theme).with_width(look.width).with_links(false);
    match look.color {
        true => handler.with_syntax_highlighting(SyntectHighlighter::default()),
        false => handler.without_syntax_highlighting(),
    }
}

fn draw(handler: &GraphicalReportHandler, finding: &Finding, sources: &Sources, text: &mut String) {
    let source = sources.get(finding.span.file);
    let severity = match finding.level {
        Level::Error => Severity::Error,
        Level::Warning => Severity::Warning,
        Level::Note => Severity::Advice,
    };
    let range = finding.span.range();
    let label = LabeledSpan::underline((range.start, range.len()));
    let diagnostic = MietteDiagnostic::new(&finding.message)
        .with_code(finding.rule)
        .with_severity(severity)
        .with_help(&finding.help)
        .with_label(label);
    let excerpt = Excerpt { source: source.clone(), column: sources.positions(finding.span).0.column };
    let report = Report::from(diagnostic).with_source_code(excerpt);
    if handler.render_report(text, report.as_ref()).is_err() {
        let _ = writeln!(text, "{}: {}: {}", source.name, finding.rule, finding.message);
    }
    text.push('\n');
}

/// A source whose columns count characters: the library counts bytes.
#[derive(Debug)]
struct Excerpt {
    source: Source,
    column: usize,
}

impl SourceCode for Excerpt {
    fn read_span<'a>(
        &'a self,
        span: &SourceSpan,
        before: usize,
        after: usize,
    ) -> Result<Box<dyn SpanContents<'a> + 'a>, MietteError> {
        let inner = self.source.text.read_span(span, before, after)?;
        let column = if before == 0 { self.column - 1 } else { inner.column() };
        Ok(Box::new(
            MietteSpanContents::new_named(
                self.source.name.clone(),
                inner.data(),
                *inner.span(),
                inner.line(),
                column,
                inner.line_count(),
            )
            .with_language("Markdown"),
        ))
    }
}

#[cfg(test)]
mod tests {
    use super::{Look, render, summary};
    use crate::review::report::example;
    use crate::review::testing::review_files;

    const PLAIN: Look = Look { color: false, width: 100 };

    #[test]
    fn each_finding_is_drawn_under_its_line_and_exceptions_follow_with_their_reason() {
        let (review, sources) = example();
        insta::assert_snapshot!(render(&review, &sources, PLAIN));
    }

    #[test]
    fn a_report_without_color_has_no_escape_and_one_with_color_has() {
        let (review, sources) = example();
        assert!(!render(&review, &sources, PLAIN).contains('\u{1b}'));
        assert!(render(&review, &sources, Look { color: true, width: 100 }).contains('\u{1b}'));
    }

    #[test]
    fn the_summary_counts_what_is_there() {
        let (review, _) = review_files(&[]);
        assert_eq!(summary(&review), "nothing to mend");
        let (review, _) = example();
        assert_eq!(summary(&review), "1 error, 1 exception accepted");
        let text = "```toml\ntitle = \"Stronger bones\"\n```\n[x](a.md) [y](b.md)\n";
        let (review, _) = review_files(&[("content/pages/about.md", text)]);
        assert_eq!(summary(&review), "2 errors, 1 warning");
    }
}
