//! steadyleaf reviews a home-exercise series for older adults and makes the site and the sheets of it.
//!
//! ```text
//!  disk ──workspace──▶ texts ──entry──▶ model, with spans
//!                                         │
//!                                      edition       one moment of a workspace, each entry read once
//!                                         │
//!       findings ◀───── review ◀──────────┤          an error stops here
//!                         ▲               │
//!                       reckon            │          ladders, doses, weeks, coverage, readability, choice, figures
//!                         ╰──▶ outputs ◀──╯          every file to make, its address, and what it says
//!                                 │                  in parallel, only those whose inputs have changed
//!                       pages · print · feeds
//!                                 ▼
//!                              publish               staged, then swapped in whole      proof and desk serve the same bytes
//! ```
//!
//! Three doors lead outside: `workspace` reads, `publish` writes, `proof` listens. Nothing else touches
//! the disk, the network or the clock; today's date is an input.

pub mod workspace;

pub mod entry;

pub mod model;
pub mod text;

pub mod review;

pub mod reckon;

pub mod drawing;

pub mod outputs;

pub mod feeds;
pub mod pages;
pub mod print;

pub mod edition;

pub mod desk;
pub mod proof;
pub mod publish;

pub mod cli;
