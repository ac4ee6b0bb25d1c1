//! One person's profile: private, read only when a sheet is made for that person.

use super::source::{FileId, Spanned};
use super::vocabulary::{Day, Paper};

/// What `clients/NAME.toml` says. There is no half of one: a profile with a slip in it is none.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Client {
    pub file: FileId,
    /// As it is to be printed; initials will do.
    pub name: Spanned<String>,
    /// Each one known to the workspace, none of them twice. Empty when the author says there is none.
    pub precautions: Vec<Spanned<String>>,
    /// The days free to practise, Monday first and none of them twice; empty for any day.
    pub days: Vec<Spanned<Day>>,
    /// The time free on such a day.
    pub minutes: Option<Spanned<u32>>,
    /// What the person has at home.
    pub equipment: Vec<Spanned<String>>,
    /// Points.
    pub size: Option<u32>,
    pub paper: Option<Paper>,
    /// A language tag, such as `en`; whether the theme has words for it, whoever has the theme finds out.
    pub language: Option<Spanned<String>>,
    pub note: Option<Spanned<String>>,
}

impl Client {
    /// The ids of the precautions, as written.
    pub fn precautions(&self) -> Vec<&str> {
        self.precautions.iter().map(|p| p.value.as_str()).collect()
    }
}
