//! A free page, as it is written.

use schemars::JsonSchema;

use super::exercise::Accept;
use super::values::{Text, Whole};

/// A page of the site that is neither an exercise nor a week. The fields stand in the block that opens the file, the
/// prose below it.
#[derive(JsonSchema)]
#[schemars(title = "A free page", deny_unknown_fields)]
pub(super) struct Page {
    /// What the page is called.
    title: Text,
    /// One sentence on what it says.
    summary: Option<Text>,
    /// Its place in the navigation, from 0: low numbers come first.
    order: Option<Whole<0, 1000>>,
    /// Findings that are accepted, each with its reason.
    accept: Option<Vec<Accept>>,
}
