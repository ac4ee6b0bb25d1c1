//! A free page of the site.

use super::accept::Accept;
use super::prose::Prose;
use super::source::{FileId, Spanned};

/// One free page.
#[derive(Clone, Debug)]
pub struct FreePage {
    /// The file's name without its ending.
    pub id: String,
    pub file: FileId,
    pub title: Spanned<String>,
    pub summary: Option<Spanned<String>>,
    /// Its place among the free pages in the navigation, lowest first.
    pub order: Option<Spanned<u32>>,
    pub accept: Vec<Accept>,
    pub prose: Prose,
}
