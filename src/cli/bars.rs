//! How far the making is, on the terminal.

use std::sync::{Mutex, MutexGuard, PoisonError};

use super::terminal::{self, Terminal};
use crate::edition::{Progress, Stage};

/// The bars on the terminal, one for each stage.
pub(super) struct Bars<'t> {
    terminal: &'t Terminal,
    bar: Mutex<Option<terminal::Progress>>,
}

impl<'t> Bars<'t> {
    pub(super) fn on(terminal: &'t Terminal) -> Bars<'t> {
        Bars { terminal, bar: Mutex::default() }
    }

    fn bar(&self) -> MutexGuard<'_, Option<terminal::Progress>> {
        self.bar.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Progress for Bars<'_> {
    fn begin(&self, stage: Stage, outputs: usize) {
        let what = match stage {
            Stage::Photos => "Making photos",
            Stage::Sheets => "Printing handouts",
            Stage::Images => "Drawing images",
            Stage::Pages => "Making pages",
        };
        *self.bar() = Some(self.terminal.progress(what, outputs));
    }

    fn step(&self) {
        if let Some(bar) = &*self.bar() {
            bar.step();
        }
    }

    fn end(&self) {
        if let Some(bar) = self.bar().take() {
            bar.finish();
        }
    }
}
