//! The safety findings that somebody has accepted.

use super::{hanging, section};
use crate::cli::plan::accepted::Accepted;
use crate::cli::plan::columns::INDENT;
use crate::review::report::text::Look;

pub(super) fn accepted(accepted: &[Accepted], look: Look) -> Option<String> {
    let lines = accepted.iter().map(|a| {
        let finding = format!("{}:{} {}: {}", a.file, a.line, a.rule, a.message);
        format!("{}{}", hanging(&finding, INDENT, look), hanging(&a.told(), "    ", look))
    });
    let about = "These go against a safety rule, and somebody answers for each. Look at them again from time to time.";
    let body: String = lines.collect();
    (!body.is_empty()).then(|| section("Accepted safety findings", about, &body, look))
}
