//! A review as text for a person: each finding with its lines drawn and a caret under the place.

use std::fmt::{self, Write};

use miette::highlighters::SyntectHighlighter;
use miette::{
    Diagnostic, GraphicalReportHandler, GraphicalTheme, LabeledSpan, MietteDiagnostic, MietteError,
    MietteSpanContents, Severity, SourceCode, SourceSpan, SpanContents,
};

use super::window::{plain_text, window};
use crate::model::finding::{Finding, Level};
use crate::model::source::Sources;
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
            let signed = [exception.by.clone(), exception.on.map(|on| format!("on {on}"))];
            let signed: Vec<String> = signed.into_iter().flatten().collect();
            if !signed.is_empty() {
                let _ = writeln!(text, "    by: {}", signed.join(" "));
            }
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
    let found = if counts.is_empty() { "no problems found".to_string() } else { counts.join(", ") };
    let safety = match review.exceptions.iter().filter(|e| e.is_of_safety()).count() {
        0 => "",
        1 => " (1 to a safety rule)",
        n => &format!(" ({n} to safety rules)"),
    };
    match review.exceptions.len() {
        0 => found,
        1 => format!("{found}, 1 exception accepted{safety}"),
        n => format!("{found}, {n} exceptions accepted{safety}"),
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
    let (start, end) = sources.positions(finding.span);
    // The library reads all that it is given, for each finding anew: it gets the lines around only.
    let lines = source.lines(start.line.saturating_sub(AROUND).max(1), end.line + AROUND);
    let text_around = source.text.get(lines.clone()).unwrap_or("");
    let range = finding.span.range();
    let at = range.start.saturating_sub(lines.start).min(text_around.len());
    // The library counts columns in 16 bits, and nobody reads a line of thousands.
    let (text_around, at) = window(text_around, at..(at + range.len()).min(text_around.len()));
    let label = LabeledSpan::underline((at.start, at.len()));
    let diagnostic = MietteDiagnostic::new(plain_text(&finding.message))
        .with_code(finding.rule)
        .with_severity(severity)
        .with_help(plain_text(&finding.help))
        .with_label(label);
    let excerpt = Excerpt {
        name: plain_text(&source.name),
        text: text_around,
        first_line: start.line.saturating_sub(AROUND).max(1) - 1,
        column: start.column - 1,
    };
    if handler.render_report(text, &Drawn { diagnostic, excerpt }).is_err() {
        let _ = writeln!(
            text,
            "{}",
            plain_text(&format!("{}: {}: {}", source.name, finding.rule, finding.message))
        );
    }
    text.push('\n');
}

/// A finding as the library draws it. The library's own wrapper would load a highlighter for each.
#[derive(Debug)]
struct Drawn {
    diagnostic: MietteDiagnostic,
    excerpt: Excerpt,
}

impl fmt::Display for Drawn {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.diagnostic.fmt(f)
    }
}

impl std::error::Error for Drawn {}

impl Diagnostic for Drawn {
    fn code(&self) -> Option<Box<dyn fmt::Display + '_>> {
        self.diagnostic.code()
    }

    fn severity(&self) -> Option<Severity> {
        self.diagnostic.severity()
    }

    fn help(&self) -> Option<Box<dyn fmt::Display + '_>> {
        self.diagnostic.help()
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        self.diagnostic.labels()
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        Some(&self.excerpt)
    }
}

/// Lines before and after a finding that the library may ask for.
const AROUND: usize = 3;

/// Some lines of a source, with their places in it. Columns count characters: the library counts bytes.
#[derive(Debug)]
struct Excerpt {
    name: String,
    text: String,
    /// Lines of the source that stand before these.
    first_line: usize,
    /// Of the finding, counted from 0.
    column: usize,
}

impl SourceCode for Excerpt {
    fn read_span<'a>(
        &'a self,
        span: &SourceSpan,
        before: usize,
        after: usize,
    ) -> Result<Box<dyn SpanContents<'a> + 'a>, MietteError> {
        let inner = self.text.read_span(span, before, after)?;
        let column = if before == 0 { self.column } else { inner.column() };
        Ok(Box::new(
            MietteSpanContents::new_named(
                self.name.clone(),
                inner.data(),
                *inner.span(),
                inner.line() + self.first_line,
                column,
                inner.line_count(),
            )
            .with_language("Markdown"),
        ))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::source::{FileId, Source, Span};
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
        assert_eq!(summary(&review), "no problems found");
        let (review, _) = example();
        assert_eq!(summary(&review), "1 error, 1 exception accepted (1 to a safety rule)");
        let text = "```toml\ntitle = \"Stronger bones\"\n```\n[x](a.md) [y](b.md)\n";
        let (review, _) = review_files(&[("content/pages/about.md", text)]);
        assert_eq!(summary(&review), "2 errors, 1 warning");
    }

    /// A review of `count` lines, one finding at the last word of each.
    fn review(count: usize) -> (Review, Sources) {
        let mut sources = Sources::default();
        let mut text = String::new();
        let mut places = Vec::new();
        for i in 1..=count {
            text.push_str(&format!("é{i} = "));
            let start = text.len();
            text.push_str("wrong");
            places.push(start..text.len());
            text.push('\n');
        }
        let file: FileId = sources.add(Source::new("content/a.md".to_string(), text));
        let finding = |at| Finding::new("wrong-value", Span::new(file, at), "no word", "write it");
        let findings = places.into_iter().map(finding).collect();
        (Review { findings, exceptions: Vec::new() }, sources)
    }

    /// A `data:` image that was pasted, and a broken link behind it.
    #[test]
    fn a_finding_far_to_the_right_is_drawn_too() {
        let line = format!("![x](data:image/png;base64,{}) [y](gone.md)", "A".repeat(190_000));
        let text = format!("```toml\ntitle = \"About us\"\n```\n{line}\n");
        let (review, sources) = review_files(&[("content/pages/about.md", &text)]);
        assert!(review.findings.iter().any(|f| f.message.contains("gone.md")));
        for color in [false, true] {
            let drawn = render(&review, &sources, Look { color, width: 100 });
            assert!(drawn.contains("gone.md") && drawn.len() < 20_000, "{}", drawn.len());
        }
    }

    #[test]
    fn a_finding_is_drawn_with_its_own_lines_and_their_numbers() {
        let (mut review, sources) = review(500);
        review.findings = vec![review.findings[299].clone()];
        let text = render(&review, &sources, Look { color: false, width: 100 });
        assert!(text.contains("[content/a.md:300:8]"), "{text}");
        assert!(text.contains("299 │ é299 = wrong\n 300 │ é300 = wrong"), "{text}");
        assert!(text.contains(" 301 │ é301 = wrong"), "{text}");
        assert!(!text.contains("302"), "{text}");
    }
}
