//! The safety findings that somebody has accepted.

use super::{hanging, section};
use crate::cli::plan::columns::INDENT;
use crate::review::accepted::Accepted;
use crate::review::exceptions::Age;
use crate::review::report::text::Look;

pub(super) fn accepted(accepted: &[Accepted], look: Look) -> Option<String> {
    let lines = accepted.iter().map(|a| {
        let finding = format!("{}:{} {}: {}", a.file, a.line, a.rule, a.message);
        format!("{}{}", hanging(&finding, INDENT, look), hanging(&told(a), "    ", look))
    });
    let about = "These go against a safety rule, and somebody answers for each. Look at them again from time to time.";
    let body: String = lines.collect();
    (!body.is_empty()).then(|| section("Accepted safety findings", about, &body, look))
}

/// "accepted by A. Reviewer, PT on 2026-10-01, 20 weeks ago: reason".
fn told(accepted: &Accepted) -> String {
    let Accepted { by, on, age, because, .. } = accepted;
    format!("accepted by {by} on {on}, {}: {because}", ago(*age))
}

fn ago(age: Age) -> String {
    match age {
        Age::Days(0) => "today".to_string(),
        Age::Days(1) => "1 day ago".to_string(),
        Age::Days(days) => format!("{days} days ago"),
        Age::Weeks(weeks) => format!("{weeks} weeks ago"),
    }
}
