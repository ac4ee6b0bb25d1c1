//! Pure computation on the model: ladders, coverage. Never files, HTML or PDF.
//!
//! Doses, the practice week, readability, the choice for a person and figures get their rooms here.

pub mod coverage;
pub mod ladder;
