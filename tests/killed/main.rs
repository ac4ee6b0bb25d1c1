//! Commands that are killed at any moment: what was there is as it was or wholly new, and what a killed run leaves
//! behind is gone after the next one. So is an entry that is changed, with what it was. `make` has such a test of its own.
#![cfg(unix)]
#![expect(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "tests look at the disk themselves, and a test that cannot go on has failed"
)]

#[path = "../faults/draw.rs"]
#[allow(dead_code, reason = "it can draw more than moments")]
mod draw;

#[path = "../proof/preview.rs"]
#[allow(dead_code, reason = "it can ask more than is asked here")]
mod preview;

#[path = "../make/workspace.rs"]
#[allow(dead_code, reason = "no site is made here")]
mod workspace;

mod case;

mod moments;

mod commands;

mod kept;

mod proof;
