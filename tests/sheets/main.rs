//! The sheets of the demonstration, printed through the library: each of them is tagged as PDF/UA-1 asks,
//! and the same sheet is the same bytes whenever and wherever it is printed.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod demonstration;

mod standard;

mod bytes;

mod weeks;
