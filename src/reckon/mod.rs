//! Pure computation on the model: doses, the practice week, ladders, coverage, targets, a series at a glance, the choice
//! and the week of a person, how hard a text is to read. Never files, HTML or PDF.
//!
//! Figures get their room here.

pub mod aims;
pub mod assumed;
pub mod between;
pub mod choice;
pub mod coverage;
pub mod days;
pub mod dose;
pub mod ladder;
pub mod overview;
pub mod personal;
pub mod practice;
pub mod progress;
pub mod readability;
