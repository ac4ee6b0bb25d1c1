//! How a command ended, and the exit code for it.

use std::fmt;
use std::io;
use std::process::ExitCode;

use crate::edition::{MakeError, OpenError};
use crate::workspace::WorkspaceError;

/// A command that ran to its end.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Outcome {
    Done,
    /// The review found errors, which stop what was asked for.
    ErrorsFound,
}

/// A command that could not go on, with a line for a person.
#[derive(Debug)]
pub(super) enum Failure {
    /// The command line or the workspace could not be read.
    Unreadable(String),
    /// Something could not be written.
    Unwritable(String),
    /// Nobody reads the output any more, as in `steadyleaf review | head`.
    BrokenPipe,
}

/// 0 done, 1 the review found errors, 2 unreadable, 3 unwritable. A broken pipe is success.
pub(super) fn code(result: &Result<Outcome, Failure>) -> ExitCode {
    ExitCode::from(match result {
        Ok(Outcome::Done) | Err(Failure::BrokenPipe) => 0,
        Ok(Outcome::ErrorsFound) => 1,
        Err(Failure::Unreadable(_)) => 2,
        Err(Failure::Unwritable(_)) => 3,
    })
}

impl fmt::Display for Failure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Failure::Unreadable(line) | Failure::Unwritable(line) => f.write_str(line),
            Failure::BrokenPipe => Ok(()),
        }
    }
}

impl From<WorkspaceError> for Failure {
    fn from(error: WorkspaceError) -> Failure {
        Failure::Unreadable(error.to_string())
    }
}

impl From<OpenError> for Failure {
    fn from(error: OpenError) -> Failure {
        Failure::Unreadable(error.to_string())
    }
}

impl From<MakeError> for Failure {
    fn from(error: MakeError) -> Failure {
        match error {
            MakeError::Theme(line) => Failure::Unreadable(line),
            MakeError::Publish(error) => error.into(),
        }
    }
}

/// A failure to write to the terminal.
impl From<io::Error> for Failure {
    fn from(error: io::Error) -> Failure {
        match error.kind() {
            io::ErrorKind::BrokenPipe => Failure::BrokenPipe,
            _ => Failure::Unwritable(format!("the output cannot be written: {error}")),
        }
    }
}

impl From<crate::publish::PublishError> for Failure {
    fn from(error: crate::publish::PublishError) -> Failure {
        Failure::Unwritable(error.to_string())
    }
}
