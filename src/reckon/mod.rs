//! Pure computation on the model: doses, the practice week, ladders, coverage, targets, a series at a glance, proposals
//! for its next week, the choice and the week of a person, how hard a text is to read, whether an exercise is
//! what was approved, bodies of drawn figures. Never files, HTML or PDF.

pub mod aims;
pub mod answer;
pub mod approval;
pub mod assumed;
pub mod between;
pub mod chapters;
pub mod choice;
pub mod coverage;
pub mod days;
pub mod demands;
pub mod dose;
pub mod figure;
pub mod ladder;
pub mod overview;
pub mod personal;
pub mod practice;
pub mod preparation;
pub mod proposal;
pub mod readability;
pub mod reasons;
pub mod regions;
pub mod safety;
pub mod session;
pub mod this_week;
pub mod transcript;
