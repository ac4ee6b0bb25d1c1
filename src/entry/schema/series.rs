//! `series.toml`, as it is written.

use schemars::JsonSchema;

use super::exercise::Accept;
use super::site::Targets;
use super::values::{Date, Precaution, Text};

/// A run of weeks, each of which is a file of its own beside this one.
#[derive(JsonSchema)]
#[schemars(title = "A series", deny_unknown_fields)]
pub(super) struct Series {
    /// What the series is called.
    title: Text,
    /// One sentence on what it is.
    summary: Text,
    /// Whom it is for.
    audience: Text,
    /// The day its first week begins, such as 2027-01-04, without quotes.
    start: Date,
    /// The precautions it must serve: the conditions of those who come.
    #[schemars(length(min = 1))]
    serves: Vec<Precaution>,
    /// The precautions of everybody in the audience; they count for every person and on every general handout.
    all_have: Option<Vec<Precaution>>,
    /// Weekly targets, where they differ from the site's.
    targets: Option<Targets>,
    /// Findings that are accepted, each with its reason.
    accept: Option<Vec<Accept>>,
}
