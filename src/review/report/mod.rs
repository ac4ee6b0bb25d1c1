//! A review as text for a person, as JSON, and as SARIF 2.1.0.

pub mod json;
pub mod sarif;
pub mod text;
