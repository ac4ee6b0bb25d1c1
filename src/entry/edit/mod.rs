//! Changes an entry's text field by field and section by section, and leaves every other byte as it was.
//!
//! Places are found by parsing the fields, and the text is put together from its own pieces. What comes out is read once
//! more: it has to say what was meant, and nothing else may have changed.

mod fields;
mod meant;
mod reviewed;
mod section;
mod written;

#[cfg(test)]
mod tests;

use std::fmt;
use std::str::FromStr;

use toml::Value;

use super::block::{self, Block};
pub use reviewed::{Approved, with_reviewed};

/// Where a field stands: `title`, `dose.reps`, `variation.0.steps`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place(Vec<Step>);

/// A step on the way to a field.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Step {
    Name(String),
    /// The number of a table in its list, from 0.
    At(usize),
}

/// A place that cannot be one.
#[derive(Debug, PartialEq, Eq)]
pub struct NoPlace;

impl FromStr for Place {
    type Err = NoPlace;

    fn from_str(text: &str) -> Result<Place, NoPlace> {
        let step = |word: &str| match word.parse::<usize>() {
            Ok(number) => Some(Step::At(number)),
            Err(_) => {
                let plain = |c: char| c.is_ascii_alphanumeric() || matches!(c, '-' | '_');
                (!word.is_empty() && word.chars().all(plain)).then(|| Step::Name(word.to_string()))
            }
        };
        let steps: Option<Vec<Step>> = text.split('.').map(step).collect();
        steps.filter(|steps| matches!(steps.first(), Some(Step::Name(_)))).map(Place).ok_or(NoPlace)
    }
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (number, step) in self.0.iter().enumerate() {
            let dot = if number == 0 { "" } else { "." };
            match step {
                Step::Name(name) => write!(f, "{dot}{name}")?,
                Step::At(at) => write!(f, "{dot}{at}")?,
            }
        }
        Ok(())
    }
}

/// One change of an entry.
#[derive(Clone, Debug)]
pub enum Change {
    /// The field has this value; it is added where it is not there yet.
    Set { at: Place, value: Value },
    /// The field, or one table of a list, is gone.
    Remove { at: Place },
    /// A new table at the end of a list of tables, its fields in this order.
    Insert { into: Place, fields: Vec<(String, Value)> },
    /// One table of a list goes to another number; to the last where there are not so many.
    Move { at: Place, to: usize },
    /// A level-2 section of the prose has this Markdown below its heading; without a text it goes with its heading.
    Section { title: String, text: Option<String> },
    /// What stands before the first section.
    Opening { text: String },
}

/// Why a text stays as it is.
#[derive(Debug, PartialEq, Eq)]
pub enum Unchanged {
    /// The fields cannot be read.
    Unread,
    NotThere {
        place: String,
    },
    /// It is so written that it can only be changed by hand.
    ByHand {
        place: String,
    },
    /// The text of a section would be read as something else.
    OtherProse,
}

impl fmt::Display for Unchanged {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Unchanged::Unread => f.write_str("the fields cannot be read; mend them as text first"),
            Unchanged::NotThere { place } => write!(f, "there is no `{place}` any more"),
            Unchanged::ByHand { place } => {
                write!(f, "`{place}` is so written that it can only be changed as text")
            }
            Unchanged::OtherProse => f.write_str(
                "the words would be read as more than this part: leave out lines that begin with `#`, and close what begins with three backticks",
            ),
        }
    }
}

impl std::error::Error for Unchanged {}

/// The text of an entry with these changes, one after the other; what it says already changes no byte. A file of fields
/// alone has no prose.
///
/// # Errors
/// Why it stays as it is; then none of the changes is made.
pub fn changed(text: &str, is_whole_toml: bool, changes: &[Change]) -> Result<String, Unchanged> {
    let is_crlf = text.contains("\r\n");
    let mut now = if is_crlf { text.replace("\r\n", "\n") } else { text.to_string() };
    if now.contains('\r') || is_crlf && now.replace('\n', "\r\n") != text {
        return Err(Unchanged::ByHand { place: "line ends of two kinds".to_string() });
    }
    for change in changes {
        now = one(&now, is_whole_toml, change, is_crlf)?;
    }
    Ok(if is_crlf { now.replace('\n', "\r\n") } else { now })
}

fn one(text: &str, is_whole_toml: bool, change: &Change, is_crlf: bool) -> Result<String, Unchanged> {
    let (fields, prose) = match block::find(text) {
        _ if is_whole_toml => (0..text.len(), text.len()..text.len()),
        Block::Found { fields, prose, .. } => (fields, prose),
        Block::Unclosed { .. } | Block::Missing { .. } => return Err(Unchanged::Unread),
    };
    match change {
        Change::Section { title, text: words } => {
            let new = section::with_section(&text[prose.clone()], title, words.as_deref())?;
            Ok(format!("{}{new}", &text[..prose.start]))
        }
        Change::Opening { text: words } => {
            let new = section::with_opening(&text[prose.clone()], words)?;
            Ok(format!("{}{new}", &text[..prose.start]))
        }
        _ => {
            let new = fields::with_field(&text[fields.clone()], change, is_crlf)?;
            let whole = format!("{}{new}{}", &text[..fields.start], &text[fields.end..]);
            // The block has to end where it did: after the fields.
            let is_kept = is_whole_toml
                || matches!(block::find(&whole), Block::Found { fields, .. } if whole[fields.clone()] == new);
            if is_kept { Ok(whole) } else { Err(Unchanged::OtherProse) }
        }
    }
}
