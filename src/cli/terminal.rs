//! Where messages go: how wide, in color or not, and whether at all.
#![expect(clippy::disallowed_methods, reason = "the command line reads the environment and the clock")]

use std::io::{self, IsTerminal, Write};
use std::time::{Duration, Instant, SystemTime};

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use jiff::civil::Date;

use super::outcome::Failure;
use super::{Common, When};
use crate::review::report::text::Look;

/// The terminal the program talks to.
pub(super) struct Terminal {
    quiet: bool,
    color: When,
    pub(super) today: Date,
}

impl Terminal {
    pub(super) fn new(common: &Common) -> Terminal {
        let today = common.today.unwrap_or_else(|| jiff::ZonedDateTime::now().date());
        Terminal { quiet: common.quiet, color: common.color, today }
    }

    /// How a report looks on standard output.
    pub(super) fn look(&self) -> Look {
        let width = std::env::var("COLUMNS").ok().and_then(|c| c.parse().ok()).filter(|c| *c >= 40);
        Look { color: self.colors(io::stdout().is_terminal()), width: width.unwrap_or(100) }
    }

    fn colors(&self, on_terminal: bool) -> bool {
        match self.color {
            When::Always => true,
            When::Never => false,
            When::Auto => {
                let is = |name: &str, value: &str| std::env::var_os(name).is_some_and(|v| v == value);
                let wanted = std::env::var_os("NO_COLOR").is_none_or(|v| v.is_empty());
                on_terminal && wanted && !is("TERM", "dumb") && !is("CLICOLOR", "0")
            }
        }
    }

    /// The result itself, on standard output, whether quiet or not.
    pub(super) fn print(&self, text: &str) -> Result<(), Failure> {
        let mut out = io::stdout().lock();
        out.write_all(text.as_bytes())?;
        Ok(out.flush()?)
    }

    /// A line about what was done, on standard output unless quiet.
    pub(super) fn say(&self, line: &str) -> Result<(), Failure> {
        if self.quiet { Ok(()) } else { self.print(&format!("{line}\n")) }
    }

    /// What went wrong, on standard error. Nothing more can be done if that cannot be written either.
    pub(super) fn complain(&self, failure: &Failure) {
        let line = failure.to_string();
        if !line.is_empty() {
            let _ = writeln!(io::stderr().lock(), "steadyleaf: {line}");
        }
    }

    /// The moment, to say later how long something took.
    pub(super) fn clock(&self) -> Instant {
        Instant::now()
    }

    /// The time, to tell which files were written just now.
    pub(super) fn now(&self) -> SystemTime {
        SystemTime::now()
    }

    /// A progress bar for work over a second.
    pub(super) fn progress(&self, what: &'static str, length: usize) -> Progress {
        let bar = ProgressBar::with_draw_target(Some(length as u64), ProgressDrawTarget::hidden());
        let style = ProgressStyle::with_template("{msg} {wide_bar} {pos} of {len}");
        bar.set_style(style.unwrap_or_else(|_| ProgressStyle::default_bar()));
        bar.set_message(what);
        Progress { bar, start: Instant::now(), quiet: self.quiet }
    }
}

/// A progress bar that stays hidden for its first second.
pub(super) struct Progress {
    bar: ProgressBar,
    start: Instant,
    quiet: bool,
}

impl Progress {
    pub(super) fn step(&self) {
        self.bar.inc(1);
        let late = self.start.elapsed() > Duration::from_secs(1);
        if late && self.bar.is_hidden() && !self.quiet && io::stderr().is_terminal() {
            self.bar.set_draw_target(ProgressDrawTarget::stderr());
        }
    }

    pub(super) fn finish(&self) {
        self.bar.finish_and_clear();
    }
}
