//! `steadyleaf schema`: the fields of each kind of file, for editors.

use clap::builder::PossibleValue;
use clap::{Args, ValueEnum};

use super::outcome::{Failure, Outcome};
use super::terminal::Terminal;
use crate::entry::schema::{self, SchemaKind};
use crate::model::vocabulary::Vocabulary;
use crate::review::rules;

/// Print the JSON Schema of a kind of file, for editors; without a kind, list them
#[derive(Args)]
pub(super) struct SchemaCommand {
    /// The kind of file
    #[arg(value_name = "KIND")]
    kind: Option<SchemaKind>,
}

impl ValueEnum for SchemaKind {
    fn value_variants<'a>() -> &'a [SchemaKind] {
        SchemaKind::ALL
    }

    fn to_possible_value(&self) -> Option<PossibleValue> {
        Some(PossibleValue::new(self.word()).help(self.about()))
    }
}

pub(super) fn run(command: &SchemaCommand, terminal: &Terminal) -> Result<Outcome, Failure> {
    match command.kind {
        Some(kind) => terminal.print(&text(kind)?)?,
        None => {
            let lines = SchemaKind::ALL.iter().map(|kind| format!("{:<9} {}\n", kind.word(), kind.about()));
            terminal.print(&lines.collect::<String>())?;
        }
    }
    Ok(Outcome::Done)
}

fn text(kind: SchemaKind) -> Result<String, Failure> {
    let schema = serde_json::to_string_pretty(&schema::of(kind, &rules::changeable()));
    schema
        .map(|text| text + "\n")
        .map_err(|e| Failure::Unwritable(format!("the schema cannot be printed: {e}")))
}
