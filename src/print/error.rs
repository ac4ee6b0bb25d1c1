//! Mistakes in the theme's sheet, shown at their line.

use std::fmt;

use typst::diag::{Severity, SourceDiagnostic};
use typst::syntax::{LinkedNode, Side, Source, SyntaxKind};
use typst::{World, WorldExt};

use super::world::Job;

/// A sheet could not be set, because of the theme.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetError(String);

impl SheetError {
    pub(super) fn new(message: impl Into<String>) -> SheetError {
        SheetError(message.into())
    }

    /// What the typesetter said, each with its line in the theme's file.
    pub(super) fn of(job: &Job<'_>, about: &str, diagnostics: &[SourceDiagnostic]) -> SheetError {
        let told: Vec<String> = diagnostics.iter().map(|d| tell(job, d)).collect();
        SheetError(format!("the theme's sheet cannot be set for {about}:\n{}", told.join("\n")))
    }
}

impl fmt::Display for SheetError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for SheetError {}

fn tell(job: &Job<'_>, diagnostic: &SourceDiagnostic) -> String {
    let kind = match diagnostic.severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
    };
    let mut told = format!("{kind}: {}", diagnostic.message);
    // The place itself may be inside a library function; then the innermost call from a file of the theme.
    let spans =
        std::iter::once(diagnostic.span).chain(diagnostic.trace.iter().map(|point| point.span.into()));
    let place = spans.into_iter().find_map(|span| {
        let id = span.id()?;
        let range = job.range(span)?;
        let source = job.desk.source(id).cloned().or_else(|| job.source(id).ok())?;
        Some((id, source, range))
    });
    if let Some((id, source, range)) = place {
        let lines = source.lines();
        let line = lines.byte_to_line(range.start).unwrap_or(0);
        let column = lines.byte_to_column(range.start).unwrap_or(0);
        let text = source.text().lines().nth(line).unwrap_or("");
        let width = source.text()[range.clone()].lines().next().unwrap_or("").chars().count().max(1);
        let number = (line + 1).to_string();
        told.push_str(&format!(
            "\n  in the theme's {} at line {}, column {}\n  {number} | {text}\n  {} | {}{}",
            id.get().vpath().get_without_slash(),
            line + 1,
            column + 1,
            " ".repeat(number.len()),
            " ".repeat(column),
            "^".repeat(width),
        ));
        if let Some(field) = field_at(&source, range.start) {
            told.push_str(&format!(
                "\n  help: a sheet that was made for an earlier program may ask for what has gone, or has another name now: \
                 the built-in files in sheet/ show what stands in place of `{field}`"
            ));
        }
    }
    for hint in &diagnostic.hints {
        told.push_str(&format!("\n  help: {}", hint.v));
    }
    told
}

/// The name that stands there, if it is one of what is inside of something else, such as `title` of `d.title`.
fn field_at(source: &Source, at: usize) -> Option<&str> {
    let root = LinkedNode::new(source.root());
    let name = root.leaf_at(at, Side::After)?;
    let inside = name.parent_kind() == Some(SyntaxKind::FieldAccess);
    let after_dot = name.prev_sibling().is_some_and(|before| before.kind() == SyntaxKind::Dot);
    (inside && after_dot).then(|| source.text().get(name.range())).flatten()
}

#[cfg(test)]
mod tests;
