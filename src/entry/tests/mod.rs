//! Tests of reading: whatever stands in a file gives findings at their places, never a panic.

mod any_bytes;
mod figures;
mod once;
mod profiles;
mod reading;
mod slips;
