//! Pure computation on the model: ladders, coverage, the choice for a person. Never files, HTML or PDF.
//!
//! Doses, the practice week, readability and figures get their rooms here.

pub mod choice;
pub mod coverage;
pub mod ladder;
