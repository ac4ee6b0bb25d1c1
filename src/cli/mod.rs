//! Arguments and messages, one file a command. No domain logic.

mod add;
mod approve;
mod bars;
mod begin;
mod desk;
mod handout;
mod load;
mod make;
mod outcome;
mod plan;
mod proof;
mod review;
mod schema;
mod terminal;

use std::ffi::OsString;
use std::path::PathBuf;
use std::process::ExitCode;

use clap::{Args, Parser, Subcommand, ValueEnum};
use jiff::civil::Date;

use outcome::{Failure, Outcome};
use terminal::Terminal;

/// Reviews a home-exercise series for older adults as a careful colleague would, and makes the site of it.
///
/// It helps a licensed clinician and does not replace one.
#[derive(Parser)]
#[command(name = "steadyleaf", version, max_term_width = 100)]
struct Arguments {
    #[command(flatten)]
    common: Common,
    #[command(subcommand)]
    command: Command,
}

#[derive(Args)]
struct Common {
    /// The workspace [default: the nearest folder upward with a site.toml]
    #[arg(long, value_name = "DIR", global = true)]
    workspace: Option<PathBuf>,
    /// Treat this date as today, such as 2027-02-15 [default: today]
    #[arg(long, value_name = "DATE", global = true, value_parser = date)]
    today: Option<Date>,
    /// Say only what went wrong
    #[arg(long, global = true)]
    quiet: bool,
    /// When to use color; NO_COLOR is respected
    #[arg(long, value_name = "WHEN", default_value = "auto", global = true)]
    color: When,
}

#[derive(Clone, Copy, ValueEnum)]
enum When {
    Auto,
    Always,
    Never,
}

#[derive(Subcommand)]
enum Command {
    Begin(begin::Begin),
    Add(add::Add),
    Review(review::ReviewCommand),
    Make(make::Make),
    Handout(handout::Handout),
    Plan(plan::PlanCommand),
    Approve(approve::Approve),
    Schema(schema::SchemaCommand),
    Proof(proof::Proof),
    Desk(desk::Desk),
}

/// Runs the program with the process's own arguments.
#[expect(clippy::disallowed_methods, reason = "the command line is where arguments come from")]
pub fn run() -> ExitCode {
    run_with(std::env::args_os())
}

/// Runs the program with these arguments, its name first.
pub fn run_with(arguments: impl IntoIterator<Item = OsString>) -> ExitCode {
    let arguments = match Arguments::try_parse_from(arguments) {
        Ok(arguments) => arguments,
        Err(error) => {
            let _ = error.print();
            return outcome::code(&match error.use_stderr() {
                true => Err(Failure::Unreadable(String::new())),
                false => Ok(Outcome::Done),
            });
        }
    };
    let terminal = Terminal::new(&arguments.common);
    let result = match &arguments.command {
        Command::Begin(command) => begin::run(command, &terminal),
        Command::Add(command) => add::run(command, &arguments.common, &terminal),
        Command::Review(command) => review::run(command, &arguments.common, &terminal),
        Command::Make(command) => make::run(command, &arguments.common, &terminal),
        Command::Handout(command) => handout::run(command, &arguments.common, &terminal),
        Command::Plan(command) => plan::run(command, &arguments.common, &terminal),
        Command::Approve(command) => approve::run(command, &arguments.common, &terminal),
        Command::Schema(command) => schema::run(command, &terminal),
        Command::Proof(command) => proof::run(command, &arguments.common, &terminal),
        Command::Desk(command) => desk::run(command, &arguments.common, &terminal),
    };
    if let Err(failure) = &result {
        terminal.complain(failure);
    }
    outcome::code(&result)
}

fn date(text: &str) -> Result<Date, String> {
    text.parse().map_err(|_| "expected a date such as 2027-02-15".to_string())
}

#[cfg(test)]
mod tests {
    #[test]
    fn a_date_that_is_none_is_told_with_an_example() {
        assert!(super::date("2027-02-15").is_ok());
        for text in ["tomorrow", "2027-02-30", ""] {
            assert_eq!(super::date(text).unwrap_err(), "expected a date such as 2027-02-15", "{text}");
        }
    }
}
