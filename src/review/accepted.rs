//! The safety findings that somebody has accepted: who, how long ago, and why.

use jiff::civil::Date;

use super::Case;
use super::exceptions::{Age, Exception, of_safety};
use crate::model::source::{Sources, Span};

/// One accepted finding.
pub struct Accepted {
    pub rule: &'static str,
    /// The exception.
    pub span: Span,
    /// The name of its file.
    pub file: String,
    /// Its line.
    pub line: usize,
    pub message: String,
    pub by: String,
    pub on: Date,
    pub age: Age,
    /// Days since it was accepted.
    pub days: i32,
    pub because: String,
}

/// Those of a workspace. No rule is checked that no entry accepts a finding of.
pub fn accepted(case: &Case<'_>) -> Vec<Accepted> {
    among(of_safety(case), case.sources, case.today)
}

/// Those among these exceptions; without a name and a day one to a safety rule does not hold.
pub fn among(exceptions: Vec<Exception>, sources: &Sources, today: Date) -> Vec<Accepted> {
    let of_safety = exceptions.into_iter().filter(Exception::is_of_safety);
    let told = |exception: Exception| {
        let on = exception.on?;
        Some(Accepted {
            rule: exception.finding.rule,
            span: exception.span,
            file: sources.get(exception.span.file).name.clone(),
            line: sources.positions(exception.span).0.line,
            age: exception.age(today)?,
            days: (today - on).get_days(),
            by: exception.by?,
            on,
            message: exception.finding.message,
            because: exception.because,
        })
    };
    of_safety.filter_map(told).collect()
}
