//! The safety findings that somebody has accepted: who, how long ago, and why.

use jiff::civil::Date;

use crate::model::source::Sources;
use crate::review::exceptions::{Age, Exception};

/// One accepted finding.
pub(super) struct Accepted {
    pub(super) rule: &'static str,
    /// Relative to the workspace.
    pub(super) file: String,
    /// The line of the exception.
    pub(super) line: usize,
    pub(super) message: String,
    pub(super) by: String,
    pub(super) on: Date,
    pub(super) age: Age,
    /// Days since it was accepted.
    pub(super) days: i32,
    pub(super) because: String,
}

/// The exceptions to safety rules among these; without a name and a day there are none.
pub(super) fn accepted(exceptions: Vec<Exception>, sources: &Sources, today: Date) -> Vec<Accepted> {
    let of_safety = exceptions.into_iter().filter(Exception::is_of_safety);
    let told = |exception: Exception| {
        let on = exception.on?;
        Some(Accepted {
            rule: exception.finding.rule,
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

impl Accepted {
    /// "accepted by A. Reviewer, PT on 2026-10-01, 20 weeks ago: reason".
    pub(super) fn told(&self) -> String {
        format!("accepted by {} on {}, {}: {}", self.by, self.on, ago(self.age), self.because)
    }
}

fn ago(age: Age) -> String {
    match age {
        Age::Days(0) => "today".to_string(),
        Age::Days(1) => "1 day ago".to_string(),
        Age::Days(days) => format!("{days} days ago"),
        Age::Weeks(weeks) => format!("{weeks} weeks ago"),
    }
}
