//! Pure computation on the model: ladders, coverage, the choice for a person, how hard a text is to read.
//! Never files, HTML or PDF.
//!
//! Doses, the practice week and figures get their rooms here.

pub mod choice;
pub mod coverage;
pub mod ladder;
pub mod readability;
